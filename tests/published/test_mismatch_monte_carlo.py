"""Mean loss of strings whose cells' light currents are normally spread, other figures equal.

Derived with pvlib (voltages at a current, golden section), 3000 strings a row: 8.55 A, 2.3e-9 A, 0.0042 ohm,
60 ohm, n 1.1, 25 degC. Cells, standard deviation as a share, mean loss and its standard error.
"""

from math import hypot

import pytest

from panewright.cell.diode import Diode
from panewright.circuit.mismatch.drawn import simulated_loss
from panewright.circuit.mismatch.formula import expected_loss
from panewright.circuit.mismatch.spread import Spread
from panewright.circuit.network import Network, String, Substring

CELL = Diode(8.55, 2.3e-9, 1.1 * 0.0256925704004, 0.0042, 60.0)
ROWS = [
    (4, 0.005, 0.00016234, 2.4758e-6),
    (4, 0.01, 0.00064896, 9.955e-6),
    (4, 0.02, 0.002571, 3.9577e-5),
    (36, 0.005, 0.00021315, 9.3612e-7),
    (36, 0.01, 0.00086426, 3.9265e-6),
    (36, 0.02, 0.0036881, 2.0648e-5),
]


@pytest.mark.parametrize(("cells", "sigma", "mean", "error"), ROWS)
def test_simulated_strings_lose_what_others_simulated(cells, sigma, mean, error):
    panel = Network((String((Substring((CELL,) * cells, (0.0,) * cells),)),))
    lost = simulated_loss(panel, Spread(light=sigma), trials=1500, seed=20)
    assert abs(lost.mean - mean) < 3 * hypot(error, lost.standard_error)
    assert lost.even == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("cells", "sigma", "mean", "error"), ROWS)
def test_the_closed_form_meets_the_simulation_where_it_says_it_does(cells, sigma, mean, error):
    lost = expected_loss(CELL, cells, 1, Spread(light=sigma))
    (check,) = lost.checks
    assert check.passed is (sigma * cells**0.5 < 0.1)
    if check.passed:
        assert lost.share == pytest.approx(mean, rel=0.02, abs=2 * error)
    else:
        assert lost.share < mean - 3 * error
