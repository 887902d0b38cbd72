"""A deal's papers read back: every cell is there once, at its place, on both sides."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from panewright.desk.deals import by_command, papers
from panewright.desk.deals.wish import Wish
from panewright.drawing.drawing import Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.pack.pages.pick import pick_book, seated_drawing, seated_figure
from panewright.paper.leaf import render

KIOSK = Path(__file__).parents[3] / "examples" / "kiosk.toml"


@pytest.fixture(scope="module")
def dealt(cells_file):
    return by_command.match(KIOSK, by_command.Lot(cells_file), Wish(aim="reach", rating="90 W"))


@pytest.fixture(scope="module")
def files(dealt):
    return dealt.files()


def test_the_printed_list_has_every_cell_once_at_its_place(dealt, files):
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(files["picks.pdf"])).pages]
    for number, panel in enumerate(dealt.deal.panels, 1):
        first = next(n for n, page in enumerate(pages) if f"Panel {number}, cell by cell" in page)
        rows: list[tuple[str, str]] = []
        for page in pages[first:]:
            rows += re.findall(r"^(\d+) (K\d{3}) string", page, re.MULTILINE)
            if len(rows) >= len(panel.cells):
                break
        assert rows == [(str(place), mark) for place, mark in enumerate(panel.cells, 1)]


def test_every_page_says_which_side_and_the_list_says_what_it_comes_to(dealt, files):
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(files["picks.pdf"])).pages]
    assert "Which cell goes where" in pages[0]
    assert "Proven bound" in pages[0]
    assert "sunny side down" in pages[1]
    assert "sunny side up" in pages[2]
    assert f"page 1 of {len(pages)}" in pages[0]
    strongest = papers.picks_of(dealt.deal, dealt.matched).left[0][0]
    assert strongest in pages[0]


def test_the_bench_sees_the_mirror_image_of_the_front(dealt):
    layup, panel = dealt.design.layup, dealt.deal.panels[0]
    front = _marks(seated_drawing(dealt.design, panel.cells, "front", 25.0))
    bench = _marks(seated_drawing(dealt.design, panel.cells, "behind", 25.0))
    by_number = {cell.number: cell for cell in layup.cells}
    for place, mark in enumerate(panel.cells, 1):
        x, y = by_number[place].centre
        assert front[mark][0] == pytest.approx(x)
        assert bench[mark][0] == pytest.approx(layup.pane_width_mm - x)
        assert front[mark][1] == bench[mark][1]
        assert abs(front[mark][1] - y) < 0.3 * by_number[place].shape.length_mm


def _marks(drawing):
    return {item.words: item.at for item in drawing.items if isinstance(item, Text) and item.bold}


@pytest.mark.parametrize("form", ["{}", "K{:03}", "BARN-2026-{:04}"])
def test_no_words_of_a_drawing_lie_on_others_or_are_crossed(dealt, form):
    cells = tuple(form.format(7 * k) for k in range(len(dealt.design.layup.cells)))
    for seen in ("front", "behind"):
        drawn = seated_figure(dealt.design, cells, seen)
        assert overlaps(drawn.drawing) == ()
        assert crossed(drawn.drawing) == ()


def test_workbook_and_list_say_the_same_as_the_deal(dealt, files):
    rows = list(csv.DictReader(io.StringIO(files["picks.csv"].decode())))
    told = {(int(row["panel"]), int(row["place"])): row["cell"] for row in rows}
    assert told == {
        (number, place): mark
        for number, panel in enumerate(dealt.deal.panels, 1)
        for place, mark in enumerate(panel.cells, 1)
    }
    assert len(rows) == 72
    with zipfile.ZipFile(io.BytesIO(files["picks.xlsx"])) as book:
        words = book.read("xl/sharedStrings.xml").decode()
        names = book.read("xl/workbook.xml").decode()
    assert all(f">{mark}<" in words for mark in dealt.deal.marks)
    assert [each for each in ("picks", "by cell", "panels", "left over") if f'"{each}"' not in names] == []


def test_the_rows_name_the_column_and_row_that_the_bench_sees(dealt, files):
    layup, rows = dealt.design.layup, list(csv.DictReader(io.StringIO(files["picks.csv"].decode())))
    bench = _marks(seated_drawing(dealt.design, dealt.deal.panels[0].cells, "behind", 25.0))
    mine = [row for row in rows if row["panel"] == "1"]
    columns = sorted({round(bench[row["cell"]][0]) for row in mine})
    for row in mine:
        assert columns.index(round(bench[row["cell"]][0])) + 1 == int(row["column on the bench"])
    assert len(columns) == layup.plan.columns


@pytest.fixture(scope="module")
def noted_csv(cells_file, tmp_path_factory):
    """The same lot with a grade of every cell, and remarks of some."""
    head, *rows = cells_file.read_text().splitlines()
    lines = [f"{head},Grade,Remark"]
    for row in rows:
        mark = row.partition(",")[0]
        lines.append(f"{row},{'AB'[int(mark[1:]) % 2]},{'corner chipped' if mark.endswith('7') else ''}")
    file = tmp_path_factory.mktemp("noted") / "noted.csv"
    file.write_text("\n".join(lines) + "\n")
    return file


def test_grade_and_remark_of_a_cell_stand_beside_it_in_list_and_paper(noted_csv):
    made = by_command.match(KIOSK, by_command.Lot(noted_csv), Wish(aim="watts"), panels=1)
    picks = papers.picks_of(made.deal, made.matched)
    table = next(page for page in pick_book(made.design, picks).pages if "cell by cell" in page.title).blocks[
        1
    ]
    assert table.columns[-2:] == ("Grade", "Remark")
    assert sum(table.widths) == pytest.approx(1)
    said = {row[1]: row[-2:] for row in table.rows}
    listed = render(papers.leaves(made.design, made.deal, made.matched)["picks.csv"]()).decode()
    rows = list(csv.DictReader(io.StringIO(listed)))
    assert said == {row["cell"]: (row["grade"], row["remark"]) for row in rows}
    expected = {mark: ("AB"[int(mark[1:]) % 2], "corner chipped" * mark.endswith("7")) for mark in said}
    assert said == expected
    assert len(set(said.values())) > 2


def test_a_list_without_grades_or_remarks_has_no_columns_for_them(dealt):
    book = pick_book(dealt.design, papers.picks_of(dealt.deal, dealt.matched))
    table = next(page for page in book.pages if "cell by cell" in page.title).blocks[1]
    assert table.columns[-1] == "Imp, A"


def test_a_mark_like_a_formula_stays_text(dealt):
    evil = "=HYPERLINK(1)"
    panel = replace(dealt.deal.panels[0], cells=(evil, *dealt.deal.panels[0].cells[1:]))
    picks = papers.picks_of(dealt.deal, dealt.matched)
    shown = replace(picks.panels[0], cells=panel.cells)
    told = replace(picks, panels=(shown,), figures={**picks.figures, evil: (1.0, 2.0)})
    from panewright.pack.leaf import CsvLeaf, WorkbookLeaf
    from panewright.pack.pages.pick import pick_listings

    listings = pick_listings(dealt.design, told)
    assert "'=HYPERLINK(1)" in render(CsvLeaf("x.csv", listings[0])).decode()
    with zipfile.ZipFile(io.BytesIO(render(WorkbookLeaf("x.xlsx", listings)))) as book:
        sheets = [book.read(name).decode() for name in book.namelist() if "worksheets/sheet" in name]
    assert not any("<f>" in sheet for sheet in sheets)


def test_what_all_long_marks_begin_with_is_told_once_and_left_out_of_the_drawing(dealt):
    picks = papers.picks_of(dealt.deal, dealt.matched)
    long = tuple(
        replace(each, cells=tuple(f"LOT-2026-{mark}" for mark in each.cells)) for each in picks.panels
    )
    figures = {f"LOT-2026-{mark}": both for mark, both in picks.figures.items()}
    book = pick_book(dealt.design, replace(picks, panels=long, figures=figures))
    bench = book.pages[1]
    assert "All marks begin with LOT-2026-K, which is left out here." in bench.blocks[0].words
    words = {item.words for item in bench.blocks[1].drawing.items if isinstance(item, Text)}
    assert {mark.removeprefix("K") for mark in picks.panels[0].cells} <= words
    assert book.pages[3].blocks[1].rows[0][1] == long[0].cells[0]


def test_each_cell_has_a_label(dealt, files):
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(files["labels.pdf"])).pages)
    for number, panel in enumerate(dealt.deal.panels, 1):
        for place, mark in enumerate(panel.cells, 1):
            assert re.search(rf"{mark}\s+panel {number}, place {place}\b", text), mark


def test_each_panel_is_drawn_from_both_sides(files):
    assert {name for name in files if name.endswith(".svg")} == {
        f"panel-{n}-{side}.svg" for n in (1, 2) for side in ("bench", "front")
    }
    assert b"K0" in files["panel-1-bench.svg"]
