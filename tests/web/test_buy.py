"""Accepted orders, what is to buy for them, what was ordered, what came in, and what can leave when."""

from __future__ import annotations

import re
from html import unescape

import pytest


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def accepted(client, jetty):
    answer = tapped(client, "/buy/promise", "a", order=jetty, state="accepted", day="2027-03-01")
    assert answer.status_code == 200
    assert "promised 2027-03-01" in answer.text
    return jetty


def suppliers(client):
    page = client.get("/buy?wait=1", headers={"x-parts": "tobuy"}).text
    return page, [unescape(each) for each in re.findall(r'name="supplier" value="([^"]*)"', page)]


def test_nothing_is_bought_for_orders_that_are_not_accepted(client, jetty):
    page, found = suppliers(client)
    assert "No order is accepted" in page
    assert found == []
    assert jetty in client.get("/buy").text


def test_what_is_missing_stands_by_supplier_with_its_order(client, accepted):
    page, found = suppliers(client)
    assert found
    assert f"for {accepted}" in page
    assert "angle 50 x 50 x 4 mm" in page
    assert "promised 2027-03-01" in page


def test_goods_are_ordered_come_in_parts_and_lie_on_the_shelf(client, accepted):
    assert accepted
    _, (first, *_) = suppliers(client)
    ordered = tapped(client, "/buy/order", "b", supplier=first, number="P-1")
    assert ordered.status_code == 200
    assert "P-1/1" in ordered.text
    assert first not in suppliers(client)[1]
    refused = tapped(client, "/buy/order", "c", supplier=first, number="P-2")
    assert refused.status_code == 422
    amount = re.search(r'name="amount" value="([\d.]+)"', ordered.text).group(1)
    came = tapped(client, "/buy/came", "d", purchase="P-1", line="1", amount=amount)
    assert "P-1/1" not in came.text
    assert f"<b>{amount}</b>" in client.get("/shelf", headers={"x-parts": "stock"}).text
    more = tapped(client, "/buy/came", "e", purchase="P-1", line="1", amount="1")
    assert more.status_code == 422


def test_a_line_that_never_comes_is_ended_and_bought_anew(client, accepted):
    assert accepted
    _, (first, *_) = suppliers(client)
    tapped(client, "/buy/order", "b", supplier=first, number="P-1")
    over = tapped(client, "/buy/over", "c", purchase="P-1", line="1", reason="sold out")
    assert "P-1/1" not in over.text
    assert first in suppliers(client)[1]


def test_mistakes_are_told(client, accepted):
    for path, said in (
        ("/buy/promise", {"order": accepted, "state": "dreamt"}),
        ("/buy/promise", {"order": accepted, "state": "accepted", "day": "soon"}),
        ("/buy/promise", {"order": "none", "state": "accepted"}),
        ("/buy/order", {"supplier": "nobody", "number": "P-1"}),
        ("/buy/order", {"supplier": "nobody", "number": " "}),
        ("/buy/came", {"purchase": "P-9", "line": "1", "amount": "1"}),
        ("/buy/came", {"purchase": "P-9", "line": "1", "amount": "much"}),
    ):
        assert client.post(path, data=said).status_code == 422, (path, said)


def test_the_lists_are_taken_along(client, accepted):
    assert accepted
    assert client.get("/buy/papers/buying.pdf").content.startswith(b"%PDF")
    assert "angle 50 x 50 x 4 mm" in client.get("/buy/papers/buying.csv?take=1").text
    assert client.get("/buy/papers/other.pdf").status_code == 404
