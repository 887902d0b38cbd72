"""A cold joint in a panel of 36 cells: the same netlist in ngspice 39 with and without it (derived).

A joint of 60 milliohm in place of 1.2, after the eleventh cell: 146.28927 W become 142.50175 W, a loss of
3.7875203 W; the current squared times the resistance alone would say 3.7992096 W.
"""

import pytest

from panewright.cell.diode import Diode
from panewright.circuit.account import account
from panewright.circuit.network import Network, String, Substring

CELL = Diode(8.55, 2.3e-9, 1.1 * 0.0256925704, 0.003, 20.0, breakdown_siemens=0.1 / 20.0, breakdown_v=-18.0)


def _panel(joints):
    return Network((String((Substring((CELL,) * 36, joints),)),), lead_ohm=0.01)


def test_the_cold_joint_is_the_term_that_ngspice_finds():
    good = _panel((0.0012,) * 36)
    cold = _panel((0.0012,) * 11 + (0.06,) + (0.0012,) * 24)
    found = account((("sound", good), ("cold joint", cold)))
    assert found.end_w == pytest.approx(142.50175, rel=1e-7)
    assert found.terms[1].watts == pytest.approx(-3.7875203, abs=5e-7)
    assert found.start_w + found.terms[0].watts == pytest.approx(146.28927, rel=1e-7)
