"""What fewer tabs cost, from the cell's fingers to the ribbon's choice."""

import pytest

from panewright.cell.fingers import Fingers
from panewright.panel.electric.contacts import fewer_tabs
from panewright.ribbon.cell import TabbedCell
from panewright.ribbon.count import judge_counts
from panewright.ribbon.resistance import TabRun
from panewright.ribbon.strip import Strip

TAB = Strip("1.6 x 0.2", 1.6, 0.2)


def tabbed(fingers):
    fewer = fewer_tabs(fingers)
    return TabbedCell(TabRun(fingers.busbars, 156.0, 3.0), 1.5, 24336.0, 0.2, 8.05, 4.08, fewer)


def test_two_of_three_by_hand():
    # outer busbars, 26 and 52 mm from edge and middle; half the current in each
    two = judge_counts(TAB, tabbed(Fingers(3, 156.0, 156.0)))[1]
    longer = 2 * (26**3 + 52**3) - 6 * 26**3
    density = 8.05 / 24336e-6
    assert two.finger_w == pytest.approx(density**2 * 0.002 * 50 * 0.156 * longer * 1e-9 / 3)


def test_fingers_without_resistance_leave_the_choice_to_the_ribbon():
    free = tabbed(Fingers(3, 156.0, 156.0, ohm_per_m=0.0))
    assert [each.finger_w for each in judge_counts(TAB, free)] == [0.0, 0.0, 0.0]


def test_one_busbar_has_no_fewer():
    assert fewer_tabs(Fingers(1, 39.0, 26.0)) == ()
