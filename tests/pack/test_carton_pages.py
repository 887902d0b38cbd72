"""A kit without pane and cells, from the order's text to carton, price, papers and words."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from panewright import desk
from panewright.cli.main import cli
from panewright.desk.orders.crated import crate_json, crate_words, crated
from panewright.drawing.overlap import overlaps
from panewright.drawing.sheet import Steps, Table
from panewright.pack.bench import Bench
from panewright.pack.figures.crate import crate_section
from panewright.pack.pages.crate import crate_pages

EXAMPLES = Path(__file__).parents[2] / "examples"
KIT = '\n[kit]\nsold_as = "kit"\ncustomer_brings = "glass, cells"\n'


@pytest.fixture(scope="module", params=["kiosk", "frost-sensor"])
def text(request):
    return (EXAMPLES / f"{request.param}.toml").read_text("utf-8") + KIT


@pytest.fixture(scope="module")
def made(text):
    return desk.design(text.encode(), "kit.toml")


@pytest.fixture(scope="module")
def found(made):
    return crated(made)


def test_the_kit_goes_in_a_carton_and_its_price_is_that_of_board_foam_and_paper(made, found):
    assert found.shell == "carton"
    assert found.proven
    lines = {line.use: line for line in made.quote.lines if line.group == "crate"}
    assert set(lines) == {"carton", "foam", "void fill"}
    assert all(line.price for line in made.quote.lines if line.group == "crate")
    assert float(lines["carton"].per_crate) == pytest.approx(found.crate.card_m2, rel=1e-3)
    assert float(lines["void fill"].per_crate) == pytest.approx(found.crate.fill_kg, rel=1e-3)
    work = {each.step: each for each in made.quote.work}
    assert work["Cut and fold the carton"].count == found.crates
    assert "Build the crate" not in work


def test_its_steps_take_the_minutes_that_the_price_counts(made, found):
    pages = crate_pages(Bench(made.design, made.quote), found)
    (steps,) = [block for page in pages for block in page.blocks if isinstance(block, Steps)]
    priced = sum(
        float(each.minutes) / found.crates
        for each in made.quote.work
        if "carton" in each.step and each.per in ("cartons", "kits in cartons")
    )
    held = made.design.order.job.panels / found.crates
    assert sum(each.minutes for each in steps.steps) == pytest.approx(
        priced * 1.0 + 6.0 * (found.loads[0][0] - held)
    )


def test_its_pages_speak_of_a_carton_and_of_no_wood_to_saw(made, found):
    pages = crate_pages(Bench(made.design, made.quote), found)
    assert [page.title for page in pages] == ["Carton", "Carton: foam and rules", "Carton: cut and pack"]
    said = " ".join(map(str, pages))
    assert not re.search(r"plywood|batten|[Ss]crew|to saw|[Gg]lass edges", said)
    (cut,) = [
        block
        for block in pages[2].blocks
        if isinstance(block, Table) and block.columns[:2] == ("Piece", "Pieces")
    ]
    assert len(cut.rows) == len(found.boards)
    units = made.design.order.job.units
    for way in ("across", "along"):
        assert overlaps(crate_section(found.crate, way, 3.0, units), units) == ()


def test_terminal_json_and_command_say_the_same(made, found, text, tmp_path):
    words = crate_words(made, found)
    assert found.reason.replace("\u2009", " ") in words
    assert "To cut for one carton" in words
    told = json.loads(crate_json(found))
    assert told["taken"]["carrier"]["kind"] == "parcel"
    (tmp_path / "kit.toml").write_text(text, "utf-8")
    answer = CliRunner().invoke(cli, ["crate", str(tmp_path / "kit.toml")])
    assert answer.output.startswith("Parcel, ")
    assert "carton" in answer.output.splitlines()[0]


def test_an_order_may_refuse_cartons(text):
    made = desk.design(f'{text}\n[crate]\ncarton = "no"\n'.encode(), "kit.toml")
    assert crated(made).shell == "crate"
