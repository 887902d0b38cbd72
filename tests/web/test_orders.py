"""Orders as a page writes them: nothing is lost, nothing overwritten, nothing believed."""

import re
from pathlib import Path

import pytest

from panewright import desk

EXAMPLES = Path(__file__).parents[2] / "examples"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


def test_a_new_order_is_the_commented_one_under_its_number(client):
    answer = client.post("/orders", data={"number": "B-12", "name": "Shed light"})
    assert answer.headers["location"] == "/orders/B-12"
    text = client.get("/orders/B-12/text").text
    assert "number = &#34;B-12&#34;" in text
    assert "# (" in text  # its remarks
    again = client.post("/orders", data={"number": "B-12", "name": "Other"})
    assert again.status_code == 422
    assert "There is an order B-12 already" in again.text


@pytest.mark.parametrize("number", ["../x", "a/b", "", " ", "<b>", "é", "x" * 31])
def test_a_number_that_would_lead_elsewhere_is_refused(client, number):
    assert client.post("/orders", data={"number": number}).status_code == 422


def test_an_answer_changes_its_value_and_nothing_else(client, floor, jetty):
    before = floor.shop.order(jetty).text
    answer = tapped(client, f"/orders/{jetty}/say", "a", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    assert answer.status_code == 200
    assert floor.shop.order(jetty).text == before.replace('snow = "0.7 kPa"', 'snow = "0.8 kPa"')
    assert 'id="f-site-snow"' in answer.text
    assert "snow kept" in answer.text


def test_a_tap_that_comes_twice_counts_once(client, floor, jetty):
    for _ in range(3):
        tapped(client, f"/orders/{jetty}/say", "b", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    assert floor.shop.order(jetty).version == 2
    tapped(client, f"/orders/{jetty}/say", "c", key="site.snow", value="0.9 kPa", was="0.8 kPa")
    late = tapped(client, f"/orders/{jetty}/say", "b", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    assert late.status_code == 200
    assert 'snow = "0.9 kPa"' in floor.shop.order(jetty).text


def test_two_hands_at_different_answers_both_stay(client, floor, jetty):
    tapped(client, f"/orders/{jetty}/say", "d", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    tapped(client, f"/orders/{jetty}/say", "e", key="site.wind", value="26 m/s", was="25 m/s")
    text = floor.shop.order(jetty).text
    assert 'snow = "0.8 kPa"' in text
    assert 'wind = "26 m/s"' in text


def test_two_hands_at_one_answer_are_shown_to_each_other(client, floor, jetty):
    tapped(client, f"/orders/{jetty}/say", "f", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    late = tapped(client, f"/orders/{jetty}/say", "g", key="site.snow", value="1.2 kPa", was="0.7 kPa")
    assert late.status_code == 409
    assert "0.8 kPa" in late.text
    assert "Take mine: 1.2 kPa" in late.text
    assert 'snow = "0.8 kPa"' in floor.shop.order(jetty).text


def test_a_wrong_answer_is_kept_and_told_beside_its_question(client, floor, jetty):
    answer = tapped(client, f"/orders/{jetty}/say", "h", key="site.snow", value="plenty", was="0.7 kPa")
    assert 'snow = "plenty"' in floor.shop.order(jetty).text
    field = answer.text.partition('id="f-site-snow"')[2].partition("</form>")[0]
    assert "mistake" in field
    assert 'aria-invalid="true"' in field


def test_an_answer_is_taken_back(client, floor, jetty):
    before = floor.shop.order(jetty).text
    tapped(client, f"/orders/{jetty}/say", "k", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    tapped(client, f"/orders/{jetty}/earlier", "l", version="1")
    stands = floor.shop.order(jetty)
    assert (stands.text, stands.version) == (before, 3)


@pytest.mark.parametrize("key", ["order.number", "site.nothing", "__class__", "order", ""])
def test_an_answer_to_no_question_changes_nothing(client, floor, jetty, key):
    assert tapped(client, f"/orders/{jetty}/say", "m", key=key, value="x", was="").status_code == 422
    assert floor.shop.order(jetty).version == 1


def test_two_hands_at_one_text_lose_neither(client, floor, jetty):
    theirs = floor.shop.order(jetty).text.replace("0.7 kPa", "0.8 kPa")
    mine = floor.shop.order(jetty).text.replace("25 m/s", "27 m/s")
    first = tapped(client, f"/orders/{jetty}/text", "n", text=theirs, seen="1")
    assert first.headers["x-go"] == f"/orders/{jetty}"
    late = tapped(client, f"/orders/{jetty}/text", "o", text=mine, seen="1")
    assert late.status_code == 409
    assert "27 m/s" in late.text
    assert "0.8 kPa" in late.text.partition("Theirs")[2]


def test_a_text_that_is_no_toml_is_kept_and_the_form_says_so(client, floor, jetty):
    tapped(client, f"/orders/{jetty}/text", "p", text="[order\nname = 'half", seen="1")
    assert floor.shop.order(jetty).text == "[order\nname = 'half"
    page = client.get(f"/orders/{jetty}")
    assert page.status_code == 200
    assert "The text cannot be read" in page.text


def test_hostile_text_is_only_text(client, jetty):
    nasty = '<script>alert(1)</script><img src=x onerror=y>" autofocus onfocus="z'
    tapped(client, f"/orders/{jetty}/say", "q", key="order.customer", value=nasty, was="Quillhaven Boat Club")
    for path in ("/", "/orders/JL-7", "/orders/JL-7/text", "/orders/JL-7/versions", "/orders/JL-7?wait=2"):
        text = client.get(path).text
        assert "<script>alert" not in text
        assert "<img src=x" not in text
        assert '" autofocus onfocus' not in text


def test_what_comes_of_an_order_is_the_desks_own_verdict(client, floor, jetty):
    seen = client.get(f"/orders/{jetty}?wait=1", headers={"x-parts": "seen"}).text
    made = desk.design(floor.shop.order(jetty).text.encode(), "x")
    assert desk.verdict(made).partition("\n")[0] in seen
    assert 'data-cell="72"' in seen


def test_what_is_typed_is_tried_without_being_kept(client, floor, jetty):
    answer = client.post(f"/orders/{jetty}/try", data={"site.wind": "60 m/s"})
    assert answer.status_code == 200
    assert "NOT PROVEN" in answer.text
    assert floor.shop.order(jetty).version == 1


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"not = [toml", b"", b"x" * 1_100_000])
def test_a_file_that_is_no_order_is_told(client, content):
    answer = client.post("/orders/take", files={"file": ("x.toml", content)})
    assert answer.status_code == 422
    assert "mistake" in answer.text


def test_orders_past_the_first_leaf_are_reached_and_no_taken_number_is_proposed(client):
    for number in range(1, 43):
        client.post("/orders", data={"number": str(number), "name": f"Job {number}"})
    for path in ("/", "/panel", "/build", "/papers"):
        first = client.get(path).text
        assert "Job 42" in first
        assert "Job 2<" not in first
        older = re.search(r'href="([^"]+)" rel="next"', first)[1]
        assert older == f"{path}?from=40"
        text = client.get(older).text
        assert "Job 2<" in text
        assert "Job 1<" in text
        assert 'rel="next"' not in text
        assert f'href="{path}" rel="prev"' in text
    assert 'value="43"' in client.get("/").text
    assert client.get("/serial", params={"code": " 2 "}).headers["location"] == "/orders/2"


def test_an_order_keeps_its_number_in_its_text_too(client, jetty):
    text = (EXAMPLES / "jetty.toml").read_text("utf-8")
    other = text.replace('"JL-7"', '"JL-8"')
    answer = client.post(f"/orders/{jetty}/text", data={"text": other, "seen": "1"})
    assert answer.status_code == 422
    assert "An order keeps its number." in answer.text
    assert client.post(f"/orders/{jetty}/text", data={"text": f"{text}\n", "seen": "1"}).status_code == 303


def test_a_part_of_what_is_gone_is_told_and_breaks_nothing(client):
    answer = client.get("/orders/gone", headers={"x-parts": "form seen"})
    assert answer.status_code == 404
    assert "do not know it" in answer.text
    assert 'id="form"' not in answer.text


def test_what_comes_of_an_order_is_shown_without_a_script(client, jetty):
    text = client.get(f"/orders/{jetty}").text
    link = re.search(r'<noscript><a class="button" href="([^"]+)">Show what comes of it', text)[1]
    assert "checks" in client.get(link).text
    assert 'class="verdict wait"' not in client.get(link).text
