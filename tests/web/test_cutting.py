"""Cutting across orders: chosen, planned, ticked row by row with the stock, and never cut twice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def rail(client, jetty):
    """The rail that the jetty's panels take."""
    answer = client.get(f"/orders/{jetty}?wait=1", headers={"x-parts": "seen"})
    assert answer.status_code == 200
    made = client.post("/cut", data={"order": jetty, "buys": "yes"})
    assert made.status_code == 303
    page = client.get(waited(client)).text
    return re.search(r'<h2 id="part-1">([^<]+?) <small>', page).group(1)


def made(client, tap, **data):
    """A plan's address."""
    answer = tapped(client, "/cut", tap, **data)
    assert answer.status_code == 200, answer.text
    return answer.headers.get("x-go") or waited(client)


def waited(client):
    """Where the plan is, once it is there."""
    return client.get("/cut/wait", headers={"x-parts": "cutting"}).headers["x-go"]


def stocked(client, rail, bars=5):
    tapped(client, "/shelf/move", "s", item=rail, unit="bar", reason="received", amount=str(bars))
    tapped(client, "/shelf/piece", "p", mark="P7", item=rail, length="5.2 m")


def picks(client):
    return re.findall(r'name="there" value="([^"]+)"', client.get("/cut").text)


def test_without_a_script_a_plan_is_made_and_says_what_is_to_buy(client, jetty, rail):
    page = client.get("/cut/1").text
    assert "Proven: no other plan costs less." in page
    assert "to buy for" in page
    assert page.count("A bar to buy") >= 1
    assert re.search(rf"For {jetty} revision [A-Z2-7]{{8}}\.", page)
    assert rail in page


def test_what_lies_there_is_cut_first_and_is_proposed_by_its_mark(client, jetty, rail):
    stocked(client, rail)
    keys = picks(client)
    assert [key.split("; ")[1] for key in keys] == ["from stock", "piece P7"]
    page = client.get(made(client, "a", order=jetty, there=keys, buys="yes")).text
    assert "Piece P7 <small>" in page
    assert "none to buy" in page


def test_a_row_ticked_moves_the_stock_and_goes_back_in_one_tap(client, jetty, rail):
    stocked(client, rail)
    place = made(client, "a", order=jetty, there=picks(client))
    before = client.get("/shelf", headers={"x-parts": "stock pieces"}).text
    page = client.get(place).text
    row = int(re.search(r'id="row-(\d+)".{0,200}?From stock', page, re.S).group(1))
    cut = tapped(client, f"{place}/tick", "b", row=row, done="yes")
    assert "✓ Cut" in cut.text
    assert f"<span>{row} is cut</span>" in cut.text
    assert "<b>4</b> bar" in client.get("/shelf", headers={"x-parts": "stock"}).text
    again = tapped(client, f"{place}/tick", "c", row=row, done="yes")
    assert again.status_code == 422
    assert "has ticked it already" in again.text
    tapped(client, f"{place}/tick", "d", row=row, done="no")
    assert client.get("/shelf", headers={"x-parts": "stock pieces"}).text == before


def test_what_is_cut_is_not_planned_again(client, jetty, rail):
    stocked(client, rail, 9)
    place = made(client, "a", order=jetty, there=picks(client))
    numbers = re.findall(r'id="row-(\d+)"', client.get(place).text)
    for n, row in enumerate(numbers):
        assert tapped(client, f"{place}/tick", f"b{n}", row=row, done="yes").status_code == 200
    assert "All is cut." in client.get(place).text
    left = client.get(made(client, "e", order=jetty, there=picks(client))).text
    assert "Nothing is to cut" in left
    tapped(client, f"{place}/tick", "f", row=numbers[0], done="no")
    assert "1</b> row" in client.get(place).text
    assert 'id="row-1"' in client.get(made(client, "g", order=jetty, there=picks(client))).text


def test_a_bar_to_buy_is_cut_only_once_it_is_there(client, rail):
    place = "/cut/1"
    refused = tapped(client, f"{place}/tick", "a", row=1, done="yes")
    assert refused.status_code == 422
    assert "Only 0 bar" in refused.text
    tapped(client, "/shelf/move", "s", item=rail, unit="bar", reason="received", amount="1")
    assert tapped(client, f"{place}/tick", "b", row=1, done="yes").status_code == 200


def test_a_rest_worth_keeping_comes_into_the_rack_with_the_mark_told(client, jetty, rail):
    stocked(client, rail)
    place = made(client, "a", order=jetty, there=picks(client), keep_bar="100 mm")
    found = re.search(r"its mark will be <b class=\"mark\">([^<]+)<", client.get(place).text)
    mark = found.group(1)
    row = mark.split("-")[1]
    tapped(client, f"{place}/tick", "b", row=row, done="yes")
    assert mark in client.get("/shelf", headers={"x-parts": "pieces"}).text
    assert 'value="100 mm"' in client.get("/cut").text  # the shop's own from now on


def test_the_plan_is_taken_along_as_pages_and_as_a_list(client, jetty, rail):
    assert rail
    page = client.get("/cut/1/plan.pdf")
    assert page.content.startswith(b"%PDF")
    listing = client.get("/cut/1/plan.csv?take=1")
    assert "attachment" in listing.headers["content-disposition"]
    assert jetty in listing.text
    assert client.get("/cut/1/plan.exe").status_code == 404


def test_mistakes_are_told_and_nothing_is_planned(client, jetty):
    assert "No order is chosen" in client.post("/cut", data={}).text
    wrong = client.post("/cut", data={"order": jetty, "kerf": "much"})
    assert wrong.status_code == 422
    assert "Saw cut" in wrong.text
    assert client.post("/cut", data={"order": "NONE"}).status_code == 422
    assert client.get("/cut/7").status_code == 404


def test_an_order_that_cannot_be_designed_is_left_out_and_told(client, jetty):
    half = b'[order]\nnumber = "N-1"\n'
    assert client.post("/orders/take", files={"file": ("n.toml", half)}).status_code == 303
    page = client.get(made(client, "a", order=[jetty, "N-1"], buys="yes")).text
    assert "Order N-1 is left out" in page
    assert re.search(rf"For {jetty} revision [A-Z2-7]{{8}}\.", page)
