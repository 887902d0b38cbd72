"""Readings, instruments, files; and the panels that a faulty instrument was used on."""

from __future__ import annotations

import hashlib
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from test_lots import built, shop
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger import disk
from panewright.ledger.bench.readings import (
    Instrument,
    Reading,
    add_instrument,
    calibrate,
    instruments,
    read,
    readings,
)
from panewright.ledger.files import attach, attached, fetch, place, store
from panewright.ledger.serials.affected import serials_of_instrument
from panewright.ledger.serials.built import record_built


def meter(ledger, name="meter 2"):
    add_instrument(ledger, name, kind="multimeter", number="88-1", by="Ann", at=NOON)
    calibrate(ledger, name, day=date(2026, 1, 10), due=date(2026, 5, 10), by="Ann", at=NOON)


def test_a_reading_keeps_the_calibration_that_held_then(ledger):
    panel, _ = begun(ledger)
    meter(ledger)
    mine = Reading("Voc", 21.6, "V", serial=panel, step="measure", light_w_m2=812.0, heat_c=31.5)
    mine = Reading(**{**{f: getattr(mine, f) for f in mine.__dataclass_fields__}, "instrument": "meter 2"})
    kept = read(ledger, mine, by="Ann", at=NOON)
    assert kept.reading == mine
    assert (kept.calibrated, kept.due, kept.overdue) == (date(2026, 1, 10), date(2026, 5, 10), False)
    calibrate(ledger, "meter 2", day=date(2026, 5, 12), due=date(2027, 5, 12), by="Ann", at=later(9))
    assert readings(ledger, serial=panel) == (kept,)
    assert instruments(ledger) == (
        Instrument("meter 2", "multimeter", "88-1", date(2026, 5, 12), date(2027, 5, 12)),
    )


def test_a_reading_after_the_calibration_ran_out_is_kept_and_told(ledger):
    panel, _ = begun(ledger)
    meter(ledger)
    late = datetime(2026, 5, 11, tzinfo=UTC)
    kept = read(ledger, Reading("Isc", 9.1, "A", serial=panel, instrument="meter 2"), by="Ann", at=late)
    assert kept.overdue
    by_eye = read(ledger, Reading("Isc", 9.1, "A", serial=panel), by="Ann", at=late)
    assert not by_eye.overdue


def test_a_correction_is_a_new_row_and_only_one_takes_a_place(ledger):
    panel, _ = begun(ledger)
    wrong = read(ledger, Reading("Voc", 216.0, "V", serial=panel), by="Ann", at=NOON)
    right = read(ledger, Reading("Voc", 21.6, "V", serial=panel, corrects=wrong.id), by="Ann", at=later(1))
    assert [(each.reading.value, each.corrected) for each in readings(ledger, serial=panel)] == [
        (216.0, True),
        (21.6, False),
    ]
    with pytest.raises(RecordError, match="corrected already"):
        read(ledger, Reading("Voc", 2.16, "V", serial=panel, corrects=wrong.id), by="Ann", at=later(2))
    assert right.reading.corrects == wrong.id


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_told(ledger, value):
    panel, _ = begun(ledger)
    with pytest.raises(RecordError, match="no reading"):
        read(ledger, Reading("Voc", value, "V", serial=panel), by="Ann", at=NOON)


def test_a_reading_of_nothing_is_our_own_mistake(ledger):
    with pytest.raises(ValueError, match="of a panel, a cell or a lot"):
        read(ledger, Reading("Voc", 1.0, "V"), by="Ann", at=NOON)


def test_every_panel_read_by_a_faulty_instrument_is_found(ledger):
    panel, other = shop(ledger)
    meter(ledger)
    add_instrument(ledger, "meter 3", kind="multimeter", by="Ann", at=NOON)
    record_built(ledger, other, built("c1"), seen=0, by="Ann", at=NOON)
    read(ledger, Reading("Voc", 21.0, "V", serial=panel, instrument="meter 2"), by="Ann", at=NOON)
    read(ledger, Reading("Isc", 9.0, "A", serial=panel, instrument="meter 2"), by="Ann", at=later(24 * 60))
    read(ledger, Reading("Isc", 9.0, "A", lot="C1", cell="c1", instrument="meter 2"), by="Ann", at=NOON)
    read(ledger, Reading("Isc", 9.0, "A", serial=other, instrument="meter 3"), by="Ann", at=NOON)
    found = serials_of_instrument(ledger, "meter 2")
    assert [(each.serial, each.readings) for each in found] == [(panel, 2), (other, 1)]
    day = NOON.date()
    assert [each.readings for each in serials_of_instrument(ledger, "meter 2", since=day, until=day)] == [
        1,
        1,
    ]
    assert serials_of_instrument(ledger, "meter 2", since=date(2026, 6, 1)) == ()
    assert len(readings(ledger, lot="C1", cell="c1")) == 1


def test_a_file_is_kept_once_and_comes_back_as_it_was(ledger):
    panel, _ = begun(ledger)
    data = b"\x00\xff raw curve" * 1000
    kept = store(ledger, data, name="curve.csv", media="text/csv", by="Ann", at=NOON)
    assert kept.sha256 == hashlib.sha256(data).hexdigest()
    assert store(ledger, data, name="again.csv", media="text/csv", by="Ben", at=later(1)) == kept
    assert fetch(ledger, kept.sha256) == data
    attach(ledger, kept.sha256, kind="photograph", serial=panel, title="bus ribbon", by="Ann", at=NOON)
    assert [(each.kind, each.sha256, each.title) for each in attached(ledger, serial=panel)] == [
        ("photograph", kept.sha256, "bus ribbon")
    ]
    assert attached(ledger, order="JL-9") == ()


def test_a_file_that_was_spoilt_or_lost_is_told_and_may_be_kept_again(ledger):
    kept = store(ledger, b"raw", name="a.csv", media="text/csv", by="Ann", at=NOON)
    place(ledger, kept.sha256).write_bytes(b"rax")
    with pytest.raises(RecordError, match="not what was kept"):
        fetch(ledger, kept.sha256)
    store(ledger, b"raw", name="a.csv", media="text/csv", by="Ann", at=NOON)
    assert fetch(ledger, kept.sha256) == b"raw"
    place(ledger, kept.sha256).unlink()
    with pytest.raises(RecordError, match="cannot be read"):
        fetch(ledger, kept.sha256)


def test_a_number_or_a_day_out_of_all_bounds_is_told(ledger):
    panel, _ = begun(ledger)
    add_instrument(ledger, "meter 2", kind="multimeter", by="Ann", at=NOON)
    assert serials_of_instrument(ledger, "meter 2", until=date.max) == ()
    with pytest.raises(RecordError):
        read(ledger, Reading("Voc", 1.0, "V", serial=panel, corrects=10**30), by="Ann", at=NOON)
    late = datetime.max.replace(tzinfo=timezone(timedelta(hours=-5)))
    with pytest.raises(RecordError, match="no time of this world"):
        read(ledger, Reading("Voc", 1.0, "V", serial=panel), by="Ann", at=late)


def test_a_file_that_a_full_disk_cut_off_leaves_nothing_behind(ledger, tmp_path, monkeypatch):
    def full(_number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk.os, "fsync", full)
    with pytest.raises(RecordError, match="cannot be written: No space left"):
        store(ledger, b"light", name="p.jpg", media="image/jpeg", by="Ann", at=NOON)
    assert [path for path in (tmp_path / "shop" / "files").rglob("*") if path.is_file()] == []
