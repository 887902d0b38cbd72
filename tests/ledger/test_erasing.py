"""A person's words go out of every text; what a panel is made of stays, whatever the person is called."""

from __future__ import annotations

import json
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from words import NOON, begun, later

from panewright.ledger.bench.readings import Reading, read
from panewright.ledger.kept import dump
from panewright.ledger.kept.backup import backup
from panewright.ledger.kept.check import check
from panewright.ledger.open import open_ledger
from panewright.ledger.orders import personal
from panewright.ledger.orders.customers import Person, order_is_for, save_customer
from panewright.ledger.orders.erasing import erase_customer
from panewright.ledger.orders.orders import save_order, versions
from panewright.ledger.serials.built import Built, Deviation, Joint, Substitution, record_built
from panewright.ledger.stores.actuals import add_minutes
from panewright.ledger.stores.stock import Movement, move

NAME = "Ölaf Plumrow"
ORDER = """\
[order]
customer = "Glass and Sons"  # Glass rang
panels = 12
number = "12"
[parts]
glass = "4 mm tempered"
note = "for Glass"
"""


def erase(ledger, **more):
    return erase_customer(ledger, "K-1", reason="asked by letter", by="Ann", at=later(99), **more)


def told_everywhere(ledger, panel):
    """The customer's name in every note that has a place for it."""
    told = {"by": "Ann", "at": NOON}
    move(ledger, Movement("flux", Decimal(1), "pen", "sold", order="JL-9", note=f"to {NAME}"), **told)
    move(ledger, Movement("flux", Decimal(1), "pen", "used", serial=panel, note=f"for {NAME}"), **told)
    add_minutes(ledger, "talk", Decimal(5), order="JL-9", note=f"with {NAME}", **told)
    read(ledger, Reading("Voc", 21.6, "V", serial=panel, note=f"{NAME} looked on"), **told)
    parts = {
        "joints": (Joint("1", "2", "sound", note=NAME),),
        "substitutions": (Substitution("glass", "a", "b", f"{NAME} wished it"),),
        "deviations": (Deviation("other", NAME, NAME),),
    }
    figures = json.dumps({"mass_kg": 9.5, "note": f"{NAME} wished it"})
    built = Built("0.1", figures, json.dumps([f"for {NAME}"]), True, **parts)
    record_built(ledger, panel, built, seen=1, **told)


@pytest.mark.erases
@pytest.mark.full
def test_a_name_in_whatever_note_is_erased(ledger, panel):
    told_everywhere(ledger, panel)
    erase_customer(ledger, "K-1", reason=f"letter of {NAME}", by="Ann", at=later(99))
    with ledger.reading() as db:
        lines = {t.name: [line for line in dump.lines(db, t) if "Plumrow" in line] for t in dump.tables(db)}
    assert {name: found for name, found in lines.items() if found} == {}
    assert check(ledger).faults == ()


@pytest.mark.erases
def test_a_customer_called_glass_leaves_the_glass_where_it_is(ledger):
    begun(ledger)
    save_order(ledger, "JL-9", ORDER, seen=1, by="Ann", at=NOON)
    save_customer(ledger, "K-1", Person("Glass", phone="12"), seen=0, by="Ann", at=NOON)
    order_is_for(ledger, "JL-9", "K-1", by="Ann", at=NOON)
    erase(ledger)
    text = versions(ledger, "JL-9")[-1].text
    assert tomllib.loads(text) == {
        "order": {"customer": "(erased)", "panels": 12, "number": "(erased)"},
        "parts": {"glass": "4 mm tempered", "note": "for (erased)"},
    }
    assert "# (erased) rang" in text


@pytest.mark.erases
def test_whom_an_order_names_is_erased_though_the_card_says_it_otherwise(ledger):
    begun(ledger)
    for seen, name in ((1, '"O. \\"Plum\\" Plumrow"'), (2, "'Plumrow & Sons'")):
        save_order(ledger, "JL-9", f"customer = {name}\n", seen=seen, by="Ann", at=NOON)
    save_customer(ledger, "K-1", Person(NAME), seen=0, by="Ann", at=NOON)
    order_is_for(ledger, "JL-9", "K-1", by="Ann", at=NOON)
    assert erase(ledger).texts == 2
    assert not any("Plumrow" in each.text for each in versions(ledger, "JL-9"))


@pytest.mark.erases
@pytest.mark.full
def test_what_stays_is_told(ledger, tmp_path):
    save_order(ledger, f"{NAME} 1", "x", seen=0, by="Ann", at=NOON)
    order_is_for(ledger, f"{NAME} 1", "K-1", by="Ann", at=NOON)
    backup(ledger, tmp_path / "shop" / "backups" / "b.zip", program="0.1", at=NOON)
    done = erase(ledger, tap="t")
    assert done.numbers == (f"{NAME} 1",)
    assert [Path(each).name for each in done.copies] == ["b.zip"]
    assert done.overwritten
    assert erase(ledger, tap="t").texts == 0  # the tap sent twice


@pytest.mark.erases
@pytest.mark.full
def test_old_bytes_that_somebody_still_reads_are_told(ledger, where):
    if "://" in where:
        pytest.skip("PostgreSQL waits for readers")
    other = open_ledger(where)
    with ledger.engine.connect() as db:
        db.connection.driver_connection.execute("PRAGMA busy_timeout=50")
    with other.reading() as db:
        db.exec_driver_sql("SELECT count(*) FROM change").scalar_one()
        assert not erase(ledger).overwritten
    other.close()
    ledger.close()
    data = b"".join(path.read_bytes() for path in Path(where).parent.glob("shop.db*"))
    assert b"plum@row.example" not in data


def test_json_keeps_its_keys_and_numbers():
    said = personal.words(["glass", "12"])
    assert said is not None
    before = json.dumps({"glass": {"room": "glass", "limit": 12, "words": "12 panes of glass"}, "x": [12]})
    after = json.loads(personal.out_of_document(before, said))
    words = {"room": "(erased)", "limit": 12, "words": "(erased) panes of (erased)"}
    assert after == {"glass": words, "x": [12]}
    other = personal.words(["Nobody"])
    assert other is not None
    assert personal.out_of_document(before, other) == before
    assert personal.words(["", "  \n "]) is None


@pytest.mark.parametrize("text", ["[Plumrow Sons]\n", '["Ölaf Plumrow"]\n', "customer = Plumrow Sons"])
def test_a_half_typed_order_hides_no_name(text):
    said = personal.words([NAME, "Plumrow Sons"])
    assert said is not None
    assert "Plumrow" not in personal.out_of_document(text, said)
