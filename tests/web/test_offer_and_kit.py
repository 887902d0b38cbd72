"""The quote of an order, sent and kept; the boxes of a kit, ticked line by line."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

import pytest

from panewright.ledger.serials.life import life
from panewright.ledger.serials.steps import ticks
from panewright.ledger.serials.telling import told

EXAMPLES = Path(__file__).parents[2] / "examples"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


def test_a_quote_shows_breaks_what_is_to_pay_and_its_days(client, jetty):
    page = client.get(f"/orders/{jetty}/quote?wait=1").text
    assert "To pay" in page
    for panels in ("1", "4", "5", "10", "25"):
        assert f'<td class="n">{panels}</td>' in page
    assert f"Of {datetime.now(UTC).date()}; it stands for 30 days" in page
    assert "No market price is stated" in page
    assert "What a market may ask" in page


def test_a_quote_is_printed_for_today(client, jetty):
    answer = client.get(f"/orders/{jetty}/quote.pdf?take=1")
    assert answer.content.startswith(b"%PDF")
    assert "attachment" in answer.headers["content-disposition"]


def test_a_quote_that_went_out_is_kept_with_its_total_once_for_each_tap(client, jetty):
    page = client.get(f"/orders/{jetty}/quote?wait=1").text
    total = re.search(r'class="expect">([\d.,]+)', page).group(1)
    for _ in range(2):
        sent = tapped(client, f"/orders/{jetty}/quote/sent", "a")
        assert sent.status_code == 200
    assert sent.text.count("stands until") == 1
    assert f": {total}" in sent.text
    assert client.post(f"/orders/{jetty}/quote/sent").status_code == 303


def test_an_order_with_mistakes_has_no_quote_and_no_kit(client):
    half = b'[order]\nnumber = "N-1"\n'
    client.post("/orders/take", files={"file": ("n.toml", half)})
    assert "No quote yet" in client.get("/orders/N-1/quote?wait=1").text
    assert "No kit yet" in client.get("/orders/N-1/kit?wait=1").text
    assert client.post("/orders/N-1/quote/sent").status_code == 422
    assert client.get("/orders/N-2/quote").status_code == 404


def test_an_order_of_kits_tells_how_kits_travel(client):
    content = (EXAMPLES / "jetty.toml").read_bytes() + b'\n[kit]\nsold_as = "kit"\n'
    client.post("/orders/take", files={"file": ("jetty.toml", content)})
    page = client.get("/orders/JL-7?wait=1").text
    assert "One kit" in page
    assert "crate.pdf" in page
    assert re.search(r"one crate of \d kits?|crates of (up to )?\d kits?", page)


@pytest.fixture
def box(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def test_without_panels_the_list_is_shown_and_nothing_can_be_ticked(client, jetty):
    page = client.get(f"/orders/{jetty}/kit?wait=1").text
    assert "No box yet" in page
    assert "finished panels" in page  # it is no kit order, and says so
    assert "aria-pressed" not in page


def record_of(floor, box):
    return told(life(floor.shop.ledger, box))


def test_a_line_is_ticked_into_one_box_and_taken_out_again(client, floor, jetty, box):
    page = client.get(f"/orders/{jetty}/kit?wait=1&box={box}").text
    line = unescape(re.search(r'name="line" value="([^"]+)"', page).group(1))
    inside = tapped(client, f"/orders/{jetty}/kit/packed", "a", box=box, line=line, done="yes")
    assert inside.text.count("✓ In") == 1
    assert "✓ In" not in client.get(f"/orders/{jetty}/kit?wait=1&box=0043").text
    assert "In its box" in record_of(floor, box)
    assert client.get(f"/orders/{jetty}/kit/{box}.pdf").content.startswith(b"%PDF")
    assert client.get(f"/orders/{jetty}/kit/9999.pdf").status_code == 404
    assert not ticks(floor.shop.ledger, box)  # no step of the bench
    out = tapped(client, f"/orders/{jetty}/kit/packed", "b", box=box, line=line, done="no")
    assert "✓ In" not in out.text
    assert client.get(f"/serial/{box}").status_code == 200
    assert client.get(f"/build/{jetty}/{box}").status_code == 200


def test_no_other_box_and_no_step_of_the_bench_is_ticked_here(client, jetty, box):
    for typed in ({"box": "9999", "line": "kit: x"}, {"box": box, "line": "cut-rails"}):
        answer = tapped(client, f"/orders/{jetty}/kit/packed", "c", done="yes", **typed)
        assert answer.status_code == 422
