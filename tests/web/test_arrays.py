"""Arrays on pages: begun from a form, their strings tried and kept, panels told as they lie."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

from invented_site import headed
from panewright.ledger.arrays.layings import laying
from panewright.ledger.arrays.texts import find_array

sys.path.append(str(Path(__file__).parents[1] / "intake" / "weather"))

from invented_weather import data, epw

SAID = {
    "array.name": 'Ölaf\'s <quay> "2"',
    "place.latitude": "47.6",
    "place.longitude": "9.4",
    "rules.coldest": "-18",
    "rules.hottest_air": "36",
    "rules.on": "open ground",
    "rules.family": "IEC",
    "sky.clearness": "65",
    "sky.air": "0 1 5 9 14 17 19 18 14 10 5 1",
    "stand.tilt": "30",
    "stand.azimuth": "170",
    "stand.mounting": "open",
    "label.name": "old",
    "label.count": "4",
    "label.voc": "22.4",
    "label.vmp": "18.2",
    "label.isc": "8.55",
    "label.imp": "8",
    "label.cells": "36",
    "label.width": "670",
    "label.height": "1480",
    "controller.kind": "mppt",
    "controller.most": "100",
    "controller.current": "30",
    "battery.kind": "agm",
    "battery.volts": "12",
    "battery.capacity": "200",
    "load.power": "20",
}
NAME = SAID["array.name"]
AT = "/arrays/%C3%96laf%27s%20%3Cquay%3E%20%222%22"


def tapped(client, path, tap, **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


@pytest.fixture
def quay(client):
    answer = client.post("/arrays", data=SAID)
    assert answer.status_code == 303, answer.text
    assert answer.headers["location"] == AT
    return NAME


def board(page):
    """Strings with their panels, as the page shows them."""
    found = {}
    for letter, inside in re.findall(r'id="string-(\w+)">(.*?)</fieldset>', page, re.DOTALL):
        found[letter] = re.findall(r'name="panel" value="([^"]*)"', inside)
    return found


def test_an_empty_place_tells_what_to_do_first(client):
    page = client.get("/arrays").text
    assert "No array yet" in page
    assert 'id="d-new" open' in page


def test_a_mistake_stands_beside_its_field_and_nothing_is_written(client):
    answer = client.post("/arrays", data={**SAID, "label.vmp": "30", "stand.tilt": "steep"})
    assert answer.status_code == 422
    assert answer.text.count('aria-invalid="true"') == 2
    assert 'value="steep"' in answer.text
    assert "No array yet" in client.get("/arrays").text


def test_an_array_is_begun_reckoned_strung_kept_and_laid(client, floor, quay, settled):
    page = settled(AT, "Reckoning the year")
    assert "limits hold" in page, page
    ledger = floor.shop.ledger
    assert "[[string]]" not in find_array(ledger, quay).text
    first = board(page)
    assert sorted(name for names in first.values() for name in names) == ["old 1", "old 2", "old 3", "old 4"]
    said = tapped(client, f"{AT}/string", "a", panel="old 1", to="out").text
    assert board(said)["out"] == ["old 1"]
    assert "tried, not kept yet" in said
    assert tapped(client, f"{AT}/string", "a", panel="old 1", to="out").text.count("<b>In no string</b>") == 1
    tapped(client, f"{AT}/arrange", "g")
    assert board(settled(AT, "Arranging the strings")) == first
    tapped(client, f"{AT}/string", "h", panel="old 1", to="out")
    tapped(client, f"{AT}/string", "b", panel="old 1", to="new-1")
    stale = tapped(client, f"{AT}/keep", "c", seen="0")
    assert stale.status_code == 409
    assert "saved version 1 in the meantime" in stale.text
    assert tapped(client, f"{AT}/keep", "d", seen="1").headers["x-go"] == AT
    text = find_array(ledger, quay).text
    assert text.count("[[string]]") == len(board(client.get(AT).text))
    lie = tapped(client, f"{AT}/lie", "e", day="2026-05-04", seen="0", reason="=new")
    assert lie.status_code == 200, lie.text
    assert len(laying(ledger, quay).places) == text.count("old ")
    assert "since <time>2026-05-04</time>, =new" in client.get(AT).text
    late = tapped(client, f"{AT}/lie", "f", day="2026-05-03", seen="1")
    assert late.status_code == 422
    assert "since 2026-05-04" in late.text

    for file in ("array.pdf", "strings.csv"):
        assert f"{AT}/papers/{file}" in page
        paper = client.get(f"{AT}/papers/{file}")
        assert paper.status_code == 404  # the strings were kept since: their year is reckoned first
    page = settled(AT, "Reckoning the year")
    paper = client.get(f"{AT}/papers/array.pdf")
    assert paper.content.startswith(b"%PDF")
    assert "%C3%96laf" in paper.headers["content-disposition"]
    assert client.get(f"{AT}/papers/none.pdf").status_code == 404


TEXT = headed(
    "Roof",
    """\
[[panel]]
serials = ["0042", "0043"]
[controller]
kind = "mppt"
most = "100 V"
current = "30 A"
[battery]
kind = "agm"
volts = "12 V"
capacity = "200 Ah"
[[string]]
panels = ["0042"]
""",
)


CLEARNESS = TEXT.split("[sky]\n")[1].split("\n[[stand]]")[0]
LABELLED = TEXT.replace(
    'serials = ["0042", "0043"]',
    'name = "old"\nvoc = "22.4 V"\nvmp = "18.2 V"\nisc = "8 A"\nimp = "7.5 A"\ncells = 36\n'
    'width = "670 mm"\nheight = "1480 mm"',
).replace('panels = ["0042"]', 'panels = ["old 1"]')


def taken(client, text, name="Roof"):
    content = text.replace('"Roof"', f'"{name}"').encode()
    return client.post("/arrays/take", files={"file": ("a.toml", content)})


@pytest.fixture
def lain(client, jetty):
    """Two arrays of which one holds a panel of the shop."""
    assert client.post(f"/build/{jetty}/begin").status_code == 303
    for name in ("Roof", "Shed"):
        assert taken(client, TEXT, name).status_code == 303
    assert tapped(client, "/arrays/Roof/lie", "a", day="2026-05-04", seen="0").status_code == 200
    return "0042"


def test_a_panel_lies_in_one_array_at_a_time_and_its_page_tells_where(client, lain):
    assert "Lie in no array yet: 0045, 0044, 0043." in client.get("/arrays").text
    refused = tapped(client, "/arrays/Shed/lie", "b", day="2026-06-01", seen="0")
    assert refused.status_code == 422
    assert "it lies in Roof, string A, place 1" in refused.text
    assert (
        tapped(client, "/arrays/Shed/lie", "c", day="2026-06-01", seen="0", moving="yes").status_code == 200
    )
    page = client.get(f"/serial/{lain}").text
    assert 'lies in <a href="/arrays/Shed">Shed</a>, string A, place 1, since <time>2026-06-01</time>' in page
    assert "to <time>2026-06-01</time>; moved to Shed" in page
    assert "No panel lies there any more" in client.get("/arrays/Roof").text
    stale = tapped(client, "/arrays/Roof/lie", "d", day="2026-06-01", seen="1")
    assert stale.status_code == 409
    assert "saved version 2 in the meantime" in stale.text


def test_a_panel_is_taken_out_on_its_own_page(client, lain):
    out = f"/serial/{lain}/taken-out"
    assert tapped(client, out, "b", day="2026-06-01", reason=" ").status_code == 422
    assert tapped(client, out, "c", day="2999-01-01", reason="fog").status_code == 422
    assert tapped(client, out, "d", day="2026-02-30", reason="fog").status_code == 422
    assert tapped(client, out, "e", day="2026-06-01", reason="fog").headers["x-go"] == f"/serial/{lain}"
    page = client.get(f"/serial/{lain}").text
    assert "It lies in none now." in page
    assert "to <time>2026-06-01</time>; fog" in page


def test_mistakes_of_a_text_stand_with_their_lines_and_keep_it_from_no_hand(client):
    assert taken(client, TEXT.replace('"47 deg"', '"north"')).headers["location"] == "/arrays/Roof"
    page = client.get("/arrays/Roof").text
    assert "The text has 1 mistake" in page
    assert "Line 4:" in page
    assert "1 to mend" in client.get("/arrays").text
    text = client.get("/arrays/Roof/text").text
    assert 'data-line="4"' in text
    kept = client.post("/arrays/Roof/text", data={"text": TEXT, "seen": "1"})
    assert kept.status_code == 303
    assert 'id="string-A"' in client.get("/arrays/Roof").text


def test_two_hands_at_one_text_are_shown_to_each_other(client):
    taken(client, TEXT)
    assert client.post("/arrays/Roof/text", data={"text": TEXT + "# mine\n", "seen": "1"}).status_code == 303
    clash = client.post("/arrays/Roof/text", data={"text": TEXT + "# <yours>\n", "seen": "1"})
    assert clash.status_code == 409
    assert "Two hands at one array" in clash.text
    assert "# &lt;yours&gt;" in clash.text
    assert "# mine" in clash.text
    assert client.post("/arrays/Roof/earlier", data={"version": "1"}).status_code == 303
    assert "Version 3" in client.get("/arrays/Roof/text").text


def test_what_is_tried_is_there_when_the_shop_opens_again(client, next_day):
    taken(client, TEXT)
    assert board(client.get("/arrays/Roof").text) == {"A": ["0042"], "out": ["0043"]}
    said = tapped(client, "/arrays/Roof/string", "a", panel="0043", to="1-2")
    assert said.status_code == 200
    with next_day() as morning:
        assert board(morning.get("/arrays/Roof").text) == {"A": ["0042", "0043"]}
        assert tapped(morning, "/arrays/Roof/drop", "b").status_code == 200
        assert board(morning.get("/arrays/Roof").text) == {"A": ["0042"], "out": ["0043"]}


@pytest.mark.parametrize(
    "said",
    [
        {"panel": "", "to": "1-1"},
        {"panel": "0042", "to": "9-9"},
        {"panel": "nobody", "to": "1-1"},
        {"panel": "0042", "to": "new-2"},
        {},
    ],
)
def test_a_tap_at_nothing_is_told(client, said):
    taken(client, TEXT)
    answer = tapped(client, "/arrays/Roof/string", "a", **said)
    assert answer.status_code == 422
    assert 'class="mistake"' in answer.text
    assert board(client.get("/arrays/Roof").text)["A"] == ["0042"]


@pytest.mark.parametrize(
    "content", [b"", b"\xff\xfe\x00", b"[array]\n", b'[array]\nname = " "', b"[array]\nname = 3"]
)
def test_a_file_that_is_no_array_is_refused(client, content):
    answer = client.post("/arrays/take", files={"file": ("a.toml", content)})
    assert answer.status_code in (422, 303)
    assert "No array yet" in client.get("/arrays").text or answer.headers["location"] == "/arrays/3"


def test_a_name_is_taken_once_and_an_array_that_is_none_is_told(client):
    taken(client, TEXT)
    again = taken(client, TEXT)
    assert again.status_code == 422
    assert "There is an array of that name already" in again.text
    for path in ("/arrays/Nothing", "/arrays/Nothing/text", "/arrays/Nothing/versions"):
        assert client.get(path).status_code == 404


def test_a_serial_that_nobody_knows_is_told_where_the_year_should_stand(client, settled):
    taken(client, TEXT)
    page = settled("/arrays/Roof", "Reckoning the year")
    assert "0042" in page
    assert 'class="mistake"' in page
    assert 'id="string-A"' in page  # strings can be put all the same


def test_a_weather_file_is_read_before_it_is_kept_and_then_named(client, settled):
    taken(client, TEXT)
    answer = client.post("/arrays/Roof/weather", files={"file": ("x.epw", b"LOCATION,nowhere\n1,2,3\n")})
    assert answer.status_code == 422
    assert 'class="mistake"' in answer.text
    named = LABELLED.replace(CLEARNESS, 'weather = "x <y>.epw"')
    assert named != LABELLED
    taken(client, named, "Hut")
    assert "no file of that name" in settled("/arrays/Hut", "Reckoning the year")
    answer = client.post("/arrays/Roof/weather", files={"file": ("x <y>.epw", data(epw()))})
    assert answer.status_code == 200
    assert "x &lt;y&gt;.epw is kept" in answer.text
    tapped(client, "/arrays/Hut/year", "z")
    assert "limits" in settled("/arrays/Hut", "Reckoning the year")
    assert "By month, at the inputs" in client.get("/arrays/Hut").text


def test_work_that_breaks_is_told_and_not_begun_again_by_looking(client, floor, monkeypatch, settled, capsys):
    from panewright.desk import jobs

    asked = []

    def broken(*_):
        asked.append(1)
        raise KeyError("0042")

    monkeypatch.setattr(jobs, "array_basis", broken)
    taken(client, TEXT)
    for _ in range(3):
        page = settled("/arrays/Roof", "Reckoning the year")
    assert "The work ended before the array was reckoned" in page
    assert len(asked) == 1
    assert floor.works.arrays.doing == ""
    assert "0042" not in capsys.readouterr().err
