"""Wood of a crate as it is bought: every board out of a bar or a sheet of the shelf, joints over wood."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.crate.amounts import amounts
from panewright.crate.ask import Ask
from panewright.crate.bought import ASKED_MM, CUTTER, SAW, bought, used
from panewright.crate.crated import crated
from panewright.crate.fragility import fragility
from panewright.crate.kept import sheet_mm, sold_as
from panewright.crate.screws import SEAM
from panewright.crate.seams import evenly_mm, reach_mm, seams
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
    (lid,), (side,) = crate.seams.lid_mm, crate.seams.side_mm
    apart = (crate.box.along_mm - crate.lid.wide_mm) / (crate.lid_battens - 1)
    middles = [crate.lid.wide_mm / 2 + number * apart for number in range(crate.lid_battens)]
    assert min(abs(lid - middle) for middle in middles) <= 1.0
    step = (crate.box.along_mm - crate.batten.deep_mm) / (crate.uprights - 1)
    uprights = [crate.batten.deep_mm / 2 + number * step for number in range(crate.uprights)]
    assert min(abs(side - middle) for middle in uprights) <= 1.0
    (under,) = (each for each in made.boards if each.name == SEAM)
    assert under.count == 1
    assert under.long_mm == pytest.approx(crate.box.across_mm - 2 * crate.sill.wide_mm)
    screws = {each.name: each.count for each in made.joints}
    before = {each.name: each.count for each in whole.joints}
    assert sum(screws.values()) > sum(before.values())
    assert screws[f"floor, down into the {SEAM}"] >= 4
    assert whole.crate.seams.lid_mm == ()


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
