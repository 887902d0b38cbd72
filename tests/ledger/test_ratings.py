"""Ratings of panels: every one kept, the newest of each found, and what was found wrong with them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger.bench.accuracies import Accuracy, accuracies, keep_accuracy
from panewright.ledger.bench.charted import panels_rated, readings_of_kind
from panewright.ledger.bench.ratings import (
    COUNTS_AGAIN,
    SET_ASIDE,
    Rating,
    findings,
    keep_finding,
    keep_rating,
    last_of_each,
    ratings,
    that_holds,
)
from panewright.ledger.bench.readings import Reading, add_instrument, read
from panewright.ledger.files import store
from panewright.ledger.serials.life import life
from panewright.ledger.serials.telling import told

ANN = {"by": "Ann", "at": NOON}


@pytest.fixture
def shop(ledger):
    """Two panels, and a rating to keep."""
    panels = begun(ledger)
    raw = store(ledger, b"V,I", name="curve.csv", media="text/csv", **ANN).sha256
    paper = store(ledger, b"%PDF", name="report.pdf", media="application/pdf", **ANN).sha256
    rating = Rating(date(2026, 6, 20), "pass", 73.0, 73.5, 72.25, 2.5, raw, paper, "{}")
    return ledger, panels, rating


def test_every_rating_is_kept_and_the_newest_of_each_panel_holds(shop):
    ledger, (one, other, *_), rating = shop
    first = keep_rating(ledger, one, rating, tap="t" * 24, **ANN)
    assert keep_rating(ledger, one, rating, tap="t" * 24, **ANN) == first
    keep_rating(ledger, other, replace(rating, verdict="rework"), **ANN)
    last = keep_rating(ledger, one, replace(rating, power_w=None, power_off_w=None), by="Ben", at=later(1))
    assert [each.id for each in ratings(ledger, one)] == [first.id, last.id]
    assert first.rating == rating
    assert [(each.serial, each.by) for each in last_of_each(ledger)] == [(other, "Ann"), (one, "Ben")]
    assert last_of_each(ledger, first.order) == last_of_each(ledger)
    assert last_of_each(ledger, "none such") == ()
    with pytest.raises(RecordError, match="do not know it"):
        keep_rating(ledger, "JL-999", rating, **ANN)


def test_a_rating_set_aside_stays_and_counts_no_more_until_it_is_said_to(shop):
    ledger, (one, other, *_), rating = shop
    first = keep_rating(ledger, one, rating, **ANN)
    keep_rating(ledger, other, replace(rating, verdict="rework"), **ANN)
    last = keep_rating(ledger, one, replace(rating, power_w=60.0), **ANN)
    keep_finding(ledger, one, SET_ASIDE, "a leaf on the pane", "{}", rating=last.id, **ANN)
    every = ratings(ledger, one)
    assert [(each.id, each.aside) for each in every] == [(first.id, ""), (last.id, "a leaf on the pane")]
    assert that_holds(every) == first
    assert [each.id for each in last_of_each(ledger) if each.serial == one] == [first.id]
    assert [(each.serial, each.power_w) for each in panels_rated(ledger)] == [(one, 72.25), (other, 72.25)]
    assert "SET ASIDE: a leaf on the pane" in told(life(ledger, one))
    keep_finding(ledger, one, COUNTS_AGAIN, "the leaf was on the sensor", "{}", rating=last.id, **ANN)
    assert that_holds(ratings(ledger, one)) == ratings(ledger, one)[-1]
    assert [(each.serial, each.power_w) for each in panels_rated(ledger)] == [(one, 60.0), (other, 72.25)]


def test_of_very_many_panels_the_first_and_the_newest_are_charted(shop, monkeypatch):
    ledger, panels, rating = shop
    for serial in panels:
        keep_rating(ledger, serial, rating, **ANN)
    monkeypatch.setattr("panewright.ledger.bench.charted.FIRST", 1)
    assert [each.serial for each in panels_rated(ledger, most=1)] == [panels[0], panels[-1]]


def test_what_was_found_and_mended_stands_in_the_life_of_the_panel(shop):
    ledger, (one, *_), rating = shop
    kept = keep_rating(ledger, one, rating, **ANN)
    keep_finding(ledger, one, "found", "a cold joint: 80 %", '{"odds": 0.8}', rating=kept.id, **ANN)
    keep_finding(ledger, one, "mended", "joint after cell 7 soldered again", "{}", by="Ben", at=later(2))
    assert [(each.what, each.rating) for each in findings(ledger, one)] == [
        ("found", kept.id),
        ("mended", None),
    ]
    page = told(life(ledger, one))
    assert "pass, 72.25 W ± 2.5 W (k = 2), label 73 W, predicted 73.5 W, measured 2026-06-20" in page
    assert "mended: joint after cell 7 soldered again (Ben)" in page


def test_the_accuracy_of_an_instrument_is_the_one_told_last(shop):
    ledger, *_ = shop
    add_instrument(ledger, "cell 1", kind="reference cell", **ANN)
    for paper in ("3 %", "2 %"):
        keep_accuracy(ledger, "cell 1", Accuracy(certificate=paper, at_stc="100 mV"), **ANN)
    assert accuracies(ledger) == {"cell 1": Accuracy("", "2 %", "", "100 mV")}


def test_readings_of_one_kind_come_over_many_panels_and_those_taken_back_do_not(shop):
    ledger, (one, other, *_), _ = shop
    told_of = {"step": "join-columns", "light_w_m2": 800.0, "heat_c": 40.0}
    first = read(ledger, Reading("join-columns.voc-1", 20.1, "V", serial=one, **told_of), **ANN)
    read(ledger, Reading("join-columns.voc-1", 20.2, "V", serial=one, corrects=first.id, **told_of), **ANN)
    read(ledger, Reading("join-columns.voc-1", 20.4, "V", serial=other, **told_of), **ANN)
    read(ledger, Reading("join-columns.vocal", 1.0, "V", serial=other, note="taken back"), **ANN)
    read(ledger, Reading("join_columns.voc-1", 3.0, "V", serial=other), **ANN)
    found = readings_of_kind(ledger, "join-columns.voc")
    assert [(each.serial, each.value, each.light_w_m2) for each in found] == [
        (one, 20.2, 800.0),
        (other, 20.4, 800.0),
    ]
    assert readings_of_kind(ledger, "join-columns.voc", found[0].order) == found
    assert readings_of_kind(ledger, "join-columns.voc", "none such") == ()
