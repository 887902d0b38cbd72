"""A backup put back while others have the records open: old or new, never half; no write falls between."""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from pathlib import Path
from random import Random

import pytest
from words import NOON, later

from panewright.errors import PanewrightError, RecordError, StaleError
from panewright.ledger.changes import newest
from panewright.ledger.kept import dump
from panewright.ledger.kept import put_back as way
from panewright.ledger.kept.backup import backup
from panewright.ledger.kept.check import check
from panewright.ledger.kept.put_back import Aside, last_put_back, put_back
from panewright.ledger.kept.restore import restore
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import find_order, orders, save_order, versions

PUT_BACK = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from panewright.ledger.open import open_ledger
from panewright.ledger.kept.put_back import Aside, put_back
where, path, aside, files, room = sys.argv[1:]
ledger = open_ledger(where, files=Path(files))
print("awake", flush=True)
told = Aside(Path(aside), "0.1", "Ann", datetime(2026, 5, 4, 13, tzinfo=UTC))
put_back(ledger, Path(path), told, room=Path(room))
"""


def everything(ledger) -> dict[str, list[str]]:
    with ledger.reading() as db:
        return {table.name: list(dump.lines(db, table)) for table in dump.tables(db)}


def without_journal(ledger):
    return {name: lines for name, lines in everything(ledger).items() if name != "change"}


def aside(tmp_path, name="before.zip"):
    return Aside(tmp_path / "backups" / name, "0.1", "Ann", later(60))


@pytest.mark.full
def test_whoever_has_the_records_open_sees_them_at_once_and_writes_on(ledger, where, tmp_path):
    other = open_ledger(where, files=tmp_path / "shop" / "files")
    then = without_journal(ledger)
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    save_order(other, "NEW-1", "x", seen=0, by="Ben", at=later(1))
    stood = everything(ledger)
    told = []
    done = put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room", told=told.append)
    assert (done.rows, done.files) == (made.rows, 3)
    assert told == sorted(told)
    assert told[-1] == 100
    for each in (ledger, other):
        assert without_journal(each) == then
        assert check(each).faults == ()
        with pytest.raises(RecordError):
            find_order(each, "NEW-1")
    assert last_put_back(other).endswith(" Ann")
    assert newest(other) == len(everything(ledger)["change"]) - 1
    with pytest.raises(StaleError):
        save_order(other, "JL-9", "y", seen=3, by="Ben", at=later(61))
    save_order(other, "NEW-1", "again", seen=0, by="Ben", at=later(61))
    assert check(ledger).faults == ()
    other.close()
    kept = tmp_path / "kept" / "shop.db"
    restore(done.aside, kept, files=tmp_path / "kept" / "files", at=later(62))
    before = open_ledger(kept)
    assert everything(before) == stood
    before.close()
    assert not list((tmp_path / "room").iterdir())


@pytest.mark.full
def test_the_records_are_guarded_as_before(ledger, tmp_path):
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
    with pytest.raises(RecordError, match="only ever added to"), ledger.writing() as db:
        db.exec_driver_sql("/* on purpose */ DELETE FROM order_version")


def test_what_is_confirmed_meanwhile_is_aside_or_in_the_new_records(ledger, where, tmp_path):
    save_order(ledger, "JL-9", "0", seen=0, by="Ann", at=NOON)
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    confirmed, stop = [], threading.Event()

    def go_on() -> None:
        mine = open_ledger(where, files=tmp_path / "shop" / "files")
        number = 0
        while not stop.is_set():
            number += 1
            save_order(mine, f"N-{number}", "x", seen=0, by="Ben", at=NOON)
            confirmed.append(f"N-{number}")
        mine.close()

    writer = threading.Thread(target=go_on)
    writer.start()
    try:
        while len(confirmed) < 5:
            time.sleep(0.01)
        done = put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
        now = len(confirmed)
        while len(confirmed) < now + 5:
            time.sleep(0.01)
    finally:
        stop.set()
        writer.join()
    restore(done.aside, tmp_path / "kept" / "shop.db", files=tmp_path / "kept" / "files", at=NOON)
    before = open_ledger(tmp_path / "kept" / "shop.db")
    stood = {each.number for each in orders(before, most=100_000)}
    stands = {each.number for each in orders(ledger, most=100_000)}
    before.close()
    assert stood & stands == {"JL-9"}
    assert set(confirmed) == (stood | stands) - {"JL-9"}
    assert check(ledger).faults == ()


@pytest.mark.parametrize("step", ["_keep", "_copy", "change_schema", "_said"])
@pytest.mark.full
def test_one_that_fails_on_the_way_leaves_what_stands(ledger, where, tmp_path, monkeypatch, step):
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    save_order(ledger, "NEW-1", "x", seen=0, by="Ben", at=later(1))
    stood = everything(ledger)
    if step == ("_copy" if "://" in where else "change_schema"):
        pytest.skip("a step of the other database")

    def fail(*_) -> None:  # type: ignore[no-untyped-def]
        raise OSError("pulled plug")

    monkeypatch.setattr(way, step, fail)
    with pytest.raises((OSError, PanewrightError)):
        put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
    assert everything(ledger) == stood
    save_order(ledger, "NEW-2", "x", seen=0, by="Ben", at=later(1))
    assert check(ledger).faults == ()
    assert not list((tmp_path / "room").iterdir())


@pytest.mark.full
def test_new_records_that_somebody_took_away_empty_nothing(ledger, where, tmp_path, monkeypatch):
    """Whoever opens the shop anew empties its scratch folder, while work of the last day may still end."""
    if "://" in where:
        pytest.skip("PostgreSQL makes no file")
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    stood = everything(ledger)
    monkeypatch.setattr(way, "one_file", lambda fresh: fresh.unlink())
    with pytest.raises(RecordError, match="unable to open"):
        put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
    monkeypatch.setattr(way, "one_file", lambda fresh: fresh.write_bytes(b""))
    with pytest.raises(RecordError, match="no such table"):
        put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
    assert everything(ledger) == stood


@pytest.mark.full
def test_a_spoilt_backup_is_refused_and_nothing_is_touched(ledger, tmp_path):
    made = backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    stood = everything(ledger)
    made.path.write_bytes(made.path.read_bytes()[:-200])
    with pytest.raises(RecordError, match=r"b\.zip"):
        put_back(ledger, made.path, aside(tmp_path), room=tmp_path / "room")
    assert everything(ledger) == stood
    assert not (tmp_path / "backups").exists()


def test_records_that_are_damaged_are_left_to_the_command(where, tmp_path):
    if "://" in where:
        pytest.skip("PostgreSQL keeps its own pages")
    ledger = open_ledger(where)
    for number in range(60):
        save_order(ledger, f"JL-{number}", "x" * 500, seen=0, by="Ann", at=NOON)
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    ledger.close()
    file = Path(where)
    with file.open("r+b") as spoilt:
        spoilt.seek(4096 * (file.stat().st_size // 4096 - 2))
        spoilt.write(b"\xa5" * 4096)
    ledger = open_ledger(where)
    with pytest.raises(RecordError, match="ledger restore"):
        put_back(ledger, tmp_path / "b.zip", aside(tmp_path), room=tmp_path / "room")
    ledger.close()


@pytest.mark.full
def test_killed_at_any_moment_old_or_new_is_whole(where, tmp_path):
    """A real process, a real kill; many more of them in the campaign `killed_restore`."""
    files = tmp_path / "shop" / "files"
    ledger = open_ledger(where, files=files)
    then = without_journal(ledger)
    backup(ledger, tmp_path / "b.zip", program="0.1", at=NOON)
    save_order(ledger, "NEW-1", "x", seen=0, by="Ben", at=later(1))
    chance, ways = Random(7), set()
    for number in range(6):
        before = without_journal(ledger)
        kept = tmp_path / "backups" / f"{number}.zip"
        words = (where, tmp_path / "b.zip", kept, files, tmp_path / "room")
        with subprocess.Popen(
            [sys.executable, "-c", PUT_BACK, *map(str, words)], stdout=subprocess.PIPE
        ) as child:
            assert child.stdout.readline() == b"awake\n"
            if number:
                time.sleep(chance.uniform(0.0, 0.6))
                child.kill()
        stands = without_journal(ledger)
        assert stands in (before, then)
        assert check(ledger).faults == ()
        if stands == then:
            assert kept.exists()
            save_order(ledger, f"AGAIN-{number}", "x", seen=0, by="Ben", at=later(1))
        ways.add(stands == then)
    assert versions(ledger, "JL-9")
    assert True in ways  # the first was given all the time it wanted
    ledger.close()
