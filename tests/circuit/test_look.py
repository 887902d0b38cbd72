"""What a picture of a panel shows is what the circuit's own functions say, whoever solves it."""

from random import Random

import pytest

from panewright.cell.damage import Cracked, Exchanged, Shaded
from panewright.cell.diode import Diode
from panewright.circuit.damage import DiodeOpen, Fault, JointOpen, damaged
from panewright.circuit.inside import cell_states
from panewright.circuit.line_compiled import as_compiled
from panewright.circuit.look import look
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt, all_cells
from panewright.circuit.solve import current_a
from panewright.circuit.trace import trace
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
PART = Substring((CELL,) * 12, (0.0012,) * 12, SCHOTTKY)
PANEL = Network((String((PART, PART, PART)),), lead_ohm=0.01)
TWO = Network((String((PART, PART)), String((PART, PART))), lead_ohm=0.01)


def shaded(network, *pairs):
    return damaged(network, *(Fault(Shaded(share), CellAt(0, number)) for number, share in pairs))


def test_a_sound_panel_looks_as_its_own_trace_and_points_say():
    seen = look(PANEL, driven_a=key_points(PANEL).isc_a)
    assert seen.points == key_points(PANEL)
    assert seen.curve == trace(PANEL, 61)
    assert set(seen.at_peak.roles) == {"gives"}
    assert seen.at_peak.conducting == ()


def test_points_and_cells_of_a_shaded_panel_are_the_circuits_own():
    panel = shaded(PANEL, (7, 0.6), (20, 0.2))
    seen = look(panel)
    assert seen.points == key_points(panel)
    for work in (seen.at_peak, seen.shorted):
        for found, wanted in zip(work.cells, cell_states(panel, work.terminal_v), strict=True):
            assert found.absorbed_w == pytest.approx(wanted.absorbed_w, abs=1e-7)
            assert found.voltage_v == pytest.approx(wanted.voltage_v, abs=1e-7)


def test_the_reverse_branch_reaches_to_the_current_of_sound_panels():
    isc = key_points(PANEL).isc_a
    panel = shaded(PANEL, (7, 1.0), (19, 1.0), (31, 1.0))
    curve = look(panel, driven_a=isc).curve
    assert curve.current_a[0] == pytest.approx(isc, rel=1e-6)
    assert -2.0 < curve.voltage_v[0] < -0.9  # three bypass diodes in a row
    assert list(curve.voltage_v) == sorted(curve.voltage_v)
    assert curve.current_a[30] == pytest.approx(current_a(panel, curve.voltage_v[30]), abs=1e-9)


def test_a_cell_in_the_dark_warms_and_its_mates_are_bypassed():
    seen = look(shaded(PANEL, (7, 1.0))).at_peak
    assert seen.roles[6] == "warms"
    assert set(seen.roles[:6] + seen.roles[7:12]) == {"bypassed"}
    assert set(seen.roles[12:]) == {"gives"}
    assert seen.conducting == (DiodeAt(0, 0),)


def test_cells_that_hold_their_string_back_are_all_named():
    seen = look(shaded(PANEL, (7, 0.07), (8, 0.07))).at_peak
    held = [number for number, role in enumerate(seen.roles, 1) if role in {"limits", "warms"}]
    assert held == [7, 8]
    assert seen.conducting == ()


def test_a_panel_in_two_strings_tells_each_cell_of_both():
    seen = look(shaded(TWO, (3, 0.9))).at_peak
    assert seen.conducting == ()  # the other string holds the bus too high for it
    assert seen.roles[2] in {"warms", "limits"}
    assert set(seen.roles[:2] + seen.roles[3:24]) == {"gives"}
    assert set(seen.roles[24:]) == {"gives"}


def test_a_diode_that_is_missing_does_not_conduct():
    panel = damaged(shaded(PANEL, (7, 0.9)), Fault(DiodeOpen(), DiodeAt(0, 0)))
    assert look(panel).at_peak.conducting == ()


def test_a_string_that_is_open_gives_nothing_and_is_still_seen():
    alone = Network((String((Substring((CELL,) * 12, (0.0012,) * 12),)),))
    seen = look(damaged(alone, Fault(JointOpen(), CellAt(0, 5))), driven_a=8.5)
    assert seen.points.power_w < 1e-9
    assert len(seen.at_peak.cells) == 12


def test_another_cell_in_a_place_is_that_cell():
    other = Diode(7.0, 2.3e-9, 0.02826, 0.003, 20.0)
    changed = damaged(PANEL, Fault(Exchanged(other), CellAt(0, 13)))
    assert changed.strings[0].substrings[1].cells[0] == other
    cracked = damaged(PANEL, Fault(Exchanged(other), CellAt(0, 13)), Fault(Cracked(0.1), CellAt(0, 13)))
    assert cracked.strings[0].substrings[1].cells[0] == other.part(0.9)


@pytest.mark.parametrize("whole", [PANEL, TWO])
@pytest.mark.parametrize("seed", range(4))
def test_compiled_and_written_see_the_same(whole, seed):
    chance = Random(seed)
    places = chance.sample(list(all_cells(whole)), 9)
    panel = damaged(whole, *(Fault(Shaded(chance.choice([0.1, 0.5, chance.random()])), at) for at in places))
    isc = key_points(whole).isc_a
    written, quick = look(panel, isc), look(panel, isc, line_of=as_compiled)
    assert quick.points.power_w == pytest.approx(written.points.power_w, rel=1e-9)
    assert quick.points.vmp_v == pytest.approx(written.points.vmp_v, rel=1e-5)
    for volt, amp in zip(quick.curve.voltage_v, quick.curve.current_a, strict=True):
        assert amp == pytest.approx(current_a(panel, volt), abs=1e-7)
    assert quick.at_peak.roles == written.at_peak.roles
    assert quick.at_peak.conducting == written.at_peak.conducting
