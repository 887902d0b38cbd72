"""A shop in a folder of its own, asked without a network; designs are made in this process."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from panewright.web.app import make_app
from panewright.web.floor import Floor
from panewright.web.guard import Door, Guard
from panewright.web.workers import Workers, done

EXAMPLES = Path(__file__).parents[2] / "examples"
ORIGIN = {"origin": "http://testserver"}


class Near:
    """A worker that is no other process."""

    def ask(self, job, arguments, told=None):  # noqa: ARG002
        return done(job, arguments)

    def end(self):
        return None


@pytest.fixture
def floor(tmp_path):
    return Floor(
        tmp_path / "shop", workers=Workers(start=Near), readers=lambda: Workers(1, Near), quick=False
    )


@pytest.fixture
def client(floor):
    door = Door.at(("testserver",), 80)
    with TestClient(Guard(make_app(floor), door), headers=ORIGIN, follow_redirects=False) as asked:
        yield asked


@pytest.fixture
def next_day(floor):
    """Opens the same shop in a server begun anew."""

    def opened():
        again = Floor(floor.folder, workers=Workers(start=Near), quick=False)
        return TestClient(Guard(make_app(again), Door.at(("testserver",), 80)), headers=ORIGIN)

    return opened


@pytest.fixture
def jetty(client):
    """The number of an order that was taken in."""
    content = (EXAMPLES / "jetty.toml").read_bytes()
    answer = client.post("/orders/take", files={"file": ("jetty.toml", content)})
    assert answer.status_code == 303
    return "JL-7"
