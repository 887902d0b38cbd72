"""Measured cells in the shop: a table dropped, its columns settled, its suspects settled, all kept."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

LOTS = Path(__file__).parents[2] / "examples" / "lots"
SHUNTED = ["B056", "B061", "B119", "B128", "B160"]
CHIPPED = ["B002", "B034", "B088", "B094", "B133", "B158"]  # so remarked
TAP = {"x-tap": "d" * 24}
OPEN = "No;Isc [A];Uoc [mV];Temp;E [W/m2]\n" + "".join(
    f"{n};9,{n % 10}1;61{n % 10};7{n % 3 + 6};1000\n" for n in range(1, 31)
)


def dropped(client, name="barn-roof.csv", lot="B7", data=None):
    content = (LOTS / name).read_bytes() if data is None else data
    return client.post("/cells/take", data={"lot": lot}, files={"file": (name, content)})


def shown(client, lot="B7"):
    return unescape(client.get(f"/cells/{lot}?wait=1").text)


@pytest.fixture
def barn(client):
    answer = dropped(client)
    assert (answer.status_code, answer.headers["location"]) == (303, "/cells/B7")
    return shown(client)


def suspects(page):
    return re.findall(r'<li class="sheet stack" id="s-([^"]+)"', page)


def test_a_dropped_table_shows_spread_suspects_and_bad_rows(client, barn):
    assert suspects(barn) == [*SHUNTED, *CHIPPED]
    assert "Its row says 'chip, 1/4\" at the edge'. It stays in." in barn
    assert re.search(r"<td>B</td><td class=\"n\">\d+</td>", barn)
    assert barn.count("data-points=") == 2
    assert "middle 4.40" in barn
    assert "That or more" in barn
    assert "Row 41, Isc (mA): OL" in barn
    assert "The meter was overloaded" in barn
    assert 'href="/cells/B7"' in client.get("/lots").text
    assert 'href="/cells/B7"' in client.get("/lots/B7").text


def test_each_suspect_is_settled_and_left_open_again(client, barn):
    assert barn
    for cell, what in (("B056", "leave out"), ("B061", "keep")):
        assert client.post("/cells/B7/settle", data={"cell": cell, "what": what}).status_code == 303
    page = shown(client)
    assert suspects(page) == [*SHUNTED[2:], *CHIPPED]
    assert "Cells left out: 1." in page
    client.post("/cells/B7/settle", data={"cell": "B056", "row": "0", "what": "open"})
    assert "B056" in suspects(shown(client))


def test_a_row_is_put_right_and_a_tap_brings_the_parts_with_the_way_back(client, barn):
    row = re.search(r'name="cell" value="B119"><input type="hidden" name="row" value="(\d+)"', barn).group(1)
    right = {"figure-isc_a": "8,6", "figure-voc_v": "0.62", "figure-irradiance_w_m2": "945"}
    told = {"cell": "B119", "row": row, "anew": "B119", "what": "correct", **right}
    answer = client.post("/cells/B7/settle", data=told, headers=TAP)
    assert answer.status_code == 200
    assert 'id="standing"' in answer.text
    assert "Cell B119 is put right" in answer.text
    assert "B119" not in suspects(shown(client))


def test_figures_that_are_none_are_told(client, barn):
    assert barn
    told = {"cell": "B119", "row": "121", "what": "correct"}
    assert client.post("/cells/B7/settle", data=told).status_code == 422
    wrong = client.post("/cells/B7/settle", data={**told, "figure-isc_a": "many"})
    assert "This is no number." in wrong.text
    assert client.post("/cells/B7/settle", data={**told, "figure-isc_a": "-3"}).status_code == 422
    assert client.post("/cells/B7/settle", data={"cell": "B119", "what": "burn"}).status_code == 422


def test_an_open_column_is_asked_for_and_settled_and_known_the_next_time(client):
    assert dropped(client, "open.csv", "T1", OPEN.encode()).status_code == 303
    page = unescape(client.get("/cells/T1").text)
    assert "Look: 77 to 79 may be degC or degF." in page or "Look: 76 to 78 may be degC or degF." in page
    assert "77   78   76" in page
    form = {"seen": "1", "quantity-4": "cell_c", "unit-4": ""}
    still = client.post("/cells/T1/columns", data=form)
    assert still.status_code == 422
    assert "Say which: degC, degF." in still.text
    assert client.post("/cells/T1/columns", data={**form, "unit-4": "degF"}).status_code == 303
    assert "cells</dt><dd>30" in shown(client, "T1")
    assert client.post("/cells/T1/columns", data={**form, "unit-4": "degC"}).status_code == 422  # stale
    assert dropped(client, "next.csv", "T2", OPEN.replace("30;", "31;").encode()).status_code == 303
    assert "cells</dt><dd>30" in shown(client, "T2")


def test_a_unit_that_is_none_of_the_quantity_is_told(client, barn):
    assert barn
    wrong = {"seen": "1", "quantity-2": "isc_a", "unit-2": "mV"}
    answer = client.post("/cells/B7/columns", data=wrong)
    assert answer.status_code == 422
    assert "This unit is not one of that quantity." in answer.text


def test_another_kind_of_cell_is_taken_as_told(client, barn):
    assert "the nearest on the shelf" in barn
    answer = client.post("/cells/B7/columns", data={"seen": "1", "kind": "156 mm poly"})
    assert answer.status_code == 303
    assert "Taken for 156 mm poly." in shown(client)


def test_a_kind_of_another_size_is_refused_and_the_nearest_is_named(client, barn):
    nearest = re.search(r"Taken for ([^,]+), the nearest", barn)[1]
    client.post("/cells/B7/columns", data={"seen": "1", "kind": "125 mm mono"})
    answer = client.get("/cells/B7?wait=1")
    assert answer.status_code == 200
    told = unescape(answer.text)
    assert "in full sun, 125 mm mono 5.42 A." in told
    assert f"The nearest on the shelf is {nearest};" in told


def test_every_cell_is_taken_along(client, barn):
    assert barn
    listed = client.get("/cells/B7/cells.csv")
    assert "B056" in listed.text
    assert client.get("/cells/B7/cells.xlsx").content.startswith(b"PK")
    assert client.get("/cells/B7/cells.doc").status_code == 404
    bad = client.get("/cells/B7/not-read.csv").text.splitlines()
    assert any(line.startswith("41,Isc (mA),OL,") for line in bad)
    assert client.get("/cells/none/not-read.csv").status_code == 404


@pytest.mark.parametrize("data", [b"", b"\xd0\xcf\x11\xe0" + bytes(600), b"PK\x03\x04broken", b"\0" * 4000])
def test_what_is_no_table_is_told_and_nothing_is_kept(client, data):
    assert dropped(client, "x.xls", "X1", data).status_code == 422
    assert client.get("/lots/X1").status_code == 404


def test_hostile_words_are_only_text(client):
    nasty = OPEN.replace("Temp", "T [degC]").replace("\n7;", "\n<script>alert(1)</script>;")
    dropped(client, "<script>a.csv", "S 1/2", nasty.encode())
    page = client.get("/cells/S%201~2F2?wait=1")
    assert page.status_code == 200
    assert "<script>alert" not in page.text
    assert "<script>a.csv" not in page.text


def test_the_records_keep_file_mapping_readings_and_what_was_settled(client, floor, barn):
    from panewright.desk.lots import kept

    assert barn
    client.post("/cells/B7/settle", data={"cell": "B061", "what": "keep"})
    ledger = floor.shop.ledger
    found = kept.find(ledger, "B7")
    assert kept.file_of(ledger, found) == (LOTS / "barn-roof.csv").read_bytes()
    assert len(kept.rows_of(ledger, found)) == 158
    assert [(each.mark, each.what) for each in found.settled] == [("B061", "keep")]
    assert 'header = "Isc (mA)"' in found.mapping.text


def test_a_lot_that_was_never_measured_leads_to_the_lot(client):
    assert client.get("/cells/none").headers["location"] == "/lots/none"


DARK = "Cell;Isc [A];Uoc [mV]\n" + "".join(f"{n};6.{n % 10}1;61{n % 10}\n" for n in range(1, 31))


def test_the_light_is_asked_for_where_no_column_says_it_and_asked_again_of_the_next_table(client):
    assert dropped(client, "dark.csv", "D1", DARK.encode()).status_code == 303
    page = unescape(client.get("/cells/D1").text)
    assert "Look: no column says it, and how good the cells are hangs on it." in page
    still = client.post("/cells/D1/columns", data={"seen": "1", "light": ""})
    assert still.status_code == 422
    assert "No row tells in which light the cells were read" in still.text
    two = {"seen": "1", "light": "unknown", "given-irradiance_w_m2": "640"}
    assert "Two lights are said." in client.post("/cells/D1/columns", data=two).text
    assert client.post("/cells/D1/columns", data={**two, "light": "given"}).status_code == 303
    assert "taken for every row that does not say it: irradiance_w_m2 640" in shown(client, "D1").lower()
    assert dropped(client, "next.csv", "D2", DARK.encode()).status_code == 303
    assert "Look: no column says it" in client.get("/cells/D2").text
    assert client.post("/cells/D2/columns", data={"seen": "1", "light": "unknown"}).status_code == 303
    assert "Nobody knows in which light the cells were read. Their middle is set" in shown(client, "D2")


def test_the_meters_errors_are_said_on_the_page_and_widen_the_band(client):
    dropped(client, "sound.csv", "E1", OPEN.replace("Temp", "T [degC]").replace(";7", ";2").encode())
    before = known_to(shown(client, "E1"))
    wrong = client.post("/cells/E1/columns", data={"seen": "1", "error-current": "many"})
    assert wrong.status_code == 422
    assert "This is no error of a reading." in wrong.text
    assert client.post("/cells/E1/columns", data={"seen": "1", "error-current": "4 %"}).status_code == 303
    page = shown(client, "E1")
    assert known_to(page) > 1.05 * before  # of Isc and Voc alone the resistances blur most
    assert 'name="error-current" value="4 %"' in page


def known_to(page):
    return float(re.search(r"are known to ([\d.]+)", page).group(1))
