"""Voltages of batteries while they are charged.

Lead-acid: a charge controller handbook's table at 25 degC per 12 V, seen; load disconnect 11.1 V and
overvoltage 16.0 V in the same table. Temperature compensation -3 mV/K a cell (default) and -5 mV/K: public
texts, seen; the sums derived.
LFP, four cells: handbook of a maker, seen. Spending its charging time near 13.2 to 13.5 V: memory.
"""

import pytest

from panewright.battery.load import Battery
from panewright.battery.window import charge_window, compensated_v


@pytest.mark.parametrize(
    ("chemistry", "absorption_v", "equalise_v", "float_v"),
    [
        ("agm", 14.4, 14.6, 13.8),
        ("gel", 14.2, None, 13.8),
        ("flooded", 14.6, 14.8, 13.8),
        ("lfp", 14.1, None, 13.4),
    ],
)
@pytest.mark.parametrize("twelves", [1, 2, 3, 4])
def test_windows_are_as_printed_for_12_v_and_in_proportion(
    chemistry, absorption_v, equalise_v, float_v, twelves
):
    window = charge_window(Battery(chemistry, 12.0 * twelves))
    assert window.absorption_v == pytest.approx(twelves * absorption_v)
    assert window.float_v == pytest.approx(twelves * float_v)
    assert window.equalise_v == (None if equalise_v is None else pytest.approx(twelves * equalise_v))
    assert window.twelves == twelves


def test_lead_acid_is_empty_and_full_where_the_controller_says():
    window = charge_window(Battery("flooded", 12.0))
    assert (window.empty_v, window.most_v) == (pytest.approx(11.1), pytest.approx(16.0))
    assert 13.2 <= window.usual_v <= 13.5


def test_lfp_is_empty_and_full_where_its_maker_says():
    window = charge_window(Battery("lfp", 12.0))
    assert (window.empty_v, window.most_v) == (pytest.approx(12.25), pytest.approx(14.4))
    assert window.usual_v == pytest.approx(13.3)


@pytest.mark.parametrize(
    ("volts", "battery_c", "volts_per_k", "at_that_heat_v"),
    [
        (13.4, 30, -0.005, 13.25),
        (14.4, 0, -0.003, 14.85),
        (14.4, 40, -0.003, 14.13),
        (14.4, 0, -0.005, 15.15),
    ],
)
def test_compensation_by_heat_is_as_printed(volts, battery_c, volts_per_k, at_that_heat_v):
    assert compensated_v(volts, 6, battery_c, volts_per_k) == pytest.approx(at_that_heat_v, abs=1e-9)
