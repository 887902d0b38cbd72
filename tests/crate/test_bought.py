"""Wood of a crate as it is bought: every board out of a bar or a sheet of the shelf, joints over wood."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.crate import level
from panewright.crate.amounts import amounts
from panewright.crate.ask import Ask
from panewright.crate.bought import ASKED_MM, CUTTER, SAW, bought, used
from panewright.crate.crated import crated
from panewright.crate.fragility import fragility
from panewright.crate.kept import sheet_mm, sold_as
from panewright.crate.screws import BEARER, FLOOR, LONG, WALL
from panewright.crate.seams import Cuts, Seams, cuts, evenly_mm, loose, reach_mm, seams
from panewright.crate.stack import Panel
from panewright.crate.timber import YARDS, Board
from panewright.order.order import CrateWishes
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
SHEET = (2500.0, 1250.0)


def wood(units="metric"):
    rows = ([row for row in SHELF.sundries if row.part.use == use] for use in ("plywood", "batten"))
    return tuple(row.part for kind in rows for row in SHELF.in_measure(tuple(kind), units))


def ask(panels=3, long_mm=1033.0, short_mm=593.0, units="metric", **wishes):
    foams = tuple(row.part for row in SHELF.foams)
    wish = CrateWishes(
        *(None, None, "on edge", None, 30.0, "ordinary", None, "delicate"),
        *(foams, False, SHELF.carriers),
        wood=wood(units),
    )
    panel = Panel(long_mm, short_mm, 30.0, 21.0, 10.6)
    return Ask(panels, panel, fragility("delicate", 9000.0, 15.0), replace(wish, **wishes), "EUR", units)


@settings(max_examples=25, deadline=None)
@given(
    st.integers(1, 60), st.floats(400.0, 4200.0), st.floats(300.0, 1900.0), st.sampled_from(["metric", "us"])
)
def test_every_board_of_all_crates_comes_out_of_what_is_bought(panels, long_mm, short_mm, units):
    made = crated(ask(panels, max(long_mm, short_mm), min(long_mm, short_mm), units))
    plans = made.bought
    cut = Counter()
    for each in plans:
        for bar in each.bars.bars if each.bars else ():
            taken = sum(piece.length_mm + SAW.kerf_mm for piece in bar.pieces) - SAW.kerf_mm
            assert taken <= bar.bar_mm - 2 * SAW.trim_mm + 1e-6
            cut.update(piece.name for piece in bar.pieces)
        for sheet in each.sheets.sheets if each.sheets else ():
            for one in sheet.panels:
                assert one.at.left_mm + one.at.width_mm <= sheet.sheet.width_mm + 1e-3
                assert one.at.bottom_mm + one.at.height_mm <= sheet.sheet.height_mm + 1e-3
            cut.update(one.panel.name for one in sheet.panels)
        counted = (
            [(bar.bar_mm, 0.0) for bar in each.bars.bars] if each.bars else [],
            [(one.sheet.width_mm, one.sheet.height_mm) for one in each.sheets.sheets] if each.sheets else [],
        )
        sides = Counter(tuple(sorted(pair, reverse=True)) for kind in counted for pair in kind)
        assert sides == Counter({(one.long_mm, one.wide_mm): one.count for one in each.sold})
    asked = sum(one.count for each in plans for one in each.asked)
    boards = Counter()
    for board in made.boards:
        if board.stuff in ("softwood", "plywood"):
            boards[board.name] += board.count * made.crates
    assert sum(boards.values()) == sum(cut.values()) + asked
    assert all(cut[name] <= number for name, number in boards.items())


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 40), st.floats(2300.0, 4200.0), st.floats(300.0, 1500.0))
def test_no_board_of_plywood_is_larger_than_a_sheet_and_its_pieces_add_up(panels, long_mm, short_mm):
    made = crated(ask(panels, long_mm, short_mm))
    long, short = SHEET
    for board in (each for each in made.boards if each.stuff == "plywood"):
        sides = sorted((board.long_mm, board.wide_mm))
        assert sides[1] <= long + 1e-6
        assert sides[0] <= short + 1e-6
    floors = [each for each in made.boards if each.name.startswith("floor and lid")]
    assert sum(each.long_mm for each in floors) == pytest.approx(made.crate.box.along_mm)
    assert not any(each.asked for each in made.bought if each.stuff == "plywood")


def test_sheets_meet_over_a_batten_and_each_has_screws_of_its_own():
    """A facade panel of 2.57 m: floor and lid of 2.63 m, a sheet of 2.5 m."""
    made = crated(ask(6, 2573.0, 437.0))
    whole = crated(ask(6, 2573.0, 437.0, wood=()))
    crate = made.crate
    (lid,), (side,) = crate.seams.lid.along_mm, crate.seams.side.along_mm
    apart = (crate.box.along_mm - crate.lid.wide_mm) / (crate.lid_battens - 1)
    middles = [crate.lid.wide_mm / 2 + number * apart for number in range(crate.lid_battens)]
    assert min(abs(lid - middle) for middle in middles) <= 1.0
    step = (crate.box.along_mm - crate.batten.deep_mm) / (crate.uprights - 1)
    uprights = [crate.batten.deep_mm / 2 + number * step for number in range(crate.uprights)]
    assert min(abs(side - middle) for middle in uprights) <= 1.0
    (under,) = (each for each in made.boards if each.name == level.FLOOR)
    assert under.count == 1
    assert under.long_mm == pytest.approx(crate.box.across_mm - 2 * crate.sill.wide_mm)
    screws = {each.name: each.count for each in made.joints}
    before = {each.name: each.count for each in whole.joints}
    assert sum(screws.values()) > sum(before.values())
    assert screws[f"floor, down into the {level.FLOOR}"] >= 4
    assert whole.crate.seams == Seams()


@pytest.mark.parametrize(
    ("size", "places", "found"),
    [
        ((2633.0, 497.0), (658.0, 1316.0, 1975.0), (1975.0,)),
        ((5200.0, 497.0), (1300.0, 2600.0, 3900.0), (1300.0, 2600.0, 3900.0)),
        ((2499.0, 1249.0), (1200.0,), ()),
        ((2600.0, 2600.0), (1200.0,), ()),
    ],
    ids=["one joint", "three, as the places lie", "one sheet does", "no sheet would"],
)
def test_sheets_are_joined_as_far_out_as_they_reach(size, places, found):
    assert seams(size, places, SHEET) == found


@given(st.floats(100.0, 9000.0), st.floats(50.0, 2500.0))
def test_even_parts_are_as_few_as_sheets_allow(long_mm, wide_mm):
    at = evenly_mm((long_mm, wide_mm), SHEET, YARDS["metric"].down)
    reach = reach_mm(wide_mm, SHEET)
    ends = (0.0, *at, long_mm)
    assert all(later - sooner <= reach + 1.0 for sooner, later in pairwise(ends))
    assert len(at) * reach < long_mm


def test_a_batten_longer_than_any_bar_is_asked_for_by_itself():
    made = bought((Board("sill", "softwood", 4150.0, 45.0, 45.0, 2),), 3, wood())
    assert made[0].sold == ()
    assert [(each.long_mm, each.count) for each in made[0].asked] == [(4200.0, 6)]
    assert made[0].asked[0].long_mm % ASKED_MM == 0


def test_what_the_shelf_sells_by_metre_or_cut_to_size_has_no_plan():
    bare = tuple(replace(each, bars_mm=(), long_mm=0.0, short_mm=0.0) for each in wood())
    made = crated(ask(wood=bare))
    assert made.bought == ()
    assert all(each.sold == () for each in amounts(made.crate, made.crates, made.wood))
    assert sheet_mm(6.0, bare) is None
    assert sold_as(Board("a", "plywood", 1.0, 1.0, 5.0, 1), wood()) is None


def test_a_crate_knows_only_the_wood_that_it_is_cut_from():
    made = crated(ask())
    assert set(made.wood) == set(used(made.boards, wood()))
    assert {each.stuff for each in made.boards} >= {"plywood", "softwood"}
    assert len(made.wood) < len(wood())
    assert CUTTER.kerf_mm == 3.0


@pytest.mark.parametrize("by", ["by hand", "pallet"])
def test_a_crate_on_other_sills_is_what_it_would_be_made_anew(by):
    made = crated(ask(2, 2573.0, 1237.0, way=by)).crate
    for sill in made.yard.sills:
        handed, anew = made.on(sill), replace(made, sill=sill)
        assert (handed.boards, handed.joints) == (anew.boards, anew.joints)
        assert (handed.outside, handed.gross_kg) == (anew.outside, anew.gross_kg)


NARROW = (1200.0, 600.0)


def narrow(units="metric", sides=NARROW):
    """The same wood, its plywood in small sheets."""
    return tuple(
        replace(each, long_mm=sides[0], short_mm=sides[1]) if each.use == "plywood" else each
        for each in wood(units)
    )


def area_mm2(boards, name):
    return sum(
        each.count * each.long_mm * each.wide_mm
        for each in boards
        if each.name == name or each.name.startswith(f"{name}, part")
    )


@settings(max_examples=25, deadline=None)
@given(
    st.integers(1, 20),
    st.floats(900.0, 2600.0),
    st.floats(500.0, 1900.0),
    st.sampled_from(["on edge", "flat"]),
    st.sampled_from(["metric", "us"]),
)
def test_sides_larger_than_a_sheet_both_ways_are_joined_both_ways(panels, long_mm, short_mm, lay, units):
    sides = (max(long_mm, short_mm), min(long_mm, short_mm))
    made = crated(ask(panels, *sides, units, lay=lay, wood=narrow(units)))
    crate, ply = made.crate, [each for each in made.boards if each.stuff == "plywood"]
    for board in ply:
        long, short = sorted((board.long_mm, board.wide_mm), reverse=True)
        assert long <= NARROW[0] + 1e-6
        assert short <= NARROW[1] + 1e-6
    assert not any(each.asked for each in made.bought if each.stuff == "plywood")
    box, room = crate.box, crate.inside
    assert area_mm2(ply, "floor and lid") == pytest.approx(2 * box.along_mm * box.across_mm)
    assert area_mm2(ply, "side") == pytest.approx(2 * box.along_mm * room.up_mm)
    assert area_mm2(ply, "end") == pytest.approx(2 * room.across_mm * room.up_mm)


def test_a_side_of_1439_mm_lies_on_small_sheets_by_hand():
    """Side, floor and end by hand: sheets of 1200 x 600, uprights each 530 mm, batten 20 x 45."""
    made = crated(ask(9, 1573.0, 1383.0, wood=narrow()))
    crate = made.crate
    assert (crate.box.along_mm, crate.inside.up_mm, crate.inside.across_mm) == (1633.0, 1431.0, 552.0)
    assert crate.seams.side == Cuts((551.0, 1081.0), (715.0,))  # 6 pieces; in bands of 477 too
    assert crate.seams.end == Cuts((), (715.0,))
    named = {each.name: each for each in made.boards}
    assert named[level.SIDE].count == 2 * 3  # two sides, three gaps between four uprights
    assert named[level.SIDE].long_mm == pytest.approx((1633.0 - 45.0) / 3 - 45.0, abs=1.0)
    assert named[level.END].count == 2
    assert named[level.END].long_mm == 552.0 + 2 * (6.0 + 20.0) - 2 * 45.0
    whole = crated(ask(9, 1573.0, 1383.0, wood=())).crate
    screws, before = ({each.name: each.count for each in one.joints} for one in (crate, whole))
    rows = 2 * (6 * 4 + 2 * 4)  # two rows of four on each piece between
    assert screws[WALL] - before[WALL] == rows + 2 * 2 * 10  # and a second row of ten on two uprights a side
    assert crate.tare_kg > whole.tare_kg


def test_a_floor_joined_along_it_lies_on_a_sill_more_under_each_joint():
    made = crated(ask(4, 1573.0, 1383.0, lay="flat", wood=narrow()))
    crate, named = made.crate, {each.name: each for each in made.boards}
    assert crate.seams.lid == Cuts((1156.0,), (481.0, 962.0))
    assert named["sill"].count == 4
    assert crate.sill.wide_mm >= level.SEAT_MM
    assert named[level.LID].count == 2 * (crate.lid_battens - 1)
    outer, inner = named[level.FLOOR], named[f"{level.FLOOR}, inner"]
    between = 2 * outer.long_mm + inner.long_mm + 4 * crate.sill.wide_mm
    assert between == pytest.approx(crate.box.across_mm, abs=2.0)
    screws = {each.name: each.count for each in made.joints}
    assert screws[FLOOR] == 6 * 12  # each sheet its own row, each 150 mm of 1673
    assert screws[LONG] == 2 * named[level.LID].count * 2
    assert screws[BEARER] == 2 * 4 * 3


@pytest.mark.parametrize("lay", ["on edge", "flat"])
def test_only_where_battens_stand_further_apart_than_a_sheet_is_long_a_board_is_asked_for(lay):
    made = crated(ask(9, 1573.0, 1383.0, lay=lay, wood=narrow(sides=(500.0, 300.0))))
    assert made.crate.seams.side == Cuts()
    larger = {(each.long_mm, each.wide_mm) for one in made.bought for each in one.asked if not one.wide_mm}
    assert (made.crate.box.along_mm, made.crate.inside.up_mm) in larger


@given(st.floats(100.0, 4000.0), st.floats(50.0, 4000.0))
def test_no_strip_over_a_joint_is_longer_than_a_sheet_or_ends_where_four_boards_meet(long_mm, wide_mm):
    down = YARDS["metric"].down
    made = list(
        loose(Board("board", "plywood", float(int(long_mm)), float(int(wide_mm)), 4.0, 1), NARROW, down)
    )
    at = cuts((float(int(long_mm)), float(int(wide_mm))), NARROW, down)
    assert all(max(each.long_mm, each.wide_mm) <= NARROW[0] + 1e-6 for each in made)
    strips = [each.long_mm for each in made if each.name.startswith("strip over a joint")]
    assert sum(strips) == pytest.approx(float(int(wide_mm)) if at.along_mm else 0.0)
    ends = {round(sum(strips[: number + 1]), 3) for number in range(len(strips) - 1)}
    assert not ends & set(at.across_mm)
