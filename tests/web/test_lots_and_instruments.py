"""From a bad batch or a faulty instrument to every panel that it touched; readings name what read them."""

from datetime import UTC, datetime, timedelta

import pytest

from panewright.desk.bench.readings import standing
from panewright.ledger.bench.readings import readings

TODAY = datetime.now(UTC).date()
BENCH = "/build/JL-7/0042"
VOC = {"step": "string-column", "key": "string-column.voc-1", "light": "1000", "heat": "25"}


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def silicone(client, mark="S1", tap="a", **more):
    said = {"mark": mark, "kind": "silicone", "name": "neutral cure", "unit": "cartridge", "batch": "B-9"}
    return tapped(client, "/lots", tap, **{**said, **more})


def test_a_lot_is_written_down_lies_in_the_stock_and_leads_to_its_panels(client, begun):
    answer = silicone(client, amount="12", expires=str(TODAY + timedelta(days=99)))
    assert answer.headers["x-go"] == "/lots/S1"
    assert "<b>12</b> cartridge" in client.get("/shelf").text
    assert "No panels hold" in client.get("/lots/S1").text
    tapped(client, f"{BENCH}/built/lot", "b", lot="S1", amount="1")
    for path in ("/lots/S1", "/batches/B-9"):
        text = client.get(path).text
        assert "1 panel holds" in text
        assert f"/serial/{begun}" in text
    assert client.get("/serial", params={"code": "S1"}).headers["location"] == "/lots/S1"


def test_a_lot_is_described_better_and_a_mark_is_taken_once(client):
    silicone(client)
    again = silicone(client, tap="c", name="another")
    assert again.status_code == 422
    assert "its mark is taken" in again.text
    assert 'value="another"' in again.text
    better = silicone(client, tap="d", seen="1", expires="2020-01-31")
    assert better.headers["x-go"] == "/lots/S1"
    assert "Past its day" in client.get("/lots/S1").text


@pytest.mark.parametrize("wrong", [{"expires": "soon"}, {"amount": "-2"}, {"name": " "}, {"price": "nan"}])
def test_a_lot_that_cannot_be_is_told(client, wrong):
    assert silicone(client, **wrong).status_code == 422
    assert "No lot yet" in client.get("/lots").text


def test_a_reading_names_its_instrument_and_the_last_one_is_proposed(client, floor, begun):
    tapped(client, "/instruments", "e", name="Meter 1", kind="multimeter", day="2019-01-01", due="2020-01-01")
    tapped(client, "/instruments", "f", name="Meter 2", kind="multimeter", day=str(TODAY))
    page = client.get(BENCH).text
    assert "Meter 1: calibration was due 2020-01-01" in page
    first = tapped(client, f"{BENCH}/reading", "g", **VOC, value="7.5", meter="Meter 1")
    assert "Meter 1 was due 2020-01-01" in first.text
    assert '<option value="Meter 1" selected>' in first.text.partition("string-column-voc-2")[2]
    tapped(client, f"{BENCH}/reading", "h", **VOC, value="7.5", meter="Meter 2")
    kept = readings(floor.shop.ledger, serial=begun)
    assert [each.reading.instrument for each in kept] == ["Meter 1", "Meter 2"]
    assert [each.overdue for each in kept] == [True, False]
    listed = client.get("/instruments/Meter 1").text
    assert f"/serial/{begun}" in listed
    assert f"/serial/{begun}" not in client.get("/instruments/Meter 1?until=2020-01-01").text
    assert client.get("/instruments/Meter 1?since=someday").status_code == 422
    tapped(client, "/instruments/Meter 1/calibrated", "i", day=str(TODAY), due=str(TODAY))
    assert "calibration was due" not in client.get("/instruments").text


def test_an_instrument_that_nobody_knows_is_refused(client, floor, begun):
    answer = tapped(client, f"{BENCH}/reading", "j", **VOC, value="7.5", meter="Meter 9")
    assert answer.status_code == 422
    assert standing(floor.shop.ledger, begun) == ()
    assert client.get("/instruments/Meter 9").status_code == 404


def test_a_reading_is_taken_back_to_what_it_was_by_rows_of_its_own(client, floor, begun):
    back = {"step": VOC["step"], "key": VOC["key"]}

    def stands():
        return [each.reading.value for each in standing(floor.shop.ledger, begun)]

    tapped(client, f"{BENCH}/reading", "k", **VOC, value="7.5")
    tapped(client, f"{BENCH}/reading", "l", **VOC, value="75")
    answer = tapped(client, f"{BENCH}/reading/back", "m", **back)
    assert "as it should be" in answer.text
    assert stands() == [7.5]
    assert len(readings(floor.shop.ledger, serial=begun)) == 3


def test_a_first_reading_taken_back_no_longer_counts(client, floor, begun):
    back = {"step": VOC["step"], "key": VOC["key"]}
    tapped(client, f"{BENCH}/reading", "n", **VOC, value="7.5")
    for _ in range(2):
        answer = tapped(client, f"{BENCH}/reading/back", "o", **back)
    assert "as it should be" not in answer.text
    assert standing(floor.shop.ledger, begun) == ()
    tapped(client, f"{BENCH}/reading", "p", **VOC, value="7.4")
    assert [each.reading.value for each in standing(floor.shop.ledger, begun)] == [7.4]


def test_minutes_are_kept_with_done_when_the_person_wants(client, floor, begun):
    tapped(client, f"{BENCH}/tick", "q", step="sort-cells", done="yes", minutes="1:20")
    assert floor.shop.life(begun).ticks[0].minutes == 80
    tapped(client, f"{BENCH}/tick", "r", step="cut-rails", done="yes", minutes="")
    assert floor.shop.life(begun).ticks[1].minutes is None
    wrong = tapped(client, f"{BENCH}/tick", "s", step="cut-rails", done="yes", minutes="long")
    assert wrong.status_code == 422


def test_stock_is_taken_back_once_and_sums_come_right(client):
    said = {"item": "tab", "unit": "m", "amount": "30"}
    kept = tapped(client, "/shelf/move", "t", **said, reason="received")
    number = kept.text.partition('name="number" value="')[2].partition('"')[0]
    tapped(client, "/shelf/count", "u", **{**said, "amount": "25"})
    gone = tapped(client, "/shelf/back", "v", number=number)
    assert "<b>-5</b> m" in gone.text
    assert tapped(client, "/shelf/back", "w", number=number).status_code == 422
    assert tapped(client, "/shelf/back", "x", number="9999").status_code == 422


def test_how_many_cells_to_buy_is_asked_without_an_offer(client):
    assert 'href="/need"' in client.get("/offers").text
    assert "How many?" in client.get("/need").text
    asked = {"good": "36", "lost": "arrival: 2 %\r\nbench: 3 %", "sure": "95 %", "pack": "10"}
    answer = client.get("/need", params=asked)
    assert answer.status_code == 200
    assert "buy 40 cells in 4 packs of 10." in answer.text
    wrong = client.get("/need", params={**asked, "lost": "9 of 3", "sure": "<b>"})
    assert wrong.status_code == 422
    assert "More are lost than there were." in wrong.text
    assert "<b>: " not in wrong.text
