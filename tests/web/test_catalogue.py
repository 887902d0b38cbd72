"""A range written out of an order, reckoned with its progress told, looked at, and taken along."""

from __future__ import annotations

import re
from html import unescape

import pytest

from panewright.desk.catalogue import NAMES

SMALL = {"columns": "4", "rows": "6, 9", "glass": "6 mm low-iron tempered", "quantities": "1, 5"}


def written(client, number, **more):
    answer = client.post("/catalogue/range", data={"order": number, **SMALL, **more})
    return answer, unescape(re.search(r"<textarea[^>]*>(.*?)</textarea>", answer.text, re.S).group(1))


@pytest.fixture
def offer(client, settled, jetty):
    """A price list reckoned; the page that shows it."""
    _, text = written(client, jetty)
    assert client.post("/catalogue", data={"text": text}).status_code == 303
    return settled("/catalogue", "Reckoning every size")


def test_a_range_is_an_order_without_what_varies(client, jetty):
    answer, text = written(client, jetty)
    assert answer.status_code == 200
    assert "columns = [4]\nrows = [6, 9]" in text
    assert 'glass = ["6 mm low-iron tempered"]' in text
    assert not [name for name in ("panels", "customer", "serial", "battery") if name in text]
    assert "battery" in written(client, jetty, battery="yes")[1]


def test_what_is_no_list_is_told(client, jetty):
    answer, _ = written(client, jetty, rows="four")
    assert answer.status_code == 422
    assert "no whole number" in answer.text
    assert client.post("/catalogue", data={"text": " "}).status_code == 422


def test_every_size_stands_with_watts_price_and_carriage(offer):
    assert re.search(r"\d of 2 sizes hold every check", offer)
    assert "4 × 6" in offer
    assert "4 × 9" in offer
    assert "Each of 5" in offer
    assert "not listed or certified" in offer


def test_it_is_taken_along_in_every_form(client, offer):
    assert "Print it" in offer
    for name in NAMES:
        answer = client.get(f"/catalogue/{name}", params={"take": "1"})
        assert answer.status_code == 200
        assert answer.content
        assert "attachment" in answer.headers["content-disposition"]
    assert client.get("/catalogue/catalogue.pdf").content.startswith(b"%PDF")
    assert client.get("/catalogue/other.pdf").status_code == 404


def test_all_mistakes_of_a_range_are_told_with_their_lines(client):
    client.post("/catalogue", data={"text": "[range]\ncolumns = [0]\ncolour = ['red']\n"})
    for _ in range(100):
        page = client.get("/catalogue").text
        if "Reckoning" not in page:
            break
    assert "There is no list colour" in page
    assert "rows is missing" in page
    assert "(line 2)" in page
    assert "columns = [0]" in page


def test_hostile_names_are_only_text(client, offer):
    assert offer
    nasty = '[order]\nname = "<script>alert(1)</script>"\n[range]\ncolumns = [2]\nrows = [4]\n'
    answer = client.post("/catalogue/range", files={"file": ("a.toml", nasty.encode())})
    assert "<script>alert" not in answer.text


def test_a_server_begun_anew_still_has_the_list_and_its_papers(client, offer, next_day):
    mark = re.search(r"/catalogue/list/([0-9a-f]{16})/catalogue\.pdf", offer).group(1)
    with next_day() as later:
        page = later.get("/catalogue").text
        assert "4 × 9" in page
        assert "columns = [4]" in page
        assert later.get(f"/catalogue/list/{mark}/catalogue.pdf").content.startswith(b"%PDF")
        assert "4 × 9" in later.get(f"/catalogue/list/{mark}").text
        for gone in ("/catalogue/list/" + "0" * 16, f"/catalogue/list/{'0' * 16}/catalogue.pdf"):
            assert later.get(gone).status_code == 404
    client.post("/catalogue", data={"text": "[range]\ncolumns = [0]\n"})
    assert client.get(f"/catalogue/list/{mark}").status_code == 200  # a mistake hides no list
