"""A serial is found by whatever shows it; the shelf adds up; papers are the pack's own."""

import re
from io import BytesIO

import pytest
import segno

from panewright import desk


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def photograph(words):
    out = BytesIO()
    segno.make(words, micro=False).save(out, kind="png", scale=8, border=6)
    return out.getvalue()


def test_a_scanner_a_hand_and_a_photograph_find_the_same_record(client, begun):
    for code in (begun, f" {begun} ", f"serial {begun}"):
        assert client.get("/serial", params={"code": code}).headers["location"] == f"/serial/{begun}"
    found = client.post("/serial/photo", files={"file": ("a.png", photograph(begun))})
    assert found.headers["location"] == f"/serial/{begun}"
    assert f"Serial {begun}" in client.get(f"/serial/{begun}").text


def test_a_code_that_no_panel_bears_is_told_and_is_only_text(client, begun):
    assert begun
    nasty = "<script>alert(1)</script>"
    for answer in (
        client.get("/serial", params={"code": nasty}),
        client.post("/serial/photo", files={"file": ("a.png", photograph(nasty))}),
    ):
        assert answer.status_code == 404
        assert "No panel bears it" in answer.text
        assert nasty not in answer.text


def test_the_shelf_adds_up_what_comes_and_goes(client):
    came = {"item": "125 mm mono", "unit": "each", "reason": "received"}
    tapped(client, "/shelf/move", "a", amount="310", **came)
    tapped(client, "/shelf/move", "a", amount="310", **came)
    gone = tapped(client, "/shelf/move", "b", **{**came, "reason": "broken"}, amount="4")
    assert "<b>306</b> each" in gone.text
    counted = tapped(client, "/shelf/count", "c", item="125 mm mono", unit="each", amount="300")
    assert "<b>300</b> each" in counted.text


def test_a_piece_left_over_lies_there_until_it_is_used(client):
    kept = tapped(client, "/shelf/piece", "d", mark="R-1", item="angle 50 x 50 x 4 mm", length="33 1/16 in")
    assert "840\u2009mm" in kept.text
    gone = tapped(client, "/shelf/gone", "e", mark="R-1", state="used")
    assert "R-1" not in gone.text


@pytest.mark.parametrize("amount", ["", "some", "-3", "nan", "0.1234567", "1e30"])
def test_an_amount_that_is_none_is_told(client, amount):
    said = {"item": "x", "unit": "m", "reason": "received", "amount": amount}
    assert tapped(client, "/shelf/move", "f", **said).status_code == 422
    assert "Nothing is written down yet" in client.get("/shelf").text


def test_every_document_of_the_pack_is_there_and_is_the_packs_own(client, floor, jetty):
    made = desk.design(floor.shop.order(jetty).text.encode(), "x")
    listed = client.get(f"/papers/{jetty}?wait=1").text
    for paper in desk.papers(made):
        assert paper.name in listed
    csv = client.get(f"/papers/{jetty}/parts.csv?take=1")
    assert csv.content == next(each for each in desk.papers(made) if each.name == "parts.csv").content()
    assert csv.headers["content-disposition"].startswith("attachment")
    assert client.get(f"/papers/{jetty}/label.svg").headers["content-type"].startswith("image/svg+xml")
    assert "default-src 'none'" in client.get(f"/papers/{jetty}/label.svg").headers["content-security-policy"]
    assert client.get(f"/papers/{jetty}/book.pdf?look=1").content.startswith(b"\x89PNG")
    assert client.get(f"/papers/{jetty}/..%2F..%2Fetc%2Fpasswd").status_code == 404
    assert client.get(f"/papers/{jetty}/nothing.pdf").status_code == 404


@pytest.mark.parametrize(
    "path", ["/kept/nothing", "/serial/nobody", "/orders/none", "/build/JL-7/none", "/panel/none"]
)
def test_what_is_not_there_is_told_as_a_page(client, jetty, path):
    assert jetty
    answer = client.get(path)
    assert answer.status_code == 404
    assert "<h1>" in answer.text


def test_a_book_is_leafed_through_page_by_page(client, jetty):
    waiting = client.get(f"/papers/{jetty}/book.pdf/pages").text
    assert "Setting its pages" in waiting
    text = client.get(f"/papers/{jetty}/book.pdf/pages?page=2&wait=1").text
    count = int(text.partition("Page 2 of ")[2].partition("<")[0])
    assert count > 5
    seen = [client.get(f"/papers/{jetty}/book.pdf/pages/{n}") for n in (1, 2, count)]
    assert all(each.content.startswith(b"\x89PNG") for each in seen)
    assert len({each.content for each in seen}) == 3
    assert client.get(f"/papers/{jetty}/book.pdf/pages/{count + 1}").status_code == 404
    assert f"Page {count} of {count}" in client.get(f"/papers/{jetty}/book.pdf/pages?page=999").text
    assert client.get(f"/papers/{jetty}/parts.csv/pages?wait=1").status_code == 404


def test_a_raw_file_is_kept_with_the_panel_as_it_came_and_only_taken_along(client, begun):
    content = b"<script>alert(1)</script>,=1+1\x00\xff"
    sent = {"file": ("curve <b>.csv", content)}
    kept = client.post(f"/files/{begun}", files=sent, data={"kind": "reading", "title": "a sunny noon"})
    assert kept.headers["location"] == f"/serial/{begun}"
    told = client.get(f"/serial/{begun}").text
    assert "a sunny noon" in told
    assert "raw file of readings" in told
    digest = re.search(r'/kept/([0-9a-f]{64})" download', told)[1]
    taken = client.get(f"/kept/{digest}")
    assert taken.content == content
    assert taken.headers["content-type"] == "application/octet-stream"
    assert taken.headers["content-disposition"].startswith("attachment")
    assert taken.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(("kind", "content"), [("reading", b""), ("a story", b"x")])
def test_no_paper_is_kept_without_a_kind_and_a_content(client, begun, kind, content):
    answer = client.post(f"/files/{begun}", files={"file": ("a.csv", content)}, data={"kind": kind})
    assert answer.status_code == 422
    assert "no such paper" in answer.text
