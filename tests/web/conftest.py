"""A shop in a folder of its own, asked without a network; designs are made in this process."""

from __future__ import annotations

import pickle
import shutil
import time
from functools import lru_cache
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from panewright.web.app import make_app
from panewright.web.floor import Floor
from panewright.web.guard import Door, Guard
from panewright.web.workers import Workers, done

EXAMPLES = Path(__file__).parents[2] / "examples"
ORIGIN = {"origin": "http://testserver"}


#: jobs that know no records, so that the same is asked for with the same answer
KNOWN = frozenset(
    [
        "reckon",
        "reprice",
        "papers",
        "paper",
        "look",
        "pages",
        "price_list",
        "catalogue",
        "offered",
        "quote_pdf",
        "cells_looked",
        "cells_weighed",
        "cells_listed",
        "deal_made",
        "deal_cell",
        "deal_swapped",
        "deal_paper",
        "offers_ranked",
        "curve_looked",
        "panel_rated",
        "fault_found",
        "charts_seen",
    ]
)


@lru_cache(maxsize=400)
def answered(asked):
    job, arguments = pickle.loads(asked)
    return pickle.dumps(done(job, arguments))


class Near:
    """A worker that is no other process; what it was asked before, it knows, in bytes as on the line."""

    def ask(self, job, arguments, told=None):  # noqa: ARG002
        if job in KNOWN:
            return pickle.loads(answered(pickle.dumps((job, arguments))))
        return done(job, arguments)

    def end(self):
        return None


@pytest.fixture
def floor(tmp_path, empty_shop):
    shutil.copytree(empty_shop, tmp_path / "shop")
    return Floor(
        tmp_path / "shop", workers=Workers(start=Near), readers=lambda: Workers(1, Near), quick=False
    )


@pytest.fixture
def client(floor):
    door = Door.at(("testserver",), 80)
    with TestClient(Guard(make_app(floor), door), headers=ORIGIN, follow_redirects=False) as asked:
        yield asked


@pytest.fixture
def settled(client):
    """What a page shows once the work that it tells of is done; a busy machine takes its time."""

    def shown(where, doing):
        end = time.monotonic() + 120
        while doing in (page := client.get(where).text):
            assert time.monotonic() < end, page
            time.sleep(0.2)
        return page

    return shown


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
