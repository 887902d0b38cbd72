"""The panel page: a tap changes a cell, comes back with the curve, and counts once."""

import html
import json
import re

import pytest

from panewright import desk
from panewright.desk.orders.form import value_of
from panewright.desk.shop.who import Who
from panewright.panel.what_if import CellState


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


def marks(text):
    return json.loads(html.unescape(re.search(r'data-marks="([^"]*)"', text)[1]))


def test_the_page_shows_every_cell_from_either_side(client, jetty):
    for side in ("front", "bench", "nonsense"):
        text = client.get(f"/panel/{jetty}?side={side}").text
        assert text.count("data-cell=") == 72


def test_a_tap_moves_the_watts_to_what_the_desk_says(client, floor, jetty):
    answer = tapped(client, f"/panel/{jetty}/cell", "a", cell="7", state="shade-50")
    assert answer.status_code == 200
    assert marks(answer.text)["7"].startswith("half")
    made = desk.design(floor.shop.order(jetty).text.encode(), "x")
    seen = desk.what_if(made, {7: CellState(shade=0.5)})
    watts = float(re.search(r"Gives at most</dt><dd>([\d.]+)", answer.text)[1])
    assert watts == pytest.approx(seen.points.power_w, rel=5e-3)
    assert "data-cell" not in answer.text  # the drawing need not come again


def test_a_tap_that_comes_twice_counts_once(client, floor, jetty):
    for _ in range(2):
        tapped(client, f"/panel/{jetty}/cell", "b", cell="7", state="shade-50")
    tapped(client, f"/panel/{jetty}/cell", "c", cell="7", state="sound")
    tapped(client, f"/panel/{jetty}/cell", "b", cell="7", state="shade-50")
    assert floor.shop.cells(jetty) == {}
    assert floor.shop.drafts.taps(jetty) == 2


def test_what_was_tapped_is_taken_back_whole(client, floor, jetty):
    tapped(client, f"/panel/{jetty}/cell", "d", cell="7", state="shade-50")
    tapped(client, f"/panel/{jetty}/cell", "e", cell="30", state="crack-33")
    answer = tapped(client, f"/panel/{jetty}/mend", "f")
    assert floor.shop.cells(jetty) == {}
    back = re.findall(r'name="(cell|state)" value="([^"]+)"', answer.text)
    data = {name: [value for each, value in back if each == name] for name in ("cell", "state")}
    tapped(client, f"/panel/{jetty}/cell", "g", **data)
    assert floor.shop.cells(jetty) == {7: "shade-50", 30: "crack-33"}


@pytest.mark.parametrize(
    "data",
    [
        {"cell": "7", "state": "burnt"},
        {"cell": "7", "state": "shade-900"},
        {"cell": "0", "state": "shade-50"},
        {"cell": "x", "state": "shade-50"},
        {},
    ],
)
def test_a_tap_that_means_nothing_changes_nothing(client, floor, jetty, data):
    assert tapped(client, f"/panel/{jetty}/cell", "h", **data).status_code == 422
    assert floor.shop.cells(jetty) == {}


def test_cells_that_a_later_lay_up_does_not_have_are_passed_over(client, floor, jetty):
    floor.shop.try_cells(jetty, {300: "shade-50"}, Who.now("Ann", "k" * 24))
    assert client.get(f"/panel/{jetty}").status_code == 200


def test_a_chart_brings_the_numbers_that_a_finger_asks_for(client, jetty):
    text = client.get(f"/panel/{jetty}").text
    points = json.loads(html.unescape(re.search(r'data-points="([^"]*)"', text)[1]))
    assert points["name"] == "voltage"
    assert len(points["series"][0]["x"]) == len(points["series"][0]["y"]) > 20
    x_from, x_to, left, right, top, bottom = points["frame"]
    assert (x_from, x_to > 40) == (0, True)
    assert left < right
    assert top < bottom


def test_without_the_script_a_form_does_the_same(client, floor, jetty):
    answer = client.post(f"/panel/{jetty}/cell", data={"cell": "7", "state": "swap-90"})
    assert (answer.status_code, answer.headers["location"]) == (303, f"/panel/{jetty}")
    assert floor.shop.cells(jetty) == {7: "swap-90"}


def test_an_order_with_mistakes_leads_back_to_its_answers(client):
    client.post("/orders", data={"number": "E-1"})
    was = value_of(desk.new_order(), "site.wind")
    client.post("/orders/E-1/say", data={"key": "site.wind", "value": "wild", "was": was})
    assert "answers missing or wrong" in client.get("/panel/E-1").text


@pytest.mark.parametrize("cell", ["0", "73", "999", "-3", "x"])
def test_a_cell_that_the_panel_has_not_is_refused(client, jetty, cell):
    client.get(f"/panel/{jetty}?wait=1")
    answer = client.post(
        f"/panel/{jetty}/cell", data={"cell": cell, "state": "shade-50"}, headers={"x-tap": "z" * 24}
    )
    assert answer.status_code == 422
    assert "There is no such cell." in answer.text
    assert "cells 1 to 72" in answer.text
