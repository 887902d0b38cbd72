"""The packaged shelf, a shop's own shelf, and shelves with mistakes."""

import shutil
import tomllib
from decimal import Decimal
from importlib import resources
from pathlib import Path
from time import process_time

import pytest

from panewright.cell.nameplate import impossible
from panewright.cell.shape import area_mm2
from panewright.errors import ShelfError
from panewright.shelf.load import _load, load_shelf
from panewright.shelf.parts import GROUPS
from panewright.shelf.shelf import Shelf

SHELF = load_shelf()
ROWS = [(group, row) for group in GROUPS for row in getattr(SHELF, group)]
RAILS = """
[[rails]]
name = "angle 20 x 20 x 2 mm"
profile = "angle"
seat = "20 mm"
upright = "20 mm"
wall = "2 mm"
alloy = "6063-T6"
bar = "2 m"
price = "4.10"
sold_by = "bar"
source = "the shop's own bill"
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A folder with a copy of every packaged table."""
    with resources.as_file(resources.files("panewright.shelf") / "tables") as tables:
        return Path(shutil.copytree(tables, tmp_path / "shelf"))


def problems_in(folder: Path) -> list[str]:
    with pytest.raises(ShelfError) as told:
        load_shelf(folder)
    assert all(problem.reason and problem.cure and problem.file for problem in told.value.problems)
    return [str(problem) for problem in told.value.problems]


def test_the_packaged_shelf_holds_every_group():
    assert isinstance(SHELF, Shelf)
    assert all(getattr(SHELF, group) for group in GROUPS)
    assert SHELF.currency == "EUR"


@pytest.mark.parametrize(("group", "row"), ROWS, ids=[f"{group}: {row.name}" for group, row in ROWS])
def test_every_row_has_a_price_and_says_that_it_is_invented(group, row):
    assert row.price > 0
    assert "Invented price" in row.source
    assert len(row.source) > 30
    assert row.part.name == row.name
    assert group in GROUPS


def test_every_kind_of_sundry_that_a_panel_needs_can_be_had():
    uses = {row.part.use for row in SHELF.sundries}
    assert uses >= {"box", "lead", "corner", "screw", "bracket", "bolt"}
    assert uses >= {"label", "flux", "solder", "earth", "tape", "drain", "block"}
    assert not uses & {"encapsulant", "back sheet", "film"}  # they have tables of their own


@pytest.mark.parametrize("row", SHELF.cells, ids=lambda row: row.name)
def test_every_cell_on_the_shelf_is_possible(row):
    assert impossible(row.part.nameplate, area_mm2(row.part.shape)) == ()
    assert row.part.breakdown_v < 0


def test_sheets_and_rails_can_be_had_by_the_millimetre_and_by_the_inch():
    for rows in (SHELF.sheets, SHELF.rails):
        assert {row.measure for row in rows} == {"metric", "us"}
        inches = SHELF.in_measure(rows, "us")
        assert SHELF.in_measure(rows, "metric") == tuple(row for row in rows if row not in inches)


def test_stock_glass_is_listed_long_side_first():
    assert all(long_mm >= short_mm > 0 for long_mm, short_mm in SHELF.stock_glass_mm)


def test_plastics_move_seven_to_eight_times_as_much_as_glass():
    expansion = {row.part.material: row.part.expansion_per_k for row in SHELF.sheets}
    assert 7 <= expansion["acrylic"] / expansion["glass"] <= 8.5
    assert 7 <= expansion["polycarbonate"] / expansion["glass"] <= 8.5


def test_a_folder_with_the_packaged_tables_is_the_packaged_shelf(own):
    assert load_shelf(own) == SHELF


def test_an_own_table_takes_the_place_of_the_packaged_one(tmp_path):
    (tmp_path / "rails.toml").write_text(RAILS)
    shelf = load_shelf(tmp_path)
    assert [(row.name, row.price) for row in shelf.rails] == [("angle 20 x 20 x 2 mm", Decimal("4.10"))]
    assert shelf.cells == SHELF.cells


def test_all_mistakes_of_all_tables_are_told_at_once(own):
    text = RAILS.replace('"2 mm"', '"2"').replace("4.10", "cheap").replace("angle 20", "angle 21")
    (own / "rails.toml").write_text(RAILS + text)
    (own / "shop.toml").write_text('currency = "euro"\nstock_glass = [["1 m"], ["1 m", "2 furlongs"]]\n')
    told = problems_in(own)
    assert len(told) == 5
    for words in ("rails[2].wall", "rails[2].price", "currency", "stock_glass[1]", "stock_glass[2]"):
        assert sum(words in problem for problem in told) == 1


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("rails = 3", "something else"),
        ("[[rails]]\nname = 'a'", "profile is missing"),
        ("rails = [1]", "A row is a table"),
        ("[[rails]", "cannot be read"),
        (RAILS + RAILS, "stands twice"),
        (RAILS.replace('wall = "2 mm"', 'wall = "11 mm"'), "half its narrowest side"),
        (RAILS.replace("seat", "seet"), "Is seat meant?"),
        (RAILS.replace('"bar"', '"dozen"'), "none of the choices"),
        (RAILS + "[[angles]]\nname = 'a'", "something else"),
        ("a = " + "[" * 5000, "cannot be read"),
    ],
)
def test_a_mistake_in_a_table_is_told(tmp_path, text, words):
    (tmp_path / "rails.toml").write_text(text)
    assert any(words in problem for problem in problems_in(tmp_path))


def test_letters_that_do_not_print_are_told_with_file_row_letter_and_cure(tmp_path):
    named = RAILS.replace("angle 20 x 20 x 2 mm", "\u89d2\u92fc 20 x 20 x 2 mm")
    (tmp_path / "rails.toml").write_text(named)
    with pytest.raises(ShelfError) as told:
        load_shelf(tmp_path)
    (problem,) = told.value.problems
    assert problem.file == str(tmp_path / "rails.toml")
    assert problem.key == "rails[1].name"
    assert problem.value == "\u89d2\u92fc 20 x 20 x 2 mm"
    assert "U+89D2 U+92FC" in problem.reason
    assert problem.cure == "Write name in Latin, Greek or Cyrillic letters."


@pytest.mark.parametrize(
    "name", ["Winkel 20 × 20 × 2 mm", "Γωνία 20", "Уголок 20", "kątownik 20", "hliník ⌀ 20"]
)
def test_names_in_letters_that_print_are_taken_and_no_others(tmp_path, name):
    (tmp_path / "rails.toml").write_text(RAILS.replace("angle 20 x 20 x 2 mm", name))
    if "\u2300" in name:  # a diameter sign, which the face lacks
        assert "U+2300" in problems_in(tmp_path)[0]
    else:
        assert load_shelf(tmp_path).rails[0].name == name


def test_a_table_that_is_not_text_is_told(tmp_path):
    (tmp_path / "rails.toml").write_bytes(b"\xff\xfe\0\0")
    assert "cannot be read" in problems_in(tmp_path)[0]
    assert "codec" not in problems_in(tmp_path)[0]


def test_a_wrong_amount_is_told_by_what_was_written_not_by_the_rows_name(own):
    path = own / "cells.toml"
    path.write_text(path.read_text("utf-8").replace('pack = "10"', 'pack = "0"', 1), "utf-8")
    assert "cells[1].pack = 0: 0 is no amount above zero." in problems_in(own)[0]


def test_a_table_with_a_name_of_no_group_is_told(tmp_path):
    (tmp_path / "screws.toml").write_text("")
    assert "no table of a shelf" in problems_in(tmp_path)[0]


def test_a_folder_that_is_not_there_is_told(tmp_path):
    assert "no such folder" in problems_in(tmp_path / "nowhere")[0]


def quickest(act) -> float:
    """Processor time of the quickest of five runs. [s]"""
    times = []
    for _ in range(5):
        start = process_time()
        act()
        times.append(process_time() - start)
    return min(times)


def test_the_shelf_is_read_in_a_few_times_what_its_toml_alone_needs():
    tables = resources.files("panewright.shelf") / "tables"
    texts = [(tables / f"{name}.toml").read_text("utf-8") for name in ("shop", *GROUPS)]
    bare = quickest(lambda: [tomllib.loads(text) for text in texts])
    assert quickest(lambda: _load(None, [])) < 8 * bare
