"""A plan made, kept and read back as it was; what lies in the shop is read out of the records."""

from __future__ import annotations

import json
import re
import shutil
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from panewright import desk
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw
from panewright.cutting.sheets.sheet import Sheet
from panewright.desk.shop.shop import Shop
from panewright.desk.shop.who import Who
from panewright.desk.stores import (
    cut_by_command,
    cut_papers,
    cut_pictures,
    cut_plan,
    cut_rows,
    cut_shown,
    cut_ticked,
    cutting,
)
from panewright.desk.stores.plainly import read
from panewright.desk.stores.racks import sources
from panewright.drawing.sheet import Caution, Table
from panewright.errors import RecordError
from panewright.ledger.stores import cuts
from panewright.ledger.stores.lots import Lot, save_lot
from panewright.ledger.stores.stock import Movement, Remnant, stock
from panewright.pack.pages import caution
from panewright.pack.pages.cut_list import in_all, taken
from panewright.pack.pages.cutting import cutting_book, cutting_listing
from panewright.paper.record import json_bytes
from panewright.price.buying.cuts_together import Tools
from panewright.price.money import amount
from panewright.units import MM, show

EXAMPLES = Path(__file__).parents[3] / "examples"
NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
RAIL, TAB = "angle 50 x 50 x 4 mm", "1.5 x 0.2 mm"


def who(tap: str = "") -> Who:
    return Who("Ann", NOON, tap)


@cache
def text() -> str:
    """Of the jetty, with a front that may be cut."""
    return (EXAMPLES / "jetty.toml").read_text("utf-8")


@pytest.fixture
def shop(tmp_path, empty_shop):
    shutil.copytree(empty_shop, tmp_path / "shop")
    opened = Shop.open(tmp_path / "shop")
    opened.take_order(text(), who())
    yield opened
    opened.close()


def came(shop, item, many, unit, lot=""):
    shop.move(Movement(item, Decimal(many), unit, "received", lot), who())


def plan_of(shop, *, buys=True):
    keys = frozenset(map(cut_plan.key_of, sources(shop.ledger)))
    told = cutting.job(shop.ledger, ("JL-7",), keys, cutting.tools_now(shop.ledger), buys=buys)
    return cutting.planned(told)


def test_bars_spools_and_pieces_are_found_and_nothing_else(shop):
    save_lot(shop.ledger, "R1", Lot("ribbon", TAB, "metre"), seen=0, by="Ann", at=NOON)
    came(shop, RAIL, 3, "bar")
    came(shop, RAIL, 7, "kg")
    came(shop, TAB, "88.5", "metre", "R1")
    came(shop, "flux", 2, "pen")
    for piece in (
        Remnant("P1", RAIL, 2400.0),
        Remnant("P2", TAB, 5000.0),
        Remnant("G1", "4 mm low-iron float", 900.0, 700.0),
        Remnant("G2", "4 mm low-iron tempered", 900.0, 700.0),
    ):
        shop.keep_remnant(piece, who())
    found = {(each.form, each.key): each for each in sources(shop.ledger)}
    assert set(found) == {
        ("bar", "from stock"),
        ("bar", "piece P1"),
        ("spool", "spool, lot R1"),
        ("spool", "piece P2"),
        ("sheet", "piece G1"),
    }
    assert (found["bar", "from stock"].have, found["bar", "from stock"].length_mm) == (3, 6000.0)
    assert found["spool", "spool, lot R1"].length_mm == 88_500.0
    assert found["bar", "piece P1"].begun
    assert not found["bar", "from stock"].begun


def test_a_plan_kept_comes_back_as_it_was(shop):
    came(shop, RAIL, 2, "bar")
    came(shop, TAB, 300, "metre")
    plan = plan_of(shop)
    number = cutting.keep(shop.ledger, plan, who())
    assert cutting.kept(shop.ledger, number).plan == plan
    assert cut_papers.words(plan) == cut_papers.words(cutting.kept(shop.ledger, number).plan)


@pytest.mark.parametrize(
    "record",
    [
        Piece("rail", 840.0, 2, 1, "A"),
        Bar(6000.0, Decimal("31.00"), None, "x"),
        Sheet(900.0, 700.0, None, 3, remnant=True),
        Tools(saw=Saw(2.0, 0.0, clamp_mm=40.0)),
    ],
)
def test_records_come_back_out_of_plain_text(record):
    assert read(type(record), json.loads(json_bytes(record))) == record


def test_a_plan_begins_with_what_it_takes_in_all_and_its_money(shop):
    came(shop, RAIL, 1, "bar")
    plan = plan_of(shop)
    sheets = cut_papers.sheets_of(0, plan, {})
    found = taken(sheets)
    assert sum(each.number for each in found) == len(cutting.rows(plan))
    assert {each.place for each in found if each.item == RAIL} >= {"from stock"}
    cost = sum(each.price * each.number for each in found if not each.place)
    assert f"To buy in all: {amount(cost, plan.currency)}." == in_all(sheets)
    words = cut_papers.words(plan)
    assert in_all(sheets).replace("\u2009", " ") in words
    first = cutting_book(sheets).pages[0]
    assert first.title == "What it takes in all"
    rows = [row for block in first.blocks if isinstance(block, Table) for row in block.rows]
    assert len(rows) == len(found)


def test_a_rest_of_a_plan_that_is_not_kept_goes_back_without_a_mark(shop):
    sheets = cut_papers.sheets_of(0, plan_of(shop), {})
    rests = [rest for row in sheets.rows for rest in row.rests]
    assert rests
    assert {mark for mark, _, _ in rests} == {""}


def test_what_is_no_record_is_refused():
    for wrong in ({}, [], None, {"name": 1, "length_mm": 2, "quantity": 1}, {"name": "a", "length_mm": "b"}):
        with pytest.raises(ValueError, match="no Piece"):
            read(Piece, wrong)


def test_ribbon_drawn_off_a_spool_leaves_so_much_less_on_it(shop):
    came(shop, TAB, 300, "metre")
    plan = plan_of(shop)
    number = cutting.keep(shop.ledger, plan, who())
    row = next(each for each in cut_rows.rows(plan) if each.form == "spool")
    assert cut_ticked.tick(shop.ledger, number, row.number, who()) == ()  # the spool keeps its own mark
    assert cut_ticked.marks(cutting.kept(shop.ledger, number), row) == ()
    (left,) = stock(shop.ledger, item=TAB)
    taken = row.cut.cut_mm + row.cut.lost_mm
    assert float(left.amount) * 1000 == pytest.approx(300_000 - taken, abs=0.001)
    assert float(left.amount) * 1000 == pytest.approx(row.cut.left_mm, abs=0.001)
    again = plan_of(shop)
    assert TAB not in dict(again.together.spools)  # the tabs lie cut
    cut_ticked.untick(shop.ledger, number, row.number, who())
    assert stock(shop.ledger, item=TAB)[0].amount == 300


SHEET = "4 mm clear annealed"


def test_fronts_are_cut_from_a_sheet_and_both_rests_get_marks(tmp_path):
    shop = Shop.open(tmp_path / "other")
    shop.take_order(glazed(), who())
    shop.keep_remnant(Remnant("G1", SHEET, 3210.0, 2250.0), who())
    shop.keep_remnant(Remnant("G2", SHEET, 3210.0, 2250.0), who())
    plan = plan_of(shop)
    number = cutting.keep(shop.ledger, plan, who())
    found = cutting.kept(shop.ledger, number)
    assert found.plan == plan
    sheets = [row for row in found.rows if row.form == "sheet"]
    assert sum(each.count for row in sheets for each in row.pieces) == 4
    rests = [cut_ticked.tick(shop.ledger, number, row.number, who()) for row in sheets]
    assert all(each.width_mm for made in rests for each in made)
    assert {each.mark for made in rests for each in made} == {
        mark for row in sheets for mark in cut_ticked.marks(found, row)
    }
    shown = cut_shown.shown(cutting.kept(shop.ledger, number))
    (part,) = [each for each in shown.parts if each.item == SHEET]
    assert all(row.steps and row.picture and row.done for row in part.rows)
    assert not plan_of(shop).together.sheets
    shop.close()


def glazed() -> str:
    """The jetty with a front that may be cut."""
    lines = [line for line in text().splitlines() if not line.startswith("glass =")]
    at = lines.index("[parts]") + 1
    return "\n".join([*lines[:at], f'glass = "{SHEET}"', *lines[at:]])


def test_every_row_ticked_leaves_nothing_to_cut_and_no_stock_below_zero(shop):
    came(shop, RAIL, 9, "bar")
    number = cutting.keep(shop.ledger, plan_of(shop, buys=False), who())
    found = cutting.kept(shop.ledger, number)
    for row in found.rows:
        rests = cut_ticked.tick(shop.ledger, number, row.number, who())
        assert [each.mark for each in rests] == [
            mark for mark in cut_ticked.marks(found, row) if row.source.form == "bar"
        ]
    assert not plan_of(shop, buys=False).together.bars
    assert all(each.amount >= 0 for each in stock(shop.ledger))
    shown = cut_shown.shown(cutting.kept(shop.ledger, number))
    assert shown.left == 0
    with pytest.raises(RecordError, match="no such row"):
        cut_ticked.tick(shop.ledger, number, 99, who())


def pieces_of(rows):
    """Pieces of these rows, by all that tells them apart."""
    found = Counter()
    for row in rows:
        for each in row.pieces:
            found[each.order, each.item, each.name, each.length_mm] += each.count
    return found


def test_a_row_that_was_cut_stays_cut_when_the_shop_opens_again_and_the_plan_is_made_anew(shop):
    came(shop, RAIL, 9, "bar")
    number = cutting.keep(shop.ledger, plan_of(shop, buys=False), who())
    whole = cutting.kept(shop.ledger, number)
    first = next(row for row in whole.rows if row.source.form == "bar")
    cut_ticked.tick(shop.ledger, number, first.number, who())
    folder = shop.folder
    shop.close()
    again = Shop.open(folder)
    try:
        anew = cutting.keep(again.ledger, plan_of(again, buys=False), who())
        left = cutting.kept(again.ledger, anew)
        assert pieces_of(left.rows) + pieces_of([first]) == pieces_of(whole.rows)
        shown = cut_shown.shown(cutting.kept(again.ledger, number))
        done = {row.number for part in shown.parts for row in part.rows if row.done}
        assert done == {first.number}
        assert shown.left == len(whole.rows) - 1
        with pytest.raises(RecordError, match="has ticked it already"):
            cut_ticked.tick(again.ledger, number, first.number, who())
    finally:
        again.close()


def test_what_another_plan_has_cut_meanwhile_is_not_cut_once_more(shop):
    came(shop, RAIL, 19, "bar")
    one, two = (cutting.keep(shop.ledger, plan_of(shop, buys=False), who()) for _ in range(2))
    bars = [row for row in cutting.kept(shop.ledger, one).rows if row.source.form == "bar"]
    cut_ticked.tick(shop.ledger, one, bars[0].number, who())
    for row in bars[1:]:
        cut_ticked.tick(shop.ledger, two, row.number, who())  # what is still to cut, by the other plan
    there = stock(shop.ledger)
    with pytest.raises(RecordError, match=r"Another plan has cut .* meanwhile"):
        cut_ticked.tick(shop.ledger, two, bars[0].number, who())
    assert stock(shop.ledger) == there
    cut_ticked.untick(shop.ledger, one, bars[0].number, who())
    cut_ticked.tick(shop.ledger, two, bars[0].number, who())


def test_of_two_who_tick_the_same_pieces_at_once_only_one_cuts_them(shop, monkeypatch):
    came(shop, RAIL, 19, "bar")
    one, two = (cutting.keep(shop.ledger, plan_of(shop, buys=False), who()) for _ in range(2))
    bars = [row for row in cutting.kept(shop.ledger, one).rows if row.source.form == "bar"]
    for row in bars[1:]:
        cut_ticked.tick(shop.ledger, two, row.number, who())
    write = cuts.cut

    def another_first(*what, **told):
        """Between what the second tablet has read and what it writes, the first one writes."""
        monkeypatch.undo()
        cut_ticked.tick(shop.ledger, one, bars[0].number, who())
        write(*what, **told)

    monkeypatch.setattr(cuts, "cut", another_first)
    before = {(each.item, each.lot): each.amount for each in stock(shop.ledger)}
    with pytest.raises(RecordError, match=r"Another plan has cut .* meanwhile"):
        cut_ticked.tick(shop.ledger, two, bars[0].number, who())
    after = {(each.item, each.lot): each.amount for each in stock(shop.ledger)}
    assert {key: before[key] - after[key] for key in before if before[key] != after[key]} == {(RAIL, ""): 1}
    assert sum(each.count for each in cuts.pieces_cut(shop.ledger)) == sum(
        each.count for row in bars for each in row.pieces
    )


def test_a_plan_says_first_what_is_not_proven_and_what_stays_on_every_spool():
    bath = (EXAMPLES / "bathhouse.toml").read_bytes()
    made = cut_by_command.plan([("b.toml", bath)], None, str, buys_sheets=True)
    assert made.unproven == ("BF-3",)
    assert not cut_by_command.sure(made)
    said = cut_papers.words(made)
    revision = desk.design(bath, "b.toml").design.revision
    assert said.startswith("NOT PROVEN: BF-3.")
    assert f"\nCut for BF-3 revision {revision}.\n" in said
    sheets = cut_papers.sheets_of(0, made, {})
    book, listing = cutting_book(sheets), cutting_listing(sheets)
    assert {row[3:5] for row in listing.rows} == {("BF-3", revision)}
    assert f"BF-3 revision {revision}" in str(book.pages[0])
    for page in book.pages[1:]:
        (table,) = [
            each for each in page.blocks if isinstance(each, Table) and "Order, revision" in each.columns
        ]
        assert {row[4] for row in table.rows} == {f"BF-3 {revision}"}
    assert book.stamp == "NOT PROVEN"
    assert {row[-1] for row in listing.rows} == {"no"}
    assert "NOT PROVEN: BF-3." in str(book.pages[0])
    us = repr(cutting_book(replace(sheets, units="us")))
    assert repr("64 9/32\u2009in")[1:-1] in us
    assert "1633.0 mm" not in us
    words = [block.words for page in book.pages for block in page.blocks if isinstance(block, Caution)]
    assert caution.PLASTIC in words
    assert caution.GLASS_EDGE not in words
    spools = [row.cut.left_mm for row in cutting.rows(made) if row.form == "spool"]
    told = [f"{show(left * MM, 'm')} stays on it".replace("\u2009", " ") for left in spools if left]
    assert told
    backs = {row[-2] for row in listing.rows}
    assert all(each in said and each in backs for each in told)
    assert "nothing" not in backs


def test_two_plans_are_told_apart_by_what_is_in_them(shop):
    came(shop, RAIL, 2, "bar")
    one, two = plan_of(shop), plan_of(shop, buys=False)
    names = {cutting_book(cut_papers.sheets_of(0, each, {})).revision for each in (one, two, one)}
    assert len(names) == 2
    assert all(re.fullmatch("[A-Z2-7]{8}", name) for name in names)


def test_the_saw_of_the_last_plan_is_the_shops_own(shop):
    tools = cut_shown.tools_of(
        {"kerf": "1/8 in", "clamp": "40 mm", "trim": ""}, cutting.tools_now(shop.ledger)
    )
    assert (tools.saw.kerf_mm, tools.saw.clamp_mm, tools.saw.trim_mm) == (3.175, 40.0, 5.0)
    told = cutting.job(shop.ledger, ("JL-7",), frozenset(), tools, buys=True)
    cutting.keep(shop.ledger, cutting.planned(told), who())
    assert cutting.tools_now(shop.ledger) == tools


def test_the_same_plan_gives_the_same_papers(shop):
    plan = plan_of(shop)
    for kind in ("pdf", "csv"):
        assert cut_papers.paper(1, plan, kind) == cut_papers.paper(1, plan, kind)


def test_the_pictures_of_bars_hold_all_pieces_within_the_bar(shop):
    plan = plan_of(shop)
    bar = next(iter(plan.together.bars))[1].bars[0]
    picture = cut_pictures.bar_picture(bar, plan)
    assert picture.count('class="piece"') == len(bar.pieces)
    assert "style=" not in picture


def test_orders_in_inches_and_in_millimetres_are_told_each_in_its_own():
    orders = [(name, (EXAMPLES / name).read_bytes()) for name in ("fence.toml", "frost-sensor.toml")]
    made = cut_by_command.plan(orders, None, str, buys_sheets=False)
    assert (made.units, made.inches) == ("metric", ("NF-5",))
    sheets = cut_papers.sheets_of(0, made, {})
    told = [
        (row[4].split()[0], row[3])
        for page in cutting_book(sheets).pages[1:]
        for table in page.blocks
        if isinstance(table, Table) and "Order, revision" in table.columns
        for row in table.rows
    ]
    assert {order for order, _ in told} == {"NF-5", "FS-12"}
    assert all(("in (" in length) == (order == "NF-5") for order, length in told)
    listing = cutting_listing(sheets)
    inch = [column.head for column in listing.columns].index("Length, in")
    assert all((row[inch] is not None) == (row[3] == "NF-5") for row in listing.rows)
    angle = next(row.source.item for row in cutting.rows(made) if "1 1/2" in row.source.item)
    assert sheets.part_units(angle) == "us"
    said = cut_papers.words(made)
    assert f"{angle}: bar of 96 in" in said
    assert "spool of 25.0 m" in said
