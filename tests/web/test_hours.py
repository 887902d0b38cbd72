"""Minutes at a step written down without a tick, taken back, and counted for the next price."""

from decimal import Decimal

import pytest

from panewright.desk.actuals import actuals
from panewright.ledger.serials.hours import hours

BENCH = "/build/JL-7/0042"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def step_of(text, key):
    return text.partition(f'id="step-{key}"')[2].partition("\n</li>")[0]


def test_minutes_need_no_tick_and_a_tap_that_comes_twice_counts_once(client, floor, begun):
    for _ in range(2):
        answer = tapped(client, f"{BENCH}/hours", "a", step="tab-cells", minutes="1:20", note="second hand")
    assert "Took 1 h 20 min" in step_of(answer.text, "tab-cells")
    assert "second hand" in step_of(answer.text, "tab-cells")
    assert "0 of 18 done" in answer.text
    (kept,) = hours(floor.shop.ledger, begun)
    assert (kept.step, kept.minutes) == ("tab-cells", Decimal(80))


def test_they_are_added_to_those_of_the_tick_and_count_in_the_shops_own_figures(client, floor, begun):
    tapped(client, f"{BENCH}/tick", "a", step="tab-cells", done="yes", minutes="100")
    answer = tapped(client, f"{BENCH}/hours", "b", step="tab-cells", minutes="25")
    assert "Took 2 h 5 min" in step_of(answer.text, "tab-cells")
    (pace,) = actuals(floor.shop.ledger).paces
    assert pace.took == Decimal(125)
    assert "2 h 5 min over 1 step." in client.get(f"/serial/{begun}").text


def test_the_undo_and_the_line_take_them_back(client, floor, begun):
    answer = tapped(client, f"{BENCH}/hours", "a", step="tab-cells", minutes="25")
    assert f'action="{BENCH}/hours/back"' in answer.text.partition('id="undo"')[2]
    number = hours(floor.shop.ledger, begun)[0].number
    back = tapped(client, f"{BENCH}/hours/back", "b", number=str(number))
    assert "Took" not in step_of(back.text, "tab-cells")
    assert hours(floor.shop.ledger, begun) == ()
    assert actuals(floor.shop.ledger).paces == ()
    record = client.get(f"/serial/{begun}").text
    assert "-25 min" in record
    assert "25 min over" not in record


@pytest.mark.usefixtures("begun")
@pytest.mark.parametrize("typed", ["", "long", "-5", "0", "1441", "25:00", "NaN", "1e9"])
def test_what_is_no_time_is_told_and_not_kept(client, floor, typed):
    answer = tapped(client, f"{BENCH}/hours", "a", step="tab-cells", minutes=typed)
    assert answer.status_code == 422
    assert "mistake" in answer.text
    assert hours(floor.shop.ledger, "0042") == ()


@pytest.mark.usefixtures("begun")
def test_a_strange_step_and_the_minutes_of_another_panel_are_refused(client, floor):
    assert tapped(client, f"{BENCH}/hours", "a", step="paint-it", minutes="5").status_code == 422
    tapped(client, f"{BENCH}/hours", "b", step="tab-cells", minutes="5")
    number = hours(floor.shop.ledger, "0042")[0].number
    assert tapped(client, "/build/JL-7/0043/hours/back", "c", number=str(number)).status_code == 422
    assert len(hours(floor.shop.ledger, "0042")) == 1


@pytest.mark.usefixtures("begun")
def test_it_works_as_a_plain_form_too(client, floor):
    answer = client.post(f"{BENCH}/hours", data={"step": "tab-cells", "minutes": "5"})
    assert answer.headers["location"] == BENCH
    assert len(hours(floor.shop.ledger, "0042")) == 1
