"""A server of PostgreSQL that stops in the middle is told in words, and work goes on once it is back."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

import pytest
from postgres_server import program
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger.changes import newest
from panewright.ledger.kept.check import check
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.orders import find_order, save_order
from panewright.ledger.serials.steps import Tick, tick, ticks

OTHER = {"user": "nobody", "group": "nogroup", "extra_groups": []} if os.getuid() == 0 else {}


def run(*words: str) -> None:
    subprocess.run(words, check=True, capture_output=True, cwd="/", **OTHER)


@pytest.fixture
def own():
    """A server of this test's own: its URL, and how to start and to stop it."""
    folder = Path(tempfile.mkdtemp(prefix="panewright-"))
    if OTHER:
        shutil.chown(folder, "nobody", "nogroup")
    data, options = str(folder / "data"), f"-k {folder} -c listen_addresses="
    pg = program("pg_ctl")

    def start() -> None:
        run(pg, "-D", data, "-w", "-l", str(folder / "log"), "-o", options, "start")

    def stop() -> None:
        run(pg, "-D", data, "-w", "-m", "immediate", "stop")

    run(program("initdb"), "-D", data, "-U", "maker", "-A", "trust", "-N", "-E", "UTF8", "--locale=C")
    start()
    yield f"postgresql://maker@/postgres?host={folder}", start, stop
    subprocess.run([pg, "-D", data, "-m", "immediate", "stop"], check=False, capture_output=True, **OTHER)
    shutil.rmtree(folder, ignore_errors=True)


def stopped_in_the_middle(ledger, stop) -> None:
    with ledger.writing() as db:
        db.exec_driver_sql("SELECT 1")
        stop()
        db.exec_driver_sql("SELECT 1")


@pytest.mark.peer("postgres")
def test_what_was_confirmed_is_there_when_the_server_is_back(own):
    url, start, stop = own
    ledger = open_ledger(url)
    panel, _ = begun(ledger)
    mine = tick(ledger, panel, "tab", by="Ann", at=NOON, tap="once")
    with pytest.raises(RecordError, match="do not answer"):
        stopped_in_the_middle(ledger, stop)
    for ask in (lambda: newest(ledger), lambda: find_order(ledger, "JL-9"), lambda: open_ledger(url)):
        with pytest.raises(RecordError, match="do not answer"):
            ask()
    assert check(ledger).faults  # told as a fault, not as a crash
    start()
    assert ticks(ledger, panel) == (mine,) == (Tick("tab", True, "Ann", NOON),)
    assert tick(ledger, panel, "tab", by="Ann", at=NOON, tap="once") == mine
    save_order(ledger, "JL-10", "x", seen=0, by="Ann", at=later(1))
    assert check(ledger).faults == ()
    ledger.close()
