"""Who may come in, from which page, with how much; and what a page may do."""

import re

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from panewright.web.app import make_app
from panewright.web.guard import MOST_BYTES, Door, Guard


def test_a_foreign_name_that_leads_here_is_turned_away(client):
    assert client.get("/", headers={"host": "evil.example"}).status_code == 400
    assert client.get("/", headers={"host": "testserver:8080"}).status_code == 400


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "", "https://testserver", "http://testserver.evil"]
)
def test_what_changes_anything_comes_from_a_page_of_this_shop(client, origin):
    answer = client.post("/orders", data={"number": "X1"}, headers={"origin": origin})
    assert answer.status_code == 403
    assert "X1" not in client.get("/").text


def test_a_websocket_is_refused(client):
    with pytest.raises(WebSocketDisconnect), client.websocket_connect("/live"):
        pass


def test_too_much_is_refused_before_it_is_read(client):
    assert client.post("/orders", content=b"x" * (MOST_BYTES + 1)).status_code == 413


def test_too_much_without_a_told_length_is_refused_while_it_is_read(client):
    def long():
        yield b"x="
        for _ in range(30):
            yield b"y" * 100_000

    head = {"content-type": "application/x-www-form-urlencoded"}
    assert client.post("/orders", content=long(), headers=head).status_code == 413


@pytest.mark.parametrize(
    "path", ["/", "/here", "/orders/JL-7", "/orders/JL-7/text", "/nowhere", "/look/page.js"]
)
def test_every_answer_bears_the_strict_policy_and_no_page_an_inline_script_or_style(client, jetty, path):
    assert jetty
    answer = client.get(path)
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert answer.headers["x-content-type-options"] == "nosniff"
    if "html" in answer.headers["content-type"]:
        assert not re.search(r"\sstyle=|<style|\son\w+=|javascript:|<script(?! src=\"/)", answer.text)
        assert "http://" not in answer.text.replace("http://www.w3.org/2000/svg", "")


def test_a_door_names_what_a_browser_writes():
    assert Door.at(("127.0.0.1", "::1"), 8410).hosts == {"127.0.0.1:8410", "[::1]:8410"}
    assert Door.at(("shop.local",), 443, scheme="https").origins == {"https://shop.local"}


@pytest.fixture
def tablet(floor):
    """A tablet at the other door."""
    floor.keys.set_phrase("seven quiet herons")
    door = Door.at(("testserver",), 443, scheme="https", here=False)
    asked = TestClient(
        Guard(make_app(floor), door),
        base_url="https://testserver",
        follow_redirects=False,
        headers={"origin": "https://testserver"},
    )
    with asked:
        yield asked


def test_a_tablet_is_shown_to_the_door_first(tablet):
    answer = tablet.get("/orders/JL-7")
    assert (answer.status_code, answer.headers["location"]) == (303, "/enter?to=/orders/JL-7")
    assert tablet.get("/live").status_code == 401
    assert tablet.post("/orders", data={"number": "X1"}).status_code == 401
    assert tablet.get("/enter").status_code == 200


def test_the_pass_phrase_lets_it_in_and_a_wrong_one_does_not(tablet):
    wrong = tablet.post("/enter", data={"phrase": "seven quiet hens", "to": "/"})
    assert wrong.status_code == 403
    assert "set-cookie" not in wrong.headers
    right = tablet.post("/enter", data={"phrase": "seven quiet herons", "to": "/here", "who": "Ida"})
    assert (right.status_code, right.headers["location"]) == (303, "/here")
    for word in ("HttpOnly", "SameSite=strict", "Secure"):
        assert word in right.headers["set-cookie"]
    assert "Ida" in tablet.get("/here").text


def test_after_five_wrong_tries_even_the_right_one_waits(tablet):
    for _ in range(5):
        assert tablet.post("/enter", data={"phrase": "wrong and wrong"}).status_code == 403
    assert tablet.post("/enter", data={"phrase": "seven quiet herons"}).status_code == 429


@pytest.mark.parametrize("to", ["//evil.example", "https://evil.example", "/\\evil.example", "javascript:1"])
def test_the_door_leads_nowhere_but_into_the_shop(tablet, to):
    answer = tablet.post("/enter", data={"phrase": "seven quiet herons", "to": to})
    assert answer.headers["location"] == "/"


def test_a_session_of_this_computer_or_a_forged_one_opens_no_other_door(client, tablet):
    cookie = client.post("/here", data={"who": "Ida"}).cookies["panewright"]
    for each in (cookie, cookie[:-2] + "xx", "", "a.b.c"):
        tablet.cookies.set("panewright", each)
        assert tablet.get("/").status_code == 303
