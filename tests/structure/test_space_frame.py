"""Laws of the frame in space."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.reaction import edge_reaction
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.rails.edge_load import EdgeLoad, edges_of, plate_reaction, split_at_45
from panewright.structure.rails.rails import outer_mm
from panewright.structure.space.conditions import RIGID_NMM, Condition, conditions
from panewright.structure.space.figures import (
    bracket_forces_n,
    corner_forces,
    edge_mm,
    figures,
    looks_mm,
    slides_mm,
)
from panewright.structure.space.ring import stand_quarters, stand_ring
from panewright.structure.space.run import Run
from panewright.structure.space.space_frame import frame_build, frame_runs, stand, stand_on_each

SHEET = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
PANE = Pane(1200, 800, SHEET)
BOUNDS = ("free", "bead", "held")
rails = st.builds(
    lambda profile, seat, upright, share: Rail(
        "any", profile, seat, upright, min(seat, upright) * share, "6063-T6", 6000
    ),
    st.sampled_from(["angle", "channel", "tube"]),
    st.floats(25, 60),
    st.floats(25, 60),
    st.floats(0.05, 0.12),
)
panes = st.builds(
    lambda long, share: Pane(long, long * share, SHEET), st.floats(500, 2000), st.floats(0.4, 1)
)


def places(pane, rail, count=2, share=0.2):
    length = outer_mm(pane.long_mm, rail, BEAD)
    return tuple(np.linspace(share * length, (1 - share) * length, count).tolist())


def build_and_runs(rail, pane, held, load=None, joint="mitred"):
    build = frame_build(rail, pane, BEAD, "ASCE", joint)
    return build, frame_runs(rail, pane, BEAD, (held, ()), load or split_at_45(pane, 1000.0))


@settings(max_examples=30, deadline=None)
@given(rails, panes, st.integers(2, 4))
def test_brackets_bear_all_of_the_pane_and_nothing_else(rail, pane, count):
    build, (long, short) = build_and_runs(rail, pane, places(pane, rail, count))
    ways = tuple(way for way in conditions("mitred", BEAD) if way.sideways == "free")
    stood = stand_ring(build, (long, short, long, short), ways)
    force = bracket_forces_n(stood, whole=True)[:, 0].sum(axis=-2)
    whole = 1e-3 * pane.long_mm * pane.short_mm
    assert force[..., 2].sum(axis=-1) == pytest.approx(whole, rel=1e-6)
    assert force[:, 0] == pytest.approx(
        force[:, 2], abs=1e-5 * whole
    )  # opposite rails pull against each other
    assert np.abs(force[:, 1::2]).max() < 1e-6 * whole


@settings(max_examples=30, deadline=None)
@given(rails, panes, st.integers(2, 4))
def test_a_quarter_stands_as_the_whole_ring(rail, pane, count):
    build, (long, short) = build_and_runs(rail, pane, places(pane, rail, count))
    way = (Condition("free", 0.0, RIGID_NMM, along=True),)
    ring, halves = (long, short, long, short), (long.half(), short.half())
    whole = figures(build, stand_ring(build, ring, way), ring, whole=True)
    quarter = figures(build, stand_quarters(build, (halves,), way), halves, whole=False)
    assert whole.stress_mpa[0, 0, :2] == pytest.approx(quarter.stress_mpa[0, 0], rel=2e-3)
    assert whole.twist_deg[0, 0, :2] == pytest.approx(quarter.twist_deg[0, 0], rel=2e-3)
    assert whole.sag_mm[0, 0, :2] == pytest.approx(quarter.sag_mm[0, 0], rel=1e-2)
    assert whole.sag_mm[0, 0, :2] == pytest.approx(whole.sag_mm[0, 0, 2:], rel=1e-6)


@settings(max_examples=30, deadline=None)
@given(panes, st.integers(2, 4), st.floats(1.0, 1.5))
def test_stiffer_metal_never_sags_more(pane, count, factor):
    build, runs = build_and_runs(RAIL, pane, places(pane, RAIL, count))
    more = replace(
        build.member, young_mpa=build.member.young_mpa * factor, shear_mpa=build.member.shear_mpa * factor
    )
    halves, ways = (runs[0].half(), runs[1].half()), conditions("mitred", BEAD)[:4]
    plain = replace(build, bolt_mm_n=(0.0, 0.0))
    less_stiff = figures(plain, stand_quarters(plain, (halves,), ways), halves, whole=False)
    stiff = replace(plain, member=more)
    stiffer = figures(stiff, stand_quarters(stiff, (halves,), ways), halves, whole=False)
    assert stiffer.sag_mm == pytest.approx(less_stiff.sag_mm / factor, rel=1e-5)
    assert stiffer.stress_mpa == pytest.approx(less_stiff.stress_mpa, rel=1e-5)


def work_nmm(build, halves, ways):
    """What the pane does on its way down, a figure for each condition: Boole's rule in every member."""
    stood = stand_quarters(build, (halves,), ways)
    edge, place = edge_mm(build, stood)[:, 0], looks_mm(stood)[0]
    line = np.stack([np.interp(at, *np.transpose(run.load)) for at, run in zip(place, halves, strict=True)])
    long = place[..., -1] - place[..., 0]
    return np.abs(np.einsum("crml,rml,l,rm->c", edge, line, np.array([7, 32, 12, 32, 7]) / 90, long))


@settings(max_examples=60, deadline=None)
@given(panes, st.integers(2, 4), st.lists(st.floats(0.0, 1.0), min_size=4, max_size=4))
def test_a_stiffer_rail_never_gives_way_more_to_its_load(pane, count, more):
    """Clapeyron: metal added anywhere takes from the work of the load, whatever it does at one place."""
    build, runs = build_and_runs(RAIL, pane, places(pane, RAIL, count))
    halves, ways, rail = (runs[0].half(), runs[1].half()), conditions("mitred", BEAD), build.member
    up, beside, turn, pull = more
    stiff = replace(
        rail,
        ix_mm4=rail.ix_mm4 * (1 + up),
        iy_mm4=rail.iy_mm4 * (1 + beside),
        j_mm4=rail.j_mm4 * (1 + turn),
        area_mm2=rail.area_mm2 * (1 + pull),
    )
    before, after = (work_nmm(replace(build, member=one), halves, ways) for one in (rail, stiff))
    assert (before > 0).all()
    assert (after <= before * (1 + 1e-6)).all()


@given(st.floats(0.1, 10))
@settings(max_examples=20, deadline=None)
def test_figures_grow_with_the_load(factor):
    held = places(PANE, RAIL)
    one, more = (stand(RAIL, PANE, BEAD, held, load=split_at_45(PANE, p)) for p in (1000.0, 1000.0 * factor))
    for bound in BOUNDS:
        before, after = getattr(one.long, bound), getattr(more.long, bound)
        assert after.sag_mm == pytest.approx(before.sag_mm * factor, rel=1e-6)
        assert after.stress_mpa == pytest.approx(before.stress_mpa * factor, rel=1e-6)


def test_suction_is_pressure_the_other_way():
    held = places(PANE, RAIL)
    down, up = (stand(RAIL, PANE, BEAD, held, load=split_at_45(PANE, p)) for p in (1000.0, -1000.0))
    assert down.long.free.sag_mm == pytest.approx(up.long.free.sag_mm, rel=1e-9)
    assert down.short.corner.force.across_n == pytest.approx(up.short.corner.force.across_n, rel=1e-9)


def test_a_line_load_of_many_places_is_the_same_load():
    held, plain = places(PANE, RAIL), split_at_45(PANE, 1000.0)

    def fine(table, length):
        at = np.linspace(0, length, 17)
        along = sorted({*at.tolist(), *(place for place, _ in table)})
        return tuple((place, float(np.interp(place, *np.transpose(table)))) for place in along)

    many = EdgeLoad(fine(plain.long, 1200.0), fine(plain.short, 800.0))
    one, other = (stand(RAIL, PANE, BEAD, held, load=load) for load in (plain, many))
    assert other.long.free.sag_mm == pytest.approx(one.long.free.sag_mm, rel=2e-3)
    assert other.short.free.stress_mpa == pytest.approx(one.short.free.stress_mpa, rel=2e-3)


@pytest.mark.parametrize("pressure_pa", [100.0, 2400.0])
def test_a_plate_s_own_reaction_is_borne_whole_and_bends_short_rails_more_than_the_split(pressure_pa):
    push = edge_reaction(Plate(1200, 800, 3.78, Elastic(71.7e9, 0.22)), pressure_pa)
    load = plate_reaction(push)
    _, (long, short) = build_and_runs(RAIL, PANE, places(PANE, RAIL), load)
    assert 2 * long.push_n() + 2 * short.push_n() == pytest.approx(pressure_pa * 0.96, rel=1e-4)
    split, true = (stand(RAIL, PANE, BEAD, places(PANE, RAIL), load=one) for one in (None, load))
    assert true.short.free.sag_mm > 1.1 * split.short.free.sag_mm * pressure_pa


@settings(max_examples=20, deadline=None)
@given(panes, st.floats(100.0, 6000.0))
def test_the_worse_of_split_and_reaction_is_never_less_than_either_of_them(pane, pressure_pa):
    held = (places(pane, RAIL),)
    edges = edges_of(pane, "EN", pressure_pa, duration_s=5.0)
    both = stand_on_each(RAIL, pane, BEAD, held, edges=edges)[0]
    for load in edges:
        each = stand_on_each(RAIL, pane, BEAD, held, edges=(load,))[0]
        assert both.worse(each) == both
        whole = 2 * np.trapezoid(*np.transpose(load.long)[::-1])
        whole += 2 * np.trapezoid(*np.transpose(load.short)[::-1]) + 4 * load.corner_n
        assert whole == pytest.approx(pane.long_mm * pane.short_mm * 1e-6, rel=1e-3)


def test_a_pane_on_two_sides_lies_on_them_evenly():
    (load,) = edges_of(PANE, "ASCE", 1000.0, duration_s=3.0, sides="two long sides")
    assert load.long == ((0.0, pytest.approx(0.4e-3)), (1200, pytest.approx(0.4e-3)))
    short = stand_on_each(RAIL, PANE, BEAD, (places(PANE, RAIL),), edges=(load,))[0].short
    assert short.corner.force.across_n == pytest.approx(0.0, abs=1e-9)


def test_a_corner_that_is_lifted_takes_load_off_the_brackets():
    held, plain = places(PANE, RAIL), split_at_45(PANE, 1000.0)
    lifted = replace(plain, corner_n=-20.0)
    one, other = (stand(RAIL, PANE, BEAD, held, load=load) for load in (plain, lifted))
    assert one.long.bracket.across_n - other.long.bracket.across_n == pytest.approx(20.0, rel=1e-6)


def test_a_pane_that_holds_lies_between_and_stops_the_rail_sideways():
    frame = stand(RAIL, PANE, BEAD, places(PANE, RAIL))
    assert frame.long.free.sideways_mm > frame.long.bead.sideways_mm > 100 * frame.long.held.sideways_mm
    assert frame.long.free.sag_mm > frame.long.held.sag_mm
    assert frame.long.free.twist_deg > frame.long.held.twist_deg


def test_corners_pass_on_what_the_short_rail_bears():
    """Half of a short rail's load hangs in each of its corners."""
    build, (long, short) = build_and_runs(RAIL, PANE, places(PANE, RAIL))
    stood = stand_quarters(build, ((long.half(), short.half()),), conditions("mitred", BEAD))
    across = corner_forces(stood)[:, 0, :, 2]
    half = short.push_n() / 2
    assert np.abs(across) == pytest.approx(half, rel=1e-6)


def test_a_lapped_corner_does_not_turn_its_rails_a_welded_one_does():
    held = places(PANE, RAIL)
    lapped, welded, mitred = (
        stand(RAIL, PANE, BEAD, held, joint=one) for one in ("lapped", "welded", "mitred")
    )
    assert lapped.long.corner.turn_nmm < 1e-6 * welded.long.corner.turn_nmm
    assert mitred.short.free.sag_mm >= lapped.short.free.sag_mm * (1 - 1e-9)
    assert mitred.short.free.sag_mm > welded.short.free.sag_mm


def test_brackets_not_alike_from_both_ends_are_reckoned_round_the_ring():
    length = outer_mm(PANE.long_mm, RAIL, BEAD)
    even, odd = (200.0, length - 200.0), (200.0, length - 200.001)
    one, other = (stand(RAIL, PANE, BEAD, held) for held in (even, odd))
    assert other.long.free.sag_mm == pytest.approx(one.long.free.sag_mm, rel=1e-2)
    assert other.long.bead.stress_mpa == pytest.approx(one.long.bead.stress_mpa, rel=1e-2)


def test_brackets_on_short_rails_too_hold_them_up():
    held = places(PANE, RAIL)
    middle = (outer_mm(PANE.short_mm, RAIL, BEAD) / 2,)
    bare, held_up = (stand(RAIL, PANE, BEAD, held, short_mm=short) for short in ((), middle))
    assert held_up.short.free.sag_mm < 0.5 * bare.short.free.sag_mm
    assert held_up.short.bracket.across_n > 0 == bare.short.bracket.across_n


def test_a_run_s_load_lies_within_it():
    with pytest.raises(ValueError, match="all within its length"):
        Run(1000.0, ((0.0, 1.0), (1001.0, 1.0)))
    with pytest.raises(ValueError, match="two places"):
        EdgeLoad(((0.0, 1.0),), ((0.0, 1.0), (1.0, 1.0)))


@settings(max_examples=15, deadline=None)
@given(rails, panes, st.integers(2, 4))
def test_what_a_bracket_hands_on_is_the_worst_of_a_free_pane_and_an_elastic_bead(rail, pane, count):
    held = places(pane, rail, count)
    build, runs = build_and_runs(rail, pane, held)
    ways = tuple(way for way in conditions("mitred", BEAD) if way.sideways != "held")
    stood = stand_ring(build, (*runs, *runs), ways)
    worst = np.abs(bracket_forces_n(stood, whole=True))[:, 0, ::2].max(axis=(0, 1, 2))
    side = stand(rail, pane, BEAD, held, load=split_at_45(pane, 1000.0)).long
    assert side.handed.sideways_n == pytest.approx(worst[1], rel=1e-4, abs=1e-6)  # a quarter, a ring
    assert side.bracket.sideways_n >= side.handed.sideways_n * (1 - 1e-9)
    assert side.times(2.0).handed.sideways_n == pytest.approx(2 * side.handed.sideways_n)


def test_a_bracket_that_holds_along_the_rail_lets_nothing_slide():
    build, runs = build_and_runs(RAIL, PANE, places(PANE, RAIL))
    ways = conditions("mitred", BEAD)
    stood = stand_ring(build, (*runs, *runs), ways)
    slide = slides_mm(build, stood)
    for row, way in enumerate(ways):
        assert (slide[row].max() < 1e-9) == way.along
    free = [row for row, way in enumerate(ways) if not way.along and way.sideways != "held"]
    quarter = stand(RAIL, PANE, BEAD, places(PANE, RAIL), load=split_at_45(PANE, 1000.0)).long.slide_mm
    assert 0 < quarter <= slide[free].max()
