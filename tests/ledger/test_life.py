"""A panel's whole life, the export of all records, and a customer erased on request."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import full
import pytest
from words import NOON, later

from panewright.errors import RecordError
from panewright.ledger.changes import since
from panewright.ledger.kept.check import check
from panewright.ledger.kept.export import cell, export
from panewright.ledger.orders.customers import (
    Person,
    all_of_customer,
    customer_of,
    customers,
    find_customer,
    save_customer,
)
from panewright.ledger.orders.erasing import erase_customer
from panewright.ledger.orders.orders import save_order, versions
from panewright.ledger.serials.life import life
from panewright.ledger.serials.steps import tick
from panewright.ledger.serials.telling import told
from panewright.ledger.tables import METADATA


@pytest.mark.full
def test_a_claim_years_later_is_answered_by_one_page(ledger, panel):
    page = told(life(ledger, panel))
    for words in (
        "Serial JL-0001: panel 1 of order JL-9",
        "customer K-1",
        "design ABCDEFGH of version 1, Panewright 0.1.0: every check held",
        "As built, version 1",
        "place 0: cell c0 of lot C1",
        "joint 1 - 2: remade Ben",
        "ribbon: 2.0 in place of 1.6.",
        "chipped corner 1",
        "G1: silicone neutral, batch S-31, no supplier, good until 2026-06-01",
        "2026-05-04 12:02  tab, Ann, 12.5 min =2+3",
        "Voc 216 V, 812.5 W/m², -3.25 °C, meter 2, calibrated 2026-01-10, corrected later",
        "cell c1 Isc 9.1 A",
        "used 2 piece cell C1",
        "photograph plumrow.jpg",
        "number 1: Ölaf Plumrow says: fog in the corner",
        "new bead (Ben)",
    ):
        assert words in page, page
    with pytest.raises(RecordError, match="do not know it"):
        life(ledger, "JL-7777")


@pytest.mark.full
def test_a_spreadsheet_gets_text_as_text_and_a_program_gets_it_as_it_is(ledger, tmp_path):
    export(ledger, tmp_path / "out")
    assert {path.stem for path in (tmp_path / "out").glob("*.csv")} == set(METADATA.tables)
    with (tmp_path / "out" / "step_done.csv").open(encoding="utf-8-sig", newline="") as file:
        (line,) = csv.DictReader(file)
    assert (line["note"], line["minutes"], line["at"]) == ("'=2+3", "12.5", "2026-05-04T12:02:00+00:00")
    (told_so,) = json.loads((tmp_path / "out" / "step_done.json").read_text("utf-8"))
    assert told_so["note"] == "=2+3"
    with (tmp_path / "out" / "customer_detail.csv").open(encoding="utf-8-sig", newline="") as file:
        assert next(csv.DictReader(file))["phone"] == "'+44 7700 900123"
    with (tmp_path / "out" / "reading.csv").open(encoding="utf-8-sig", newline="") as file:
        assert next(csv.DictReader(file))["heat_c"] == "-3.25"  # a number stays one
    assert full.CURVE in [path.read_bytes() for path in (tmp_path / "out" / "files").iterdir()]
    with pytest.raises(RecordError, match="is there already"):
        export(ledger, tmp_path / "out")


@pytest.mark.full
def test_everything_of_a_customer_is_handed_out(ledger):
    found = all_of_customer(ledger, "K-1")
    assert (found.orders, found.serials) == (("JL-9",), ("JL-0001", "JL-0002"))
    assert found.versions[0].person == full.PERSON
    assert len(found.claims) == 1
    assert customer_of(ledger, "JL-9") == "K-1"
    assert [each.mark for each in customers(ledger)] == ["K-1"]


@pytest.mark.erases
@pytest.mark.full
def test_an_erased_customer_is_nowhere_and_the_panel_stays(ledger, panel, where, tmp_path):
    save_customer(ledger, "K-2", Person("Plum"), seen=0, by="Ann", at=NOON)
    before = life(ledger, panel)
    done = erase_customer(ledger, "K-1", reason="asked by letter", by="Ann", at=later(99))
    assert (done.texts, done.files) == (13, ("plumrow.jpg",))
    assert find_customer(ledger, "K-1").person == Person("")
    assert find_customer(ledger, "K-2").person == Person("Plum")
    assert versions(ledger, "JL-9")[1].text == 'customer = "(erased)" # =1'
    after = life(ledger, panel)
    assert after.claims[0].words == "(erased) says: fog in the corner. Write to (erased)"
    assert (after.builts, after.readings, after.ticks) == (before.builts, before.readings, before.ticks)
    assert (after.lots, after.movements, after.design) == (before.lots, before.movements, before.design)
    assert since(ledger, 0)[-1].kind == "erased"
    assert check(ledger).faults == ()  # guards among them
    export(ledger, tmp_path / "out")
    texts = [path.read_text("utf-8") for path in (tmp_path / "out").iterdir() if path.is_file()]
    assert not any(
        word in text for text in texts for word in ("Ölaf", "Wetherby", "row.example", "7700 900123")
    )
    if "://" not in where:
        ledger.close()
        data = b"".join(path.read_bytes() for path in Path(where).parent.glob("shop.db*"))
        assert b"plum@row.example" not in data
        assert "Ölaf".encode() not in data


@pytest.mark.erases
def test_erasing_takes_out_whole_words_alone(ledger):
    save_order(ledger, "A-1", "Annual panel for Ann, ANN", seen=0, by="Ben", at=NOON)
    save_customer(ledger, "K-1", Person("Ann"), seen=0, by="Ben", at=NOON)
    from panewright.ledger.orders.customers import order_is_for

    order_is_for(ledger, "A-1", "K-1", by="Ben", at=NOON)
    erase_customer(ledger, "K-1", reason="", by="Ben", at=NOON)
    assert versions(ledger, "A-1")[0].text == "Annual panel for (erased), (erased)"
    erase_customer(ledger, "K-1", reason="again", by="Ben", at=NOON)
    with pytest.raises(RecordError, match="do not know it"):
        erase_customer(ledger, "K-9", reason="", by="Ben", at=NOON)


@pytest.mark.full
def test_a_note_cannot_make_a_terminal_obey_or_a_line_that_is_none(ledger, panel):
    note = "\x1b[2Jred\nSerial JL-6666: panel 1\u2028of \u202egnp.exe"
    tick(ledger, panel, "join", by="Ann", at=NOON, note=note)
    page = told(life(ledger, panel))
    assert r"\u001b[2Jred / Serial JL-6666: panel 1 / of \u202egnp.exe" in page
    assert all(line.isprintable() for line in page.split("\n"))
    assert not any(line.startswith("Serial JL-6666") for line in page.splitlines())


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"])
def test_no_cell_of_a_spreadsheet_begins_like_a_formula(begin):
    assert cell(f"{begin}cmd|' /C calc'!A0").startswith("'")


@pytest.mark.full
def test_a_file_that_is_not_what_was_kept_does_not_go_out(ledger, tmp_path):
    (tmp_path / "secret").write_bytes(b"another's")
    kept = next(path for path in (tmp_path / "shop" / "files").rglob("*") if path.is_file())
    kept.unlink()
    kept.symlink_to(tmp_path / "secret")
    export(ledger, tmp_path / "out")
    assert not (tmp_path / "out" / "files" / kept.name).exists()
    assert len(list((tmp_path / "out" / "files").iterdir())) == 2
