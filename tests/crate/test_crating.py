"""Laws of the crate: every panel once, limits kept, heavier never more, sizes that add up."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.crate.ask import Ask
from panewright.crate.crated import crated
from panewright.crate.crating import loads, most_in_crate, way, ways
from panewright.crate.fragility import fragility
from panewright.crate.reasons import sizes
from panewright.crate.screws import WALL
from panewright.crate.stack import Panel
from panewright.crate.timber import WOOD_MPA
from panewright.order.order import CrateWishes
from panewright.shelf.carriage import Band, Carrier
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
WISH = CrateWishes(
    by=None,
    way=None,
    lay="on edge",
    most_panels=None,
    most_kg=30.0,
    handling="ordinary",
    drop_mm=None,
    fragility="delicate",
    foams=tuple(row.part for row in SHELF.foams),
    border=False,
    carriers=SHELF.carriers,
    wood=tuple(
        row.part
        for use in ("plywood", "batten")
        for row in SHELF.in_measure(tuple(row for row in SHELF.sundries if row.part.use == use), "metric")
    ),
)


def ask(panels=3, long_mm=1033.0, short_mm=593.0, mass_kg=10.6, **wish) -> Ask:
    panel = Panel(long_mm, short_mm, 30.0, 21.0, mass_kg)
    return Ask(panels, panel, fragility("delicate", 9000.0, 15.0), replace(WISH, **wish), "EUR")


asks = st.builds(
    ask,
    st.integers(1, 1000),
    st.floats(700.0, 2000.0),
    st.floats(300.0, 700.0),
    st.floats(3.0, 40.0),
    lay=st.sampled_from(["on edge", "flat"]),
    handling=st.sampled_from(["careful", "ordinary", "rough"]),
)


@given(st.integers(1, 1000), st.integers(1, 1000))
def test_every_panel_is_in_one_crate(panels, crates):
    assume(crates <= panels)
    told = loads(panels, crates)
    assert sum(held * count for held, count in told) == panels
    assert sum(count for _, count in told) == crates
    assert all(held >= 1 for held, _ in told)
    assert max(held for held, _ in told) - min(held for held, _ in told) <= 1


@settings(max_examples=25)
@given(asks)
def test_an_order_is_crated_whole_and_what_is_taken_keeps_the_carriers_limits(asked):
    made = crated(asked)
    assert sum(held * count for held, count in made.loads) == asked.panels
    assert sum(count for _, count in made.loads) == made.crates
    if made.taken is None:
        assert not made.proven
        return
    carrier, out = made.taken.carrier, made.outside
    assert out.sides_mm[0] <= carrier.longest_mm
    assert carrier.girth_mm is None or out.girth_mm <= carrier.girth_mm
    assert made.gross_kg <= carrier.most_kg
    assert made.taken.billed_kg == pytest.approx(max(made.gross_kg, out.volume_cm3 / carrier.divisor_cm3_kg))
    assert made.by_hand or carrier.kind == "freight"


def test_outside_sizes_in_inches_have_whole_millimetres_beside():
    crate = crated(replace(ask(), units="us"))
    told = sizes(crate.outside, "us")
    assert re.fullmatch(r"(\d+( \d+/\d+)?\u2009in \(\d+\u2009mm\)( × )?){3}", told), told


@given(st.floats(0.5, 200.0), st.floats(1.0, 4.0), st.sampled_from(["by hand", "pallet"]))
def test_a_heavier_panel_never_stands_with_more_in_a_crate(mass, times, carried):
    heavy, light = (most_in_crate(each, "on edge", carried, 30.0) for each in (times * mass, mass))
    assert heavy <= light


@settings(max_examples=20)
@given(asks)
def test_no_way_that_was_tried_and_keeps_its_rules_costs_less(asked):
    found = ways(asked)
    best = found[0]
    sound = [each for each in found if not each.fails and each.price is not None]
    if sound:
        assert not best.fails
        assert best.price == min(each.price for each in sound)


@settings(max_examples=20)
@given(asks, st.sampled_from(["by hand", "pallet"]))
def test_a_crate_is_as_large_outside_as_its_parts_make_it(asked, carried):
    crate = way(asked, carried, asked.panels).crate
    stack, face, edge, end = crate.stack, *(crate.cushion(side) for side in ("face", "edge", "end"))
    across, up = (face, edge) if stack.lay == "on edge" else (edge, face)
    spare = (
        crate.inside.along_mm - (stack.panel.long_mm + 8.0 + 2 * end.thickness_mm),
        crate.inside.across_mm - (stack.across_mm + 2 * across.thickness_mm),
        crate.inside.up_mm - (stack.up_mm + 2 * up.thickness_mm),
    )
    assert all(-1e-5 <= each < 1.0 for each in spare)  # to whole millimetres
    assert crate.outside.along_mm == pytest.approx(
        crate.inside.along_mm + 2 * (crate.ply_mm + crate.batten.wide_mm)
    )
    named = {board.name: board for board in crate.boards}
    walls = 2 * crate.ply_mm
    assert named["floor and lid"].long_mm == pytest.approx(named["side"].long_mm)
    assert named["end"].wide_mm + walls == pytest.approx(crate.box.up_mm)
    assert named["end"].long_mm + walls == pytest.approx(named["floor and lid"].wide_mm)
    assert crate.gross_kg == pytest.approx(
        stack.panel.mass_kg
        + sum(board.mass_kg(_foam_kg_m3(crate)) for board in crate.boards)
        + sum(joint.count * joint.screw.mass_kg for joint in crate.joints)
    )


@settings(max_examples=25)
@given(asks, st.sampled_from(["metric", "us"]), st.sampled_from(["by hand", "pallet"]))
def test_everything_is_cut_to_whole_steps_of_a_rule_and_foam_is_proved_as_it_is_cut(asked, units, carried):
    crate = way(replace(asked, units=units), carried, asked.panels).crate
    step = 1.0 if units == "metric" else 25.4 / 16
    shown = [board for board in crate.boards if board.stuff != "softwood"]
    for board in shown:
        for side in (board.long_mm, board.wide_mm):
            assert side / step == pytest.approx(round(side / step), abs=1e-6), board
    pads = [board for board in crate.boards if board.name.startswith("pad ")]
    for board, cushion in zip(pads, crate.cushions, strict=True):
        assert board.count == 2 * cushion.pads
        assert cushion.area_mm2 == pytest.approx(cushion.pads * board.long_mm * board.wide_mm)
        assert cushion.area_mm2 <= cushion.asked.room_mm2 * (1 + 1e-9)


def _foam_kg_m3(crate) -> float:
    return max(cushion.foam.density_kg_m3 for cushion in crate.cushions)


def test_a_panel_that_two_cannot_lift_goes_on_a_pallet_by_freight():
    made = crated(ask(panels=2, mass_kg=34.0, long_mm=1683.0, short_mm=887.0))
    assert not made.by_hand
    assert made.taken is not None
    assert made.taken.carrier.kind == "freight"
    assert made.people == 0
    assert "moved by hand" in made.reason


def test_pins_of_the_order_are_kept():
    assert crated(ask(panels=6, way="pallet")).by_hand is False
    assert crated(ask(panels=6, most_panels=2)).loads[0][0] <= 2
    assert crated(ask(panels=2, by="freight")).taken.carrier.kind == "freight"
    assert {each.fall_mm for each in crated(ask(drop_mm=333.0)).padding} == {333.0}
    only = SHELF.foams[0].part
    assert {each.foam for each in crated(ask(foams=(only,))).padding} == {only.name}


def test_careful_handling_never_takes_more_foam_than_rough():
    thick = [
        [each.thickness_mm for each in crated(ask(panels=1, way="by hand", handling=handling)).padding]
        for handling in ("careful", "ordinary", "rough")
    ]
    assert all(one <= other for rows in zip(*thick, strict=True) for one, other in pairwise(rows))
    assert thick[0] != thick[2]


def test_no_carrier_is_a_rule_that_fails_and_names_the_nearest():
    tiny = Carrier("Tiny", "parcel", 300.0, None, 5.0, 5000.0, (Band(5.0, Decimal(4)),), "EUR", "trial")
    made = crated(ask(carriers=(tiny,)))
    assert made.taken is None
    assert [check.rule for check in made.checks if not check.passed] == ["crate within a carrier's limits"]
    assert made.reason.startswith("No carrier of the shelf takes")
    assert "Tiny" in made.reason
    without = crated(ask(carriers=()))
    assert not without.proven
    assert without.checks[-1].limit is None


def test_a_carrier_in_another_currency_stands_behind_and_is_told():
    foreign = replace(SHELF.carriers[2], name="Abroad", currency="SEK", bands=(Band(5000.0, Decimal(1)),))
    both = crated(ask(panels=8, way="pallet", carriers=(foreign, SHELF.carriers[2])))
    assert both.taken.carrier.currency == "EUR"
    assert any("SEK" in note for note in both.notes)
    alone = crated(ask(panels=8, way="pallet", carriers=(foreign,)))
    assert alone.taken.carrier.name == "Abroad"


def test_volume_is_charged_where_it_is_more_than_mass():
    made = crated(ask(panels=1, mass_kg=3.0))
    offers = {each.carrier.name: each for each in made.offers}
    freight = offers["Invented Freight, part load"]
    assert freight.dimensional_kg == pytest.approx(made.outside.volume_cm3 / 3000.0)
    assert freight.billed_kg == max(made.gross_kg, freight.dimensional_kg)


def test_a_border_asks_for_treated_wood():
    assert "56 °C" in crated(ask(border=True)).notes[0]
    assert crated(ask()).notes[0].startswith("Sent at home")


def test_a_thousand_panels_are_crated():
    made = crated(ask(panels=1000, mass_kg=10.6))
    assert made.proven
    assert sum(held * count for held, count in made.loads) == 1000


def test_the_length_plus_girth_of_a_crate_counts_the_longest_side_once():
    room = crated(ask()).outside
    sides = sorted((room.along_mm, room.across_mm, room.up_mm))
    assert room.girth_mm == pytest.approx(sides[2] + 2 * (sides[0] + sides[1]))


@pytest.mark.parametrize("wrong", [lambda: loads(3, 4), lambda: loads(3, 0), lambda: ask(panels=0)])
def test_our_own_mistakes_are_refused(wrong):
    with pytest.raises(ValueError, match=r"panel"):
        wrong()


@pytest.mark.parametrize("panels", [1, 4, 12, 24])
def test_the_first_sill_that_bears_is_taken(panels):
    crate = way(ask(panels=panels, mass_kg=22.0, long_mm=1900.0), "pallet", 1).crate
    assert crate.sill_mpa <= WOOD_MPA
    lighter = [each for each in crate.yard.sills if each.modulus_mm3 < crate.sill.modulus_mm3]
    span, weight = crate.outside.along_mm, crate.gross_kg * 9.80665
    assert all(2 * weight * span / 8 / 2 / each.modulus_mm3 > WOOD_MPA * 0.98 for each in lighter)


def test_a_pallet_leaned_by_22_degrees_stands():
    crate = way(ask(panels=1, short_mm=690.0, long_mm=900.0), "pallet", 1).crate
    middle = crate.foot_mm + crate.box.up_mm / 2
    assert crate.outside.across_mm / 2 >= middle * 0.404  # tan 22 degrees


def test_a_charge_is_taken_before_none():
    bare = replace(SHELF.carriers[2], name="Silent", bands=())
    both = crated(ask(panels=8, way="pallet", carriers=(bare, SHELF.carriers[2])))
    assert both.taken.carrier.name == SHELF.carriers[2].name
    alone = crated(ask(panels=8, way="pallet", carriers=(bare,)))
    assert alone.proven
    assert alone.price is None
    assert "carriage to be asked" in alone.reason


@pytest.mark.parametrize("carried", ["by hand", "pallet"])
@pytest.mark.parametrize("panels", [1, 6, 20])
def test_each_joint_is_screwed_once_along_its_batten(carried, panels):
    crate = way(ask(panels), carried, 1).crate
    named = [joint.name for joint in crate.joints]
    assert len(named) == len(set(named)) >= 7
    assert crate.screws == sum(joint.count for joint in crate.joints)
    walls = next(joint for joint in crate.joints if joint.name == WALL)
    battens = [b for b in crate.boards if "batten" in b.name and "lid" not in b.name]
    assert walls.count >= sum(batten.count * batten.long_mm / 150.0 for batten in battens)
    assert not walls.skewed


def test_a_light_panel_stands_on_one_pad_where_two_would_be_too_stiff():
    light = way(ask(1, 605.0, 335.0, 4.34), "by hand", 1)
    assert not light.fails
    assert light.taken.carrier.kind == "parcel"
    assert [light.crate.cushion(side).pads for side in ("face", "end")][1] == 1
    (end,) = [board for board in light.crate.boards if board.name == "pad at an end"]
    assert end.count == 2  # one at either end
    heavy = way(ask(3, 1700.0, 900.0, 20.0), "pallet", 1).crate
    assert heavy.cushion("end").pads == 2


def test_where_no_foam_does_only_the_shock_is_too_much_not_what_was_cut_off_its_pads():
    """A light panel of so narrow a stack: pads as small as can be are still too stiff."""
    asked = replace(ask(1, 605.0, 335.0, 4.34), fragility=fragility("very delicate", None, 0.0))
    for each in ways(asked):
        for cushion in each.crate.cushions:
            assert cushion.bears, cushion


def test_sills_too_deep_for_any_screw_are_skewed_to_their_bearers():
    heavy = way(ask(20, 2000.0, 1100.0, 40.0), "pallet", 1).crate
    joint = heavy.joints[0]
    assert heavy.sill.deep_mm > 100.0
    assert joint.skewed
    assert joint.count == 2 * 2 * 3 * 2  # two each crossing, from either side


def test_what_the_customer_fetches_asks_no_carrier():
    """A crate that is fetched was told as too large for every carrier."""
    found = crated(ask(by="collected"))
    crates, carriers = found.weighed
    at = crates.columns.index("Carrier")
    assert {row[at] for row in crates.rows} == {"the customer"}
    assert carriers.why == "The customer fetches it: no carrier is asked."
