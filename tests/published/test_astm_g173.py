"""ASTM G173-03, Reference Solar Spectral Irradiances, global tilt AM1.5, as tabulated by pvlib (2002 rows).

Whole power, current limits and the share below 1107 nm: trapezoids over that table (derived). Our bands
stand for it within one part in 2000 of the current that 1200 nm allows, and one in 1000 of the whole power.
"""

import numpy as np
import pytest
from pvlib.spectrum import get_reference_spectra

from panewright.glass.light.spectrum import AM15_GLOBAL

CHARGE, PLANCK, LIGHT = 1.602176634e-19, 6.62607015e-34, 299792458.0


@pytest.fixture(scope="module")
def table():
    """Wavelengths, and the running sums of current [A/m2] and power [W/m2] up to each."""
    rows = get_reference_spectra()["global"]
    nm, power = rows.index.to_numpy(float), rows.to_numpy()
    current = power * nm * 1e-9 * CHARGE / (PLANCK * LIGHT)
    return nm, _running(nm, current), _running(nm, power)


def _running(nm, each):
    return np.concatenate(([0.0], np.cumsum((each[1:] + each[:-1]) / 2 * np.diff(nm))))


def test_the_whole_power_is_that_of_the_standard():
    assert AM15_GLOBAL.power_to(4000) == pytest.approx(1000.37066, abs=5e-4)


@pytest.mark.parametrize(
    ("nm", "limit"),
    [(1100, 43.5180529), (1107, 43.8107311), (1127, 44.2280905), (1150, 44.5979667), (1200, 46.4562572)],
)
def test_the_current_limit_is_met_within_a_thousandth(nm, limit):
    assert AM15_GLOBAL.current_to(nm) / 10 == pytest.approx(limit, rel=1e-3)


def test_the_share_of_power_that_silicon_can_use():
    share = AM15_GLOBAL.power_to(1107) / AM15_GLOBAL.power_to(4000)
    assert share == pytest.approx(0.807548845, rel=1e-3)


def test_bands_follow_the_full_table_at_every_row(table):
    nm, current, power = table
    seen = nm[nm <= 1200]
    ours = np.array([AM15_GLOBAL.current_to(each) for each in seen])
    assert np.abs(ours - current[nm <= 1200]).max() < 5.5e-4 * current[nm == 1200][0]
    ours = np.array([AM15_GLOBAL.power_to(each) for each in nm])
    assert np.abs(ours - power).max() < 1.1e-3 * power[-1]


def test_band_sums_are_the_tables_own(table):
    nm, current, power = table
    edges = AM15_GLOBAL.edges_nm
    assert AM15_GLOBAL.current_a_m2 == pytest.approx(np.diff(np.interp(edges, nm, current)), abs=1.1e-3)
    assert AM15_GLOBAL.power_w_m2 == pytest.approx(np.diff(np.interp(edges, nm, power)), abs=1.1e-3)


def test_no_light_is_told_past_the_ends_of_the_table():
    with pytest.raises(ValueError, match="280 to 4000"):
        AM15_GLOBAL.current_to(4001)
