"""The bench of a serial: ticked, timed, read against what is expected, photographed."""

import re
from io import BytesIO

import pytest
from PIL import Image

BENCH = "/build/JL-7/0042"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def begun(client, jetty):
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    return "0042"


def test_to_begin_gives_every_panel_its_serial_once(client, floor, jetty):
    for _ in range(2):
        tapped(client, f"/build/{jetty}/begin", "a")
    assert [each.serial.serial for each in floor.shop.serials(jetty)] == ["0042", "0043", "0044", "0045"]
    assert "0045" in client.get(f"/build/{jetty}").text


def test_an_order_with_mistakes_cannot_be_begun(client, floor):
    client.post("/orders", data={"number": "E-1"})
    stands = floor.shop.order("E-1")
    client.post("/orders/E-1/text", data={"text": stands.text.replace("m/s", "knots!"), "seen": "1"})
    assert client.post("/build/E-1/begin").status_code == 422


def test_a_later_order_leaves_begun_panels_as_they_were(client, floor, jetty, begun):
    before = floor.shop.bench(begun).text
    tapped(client, f"/orders/{jetty}/say", "b", key="site.snow", value="0.8 kPa", was="0.7 kPa")
    assert floor.shop.bench(begun).text == before != floor.shop.order(jetty).text


def test_a_tick_stands_moves_the_next_step_up_and_is_taken_back(client, floor, begun):
    answer = tapped(client, f"{BENCH}/tick", "c", step="sort-cells", done="yes")
    assert "1 of 18 done" in answer.text
    assert 'id="step-trial-patch" class="now"' in answer.text
    tapped(client, f"{BENCH}/tick", "c", step="sort-cells", done="yes")
    assert len(floor.shop.life(begun).ticks) == 1
    back = tapped(client, f"{BENCH}/tick", "d", step="sort-cells", done="no")
    assert "0 of 18 done" in back.text


@pytest.mark.usefixtures("begun")
def test_a_step_that_the_panel_does_not_have_is_refused(client):
    assert tapped(client, f"{BENCH}/tick", "e", step="paint-it", done="yes").status_code == 422


@pytest.mark.usefixtures("begun")
@pytest.mark.parametrize(
    ("typed", "word"), [("7.5", "as it should be"), ("7,5 V", "as it should be"), ("6.9", ": stop")]
)
def test_a_reading_is_judged_at_once(client, typed, word):
    step = "string-column"
    answer = tapped(
        client,
        f"{BENCH}/reading",
        "f",
        step=step,
        key="string-column.voc-1",
        value=typed,
        light="1000",
        heat="25",
    )
    assert answer.status_code == 200
    assert word in answer.text


def test_a_reading_in_less_light_is_held_against_that_light(client, floor, begun):
    said = {"step": "polarity", "key": "polarity.isc", "value": "2.6"}
    assert ": stop" in tapped(client, f"{BENCH}/reading", "g", **said, light="1000").text
    assert (
        "as it should be" in tapped(client, f"{BENCH}/reading", "h", **said, light="510", heat="77 degF").text
    )
    kept = floor.shop.life(begun).readings
    assert [each.corrected for each in kept] == [True, False]
    assert kept[1].reading.heat_c == pytest.approx(25.0)


@pytest.mark.parametrize("typed", ["", "seven", "1e99", "nan"])
def test_what_is_no_number_is_told(client, floor, begun, typed):
    step = "string-column"
    answer = tapped(client, f"{BENCH}/reading", "k", step=step, key="string-column.voc-1", value=typed)
    assert answer.status_code == 422
    assert "this is no number" in answer.text
    assert floor.shop.life(begun).readings == ()


@pytest.mark.usefixtures("begun")
def test_a_clock_runs_and_is_stopped(client):
    running = tapped(client, f"{BENCH}/clock", "l", step="cure-bead")
    assert re.search(r'data-until="20\d\d-', running.text)
    stopped = tapped(client, f"{BENCH}/clock", "m", step="cure-bead", stop="yes")
    assert "data-until" not in stopped.text


@pytest.mark.usefixtures("begun")
def test_a_caution_stands_where_the_hand_is_about_to_do_it(client):
    text = client.get(BENCH).text
    step = text.partition('id="step-string-column')[2].partition("</li>")[0]
    assert "A panel in light is live" in step


def test_a_photograph_is_kept_without_what_the_camera_wrote(client, floor, begun):
    picture, exif = BytesIO(), Image.Exif()
    exif[0x010E] = "where I live"
    Image.new("RGB", (3000, 1000), "navy").save(picture, "JPEG", exif=exif)
    answer = client.post(
        "/photos/JL-7/0042", files={"file": ("me.jpg", picture.getvalue())}, data={"step": "label"}
    )
    assert answer.status_code == 303
    kept = floor.shop.life(begun).papers[0]
    data = client.get(f"/kept/{kept.sha256}")
    assert data.headers["content-type"] == "image/jpeg"
    assert b"where I live" not in data.content
    assert Image.open(BytesIO(data.content)).size == (2400, 800)
    assert kept.sha256 in client.get("/serial/0042").text


@pytest.mark.parametrize("content", [b"", b"GIF89a", b"\x89PNG\r\n\x1a\nbroken", b"<svg onload='x'/>"])
def test_what_is_no_photograph_is_refused(client, floor, begun, content):
    assert client.post("/photos/JL-7/0042", files={"file": ("x.jpg", content)}).status_code == 422
    assert floor.shop.life(begun).papers == ()
