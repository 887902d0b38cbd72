"""The records kept safe from a page: backed up, looked over, written out, put back; one thing at a time."""

from __future__ import annotations

import asyncio
import io
import threading
import zipfile
from functools import partial
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from panewright.desk.records import keeping
from panewright.errors import RecordError
from panewright.web.app import make_app
from panewright.web.floor import Floor
from panewright.web.guard import MOST_BACKUP_BYTES, Door, Guard
from panewright.web.live import events
from panewright.web.workers import WorkerGone, Workers, done, one_reader

ORIGIN = {"origin": "http://testserver"}


def tapped(client, path, tap="a", **data):
    return client.post(path, data=data, headers={"x-tap": (tap * 24)[:24]})


def listed(floor):
    return sorted(each.name for each in (floor.folder / "backups").glob("*.zip"))


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    """A busy machine takes longer than a page waits."""
    monkeypatch.setattr("panewright.web.work.A_MOMENT_S", 60.0)


@pytest.fixture
def kept(client, floor, jetty):
    """A backup that holds one order."""
    assert client.post("/records/backup").status_code == 303
    assert jetty in client.get("/").text
    return listed(floor)[0]


def test_an_empty_shop_is_asked_for_its_first_backup(client):
    text = client.get("/records").text
    assert "There is none yet." in text
    assert "None yet" in text
    assert "would be lost" not in text


def test_a_backup_is_made_shown_and_taken_along(client, floor, jetty):
    assert jetty
    assert "If this computer broke now" in client.get("/records").text
    answer = client.post("/records/backup")
    assert (answer.status_code, answer.headers["location"]) == (303, "/records")
    (name,) = listed(floor)
    text = client.get("/records").text
    for words in (
        "Last backup",
        str(floor.folder / "backups"),
        "0 files are in it",
        name,
        "this shop's own computer",
    ):
        assert words.lower() in text.lower()
    assert "If this computer broke now" not in text
    sent = client.get(f"/records/backups/{name}")
    assert sent.headers["content-disposition"].startswith("attachment")
    assert sent.headers["cache-control"] == "no-store"
    with zipfile.ZipFile(io.BytesIO(sent.content)) as packed:
        assert "about.json" in packed.namelist()


def test_a_tap_sent_twice_makes_one_backup_and_answers_with_the_part(client, floor, jetty):
    assert jetty
    for _ in range(2):
        answer = tapped(client, "/records/backup")
        assert answer.status_code == 200
        assert 'id="keeping"' in answer.text
        assert "are in it" in answer.text
    assert len(listed(floor)) == 1
    tapped(client, "/records/backup", "b")
    assert len(listed(floor)) == 2  # in the same second, under a name of its own


@pytest.mark.parametrize("path", ["/records/backup", "/records/check", "/records/out", "/records/stop"])
def test_nothing_is_done_for_a_page_from_elsewhere(client, floor, path):
    assert client.post(path, headers={"origin": "http://evil.example"}).status_code == 403
    assert listed(floor) == []


def test_the_verdict_is_a_list_and_names_what_is_wrong(client, floor, kept):
    assert kept
    assert "All is sound" in tapped(client, "/records/check", "c").text
    serial = client.post("/build/JL-7/begin")
    assert serial.status_code == 303
    picture = floor.shop.folder / "files"
    floor.shop.keep_photograph("0042", b"\xff\xd8 light", "corner", _who())
    next(each for each in picture.rglob("*") if each.is_file()).write_bytes(b"")
    text = tapped(client, "/records/check", "d").text
    assert "1 thing is not sound" in text
    assert "is not what was kept" in text


def _who():
    from panewright.desk.shop.who import Who

    return Who.now("Ann")


def test_everything_is_written_out_in_open_formats(client, floor, jetty):
    assert jetty
    assert client.get("/records/out.zip").status_code == 404
    assert client.post("/records/out").status_code == 303
    assert "Take it along" in client.get("/records").text
    sent = client.get("/records/out.zip")
    with zipfile.ZipFile(io.BytesIO(sent.content)) as packed:
        names = set(packed.namelist())
        assert {"records/order_version.csv", "records/order_version.json"} <= names
        assert b"JL-7" in packed.read("records/order_version.csv")
    assert sorted(each.name for each in keeping.scratch(floor.place).iterdir()) == ["records-out.zip"]


def test_a_backup_is_put_back_only_for_whoever_typed_the_words(client, floor, kept):
    client.post("/orders", data={"number": "NEW-1", "name": "later"})
    asked = client.get(f"/records/backups/{kept}/back?wait=1").text
    assert "It is whole" in asked
    assert "gone from every screen" in asked
    for wrong in ("", "yes", "put"):
        answer = client.post(f"/records/backups/{kept}/back", data={"word": wrong})
        assert answer.status_code == 422
        assert "the words were not typed" in answer.text
    assert "NEW-1" in client.get("/").text
    answer = client.post(f"/records/backups/{kept}/back", data={"word": " Put  back "})
    assert (answer.status_code, answer.headers["location"]) == (303, "/records")
    text = client.get("/records").text
    assert "The backup is put back" in text
    assert "what stood before another was put back" in text
    assert "NEW-1" not in client.get("/").text
    assert client.get("/orders/NEW-1").status_code == 404
    (before,) = (name for name in listed(floor) if name.endswith("-before.zip"))
    client.post(f"/records/backups/{before}/back", data={"word": "put back"})
    assert "NEW-1" in client.get("/").text
    assert "All is sound" in tapped(client, "/records/check", "e").text


def test_every_page_is_greeted_with_another_mark_and_nothing_old_is_shown(client, floor, kept):
    client.get("/orders/JL-7", headers={"x-parts": "seen"}, params={"wait": "1"})
    assert floor.reckoner.last
    client.portal.call(floor.marked)

    async def hear():
        stream, said = events(floor.live), []
        said.append(await anext(stream))
        work = floor.works.records
        steps = partial(work.ask, "records", "put_back", floor.place, kept, "Ann", _who().at)
        await work.do("put_back", steps)
        while sum("event: hello" in each for each in said) < 2:
            said.append(await asyncio.wait_for(anext(stream), 20))
        return said

    said = client.portal.call(hear)
    first, last = said[0], next(each for each in said[1:] if "hello" in each)
    assert "data: here" in first
    assert "_Ann" in last
    assert floor.reckoner.last == {}
    client.post("/orders", data={"number": "NEW-2", "name": "later"})

    async def follow():
        with floor.live.ear() as ear:
            await asyncio.wait_for(floor.hear_others(), 20)
            return ear.get_nowait()

    assert client.portal.call(follow) == "order:NEW-2"


def test_a_backup_from_elsewhere_is_looked_into_and_laid_beside_the_others(client, floor, kept):
    content = (floor.folder / "backups" / kept).read_bytes()
    answer = client.post("/records/take", files={"file": ("mine.zip", content)})
    assert answer.status_code == 303
    (name,) = (name for name in listed(floor) if name != kept)
    assert name.endswith("-taken-in.zip")
    assert answer.headers["location"] == f"/records/backups/{name}/back"
    assert "taken in from elsewhere" in client.get("/records").text
    assert "It is whole" in client.get(f"{answer.headers['location']}?wait=1").text


@pytest.mark.parametrize("spoil", [lambda data: data[:-300], lambda _: b"", lambda _: b"PK no zip at all"])
def test_a_spoilt_one_is_told_and_not_kept(client, floor, kept, spoil):
    content = (floor.folder / "backups" / kept).read_bytes()
    answer = client.post("/records/take", files={"file": ("mine.zip", spoil(content))})
    assert answer.status_code == 422
    assert 'class="mistake"' in answer.text
    assert listed(floor) == [kept]
    assert list(keeping.scratch(floor.place).iterdir()) == []


def test_one_that_was_spoilt_in_the_folder_has_no_button(client, floor, kept):
    path = floor.folder / "backups" / kept
    path.write_bytes(path.read_bytes()[:-300])
    text = client.get(f"/records/backups/{kept}/back?wait=1").text
    assert "It cannot be put back" in text
    assert "Put the backup back" not in text
    client.post(f"/records/backups/{kept}/back", data={"word": "put back"})
    assert "cannot be read as a backup" in client.get("/records").text
    assert "JL-7" in client.get("/").text


def test_too_large_a_backup_is_refused_before_it_is_read(client, floor):
    head = {"content-length": str(MOST_BACKUP_BYTES + 1), "content-type": "multipart/form-data; boundary=x"}
    assert client.post("/records/take", content=b"x", headers=head).status_code == 413
    assert client.post("/records/take", files={"other": b""}).status_code == 422
    assert listed(floor) == []


@pytest.mark.parametrize("name", ["nothing.zip", "..%2Fshop.db", "..%2F..%2Fetc%2Fpasswd", ".zip", "a b.zip"])
def test_no_other_file_is_taken_along_or_put_back(client, floor, kept, name):
    assert kept
    (floor.folder / "backups" / "a b.zip").write_bytes(b"x")
    for path in (f"/records/backups/{name}", f"/records/backups/{name}/back"):
        assert client.get(path).status_code == 404
    assert client.post(f"/records/backups/{name}/back", data={"word": "put back"}).status_code in (404, 422)


def test_a_process_with_limits_looks_into_a_backup(client, floor, kept):
    assert client
    path = str(floor.folder / "backups" / kept)
    real = Floor(floor.folder, readers=one_reader, quick=False)
    inside = asyncio.run(real.bounded("look_into", path))
    assert inside.changes == 1
    with pytest.raises(RecordError):
        asyncio.run(real.bounded("look_into", __file__))


class Held:
    """A worker that waits at its work until it is let go, or ended; one that was ended stays so."""

    go = threading.Event()

    def __init__(self):
        self.ended = threading.Event()

    def ask(self, job, arguments, told=None):
        if job == "records":
            told(40)
            while not self.ended.is_set() and not self.go.wait(0.02):
                pass
            if self.ended.is_set():
                raise WorkerGone
        return done(job, arguments)

    def end(self):
        self.ended.set()


@pytest.fixture
def held(tmp_path, monkeypatch):
    monkeypatch.setattr("panewright.web.work.A_MOMENT_S", 0.2)
    Held.go = threading.Event()
    floor = Floor(tmp_path / "shop", workers=Workers(start=Held), quick=False)
    with TestClient(Guard(make_app(floor), Door.at(("testserver",), 80)), headers=ORIGIN) as asked:
        yield asked, floor
        Held.go.set()


def test_long_work_shows_how_far_it_is_and_one_thing_is_done_at_a_time(held):
    client, floor = held
    text = tapped(client, "/records/backup").text
    assert "Writing a backup" in text
    assert "40 %" in text
    other = tapped(client, "/records/check", "b")
    assert other.status_code == 409
    assert "Something else is being done" in other.text
    assert client.post("/records/check", follow_redirects=False).status_code == 409
    Held.go.set()
    _until(lambda: not floor.works.records.doing)
    assert "are in it" in client.get("/records").text


def test_long_work_is_stopped_and_nothing_is_left(held):
    client, floor = held
    tapped(client, "/records/backup")
    (keeping.room(floor.place) / "half.zip").write_bytes(b"x")
    assert tapped(client, "/records/stop", "b").status_code == 200
    _until(lambda: not floor.works.records.doing)
    assert "It was stopped." in client.get("/records").text
    assert listed(floor) == []
    assert list(keeping.scratch(floor.place).iterdir()) == []
    Held.go.set()
    tapped(client, "/records/backup", "c")
    _until(lambda: not floor.works.records.doing)
    assert len(listed(floor)) == 1


def _until(holds):
    import time

    end = time.monotonic() + 20
    while not holds():
        assert time.monotonic() < end
        time.sleep(0.02)


def test_a_stranger_at_the_other_door_sees_none_of_it(floor, kept, client):
    assert client
    floor.keys.set_phrase("seven quiet herons")
    door = Door.at(("testserver",), 443, scheme="https", here=False)
    head = {"origin": "https://testserver"}
    stranger = TestClient(
        Guard(make_app(floor), door), base_url="https://testserver", follow_redirects=False, headers=head
    )
    for path in ("/records", "/records/out.zip", f"/records/backups/{kept}", "/customers/K-7/erase"):
        assert stranger.get(path).status_code == 303
    for path in ("/records/backup", f"/records/backups/{kept}/back", "/records/take"):
        assert stranger.post(path, data={"word": "put back"}).status_code == 401
    assert Path(floor.folder / "backups" / kept).exists()
