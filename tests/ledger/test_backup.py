"""A backup goes back into either database, row for row; a spoilt one is refused; nothing is destroyed."""

from __future__ import annotations

import hashlib
import json
import shutil
import threading
import tracemalloc
import zipfile
from functools import cache
from pathlib import Path

import full
import pytest
from sqlalchemy import text
from words import NOON, later

from panewright.errors import RecordError
from panewright.ledger.changes import newest
from panewright.ledger.files import place, store
from panewright.ledger.kept import dump
from panewright.ledger.kept import restore as putting_back
from panewright.ledger.kept.backup import backup
from panewright.ledger.kept.check import check
from panewright.ledger.kept.restore import look_over, opened, restore
from panewright.ledger.kept.upgrade import NEWEST
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import find_order, save_order, versions
from panewright.ledger.serials.life import life
from panewright.ledger.serials.telling import told
from panewright.ledger.tables import METADATA


def everything(ledger) -> dict[str, list[str]]:
    with ledger.reading() as db:
        return {table.name: list(dump.lines(db, table)) for table in dump.tables(db)}


@pytest.mark.full
def test_every_table_holds_something(ledger):
    """Else the tests below would prove less than they say."""
    empty = {name for name, lines in everything(ledger).items() if len(lines) == 1}
    assert empty == {"erasure"}
    assert set(everything(ledger)) == set(METADATA.tables)
    assert check(ledger).faults == ()


@pytest.mark.full
def test_a_backup_goes_into_either_database_row_for_row(ledger, panel, nowhere, tmp_path):
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    assert (made.files, made.missing) == (3, ())
    done = restore(tmp_path / "b.zip", nowhere, files=tmp_path / "other", at=NOON)
    assert (done.rows, done.files, done.aside) == (made.rows, 3, "")
    there = open_ledger(nowhere, files=tmp_path / "other")
    assert everything(there) == everything(ledger)
    assert told(life(there, panel)) == told(life(ledger, panel))
    assert check(there).faults == ()
    save_order(there, "NEW-1", "x", seen=0, by="Ann", at=later(60))  # and it can be written on
    assert check(there).faults == ()
    there.close()


def test_what_stood_is_moved_aside(where, tmp_path):
    ledger = open_ledger(where, files=tmp_path / "shop" / "files")
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    save_order(ledger, "JL-9", "second", seen=1, by="Ann", at=NOON)
    later_file = store(ledger, b"later", name="l", media="text/plain", by="Ann", at=NOON)
    ledger.close()
    done = restore(tmp_path / "b.zip", where, files=tmp_path / "shop" / "files", at=NOON)
    again = open_ledger(where, files=tmp_path / "shop" / "files")
    assert find_order(again, "JL-9").text == "first"
    assert place(again, later_file.sha256).read_bytes() == b"later"
    if done.aside.startswith("schema "):
        with again.reading() as db:
            kept = db.scalars(text(f"SELECT text FROM {done.aside.removeprefix('schema ')}.order_version"))
            assert list(kept) == ["first", "second"]
    else:
        aside = open_ledger(done.aside)
        assert [each.text for each in versions(aside, "JL-9")] == ["first", "second"]
        aside.close()
    again.close()


def test_records_in_use_are_not_replaced(where, tmp_path):
    if "://" in where:
        pytest.skip("a transaction of PostgreSQL waits for nobody to look away")
    ledger = open_ledger(where)
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    with pytest.raises(RecordError, match="in use"):
        restore(tmp_path / "b.zip", where, files=tmp_path / "files", at=NOON)
    assert find_order(ledger, "JL-9").text == "first"
    ledger.close()


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


@pytest.mark.full
def test_a_spoilt_backup_is_refused_and_nothing_is_touched(ledger, where, tmp_path):
    path = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON).path
    before, whole = everything(ledger), path.read_bytes()
    for spoilt in (cut(whole), b"", b"PK not a zip"):
        path.write_bytes(spoilt)
        with pytest.raises(RecordError, match=r"b\.zip"):
            restore(path, where, files=tmp_path / "shop" / "files", at=NOON)
        assert everything(ledger) == before


@pytest.mark.full
def test_one_bit_turned_anywhere_is_noticed_or_changes_nothing(ledger, tmp_path):
    """The names of members in a zip, its times and its spare bits stand outside of every digest."""
    path = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON).path
    data, noticed = path.read_bytes(), 0
    with zipfile.ZipFile(path) as packed:
        about = look_over(path, packed)
    for byte in range(0, len(data), 37):
        path.write_bytes(data[:byte] + bytes([data[byte] ^ (1 << byte % 8)]) + data[byte + 1 :])
        try:
            with opened(path) as packed:
                assert look_over(path, packed) == about
        except RecordError:
            noticed += 1
    assert noticed > len(range(0, len(data), 37)) / 2


SPOILT = (
    ("tables/step_done.jsonl", lambda text: text.replace("tab", "tub")),
    ("tables/step_done.jsonl", None),
    ("about.json", lambda text: text.replace(f'"{NEWEST}"', '"9999"')),
    ("about.json", lambda text: text.replace("records of", "songs of")),
    ("about.json", lambda _: "{}"),
    ("about.json", lambda _: "["),
)


def written_in(path, member, change):
    """The same backup with one of its members changed, or without it."""
    other = path.with_name("c.zip")
    with zipfile.ZipFile(path) as one, zipfile.ZipFile(other, "w") as packed:
        for name in one.namelist():
            text = one.read(name)
            if name == member and change is None:
                continue
            packed.writestr(name, change(text.decode()).encode() if name == member else text)
    return other


@pytest.mark.full
def test_a_backup_that_was_written_in_is_refused(ledger, nowhere, tmp_path):
    """One backup, spoilt in each way after the other: to make it takes longer than to refuse it."""
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    for member, change in SPOILT:
        with pytest.raises(RecordError, match=r"c\.zip"):
            restore(written_in(made.path, member, change), nowhere, files=tmp_path / "other", at=NOON)
    done = restore(made.path, nowhere, files=tmp_path / "other", at=NOON)  # the place is not spoilt by them
    assert (done.rows, done.aside) == (made.rows, "")


def test_a_backup_made_while_others_write_is_of_one_moment(ledger, nowhere, tmp_path):
    save_order(ledger, "JL-9", "0", seen=0, by="Ann", at=NOON)
    stop = threading.Event()

    def go_on() -> None:
        while not stop.is_set():
            seen = find_order(ledger, "JL-9").version
            save_order(ledger, "JL-9", str(seen), seen=seen, by="Ann", at=NOON)

    other = threading.Thread(target=go_on)
    other.start()
    try:
        while newest(ledger) < 5:
            pass
        backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    finally:
        stop.set()
        other.join()
    restore(tmp_path / "b.zip", nowhere, files=tmp_path / "other", at=NOON)
    there = open_ledger(nowhere, files=tmp_path / "other")
    assert check(there).faults == ()
    assert newest(there) == len(versions(there, "JL-9")) >= 5
    there.close()


@pytest.mark.full
def test_a_backup_tells_of_files_that_are_missing_and_never_writes_over_one(ledger, tmp_path):
    lost = store(ledger, b"x", name="x", media="text/plain", by="Ann", at=NOON).sha256
    place(ledger, lost).unlink()
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    assert made.missing == (lost,)
    with pytest.raises(RecordError, match="is there already"):
        backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


@pytest.mark.full
def test_a_backup_can_be_read_without_us(ledger, tmp_path):
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    with zipfile.ZipFile(tmp_path / "b.zip") as packed:
        columns, first, *_ = map(json.loads, packed.read("tables/step_done.jsonl").splitlines())
    assert dict(zip(columns, first, strict=True))["at"] == "2026-05-04T12:02:00+00:00"
    assert dict(zip(columns, first, strict=True))["minutes"] == 12_500_000


@pytest.mark.erases  # on purpose, to see whether it is noticed
@pytest.mark.full
def test_check_notices_what_is_lost(where, tmp_path):
    from panewright.ledger import guards

    ledger = open_ledger(where, files=tmp_path / "shop" / "files")
    with ledger.writing() as db:
        guards.take_off(db)
        for sentence in (
            "DELETE FROM change WHERE id = 3",
            "UPDATE order_version SET version = 7 WHERE version = 2",
            "UPDATE document SET text = 'x'",
        ):
            db.execute(text(sentence))
    curve = next(path for path in (tmp_path / "shop" / "files").rglob("*") if path.is_file())
    curve.write_bytes(b"")
    said = "\n".join(check(ledger).faults)
    for words in (
        "1 lines of the journal are missing",
        "Versions of an order",
        "shelf as it was",
        "not guarded",
    ):
        assert words in said
    assert "is not what was kept" in said
    shutil.rmtree(tmp_path / "shop" / "files")
    assert "is missing" in "\n".join(check(ledger).faults)
    ledger.close()


def test_check_notices_a_damaged_file(where):
    if "://" in where:
        pytest.skip("PostgreSQL keeps its own pages")
    ledger = open_ledger(where)
    for number in range(60):
        save_order(ledger, f"JL-{number}", "x" * 500, seen=0, by="Ann", at=NOON)
    ledger.close()
    file = Path(where)
    with file.open("r+b") as opened:
        opened.seek(4096 * (file.stat().st_size // 4096 - 2))
        opened.write(b"\xa5" * 4096)
    ledger = open_ledger(where)
    assert check(ledger).faults
    ledger.close()


def test_a_full_disk_is_told_and_nothing_is_half_written(where):
    if "://" in where:
        pytest.skip("a server has a disk of its own")
    ledger = open_ledger(where)
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    with ledger.reading() as db:
        pages = db.exec_driver_sql("PRAGMA page_count").scalar_one()
        db.exec_driver_sql(f"PRAGMA max_page_count={pages}")
    with pytest.raises(RecordError, match="database or disk is full"):
        save_order(ledger, "JL-9", "x" * 100_000, seen=1, by="Ann", at=NOON)
    assert [each.text for each in versions(ledger, "JL-9")] == ["first"]
    assert check(ledger).faults == ()
    ledger.close()


@pytest.mark.parametrize("step", ["_rows", "_set_aside", "_schema_aside"])
@pytest.mark.full
def test_a_restore_that_fails_on_the_way_leaves_what_stands(where, tmp_path, monkeypatch, step):
    ledger = open_ledger(where, files=tmp_path / "shop" / "files")
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    before = everything(ledger)
    ledger.close()

    def fail(*_) -> str:  # type: ignore[no-untyped-def]
        raise OSError("pulled plug")

    if step == ("_schema_aside" if "://" not in where else "_set_aside"):
        pytest.skip("a step of the other database")
    monkeypatch.setattr(putting_back, step, fail)
    with pytest.raises(RecordError):
        restore(tmp_path / "b.zip", where, files=tmp_path / "shop" / "files", at=NOON)
    again = open_ledger(where, files=tmp_path / "shop" / "files")
    assert everything(again) == before
    assert check(again).faults == ()
    assert list(tmp_path.rglob("*.restoring*")) == []
    again.close()


def blown_up(path: Path, kind: str) -> Path:
    """The same backup with a little zip of very much in it."""
    other, zeros = path.with_name(f"{kind}.zip"), b" " * (1 << 20)
    with (
        zipfile.ZipFile(path) as one,
        zipfile.ZipFile(other, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as packed,
    ):
        about = json.loads(one.read("about.json"))
        for name in one.namelist():
            if name not in ("about.json", "tables/claim.jsonl"):
                packed.writestr(one.getinfo(name), one.read(name))
        row = one.read("tables/claim.jsonl")
        if kind == "row":
            row = row.splitlines()[0] + b"\n[" + zeros * 300
            about["tables"]["claim"]["sha256"] = hashlib.sha256(row).hexdigest()
        packed.writestr("tables/claim.jsonl", row)
        if kind == "file":
            digest = hashlib.sha256(zeros * 300).hexdigest()
            packed.writestr(f"files/{digest}", zeros * 300)
            about["files"][digest] = len(zeros) * 300
        if kind == "table":
            del about["tables"]["claim"]
        packed.writestr("about.json", json.dumps(about).encode() + (zeros * 300 if kind == "about" else b""))
    return other


@pytest.fixture(scope="module")
def endless(tmp_path_factory, pattern):
    """Makes each kind of them once, of a backup that is the same whichever database it was taken from."""
    folder = tmp_path_factory.mktemp("endless")
    ledger = open_ledger(shutil.copy(pattern, folder), files=folder / "files")
    full.shop(ledger)
    path = backup(ledger, folder / "b.zip", program="0.1", at=NOON).path
    ledger.close()
    return cache(lambda kind: blown_up(path, kind))


@pytest.mark.parametrize("kind", ["row", "file", "about", "table"])
def test_a_small_zip_of_endless_blanks_is_refused_in_little_room(endless, nowhere, tmp_path, kind):
    path = endless(kind)
    tracemalloc.start()
    with pytest.raises(RecordError, match=rf"{kind}\.zip"):
        restore(path, nowhere, files=tmp_path / "other", at=NOON)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 250_000_000
    assert not (tmp_path / "other").exists() or kind in ("row", "table")


@pytest.mark.full
def test_a_member_outside_of_the_folder_is_never_written(ledger, nowhere, tmp_path):
    path = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON).path
    with zipfile.ZipFile(path) as one, zipfile.ZipFile(tmp_path / "c.zip", "w") as packed:
        for name in one.namelist():
            if name != "about.json":
                packed.writestr(one.getinfo(name), one.read(name))
        about = json.loads(one.read("about.json"))
        about["files"]["../../evil"] = 4
        packed.writestr("files/../../evil", b"evil")
        packed.writestr("about.json", json.dumps(about))
    with pytest.raises(RecordError, match="is not what was written"):
        restore(tmp_path / "c.zip", nowhere, files=tmp_path / "other" / "files", at=NOON)
    assert list(tmp_path.rglob("evil")) == []


def test_a_clock_set_back_puts_no_copy_over_another(where, tmp_path):
    if "://" in where:
        pytest.skip("PostgreSQL refuses a second schema of one name")
    for number in range(3):
        ledger = open_ledger(where, files=tmp_path / "shop" / "files")
        save_order(ledger, f"JL-{number}", "x", seen=0, by="Ann", at=NOON)
        if number == 0:
            backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
        ledger.close()
        restore(tmp_path / "b.zip", where, files=tmp_path / "shop" / "files", at=NOON)
    assert len(list(Path(where).parent.glob("shop-before-*.db"))) == 3


@pytest.mark.full
def test_a_refused_restore_shows_no_row(ledger, nowhere, tmp_path):
    """What stands in a row may be personal, and a message goes into logs."""
    path = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON).path
    with zipfile.ZipFile(path) as one, zipfile.ZipFile(tmp_path / "c.zip", "w") as packed:
        about = json.loads(one.read("about.json"))
        for name in one.namelist():
            data = one.read(name)
            if name == "tables/serial.jsonl":
                data = data.splitlines(keepends=True)[0]
                about["tables"]["serial"] = {"rows": 0, "sha256": hashlib.sha256(data).hexdigest()}
            if name != "about.json":
                packed.writestr(one.getinfo(name), data)
        packed.writestr("about.json", json.dumps(about))
    with pytest.raises(RecordError) as told_so:
        restore(tmp_path / "c.zip", nowhere, files=tmp_path / "other", at=NOON)
    assert "Plumrow" not in str(told_so.value)
    assert "\n" not in str(told_so.value)
