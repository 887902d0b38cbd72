"""From accepted orders to a buying list, goods on order and receipts, by the desk and by command."""

from __future__ import annotations

import csv
import shutil
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import load_workbook

from panewright.cli.main import cli
from panewright.desk.shop.who import Who
from panewright.desk.stores import buying, cut_plan, cut_rows, cut_ticked, cutting
from panewright.desk.stores.racks import sources
from panewright.errors import RecordError
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import save_order
from panewright.ledger.stores.stock import Movement, Remnant, keep_remnant, move, stock

EXAMPLES = Path(__file__).parents[3] / "examples"
TODAY = date(2026, 11, 2)
WHO = Who("Ann", datetime(2026, 11, 2, 9, tzinfo=UTC))


@pytest.fixture
def ledger(tmp_path, empty_shop):
    shutil.copytree(empty_shop, tmp_path, dirs_exist_ok=True)
    opened = open_ledger(tmp_path / "shop.db")
    for name in ("frost-sensor", "henhouse"):
        text = (EXAMPLES / f"{name}.toml").read_text("utf-8")
        save_order(opened, name, text, seen=0, by="Ann", at=WHO.at)
    yield opened
    opened.close()


def test_only_accepted_orders_are_bought_for(ledger):
    assert buying.to_buy(ledger, today=TODAY).parts == ()
    buying.promise(ledger, "frost-sensor", "accepted", date(2026, 12, 1), WHO)
    found = buying.to_buy(ledger, today=TODAY)
    assert found.suppliers
    assert {name for each in found.parts for name in each.orders} == {"frost-sensor"}
    assert [each.order for each in found.shipping] == ["frost-sensor"]


def test_a_day_to_order_that_is_past_is_told_as_too_late(ledger):
    buying.promise(ledger, "henhouse", "accepted", date(2027, 1, 15), WHO)
    soon = buying.to_buy(ledger, today=TODAY)
    last = max(line.order_by for each in soon.suppliers for line in each.lines if line.order_by)
    assert f"; order by {last}" in "\n".join(buying.told(soon))
    assert "too late" not in "\n".join(buying.told(soon))
    late = replace(soon, day=last + timedelta(days=1))
    assert f"; too late to order, was to be by {last}" in "\n".join(buying.told(late))
    assert "; order by" not in "\n".join(buying.told(late))


def test_goods_ordered_are_not_bought_twice_and_come_by_parts(ledger):
    buying.promise(ledger, "frost-sensor", "accepted", None, WHO)
    buying.promise(ledger, "henhouse", "accepted", date(2026, 12, 1), WHO)
    before = buying.to_buy(ledger, today=TODAY)
    assert [each.order for each in before.shipping] == ["henhouse", "frost-sensor"]
    for place, each in enumerate(before.suppliers, 1):
        buying.order_from(ledger, each.supplier, f"P-{place}", WHO, today=TODAY)
    after = buying.to_buy(ledger, today=TODAY)
    assert after.suppliers == ()
    assert len(after.on_order) == sum(len(each.lines) for each in before.suppliers)
    cells = {each.item for each in after.parts if each.group == "cells"}
    first = next(each for each in after.on_order if each.goods.item in cells)
    left = buying.receive(ledger, first.purchase, first.line, Decimal(1), WHO)
    assert left.to_come == first.goods.amount - 1
    assert stock(ledger, item=first.goods.item)[0].amount == 1
    assert buying.to_buy(ledger, today=TODAY).suppliers == ()
    buying.end(ledger, first.purchase, first.line, "sold out", WHO)
    again = buying.to_buy(ledger, today=TODAY)
    assert [line.item for each in again.suppliers for line in each.lines] == [first.goods.item]
    with pytest.raises(RecordError):
        buying.order_from(ledger, "nobody", "P-99", WHO, today=TODAY)


def test_glass_is_on_the_list_by_its_size_and_with_its_seller(ledger):
    for name in ("frost-sensor", "henhouse"):
        buying.promise(ledger, name, "accepted", None, WHO)
    found = buying.to_buy(ledger, today=TODAY)
    panes = [each for each in found.parts if each.panes]
    assert len(panes) == 2
    assert all(each.source.supplier and each.cost for each in panes)
    assert all(any(f"{each.item} ({each.panes})" in line for line in buying.told(found)) for each in panes)
    assert b"pane" in buying.written(found)["buying.csv"]


def test_stock_and_remnants_are_taken_first(ledger):
    buying.promise(ledger, "frost-sensor", "accepted", None, WHO)
    parts = {each.item: each for each in buying.to_buy(ledger, today=TODAY).parts}
    rail = next(each for each in parts.values() if each.unit == "bar")
    for number in range(8):
        keep_remnant(ledger, Remnant(f"R{number}", rail.item, 2500.0), by="Ann", at=WHO.at)
    ribbon = next(each for each in parts.values() if each.unit == "metre")
    move(ledger, Movement(ribbon.item, Decimal(500), "metre", "received"), by="Ann", at=WHO.at)
    left = {each.item: each for each in buying.to_buy(ledger, today=TODAY).parts}
    assert rail.item not in left
    assert left[ribbon.item].buy == 0


def test_what_lies_cut_is_not_bought_again(ledger):
    buying.promise(ledger, "frost-sensor", "accepted", None, WHO)
    before = {each.item: each for each in buying.to_buy(ledger, today=TODAY).parts}
    cut_from = [
        each for each in before.values() if each.unit in ("bar", "metre") and each.group != "electrical"
    ]
    for each in cut_from:
        move(ledger, Movement(each.item, each.gross + 5, each.unit, "received"), by="Ann", at=WHO.at)
    keys = frozenset(map(cut_plan.key_of, sources(ledger)))
    told = cutting.job(ledger, ("frost-sensor",), keys, cutting.tools_now(ledger), buys=False)
    plan = cutting.planned(told)
    number = cutting.keep(ledger, plan, WHO)
    assert plan.together.bars
    assert plan.together.spools
    for row in cut_rows.rows(plan):
        cut_ticked.tick(ledger, number, row.number, WHO)
    for each in stock(ledger):  # what is left of it goes elsewhere
        move(ledger, Movement(each.item, each.amount, each.unit, "sold"), by="Ann", at=WHO.at)
    after = {each.item: each for each in buying.to_buy(ledger, today=TODAY).parts}
    for item, _ in (*plan.together.bars, *plan.together.spools):
        assert item not in after or after[item].buy == 0
    for row in cut_rows.rows(plan):
        if row.form == "bar":
            cut_ticked.untick(ledger, number, row.number, WHO)
    again = {each.item: each for each in buying.to_buy(ledger, today=TODAY).parts}
    assert again[plan.together.bars[0][0]].gross == before[plan.together.bars[0][0]].gross


def test_the_papers_are_written_and_the_same_twice(ledger):
    buying.promise(ledger, "henhouse", "accepted", date(2026, 11, 4), WHO)
    found = buying.to_buy(ledger, today=TODAY)
    one, two = buying.written(found), buying.written(found)
    assert one == two
    assert list(one) == ["buying.pdf", "buying.xlsx", "buying.csv"]
    assert any("LATE" in line for line in buying.told(found))


def test_the_lists_say_by_when_to_order_and_what_is_too_late_as_pages_do(ledger):
    buying.promise(ledger, "henhouse", "accepted", date(2026, 11, 4), WHO)
    found = buying.to_buy(ledger, today=TODAY)
    late = {line.item for each in found.suppliers for line in each.lines if line.too_late(TODAY)}
    assert late
    files = buying.written(found)
    rows = list(csv.DictReader(StringIO(files["buying.csv"].decode("utf-8-sig"))))
    assert {row["Part"] for row in rows if row["Today"] == "too late to order"} == late
    assert all(date.fromisoformat(row["Order by"]) < TODAY for row in rows if row["Part"] in late)
    for sheet in load_workbook(BytesIO(files["buying.xlsx"])):
        heads, *lines = ([cell.value for cell in row] for row in sheet)
        if "Today" in heads:
            said = {line[0] for line in lines if line[heads.index("Today")] == "too late to order"}
            assert said == late & {line[0] for line in lines}, sheet.title


def test_the_commands_do_the_same(ledger, tmp_path):
    assert ledger.files

    def run(*words):
        environment = {"PANEWRIGHT_SHOP": str(tmp_path), "PANEWRIGHT_RECORDS": ""}
        done = CliRunner().invoke(cli, ["buy", *words], env=environment)
        assert done.exit_code == 0, done.output
        return done.output

    assert "Nothing is to buy" in run("list", "--date", "2026-11-02")
    assert "promised 2026-12-24" in run("promise", "henhouse", "--promised", "2026-12-24", "--by", "Ann")
    said = run("list", "--date", "2026-11-02", "--to", str(tmp_path / "papers"))
    assert "henhouse can leave" in said
    assert (tmp_path / "papers" / "buying.pdf").read_bytes().startswith(b"%PDF")
    assert "P-7/1" in run("order", "Quill Cells (invented)", "P-7", "--date", "2026-11-02", "--by", "Ann")
    assert "still to come" in run("came", "P-7", "1", "1", "--by", "Ann")
    assert "is over" in run("over", "P-7", "1", "--reason", "broken in the post", "--by", "Ann")
    assert "P-7/1 is over: nothing of it is on order" in run("back", "P-7", "1", "--by", "Ann")
