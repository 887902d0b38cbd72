"""Long work: one piece of a kind at a time, stopped in time, told where the server was ended meanwhile."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime

import pytest

from panewright.errors import Problem, RecordError
from panewright.web.floor import Floor
from panewright.web.workers import WorkerGone


@pytest.fixture
def here(floor, monkeypatch):
    monkeypatch.setattr("panewright.web.work.A_MOMENT_S", 0.05)
    return floor


def begun(floor, steps, **more):
    return floor.works.catalogue.do("a catalogue", steps, **more)


async def nine():
    return 9


async def slow():
    await asyncio.sleep(30)


def test_what_came_of_it_stands_with_its_note(here):
    async def day():
        assert await begun(here, nine, tap="t" * 12, note="the range")
        assert await begun(here, slow, tap="t" * 12)  # the same tap again begins nothing
        await here.works.catalogue.wait()
        return here.works.catalogue

    work = asyncio.run(day())
    assert (work.doing, work.last.came, work.last.note, work.last.problems) == ("", 9, "the range", ())
    assert not list((here.folder / "cache" / "working").iterdir())


def test_one_piece_at_a_time_and_another_kind_beside_it(here):
    async def day():
        assert await begun(here, slow)
        assert here.works.catalogue.last is None
        assert not await begun(here, nine)
        assert await here.works.cutting.do("a plan", nine)
        await here.works.cutting.wait()
        return here.works.cutting.last.came

    assert asyncio.run(day()) == 9


@pytest.mark.parametrize(
    ("mistake", "said"),
    [
        (RecordError([Problem("No.", "Yes.")]), "No."),
        (WorkerGone(), "The work ended before it was done."),
        (ValueError("ours"), "The work ended before it was done."),
        (KeyError("ours"), "The work ended before it was done."),
        (AttributeError("ours"), "The work ended before it was done."),
    ],
)
def test_what_goes_wrong_is_told(here, mistake, said, capsys):
    async def wrong():
        raise mistake

    async def day():
        await begun(here, wrong)
        await here.works.catalogue.wait()

    asyncio.run(day())
    assert here.works.catalogue.doing == ""
    assert here.works.catalogue.last.problems[0].reason == said
    assert "ours" not in capsys.readouterr().err


def test_it_is_stopped_even_before_a_worker_was_asked(here):
    go = asyncio.Event()

    async def steps():
        await go.wait()
        return await here.works.catalogue.ask("ready")

    async def day():
        await begun(here, steps)
        stopping = asyncio.ensure_future(here.works.catalogue.stop())
        await asyncio.sleep(0.01)
        go.set()
        await stopping

    asyncio.run(day())
    assert here.works.catalogue.last.problems[0].reason == "It was stopped."


def test_a_server_that_was_ended_tells_what_it_cut_off(here):
    before = datetime.now(UTC)

    async def day():
        await begun(here, slow, note="[range]\ncolumns = [4]\n")

    asyncio.run(day())  # the loop ends, and the work with it
    next_day = Floor(here.folder, quick=False)
    next_day.works.recall()
    last = next_day.works.catalogue.last
    assert "closed before every size" in last.problems[0].reason
    assert next_day.works.catalogue.note == "[range]\ncolumns = [4]\n"
    assert before <= last.at <= datetime.now(UTC)
    assert next_day.works.cutting.last is None
    asyncio.run(begun(next_day, nine))
    again = Floor(here.folder, quick=False)
    again.works.recall()
    assert again.works.catalogue.last is None


@pytest.mark.parametrize("spoilt", ["", "{", "[]", '{"at": 4}'])
def test_a_spoilt_mark_tells_nothing(here, spoilt):
    room = here.folder / "cache" / "working"
    room.mkdir(parents=True)
    (room / "catalogue.json").write_text(spoilt)
    here.works.recall()
    assert here.works.catalogue.last is None
