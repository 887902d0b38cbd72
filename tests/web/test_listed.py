"""Orders sought, leafed through, and left out where they are delivered or called off."""

from __future__ import annotations

import pytest


@pytest.fixture
def many(client):
    """Three orders of which one is delivered and one called off."""
    for number, name in (("A-1", "Sheds"), ("A-2", "Boat 50%"), ("A-3", "Gate")):
        assert client.post("/orders", data={"number": number, "name": name}).status_code == 303
    for number, state in (("A-1", "delivered"), ("A-2", "called off")):
        answer = client.post("/buy/promise", data={"order": number, "state": state, "day": ""})
        assert answer.status_code == 303
    return client


def numbers(page):
    return {number for number in ("A-1", "A-2", "A-3") if number in page}


def test_closed_orders_are_not_cut_for(many):
    assert numbers(many.get("/cut").text) == {"A-3"}
    assert numbers(many.get("/").text) == {"A-1", "A-2", "A-3"}
    many.post("/buy/promise", data={"order": "A-1", "state": "accepted", "day": ""})
    assert numbers(many.get("/cut").text) == {"A-1", "A-3"}


def test_where_orders_stand_has_the_open_ones_and_the_closed_on_their_own_leaf(many):
    stands = {"x-parts": "stands"}
    assert numbers(many.get("/buy", headers=stands).text) == {"A-3"}
    assert numbers(many.get("/buy?closed=yes", headers=stands).text) == {"A-1", "A-2"}


@pytest.mark.parametrize(("sought", "found"), [("gate", {"A-3"}), ("a-2", {"A-2"}), ("50%", {"A-2"})])
def test_an_order_is_found_by_number_and_by_words(many, sought, found):
    for path in ("/", "/panel", "/papers"):
        assert numbers(many.get(path, params={"find": sought}, headers={}).text) == found


def test_what_is_in_no_order_says_so(many):
    assert "No order has that" in many.get("/", params={"find": "<b>zebra"}).text
    assert "<b>zebra" not in many.get("/", params={"find": "<b>zebra"}).text
    assert "No open order has that" in many.get("/cut", params={"find": "sheds"}).text


def test_more_than_a_leaf_is_leafed_through(client, monkeypatch):
    monkeypatch.setattr("panewright.web.pages.cutting._MOST_OPEN", 2)
    for n in range(5):
        client.post("/orders", data={"number": f"B-{n}", "name": "Sheds"})
    first = client.get("/cut").text
    assert 'href="/cut?from=2"' in first
    assert 'href="/cut?from=4"' in client.get("/cut?from=2").text
    assert "B-0" in client.get("/cut?from=4").text
    assert 'href="/cut?from=2&amp;find=sheds"' in client.get("/cut?find=sheds").text
