"""Laws of a rail that grows along its brackets, and of the slots it gets."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.heat import Temperatures
from panewright.frame.joining.bolt import M6, bearing_limit_n
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.drilling.frame_plan import plan_frame
from panewright.structure.drilling.mount import Hold, Mount
from panewright.structure.drilling.slots import (
    LONGEST_MM,
    Growth,
    Slots,
    fixed_place_mm,
    judge_slots,
    slots_for,
    strain_of,
)
from panewright.structure.handling import hole_checks
from panewright.structure.rails.rails import Brackets, brackets_at

RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
PANE = Pane(1600, 1000, GLASS)
BEAD = Bead(Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
PLACE = Mount("upright", 20.0, 18.0)
HEAT = Temperatures(80, 60, 70, 80, 40, -25, 20, (), cold_frame_c=-24)
places = st.lists(st.floats(100, 3000), min_size=2, max_size=5, unique=True).map(
    lambda all_: tuple(sorted(all_))
)
growths = st.builds(Growth, st.floats(0, 0.002), st.floats(0, 0.5))


def test_a_metre_and_a_half_of_aluminium_grows_by_two_millimetres_in_60_kelvin():
    """23.4e-6 x 60 K x 1500 mm = 2.106 mm (arithmetic)."""
    assert 1500 * strain_of("6063-T6", HEAT, "steel") == pytest.approx(2.106)


def test_the_farther_of_heat_and_cold_counts_and_timber_may_shrink_against_it():
    colder = replace(HEAT, cold_frame_c=-50.0)
    assert strain_of("6063-T6", colder, "post") == pytest.approx(23.4e-6 * 70)
    for on in ("timber", "by others"):
        assert strain_of("6063-T6", HEAT, on) == pytest.approx(23.4e-6 * 60 + 5e-4)


def test_round_holes_remain_where_their_play_does():
    """Half of 400 mm by 0.0014 is 0.28 of 0.3 mm."""
    found = slots_for((100.0, 500.0), 100.0, Growth(0.0014))
    assert (found.travel_mm, found.long_mm, found.room_mm) == (
        pytest.approx(0.28),
        (0.0, 0.0),
        pytest.approx(0.3),
    )
    assert not found.slotted


def test_all_but_one_are_slotted_alike_where_it_does_not():
    """From the middle 600 mm by 0.0014, 0.84 mm, and twice 0.1 of slide: 2 x (1.04 - 0.3) + 1, up to 3."""
    found = slots_for((200.0, 800.0, 1400.0), 800.0, Growth(0.0014, 0.1))
    assert found.long_mm == (3.0, 0.0, 3.0)
    assert found.travel_mm == pytest.approx(1.04)
    assert found.room_mm == pytest.approx(0.3 + 1.0)


@given(places, growths)
def test_a_bolt_never_meets_the_end_of_its_slot_unless_told(places_mm, growth):
    found = slots_for(places_mm, fixed_place_mm(places_mm, 3200.0), growth)
    moves = judge_slots(RAIL, PLACE, Hold(0.0, 0.0), found, "EN")[0]
    assert found.travel_mm >= growth.slide_mm
    assert max(found.long_mm) + M6.hole_mm <= LONGEST_MM
    longest = max(found.long_mm) == math.floor(LONGEST_MM - M6.hole_mm)
    assert moves.passed or longest
    if found.slotted:
        assert found.long_mm.count(0.0) == 1


@given(places, growths, st.floats(1, 3))
def test_more_growth_never_asks_for_less(places_mm, growth, factor):
    fixed = fixed_place_mm(places_mm, 3200.0)
    less = slots_for(places_mm, fixed, growth)
    more = slots_for(places_mm, fixed, replace(growth, strain=factor * growth.strain))
    assert more.travel_mm >= less.travel_mm * (1 - 1e-12)
    assert max(more.long_mm) >= max(less.long_mm)


def test_a_rail_too_long_for_any_slot_is_told():
    check = judge_slots(RAIL, PLACE, Hold(0, 0), slots_for((100.0, 5900.0), 100.0, Growth(0.0014)), "EN")[0]
    assert not check.passed
    assert "middle" in check.cure


@pytest.mark.parametrize(("family", "share"), [("EN", 0.6), ("ASCE", 0.665)])
def test_across_a_slot_the_wall_bears_less(family, share):
    slots = Slots(1.0, (0.0, 3.0))
    _, pushed, pulled = judge_slots(RAIL, PLACE, Hold(500.0, 300.0), slots, family)
    assert (pushed.demand, pulled.demand) == (500.0, 300.0)
    assert pushed.limit == pytest.approx(share * bearing_limit_n(RAIL, M6, 18.0, family))
    whole = 0.6 * 1.6 * math.pi * 6 * 3.175 * (195 / 1.25 if family == "EN" else 207 / 1.95)
    # a slot of 6.6 mm takes an arc of 86.9 degrees out of a ring of 9.6 mm, on both sides
    assert pulled.limit == pytest.approx(whole * (1 - 2 * 86.87 / 360), rel=1e-3)


def test_an_alloy_that_the_family_does_not_list_has_no_slot():
    strange = replace(RAIL, alloy="6060-T66")
    checks = judge_slots(strange, PLACE, Hold(1.0, 1.0), Slots(1.0, (0.0, 3.0)), "ASCE")
    assert [check.covered for check in checks] == [True, False, False]


def fixed_levels(plan):
    """Where each long rail is held, from the frame's lower or left edge."""
    found = []
    for number, piece in enumerate(plan.pieces):
        held = [hole for hole in piece.holes if hole.purpose == "bracket"]
        for hole in held:
            if not hole.slot_mm and any(other.slot_mm for other in held):
                found.append(hole.along_mm if number < 2 else piece.length_mm - hole.along_mm)
    return found


@pytest.mark.parametrize("upright", [True, False])
@pytest.mark.parametrize("brackets", [Brackets(2, 300.0), Brackets(3, 200.0), Brackets(4, 150.0)])
def test_both_rails_are_fixed_at_the_same_level(brackets, upright):
    plan = plan_frame(PANE, BEAD, RAIL, brackets, upright=upright, growth=Growth(0.0014))
    first, second = fixed_levels(plan)
    assert first == pytest.approx(second)
    assert plan.fixed_brackets == 2
    assert plan.holes("bracket") == 2 * brackets.count
    assert all(check.passed for check in hole_checks(plan))


def test_brackets_out_of_line_are_fixed_as_level_as_they_can_be():
    plan = plan_frame(PANE, BEAD, RAIL, brackets_at((150.0, 700.0, 1300.0), 1616.35), growth=Growth(0.0014))
    first, second = fixed_levels(plan)
    assert first == pytest.approx(700.0)
    assert second == pytest.approx(1616.35 - 700.0)


def test_slots_keep_their_ends_apart_from_other_holes():
    brackets = brackets_at((65.0, 1500.0), 1616.35)
    still, grown = (plan_frame(PANE, BEAD, RAIL, brackets, growth=Growth(g)) for g in (0.0, 0.0025))
    assert grown.slot_mm > 0
    assert hole_checks(grown)[0].limit < hole_checks(still)[0].limit
