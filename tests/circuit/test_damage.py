"""Laws of a panel with something wrong."""

from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.damage import Cracked, RibbonOff, Shaded, Shunted
from panewright.cell.diode import Diode
from panewright.cell.fingers import Fingers
from panewright.circuit.damage import (
    CellTurned,
    DiodeMissing,
    DiodeOpen,
    DiodeShorted,
    DiodeTurned,
    Fault,
    JointCold,
    JointOpen,
    StringOpen,
    damaged,
)
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.circuit.place import CellAt, DiodeAt, StringAt
from panewright.circuit.solve import current_a, voltage_v
from panewright.enclosure.bypass import Bypass, forward_v

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky", 5e-6, 0.027, 0.01, rated_a=15.0, reverse_v=45.0)
PART = Substring((CELL,) * 6, (0.0012,) * 6, SCHOTTKY)
STRING = String((PART, PART))
PANEL = Network((STRING,), lead_ohm=0.01)
TWO = Network((STRING, STRING), lead_ohm=0.01)
numbers = st.integers(1, 12)


@given(numbers, st.floats(0, 1), st.floats(0, 8))
def test_a_cold_joint_takes_the_current_times_its_resistance(number, ohm, current):
    cold = damaged(
        Network((String((Substring((CELL,) * 12, (0.0,) * 12),)),)), Fault(JointCold(ohm), CellAt(0, number))
    )
    sound = 12 * voltage_v(Network((String((Substring((CELL,), (0.0,)),)),)), current)
    assert voltage_v(cold, current) == pytest.approx(sound - current * ohm, abs=1e-9)


@given(numbers, numbers, st.floats(0.05, 0.9), st.floats(0.1, 50))
def test_faults_of_different_cells_come_in_any_order(one, other, share, ohm):
    first, second = Fault(Cracked(share), CellAt(0, one)), Fault(JointCold(ohm), CellAt(0, other))
    assert damaged(PANEL, first, second) == damaged(PANEL, second, first)


@given(numbers, st.floats(0.01, 0.9), st.floats(0.01, 0.9))
def test_faults_of_one_cell_add_up(number, share, again):
    faults = (Fault(Shaded(share), CellAt(1, number)), Fault(Shaded(again), CellAt(1, number)))
    k, c = divmod(number - 1, 6)
    left = damaged(TWO, *faults).strings[1].substrings[k].cells[c].light_a
    assert left == pytest.approx(CELL.light_a * (1 - share) * (1 - again))


@given(numbers)
def test_only_the_named_cell_changes(number):
    sick = damaged(TWO, Fault(Shunted(0.1), CellAt(1, number)))
    cells = [cell for string in sick.strings for part in string.substrings for cell in part.cells]
    assert [k for k, cell in enumerate(cells) if cell != CELL] == [12 + number - 1]


@given(numbers)
def test_a_cell_turned_twice_is_right_again(number):
    turned = Fault(CellTurned(), CellAt(0, number))
    assert damaged(PANEL, turned) != PANEL
    assert damaged(PANEL, turned, turned) == PANEL


def test_a_turned_cell_takes_twice_its_voltage():
    """Once for what it no longer gives, once for what it takes; measured at open circuit."""
    lost = voltage_v(PANEL, 0.0) - voltage_v(damaged(PANEL, Fault(CellTurned(), CellAt(0, 3))), 0.0)
    assert lost == pytest.approx(2 * voltage_v(PANEL, 0.0) / 12, rel=1e-4)  # but for the diode's leakage


def test_a_ribbon_off_lies_in_the_cell_and_in_its_joint():
    off = RibbonOff(Fingers(3, 156.0, 156.0), (2,), ribbon_ohm=0.006)
    part = damaged(PANEL, Fault(off, CellAt(0, 8))).strings[0].substrings[1]
    assert part.cells[1].series_ohm == pytest.approx(CELL.series_ohm + off.finger_ohm)
    assert part.joints_ohm[1] == pytest.approx(0.0012 + off.joint_ohm)


def test_a_missing_diode_and_one_that_failed_open_are_the_same():
    at = DiodeAt(0, 1)
    assert damaged(PANEL, Fault(DiodeMissing(), at)) == damaged(PANEL, Fault(DiodeOpen(), at))
    assert damaged(PANEL, Fault(DiodeOpen(), at)).strings[0].substrings[1].bypass is None


def test_a_shorted_diode_takes_its_substring_out():
    short = damaged(PANEL, Fault(DiodeShorted(0.001), DiodeAt(0, 0)))
    assert short.strings[0].substrings[0].bypass == Bridge(0.001)
    assert voltage_v(short, 0.0) == pytest.approx(voltage_v(PANEL, 0.0) / 2, abs=0.02)


def test_a_turned_diode_holds_its_substring_at_its_own_drop():
    wrong = damaged(PANEL, Fault(DiodeTurned(), DiodeAt(0, 0)))
    assert wrong.strings[0].substrings[0].bypass == Turned(SCHOTTKY)
    drop = forward_v(SCHOTTKY, 8.55)
    assert voltage_v(wrong, 0.0) - voltage_v(PANEL, 0.0) / 2 == pytest.approx(drop, rel=0.02)
    assert damaged(wrong, Fault(DiodeTurned(), DiodeAt(0, 0))) == PANEL


def test_a_broken_string_leaves_the_other_alone():
    broken = damaged(TWO, Fault(StringOpen(), StringAt(0)))
    row = np.linspace(0, 7, 8)
    assert broken.strings[0].tail_ohm == inf
    assert current_a(broken, row) == pytest.approx(current_a(PANEL, row), rel=1e-9, abs=1e-9)


def test_an_open_joint_leaves_its_bypass_diode_to_carry_the_string():
    opened = damaged(PANEL, Fault(JointOpen(), CellAt(0, 2)))
    assert opened.strings[0].substrings[0].joints_ohm[1] == inf
    half = voltage_v(Network((String((PART,)),), lead_ohm=0.01), 5.0)
    assert voltage_v(opened, 5.0) == pytest.approx(half - forward_v(SCHOTTKY, 5.0), abs=1e-6)
    assert key_points(opened).power_w < key_points(PANEL).power_w / 2


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (lambda: damaged(PANEL, Fault(Cracked(0.1), CellAt(1, 1))), "strings are 0 to 0"),
        (lambda: damaged(PANEL, Fault(Cracked(0.1), CellAt(0, 13))), "cells 1 to 12"),
        (lambda: damaged(PANEL, Fault(Cracked(0.1), CellAt(0, 0))), "cells 1 to 12"),
        (lambda: damaged(PANEL, Fault(DiodeOpen(), DiodeAt(0, 2))), "substrings 0 to 1"),
        (lambda: damaged(PANEL, *[Fault(DiodeOpen(), DiodeAt(0, 1))] * 2), "no bypass diode lies there"),
        (
            lambda: damaged(PANEL, Fault(DiodeShorted(), DiodeAt(0, 1)), Fault(DiodeTurned(), DiodeAt(0, 1))),
            "the same",
        ),
        (lambda: Fault(StringOpen(), CellAt(0, 1)), "StringAt"),
        (lambda: Fault(Cracked(0.1), StringAt(0)), "CellAt"),
        (lambda: Fault(DiodeOpen(), CellAt(0, 1)), "DiodeAt"),
        (lambda: JointCold(-1.0), "0 ohm or more"),
        (lambda: JointCold(inf), "JointOpen"),
        (lambda: DiodeShorted(0.0), "0.001"),
    ],
)
def test_a_wrong_place_or_strength_is_refused_with_what_there_is(fault, words):
    with pytest.raises(ValueError, match=words):
        fault()


@pytest.mark.parametrize("make", [lambda: CellAt(0, 1.5), lambda: DiodeAt("0", 0), lambda: StringAt(0.0)])
def test_places_are_counted_in_whole_numbers(make):
    with pytest.raises(ValueError, match="whole numbers"):
        make()
