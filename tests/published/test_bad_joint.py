"""A joint of 60 milliohm in place of 1.2 among 36 cells in series: ngspice-39, panels a and a2.

Confidence: derived (Pmp of both panels by ngspice-39; loss is their difference).
"""

import pytest

from panewright.cell.diode import Diode
from panewright.circuit.damage import Fault, JointCold, damaged
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt

VT = 1.38064852e-23 * 298.15 / 1.6021766208e-19  # ngspice-39's own k and q
CELL = Diode(8.55, 2.3e-9, 1.1 * VT, 0.003, 20.0, 0.1 / 20.0, -18.0, 3.4)
PANEL = Network((String((Substring((CELL,) * 36, (0.0012,) * 36),)),), lead_ohm=0.01)


def test_a_cold_joint_costs_what_ngspice_says():
    cold = damaged(PANEL, Fault(JointCold(0.06 - 0.0012), CellAt(0, 12)))
    good, bad = key_points(PANEL).power_w, key_points(cold).power_w
    assert (good, bad) == pytest.approx((146.28927, 142.50175), abs=5e-6)
    assert good - bad == pytest.approx(3.7875203, abs=1e-6)  # difference of two printed to 1e-6


def test_the_current_squared_times_the_joint_is_a_near_estimate():
    imp = key_points(PANEL).imp_a
    assert imp**2 * (0.06 - 0.0012) == pytest.approx(3.7992096, rel=2e-7)
