"""Whose an order is; what came back, and what was done about it; units as the order has them."""

from pathlib import Path

import pytest

from panewright.desk.bench.readings import standing

EXAMPLES = Path(__file__).parents[2] / "examples"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def test_an_order_is_given_to_a_new_customer_and_then_to_a_known_one(client, begun):
    told = {"mark": "K-7", "name": "Ada Muster", "mail": "ada@example.org"}
    assert tapped(client, "/orders/JL-7/customer", "a", **told).headers["x-go"] == "/orders/JL-7/customer"
    assert "Ada Muster" in client.get("/orders/JL-7/customer").text
    assert "Ada Muster" in client.get(f"/serial/{begun}").text
    tapped(client, "/customers", "b", mark="K-8", name="Ben Muster")
    tapped(client, "/orders/JL-7/customer", "c", mark="K-8")
    assert "Ben Muster" in client.get(f"/serial/{begun}").text
    known = client.get("/customers/K-7/all.json")
    assert known.json()["serials"][0] == begun
    assert known.headers["content-disposition"].startswith("attachment")


def test_a_customer_is_written_down_anew_and_a_mark_is_taken_once(client):
    tapped(client, "/customers", "d", mark="K-7", name="Ada Muster")
    taken = tapped(client, "/customers", "e", mark="K-7", name="Eve Muster")
    assert taken.status_code == 422
    assert "mark is taken" in taken.text
    assert 'value="Eve Muster"' in taken.text
    tapped(client, "/customers", "f", mark="K-7", name="Ada Moved", seen="1")
    assert "Ada Moved" in client.get("/customers/K-7").text


@pytest.mark.parametrize("wrong", [{"mark": "a/b"}, {"mark": ""}, {"name": " "}])
def test_a_customer_that_cannot_be_is_told(client, wrong):
    assert tapped(client, "/customers", "g", **{"mark": "K-1", "name": "Ada", **wrong}).status_code == 422


def test_hostile_names_are_only_text(client):
    nasty = "<script>alert(1)</script>"
    tapped(client, "/customers", "h", mark="K-9", name=nasty, address=nasty)
    for path in ("/customers", "/customers/K-9"):
        assert nasty not in client.get(path).text


def test_a_claim_and_the_repair_that_answers_it(client, floor, begun):
    claimed = tapped(client, f"/serial/{begun}/claim", "i", words="Corner leaks.\nSince spring.")
    assert "Corner leaks." in claimed.text
    number = floor.shop.life(begun).claims[0].id
    mended = tapped(client, f"/serial/{begun}/repair", "j", words="New bead.", claim=str(number))
    assert f"for claim {number}" in mended.text
    assert tapped(client, f"/serial/{begun}/claim", "k", words=" ").status_code == 422
    wrong = tapped(client, f"/serial/{begun}/repair", "l", words="Twice.", claim="99999")
    assert wrong.status_code == 422
    assert "Twice." in wrong.text


def test_a_us_order_reads_inches_and_fahrenheit_and_keeps_millimetres(client, floor):
    content = (EXAMPLES / "fence.toml").read_bytes()
    order = client.post("/orders/take", files={"file": ("fence.toml", content)}).headers["location"]
    number = order.rpartition("/")[2]
    client.post(f"/build/{number}/begin")
    serial = floor.shop.serials(number)[0].serial.serial
    bench = f"/build/{number}/{serial}"
    text = client.get(bench).text
    assert 'placeholder="in"' in text
    assert "of the cells, °F" in text
    step, key = "cut-rails", "cut-rails.length-1"
    line = next(
        part for part in text.split("<form") if f'value="{step}"' in part and "cut-rails.length" in part
    )
    key = line.partition('name="key" value="')[2].partition('"')[0]
    tapped(client, f"{bench}/reading", "m", step=step, key=key, value="33 1/2")
    tapped(
        client,
        f"{bench}/reading",
        "n",
        step="polarity",
        key="polarity.voc",
        value="20",
        light="900",
        heat="77",
    )
    kept = {each.reading.quantity: each.reading for each in standing(floor.shop.ledger, serial)}
    assert kept[key].value == pytest.approx(850.9)
    assert kept[key].unit == "mm"
    assert kept["polarity.voc"].heat_c == pytest.approx(25.0)
    assert 'value="33.5"' in client.get(bench).text
    assert "33 1/2\u2009in" in client.get(f"/serial/{serial}").text


@pytest.mark.parametrize("what", ["name", "address"])
def test_a_line_too_long_is_told_with_place_value_and_cure(client, what):
    typed = {"mark": "K-9", "name": "Ada", what: "x" * 500}
    answer = client.post("/customers", data=typed, headers={"x-tap": "y" * 24})
    assert answer.status_code == 422
    assert f"The {what} is longer than 200 letters" in answer.text
    assert "xxx…" in answer.text
    assert "Write 200 letters at most." in answer.text
    assert client.get("/customers/K-9").status_code == 404
