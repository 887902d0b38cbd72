"""A design with cells shaded, cracked and exchanged: the circuit's own answers, by the drawing's numbers."""

from concurrent.futures import ThreadPoolExecutor
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.damage import Cracked, Shaded
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.hot.heat import Spread, hot_heat
from panewright.circuit.hot.spot import HotSpot
from panewright.circuit.inside import cell_states
from panewright.circuit.line_compiled import as_compiled
from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt
from panewright.curve.readings import Loaded, Readings
from panewright.errors import CurveError
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.electric.hot import cooling_of
from panewright.panel.electric.own import Rated
from panewright.panel.what_if import CellState, what_if
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[2] / "examples"
HALVES = ('name = "156 mm mono"', 'name = "156 mm mono"\ncut = "half"')


@cache
def designed(name, *changes, layout=""):
    shelf = load_shelf()
    text = (EXAMPLES / f"{name}.toml").read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return design_panel(parse_order(text + layout, name, shelf), shelf)


def test_an_untouched_panel_is_the_design():
    design = designed("jetty")
    seen = what_if(design, {})
    assert seen.points == design.electrical.curves[0].points
    assert seen.lost_w == 0
    assert seen.hottest is None
    assert {cell.role for cell in seen.cells} == {"gives"}
    assert [cell.number for cell in seen.cells] == [cell.number for cell in design.layup.cells]


def test_shade_and_crack_are_those_of_the_circuit():
    design = designed("kiosk")
    wanted = damaged(
        design.electrical.network,
        Fault(Cracked(0.2), CellAt(0, 7)),
        Fault(Shaded(0.5), CellAt(0, 7)),
        Fault(Shaded(0.25), CellAt(0, 30)),
    )
    seen = what_if(design, {7: CellState(shade=0.5, crack=0.2), 30: CellState(shade=0.25)})
    assert seen.points == key_points(wanted)
    assert seen.lost_w == pytest.approx(design.electrical.curves[0].points.power_w - seen.points.power_w)
    states = cell_states(wanted, seen.points.vmp_v)
    assert seen.cells[6].absorbed_w == pytest.approx(states[6].absorbed_w, abs=1e-6)


def test_the_hottest_cell_is_as_hot_as_the_circuit_says():
    design = designed("jetty")
    seen = what_if(design, {7: CellState(shade=0.5, crack=0.1), 60: CellState(shade=0.05)})
    hot = seen.hottest_shorted
    assert hot.number == 7
    changed = damaged(
        design.electrical.network,
        Fault(Cracked(0.1), CellAt(0, 7)),
        Fault(Shaded(0.5), CellAt(0, 7)),
        Fault(Shaded(0.05), CellAt(0, 60)),
    )
    state = cell_states(changed)[6]
    spread = Spread(0.9 * design.electrical.models[0].area_mm2, wafer_mm=design.order.cell.shape.thickness_mm)
    spot = HotSpot(CellAt(0, 7), "short circuit", 0.0, 0.5, state.voltage_v, state.current_a)
    heat = hot_heat(spot, spread, cooling_of(design.structural.temperatures))
    assert hot.even_c == pytest.approx(heat.even_c, abs=1e-4)
    assert hot.spot_c == pytest.approx(heat.spot_c, abs=1e-3)


def test_diodes_are_numbered_as_on_the_wiring_page():
    design = designed("jetty")
    ends = design.layup.diode_after
    for number, (first, last) in enumerate(pairwise(ends), 1):
        seen = what_if(design, {first + 1: CellState(shade=1.0), last: CellState(shade=1.0)})
        assert seen.conducting == (number,)


def test_a_cell_cracked_through_opens_its_string_and_its_diode_takes_over():
    design = designed("jetty")
    seen = what_if(design, {7: CellState(crack=1.0)})
    assert seen.conducting == (1,)
    assert 0.6 < seen.points.power_w / seen.untouched.power_w < 0.67


def test_a_weaker_cell_holds_the_string_back_and_a_better_one_does_not():
    design = designed("kiosk")
    weak = what_if(design, {5: CellState(swapped=Rated(current=0.9, power=0.9))})
    good = what_if(design, {5: CellState(swapped=Rated(current=1.03, power=1.03))})
    assert weak.points.power_w < good.points.power_w
    assert weak.cells[4].role in {"limits", "warms"}
    assert 0 < good.points.power_w / good.untouched.power_w - 1 < 0.002


def test_the_same_cell_by_share_is_the_same_panel():
    design = designed("kiosk")
    seen = what_if(design, {5: CellState(swapped=Rated())})
    assert seen.points.power_w == pytest.approx(seen.untouched.power_w, rel=1e-9)


def test_a_cell_by_its_own_readings_is_taken_and_an_impossible_one_told():
    design = designed("kiosk")
    plate = design.order.cell.nameplate
    share = design.order.cell.parts
    loaded = Loaded(plate.vmp_v, 0.93 * plate.imp_a / share)
    read = Readings(0.95 * plate.isc_a / share, plate.voc_v, 1000, 25, loaded)
    seen = what_if(design, {5: CellState(swapped=read)})
    assert seen.points.power_w < seen.untouched.power_w
    with pytest.raises(CurveError, match=r"Voc 1\.3 V"):
        what_if(design, {5: CellState(swapped=Readings(5.0, 1.3, 1000, 25))})
    with pytest.raises(CurveError, match="fill factor"):
        what_if(design, {5: CellState(swapped=Rated(current=1.0, power=1.2))})


@pytest.mark.parametrize("wrong", [{0: CellState()}, {73: CellState()}])
def test_a_cell_that_is_not_there_is_our_own_mistake(wrong):
    with pytest.raises(ValueError, match="cells are 1 to 72"):
        what_if(designed("jetty"), wrong)


def test_shares_are_from_nothing_to_all():
    with pytest.raises(ValueError, match="shares from 0 to 1"):
        CellState(shade=1.1)


def test_many_at_once_get_the_same_answers():
    design = designed("kiosk")
    asked = [{n: CellState(shade=0.3 + 0.02 * n)} for n in range(1, 13)]
    alone = [what_if(design, each) for each in asked]
    for line_of in (None, as_compiled):
        more = {} if line_of is None else {"line_of": line_of}
        with ThreadPoolExecutor(4) as pool:
            together = list(pool.map(lambda each, more=more: what_if(design, each, **more), asked))
        for one, other in zip(alone, together, strict=True):
            assert other.points.power_w == pytest.approx(one.points.power_w, rel=1e-9)
            assert [cell.role for cell in other.cells] == [cell.role for cell in one.cells]


@settings(max_examples=12, deadline=None)
@given(st.integers(1, 36), st.floats(0, 1), st.floats(0, 1))
def test_more_shade_never_gives_more(number, less, more):
    less, more = sorted((less, more))
    design = designed("kiosk")
    powers = [what_if(design, {number: CellState(shade=share)}).points.power_w for share in (less, more)]
    assert powers[1] <= powers[0] * (1 + 1e-9)
