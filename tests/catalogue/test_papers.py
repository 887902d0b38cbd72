"""The price list on paper, on a screen, in a workbook and for programs: one catalogue, no two figures."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import replace
from decimal import Decimal
from html.parser import HTMLParser
from pathlib import Path

import openpyxl
import pdfplumber
import pytest
from click.testing import CliRunner

from panewright.catalogue.offer import offer_of
from panewright.catalogue.row import Carried
from panewright.catalogue.work import rows_of
from panewright.cli.main import cli
from panewright.desk import catalogue as desk_catalogue
from panewright.desk.catalogue import NAMES, content

EXAMPLE = Path(__file__).parents[2] / "examples" / "ranges" / "allotments.toml"


@pytest.fixture(scope="module")
def offer(small, rows, shelf):
    return offer_of(small, rows, shelf)


def pdf_text(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return "\n".join(page.extract_text() for page in pdf.pages)


class Seen(HTMLParser):
    """Tags, and words outside of the style."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        if self.tags and self.tags[-1][0] != "style":
            self.words.append(data)


def test_the_same_catalogue_gives_the_same_bytes_in_every_form(offer, small, asked, shelf):
    again = offer_of(small, rows_of(small, asked), shelf)
    assert {name: content(offer, name) for name in NAMES} == {name: content(again, name) for name in NAMES}


@pytest.mark.peer("distributed")
@pytest.mark.filterwarnings("ignore")
def test_one_process_two_and_a_dask_cluster_write_the_same_bytes(text, tmp_path):
    from distributed import LocalCluster

    def files(**who):
        made = desk_catalogue.catalogue(text.encode(), "small.toml", **who)
        folder = tmp_path / "-".join(who)
        return {name: (folder / name).read_bytes() for name in desk_catalogue.write_catalogue(made, folder)}

    alone, both = files(), files(processes=2)
    with LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as local:
        afar = files(cluster=local.scheduler_address)
    assert {name for name in NAMES if not alone[name] == both[name] == afar[name]} == set()
    assert set(alone) == set(NAMES)


def test_every_size_that_holds_is_priced_on_paper_and_on_the_screen(offer):
    paper = pdf_text(content(offer, "catalogue.pdf"))
    screen = Seen()
    screen.feed(content(offer, "catalogue.html").decode())
    words = " ".join(screen.words)
    assert offer.holding
    for row in offer.holding:
        for price in (*row.figures.prices, row.figures.per_watt):
            assert f"{price:.2f}" in paper
            assert f"{price:.2f}" in words
    for said in ("Proved by Eurocodes", "Prices are this shop's own", "not listed or certified"):
        assert said in " ".join(paper.split())
        assert said in " ".join(words.split())


def test_what_makes_a_size_freight_stands_on_paper_screen_and_in_the_workbook(offer):
    first = next(row for row in offer.rows if row.holds)
    why = "Invented Freight takes it; 3720 mm of length plus girth, it takes 3600 mm"
    figures = replace(first.figures, carried=Carried("freight", "girth", why))
    told = replace(offer, rows=(replace(first, figures=figures),))
    paper = " ".join(pdf_text(content(told, "catalogue.pdf")).split())
    screen = Seen()
    screen.feed(content(told, "catalogue.html").decode())
    words = " ".join(" ".join(screen.words).replace("\u2009", " ").split())
    for carrier in (each for each in offer.family.order.crate.carriers if each.kind == "parcel"):
        assert f"{carrier.name}: {carrier.longest_mm:.0f} mm long" in words
    assert "freight: girth" in words
    assert "girth" in paper.split("Crate and carriage: what they add")[0]
    sheet = openpyxl.load_workbook(io.BytesIO(content(told, "catalogue.xlsx")))["Price list"]
    heads, line = sheet.iter_rows(values_only=True)
    found = dict(zip(heads, line, strict=True))
    assert (found["Travels as"], found["Decided by"], found["Because"]) == ("freight", "girth", why)


def test_what_fails_is_told_with_its_cure(offer):
    paper = re.sub(r"\s", "", pdf_text(content(offer, "catalogue.pdf")))
    for row in offer.failing:
        assert re.sub(r"\s", "", row.fails.split(":")[0])[:20] in paper


def test_the_page_asks_nothing_of_the_outside_and_reads_no_words_as_markup(offer):
    page = content(offer, "catalogue.html").decode()
    seen = Seen()
    seen.feed(page)
    tags = [tag for tag, _ in seen.tags]
    assert not {"script", "link", "iframe", "b", "form", "object"} & set(tags)
    for _, attributes in seen.tags:
        for name, value in attributes.items():
            assert not name.startswith("on")
            assert name not in ("href", "src") or value.startswith(("#", "data:"))
    assert "http:" not in page.replace("http://www.w3.org", "")
    assert "<b>Tarn" not in page
    assert "=SUM(1) <b>Tarn & Street</b>" in " ".join(seen.words)


def test_the_workbook_has_numbers_as_numbers_and_hostile_words_as_words(offer):
    sheet = openpyxl.load_workbook(io.BytesIO(content(offer, "catalogue.xlsx")))["Price list"]
    lines = list(sheet.iter_rows(values_only=True))
    heads = lines[0]
    assert len(lines) == 1 + len(offer.rows)
    first = dict(zip(heads, lines[1], strict=True))
    figures = offer.rows[0].figures
    assert first["Pmp, W"] == figures.pmp_w
    assert first["Price each of 10 at the workshop, EUR"] == float(figures.prices[1])
    assert first["Safe wind of the glass, m/s"] == figures.safe_wind_m_s
    assert all(cell.data_type in "ns" for line in sheet.iter_rows() for cell in line)


@pytest.mark.parametrize("start", ["=1+1", "+1", "-1", "@x"])
def test_a_cell_that_starts_like_a_formula_stays_text(offer, start):
    hostile = replace(offer, rows=(replace(offer.rows[0], glass=start, fails=start),))
    sheet = openpyxl.load_workbook(io.BytesIO(content(hostile, "catalogue.xlsx")))["Price list"]
    assert sheet["F2"].value == start
    assert sheet["F2"].data_type == "s"
    line = list(csv.reader(io.StringIO(content(hostile, "catalogue.csv").decode())))[1]
    assert line[5] == f"'{start}"
    assert content(hostile, "catalogue.pdf").startswith(b"%PDF")


def test_programs_read_every_figure(offer):
    record = json.loads(content(offer, "catalogue.json"))
    assert (record["sizes"], record["holding"]) == (len(offer.rows), len(offer.holding))
    row = record["rows"][0]
    assert Decimal(row["figures"]["prices"][0]) == offer.rows[0].figures.prices[0]
    assert row["figures"]["pmp_w"] == offer.rows[0].figures.pmp_w
    lines = list(csv.DictReader(io.StringIO(content(offer, "catalogue.csv").decode())))
    assert float(lines[0]["Pmp, W"]) == offer.rows[0].figures.pmp_w
    assert [line["Every check holds"] for line in lines] == ["yes" if r.holds else "no" for r in offer.rows]


def test_the_command_writes_all_forms_of_a_range(tmp_path, text):
    range_file = tmp_path / "r.toml"
    range_file.write_text(text.replace("rows = [3, 6]", "rows = [3]").replace(', "125 mm mono"', ""))
    result = CliRunner().invoke(cli, ["catalogue", str(range_file), "--to", str(tmp_path / "c")])
    assert result.exit_code in (0, 1)
    assert "sizes hold every check" in result.output
    assert sorted(path.name for path in (tmp_path / "c").iterdir()) == sorted(NAMES)
    record = json.loads((tmp_path / "c" / "catalogue.json").read_text())
    assert result.exit_code == (0 if record["holding"] == record["sizes"] else 1)


def test_a_wrong_range_answers_2_and_writes_nothing(tmp_path):
    range_file = tmp_path / "r.toml"
    range_file.write_text("[range]\ncolumns = [2]\n")
    result = CliRunner().invoke(cli, ["catalogue", str(range_file), "--to", str(tmp_path / "c")])
    assert result.exit_code == 2
    assert "rows is missing" in result.stderr
    assert not (tmp_path / "c").exists()


def test_a_command_that_is_broken_off_writes_nothing(tmp_path, text, monkeypatch):
    def broken_off(*_args, told, **_more):
        told(1, 8)
        raise KeyboardInterrupt

    monkeypatch.setattr(desk_catalogue, "catalogue", broken_off)
    (tmp_path / "r.toml").write_text(text)
    result = CliRunner().invoke(cli, ["catalogue", str(tmp_path / "r.toml"), "--to", str(tmp_path / "c")])
    assert result.exit_code == 130
    assert "nothing was written" in result.stderr
    assert not (tmp_path / "c").exists()


def test_a_cluster_that_is_not_there_is_told(tmp_path, text):
    (tmp_path / "r.toml").write_text(text)
    words = ["catalogue", str(tmp_path / "r.toml"), "--cluster", "tcp://127.0.0.1:1"]
    result = CliRunner().invoke(cli, [*words, "--to", str(tmp_path / "c")])
    assert result.exit_code == 2
    assert "--cluster" in result.stderr
    assert not (tmp_path / "c").exists()


def test_the_example_is_a_range_and_its_first_size_holds(shelf):
    from panewright.catalogue.reading import parse_family
    from panewright.catalogue.row import Asked, row_of

    family = parse_family(EXAMPLE.read_bytes(), EXAMPLE.name, shelf)
    assert family.size == 16
    member = next(family.layups())[0]
    assert row_of(member, family.text(member), Asked(shelf, family.quantities)).holds
