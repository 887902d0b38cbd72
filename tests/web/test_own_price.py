"""The price on a page is at the shop's own pace and breakage: the same figures as the command's."""

import json
import re
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from click.testing import CliRunner

from panewright import desk
from panewright.cli.main import cli
from panewright.desk.actuals import actuals
from panewright.desk.orders.shown import shown
from panewright.ledger.stores.stock import Movement, move

HERE = "/orders/JL-7"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


def seen(client):
    """What comes of the order, when it is reckoned."""
    return client.get(f"{HERE}?wait=1", headers={"x-parts": "seen"}).text


def price(text):
    return re.search(r"<dt>One panel</dt><dd>([^<]+)</dd>", text)[1]


@pytest.fixture
def slow(client, floor, jetty):
    """A shop that took long to tab, and broke many cells."""
    before = price(seen(client))
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    for n, serial in enumerate(("0042", "0043")):
        path = f"/build/{jetty}/{serial}/tick"
        assert tapped(client, path, f"a{n}", step="tab-cells", done="yes", minutes="9:00").status_code == 200
    for amount, reason in ((72, "used"), (18, "broken")):
        moved = Movement("125 mm mono", Decimal(amount), "each", reason)
        move(floor.shop.ledger, moved, by="Ann", at=datetime.now(UTC))
    return before


def test_minutes_and_breakage_told_move_the_price_and_the_page_says_so(client, slow):
    after = seen(client)
    assert price(after) != slow
    assert "the minutes told in this shop, of 2 panels." in after
    assert "Breakage and waste are weighed with what was lost in this shop." in after


def test_the_page_says_what_the_command_says(client, floor, jetty, slow, tmp_path):
    text = floor.shop.order(jetty).text
    order = tmp_path / "jetty.toml"
    order.write_text(text, "utf-8")
    asked = CliRunner().invoke(cli, ["design", str(order), "--shop", str(floor.folder), "--json"])
    told = json.loads(asked.output)["quote"]
    made = desk.design(text.encode(), "x", actuals(floor.shop.ledger))
    told_by_page = shown(made, actuals(floor.shop.ledger))
    assert Decimal(str(told["price_each"])) == made.quote.price_each
    assert price(seen(client)) == told_by_page.price_each != slow
    for line in told_by_page.lines:
        assert f">{line.money}</td>" in seen(client)


def test_a_price_is_kept_until_something_is_written_that_may_move_it(client, slow, monkeypatch):
    asked = []
    monkeypatch.setattr("panewright.desk.actuals.actuals", lambda *given: asked.append(1) or actuals(*given))
    first = seen(client)
    assert asked == [1]
    tapped(client, f"{HERE}/say", "b", key="order.customer", value="A Club", was="Quillhaven Boat Club")
    assert price(seen(client)) == price(first)
    assert asked == [1]
    tapped(client, "/build/JL-7/0044/tick", "c", step="tab-cells", done="yes", minutes="9:00")
    assert "of 3 panels." in seen(client)
    assert asked == [1, 1]
    assert slow


def test_the_list_and_the_papers_tell_the_same_price(client, floor, jetty, slow):
    told = price(seen(client))
    client.get("/")
    assert f"<b>{told}</b> a panel" in client.get("/").text
    made = desk.design(floor.shop.order(jetty).text.encode(), "x", actuals(floor.shop.ledger))
    parts = next(each for each in desk.papers(made) if each.name == "parts.csv")
    assert client.get(f"/papers/{jetty}/parts.csv").content == parts.content()
    assert slow


def test_the_design_is_not_made_again_for_a_price(client, floor, slow, monkeypatch):
    jobs, ask = [], floor.workers.ask
    monkeypatch.setattr(
        floor.reckoner._workers, "ask", lambda job, *rest, **more: jobs.append(job) or ask(job, *rest, **more)
    )
    seen(client)
    assert [job for job in jobs if job != "ready"] == ["reprice"]  # a worker is made ready after a second
    assert slow


def test_a_backup_put_back_takes_its_own_pace_with_it(client, floor, jetty, monkeypatch):
    assert jetty in HERE
    monkeypatch.setattr(
        "panewright.web.work.A_MOMENT_S", 60.0
    )  # a busy machine takes longer than a page waits
    before = price(seen(client))
    assert client.post("/records/backup").status_code == 303
    (kept,) = (each.name for each in (floor.folder / "backups").glob("*.zip"))
    for amount, reason in ((72, "used"), (18, "broken")):
        moved = Movement("125 mm mono", Decimal(amount), "each", reason)
        move(floor.shop.ledger, moved, by="Ann", at=datetime.now(UTC))
    assert price(seen(client)) != before
    assert client.post(f"/records/backups/{kept}/back", data={"word": "put back"}).status_code == 303
    assert price(seen(client)) == before
