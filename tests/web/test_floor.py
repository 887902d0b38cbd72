"""What goes on behind the pages outlives a bad moment: a file that kills its reader, records out of reach."""

import asyncio
import sqlite3

import pytest

from panewright.errors import AwayError
from panewright.web import floor as floors
from panewright.web.workers import Workers


class Reader:
    """A process with limits that came to their end."""

    def __init__(self, mistake):
        self.mistake = mistake

    def ask(self, job, arguments, told=None):  # noqa: ARG002
        raise self.mistake

    def end(self):
        return None


@pytest.mark.parametrize("mistake", [MemoryError(), RecursionError(), OSError("no file may be written")])
def test_a_file_that_asks_too_much_of_its_reader_is_told_and_breaks_no_page(client, floor, mistake):
    floor._readers = lambda: Workers(1, lambda: Reader(mistake))
    answer = client.post("/orders/take", files={"file": ("x.toml", b"a.a.a = 1")})
    assert answer.status_code == 422
    assert "This file cannot be read." in answer.text


def out_of_reach():
    raise AwayError([])


def test_pages_follow_other_programs_again_once_the_records_can_be_reached(floor, monkeypatch):
    heard = []

    async def hear():
        heard.append(1)
        if len(heard) == 1:
            await floor.asks(out_of_reach)

    monkeypatch.setattr(floors, "_LOOKS_S", 0.01)
    monkeypatch.setattr(floors, "_FIRST_LOOK_S", 0.0)
    monkeypatch.setattr(floor, "hear_others", hear)

    async def watched():
        watch = asyncio.ensure_future(floor._watch())
        for _ in range(200):
            await asyncio.sleep(0.01)
            if len(heard) > 2:
                break
        watch.cancel()

    asyncio.run(watched())
    assert len(heard) > 2


def test_a_face_half_written_when_the_plug_was_pulled_is_cut_anew(floor, monkeypatch):
    async def cut(job, weight):  # noqa: ARG001
        return b"whole"

    def pulled(path, content):
        with path.open("wb") as file:
            file.write(content[:2])
        raise SystemExit

    monkeypatch.setattr(floor.workers, "ask", cut)
    with monkeypatch.context() as plug:
        plug.setattr("pathlib.Path.write_bytes", pulled)
        with pytest.raises(SystemExit):
            asyncio.run(floor.face("regular"))
    assert asyncio.run(floor.face("regular")) == b"whole"


def test_a_tap_made_while_the_records_do_not_answer_is_not_refused_but_sent_again(floor, client, monkeypatch):
    monkeypatch.setattr("panewright.ledger.open._BUSY_S", 0.1)
    client.post("/orders", data={"number": "A-1", "name": "Shed"})
    lot = {"mark": "C1", "kind": "cells", "name": "125 mm", "unit": "each"}
    head = {"x-tap": "locked" * 4}
    other = sqlite3.connect(floor.folder / "shop.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    for heads in (head, {}):
        answer = client.post("/lots", data=lot, headers=heads)
        assert answer.status_code == 503
        assert "do not answer" in answer.text
    other.execute("ROLLBACK")
    other.close()
    for _ in range(2):
        assert client.post("/lots", data=lot, headers=head).headers["x-go"] == "/lots/C1"
