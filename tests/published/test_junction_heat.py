"""Bypass diodes in their box.

A diode maker's note on the greatest junction temperature of Schottky diodes (seen): blocking 15 V half of the
time, 1.6 K/W to its case and 8.5 K/W to the air, c = 0.055 a kelvin: it runs away from 242 mA on.
A data sheet of a bypass diode for boxes (seen): 12 A, 0.4 V, 75 degC round the box: junction 160 degC,
typical. The 18 K/W of every diode here are taken from it, so this only tells that the sum is done right.
A sheet of another (seen): 0.50 V at 5 A and 25 degC, 0.41 V at 125 degC; 0.57 V and 0.52 V at 10 A.
Cable glands, EN 50262 type A; conductors in terminals, IEC 60947-1 table 5; a lead to EN 50618 (all seen).
"""

import pytest

from panewright.enclosure.bypass import Bypass
from panewright.enclosure.junction import junction_c, runaway_leak_a
from panewright.enclosure.relief import relief


def test_leak_at_which_a_diode_runs_away():
    assert runaway_leak_a(15.0, 1.6 + 8.5, 0.055, blocking=0.5) == pytest.approx(0.242, rel=0.01)


def test_a_diode_in_its_box_in_the_type_test():
    falls_to = 0.4 + 135 * 5e-4  # at 25 degC, so that it drops 0.4 V at 160
    diode = Bypass("12 A", 1e-12, 1e-3, (falls_to - 1e-3 * 30.12) / 12.0, 12.0, 45.0)
    assert junction_c(diode, 12.0, 75.0) == pytest.approx(160.0, abs=2.0)


def test_the_drop_falls_no_slower_than_on_a_sheet():
    slowest = (0.52 - 0.57) / 100
    assert Bypass("any", 1e-5, 0.027, 0.0, 10.0, 45.0).drift_v_k >= slowest - 1e-9 > (0.41 - 0.50) / 100


@pytest.mark.parametrize(
    ("area", "outer", "gland", "terminal"), [(4.0, 5.6, 30.0, 60.0), (6.0, 6.1, 30.0, 80.0)]
)
def test_solar_leads(area, outer, gland, terminal):
    lead = relief(area)
    assert (lead.outer_mm, lead.pull_n, lead.terminal_n) == (outer, gland, terminal)
    assert lead.bend_mm == pytest.approx(4 * outer)
    assert lead.moving_bend_mm == pytest.approx(5 * outer)
