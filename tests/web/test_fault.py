"""What is wrong with a serial, in the shop: the spot drawn, readings told and taken back, mending."""

from __future__ import annotations

import re
from html import unescape

import pytest
from click.testing import CliRunner

from examples import FOLDER
from panewright.bench.fault.kinds import KINDS
from panewright.bench.fault.place.belief import Spot, State
from panewright.circuit.place import CellAt
from panewright.cli.main import cli
from panewright.desk.fault import found

BENCH = FOLDER / "bench"
RATED = {
    "light.by": "reference cell",
    "heat.by": "back sensor",
    "what": "keep",
}


@pytest.fixture
def cold(client):
    """A panel with a cold joint, begun and rated."""
    content = (FOLDER / "henhouse.toml").read_bytes()
    client.post("/orders/take", files={"file": ("henhouse.toml", content)})
    client.post("/build/HD-2/begin")
    assert "No curve yet" in client.get("/fault/0051").text
    curve = (BENCH / "henhouse-cold-joint.csv").read_bytes()
    answer = client.post("/rate/0051", data=RATED, files={"file": ("cold.csv", curve)})
    assert answer.status_code == 303
    return client


def shown(client, more=""):
    return unescape(client.get(f"/fault/0051?wait=1{more}").text)


def next_form(page):
    """The first measurement's form: where it goes, and what it holds."""
    form = re.search(r'action="([^"]*/told[^"]*)".*?</form>', page, re.DOTALL)
    values = dict(re.findall(r'type="hidden" name="(\w+)" value="(.*?)">', form.group(0)))
    return form.group(1), values


def test_the_spot_is_drawn_and_narrowed_by_readings_that_can_be_taken_back(cold):
    page = shown(cold)
    assert "Faulty (" in page
    assert "Added resistance" in page
    assert len(re.findall(r'class="cell suspect"', page)) == 36
    assert "its share of the current without it, which counts:" in page
    to, values = next_form(page)
    low, high = re.search(r"<b>[\d.]+ to [\d.]+ A, ([\d.]+) to ([\d.]+) %</b>", page).groups()
    ratio = (float(low) + float(high)) / 200
    told = {**values, "reading-0": f"{3 * ratio:.4f}", "reading-1": "3,0 A"}
    assert cold.post(to, data={**told, "reading-1": "many"}).status_code == 422
    assert cold.post(to, data={**told, "setting": "1"}).status_code == 422
    assert cold.post(to, data=told).headers["location"] == "/fault/0051"
    page = shown(cold)
    assert "Measured since" in page
    assert 0 < len(re.findall(r'class="cell suspect"', page)) < 30
    assert cold.post("/fault/0051/back").status_code == 303
    assert "Measured since" not in shown(cold)
    assert cold.post("/fault/0051/back").status_code == 422


def test_a_finding_and_what_was_mended_stay_with_the_panel(cold):
    assert cold.post("/fault/0051/found").status_code == 303
    assert cold.post("/fault/0051/mended", data={"words": ""}).status_code == 422
    words = "Joint after cell 7 soldered again"
    assert cold.post("/fault/0051/mended", data={"words": words}).status_code == 303
    page = shown(cold, "&lies=open&side=front")
    assert "Seen from the sunny side" in page
    assert "needles" in page
    assert page.count(words) == 1
    record = unescape(cold.get("/serial/0051").text)
    assert words in record
    assert "Faulty (" in record


def test_what_was_taken_for_true_before_is_told_and_a_shop_says_its_own(cold, floor):
    assert "Before any reading 14.3 % of panels were taken to be sound" in shown(cold)
    (floor.folder / "bench.toml").write_text('shares.healthy = "95 %"\n')
    assert "95 % of panels were taken to be sound, by the shop's own shares." in shown(cold)
    (floor.folder / "bench.toml").write_text('shares.healthy = "nearly all"\n')
    assert "This is no number with its unit." in shown(cold)


def test_a_lot_is_offered_for_spares_and_those_of_it_are_weighed(cold, monkeypatch):
    """What is believed is set to one weak cell, so that no readings have to narrow it down here."""
    data = (FOLDER / "lots" / "barn-roof.csv").read_bytes()
    assert cold.post("/cells/take", data={"lot": "barn"}, files={"file": ("b.csv", data)}).status_code == 303
    weak = next(kind for kind in KINDS if kind.key == "weak cell")
    spot = Spot(weak, CellAt(0, 5), (0.4,), (1.0,))
    monkeypatch.setattr(found, "begin", lambda foretold, _: State(foretold, (spot,)))
    page = shown(cold, "&lies=open&spares=attic")
    assert "No measured cells are kept of this lot." in page
    assert "Look without spares" in page
    page = shown(cold, "&lies=open&spares=barn")
    assert "<option selected>barn</option>" in page
    best = re.search(r"With the best spares of barn: (\S+) ([\d.]+) W", page)
    assert best, page
    assert float(best.group(2)) > 60
    assert "No spare cell is left" not in page


def test_what_was_kept_by_command_is_listed_on_the_panel_s_pages(client, floor):
    client.post("/orders/take", files={"file": ("h.toml", (FOLDER / "henhouse.toml").read_bytes())})
    client.post("/build/HD-2/begin")
    words = ("--serial", "0051", "--by", "Ben", "--shop", str(floor.folder))
    done = CliRunner().invoke(cli, ["fault", *words, "--mended", "joint 7 soldered again"])
    assert done.exit_code == 0, done.output
    for page in ("/fault/0051", "/serial/0051"):
        seen = unescape(client.get(page).text)
        assert "<b>Mended</b><span>joint 7 soldered again Ben" in seen
