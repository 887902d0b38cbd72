"""Loss among unequal cells by a recalled rule.

L. L. Bucciarelli, Power loss in photovoltaic arrays due to mismatch in cell characteristics, Solar Energy
23, 1979, p. 277. From memory: FF = C^2 / ((1 + C)(C + ln(1 + C))) and, for a string,
loss = (C + 2)/2 sigma^2 (1 - 1/N). Fill factor, C and factor of one cell: derived from them.
"""

import pytest

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.circuit.mismatch.formula import (
    bucciarelli_c,
    bucciarelli_factor,
    expected_loss,
    ideal_fill_factor,
)
from panewright.circuit.mismatch.spread import Spread

CELL = Diode(8.55, 2.3e-9, 1.1 * 0.0256925704004, 0.0042, 60.0)


def test_fill_factor_of_the_cell_is_the_printed_one():
    assert key_points(CELL).fill_factor == pytest.approx(0.768433, abs=5e-7)


def test_c_and_factor_follow_from_the_fill_factor():
    assert ideal_fill_factor(12.6847) == pytest.approx(0.768433, abs=5e-7)
    assert bucciarelli_c(key_points(CELL).fill_factor) == pytest.approx(12.6847, abs=5e-5)
    assert bucciarelli_factor(key_points(CELL).fill_factor) == pytest.approx(7.34237, abs=5e-6)


@pytest.mark.parametrize("count", [2, 4, 36])
def test_a_string_loses_the_factor_times_variance_times_n_less_one_over_n(count):
    lost = expected_loss(CELL, count, 1, Spread(light=0.01))
    assert lost.bucciarelli == pytest.approx(7.34237 * lost.imp**2 * (1 - 1 / count), rel=1e-6)


def test_strings_side_by_side_lose_by_their_voltages_a_cells_variance_over_the_string():
    lost = expected_loss(CELL, 36, 4, Spread(voltage=0.01))
    by_imp = 7.34237 * lost.imp**2 * (1 - 1 / 36)
    assert lost.bucciarelli - by_imp == pytest.approx(7.34237 * lost.vmp**2 / 36 * (1 - 1 / 4), rel=1e-6)
