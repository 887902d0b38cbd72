"""The plan of an order over days: how many, by whom, from when; drawn, told and printed the same."""

from __future__ import annotations

import re

import pytest


def plan(client, number, **asked):
    return client.get(f"/orders/{number}/plan", params={**asked, "wait": "1"}).text


def ends(text):
    return re.search(r"Done \w+ (\d{4}-\d\d-\d\d)", text).group(1)


def test_the_order_s_own_number_is_planned_from_a_monday(client, jetty):
    text = plan(client, jetty)
    assert "<output" in text
    assert re.search(r"<output[^>]*>4</output>", text)
    assert "Mon " in text
    assert '<svg xmlns="http://www.w3.org/2000/svg" class="drawn plain"' in text
    assert "open bars lie still and cure" in text


def test_one_more_panel_never_ends_sooner_and_a_second_person_never_later(client, jetty):
    asked = {"people": "1", "start": "2026-03-02"}
    one, two = (ends(plan(client, jetty, panels=n, **asked)) for n in ("1", "2"))
    assert one <= two
    assert ends(plan(client, jetty, panels="2", people="2", start="2026-03-02")) <= two


@pytest.mark.parametrize(
    ("start", "begun"),
    [("2026-03-04", "2026-03-04"), ("2026-03-07", "2026-03-09"), ("2026-03-08", "2026-03-09")],
)
def test_it_begins_on_the_day_said_or_the_next_day_of_work(client, jetty, start, begun):
    text = plan(client, jetty, panels="1", people="1", start=start)
    first = re.search(r'class="daylist"><li><h3>\w+ ([\d-]+)</h3>', text).group(1)
    assert first == begun
    days = re.findall(r"<h3>(\w+) [\d-]+</h3>", text)
    assert not {"Sat", "Sun"} & set(days)


@pytest.mark.parametrize(
    "typed", [{"panels": "x"}, {"panels": "-1", "people": "9"}, {"start": "<b>"}, {"panels": "999"}]
)
def test_what_means_nothing_is_as_the_order_has_it(client, jetty, typed):
    text = plan(client, jetty, **typed)
    assert re.search(r"<output[^>]*>\d+</output>", text)
    assert "<b>&" not in text


def test_it_is_printed_for_the_same_days(client, jetty):
    answer = client.get(f"/orders/{jetty}/plan.pdf?panels=2&people=2&start=2026-03-04")
    assert answer.content.startswith(b"%PDF")


def test_an_order_that_cannot_be_designed_says_so(client):
    client.post("/orders/take", files={"file": ("n.toml", b'[order]\nnumber = "N-1"\n')})
    assert "No plan yet" in plan(client, "N-1")
    assert client.get("/orders/NONE/plan?wait=1").status_code == 404
