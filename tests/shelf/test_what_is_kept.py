"""The packaged shelf serves both rule books in both measures, and its parts fit what is drilled."""

import pytest

from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.metals.metal import bending_limit_mpa as metal_limit_mpa
from panewright.shelf.load import load_shelf
from panewright.structure.bead.bead import THINNEST_BLOCK_MM
from panewright.structure.drilling.fixing import FIXINGS, rows_that_fit
from panewright.structure.mounting.choice import shelf_brackets
from panewright.structure.rails.rails import BRACKET_MM

SHELF = load_shelf()


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize("measure", ["metric", "us"])
def test_each_rule_book_has_angles_and_tempered_sheets_in_each_measure(family, measure):
    angles = [row.part for row in SHELF.rails if row.measure == measure and row.part.profile == "angle"]
    listed = [rail for rail in angles if bending_limit_mpa(rail.alloy, family, rail.wall_mm) is not None]
    assert len(listed) >= 2
    sheets = [row.part for row in SHELF.sheets if row.measure == measure]
    assert sum(sheet.treatment == "tempered" for sheet in sheets) >= 3


def test_mono_cells_say_where_their_breakdown_comes_from():
    cells = {row.name: row for row in SHELF.cells}
    for name in ("156 mm mono", "156.75 mm PERC", "125 mm mono"):
        assert cells[name].part.breakdown_v == -18.0
        assert "Bishop" in cells[name].source


@pytest.mark.parametrize("fixing", FIXINGS, ids=lambda fixing: fixing.purpose)
def test_the_shelf_has_a_part_for_each_hole(fixing):
    assert {row.part.fit_mm for row in rows_that_fit(SHELF, fixing.use, gap_mm=6.0)} == {fixing.hole_mm}


def test_brackets_of_the_shelf_are_as_long_as_the_rules_take_them_and_tell_their_thickness():
    brackets = [row.part for row in SHELF.sundries if row.part.use == "bracket"]
    assert {part.fit_mm for part in brackets} == {BRACKET_MM}
    assert [part.wall_mm for part in brackets] == sorted({part.wall_mm for part in brackets})
    assert len(shelf_brackets(SHELF)) == len(brackets)


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_each_rule_book_has_screws_and_posts(family):
    assert sum(row.part.made_for(family) for row in SHELF.wood_screws) >= 5
    posts = [row.part for row in SHELF.posts if row.part.metal]
    listed = [post for post in posts if metal_limit_mpa(post.metal, family, post.wall_mm) is not None]
    assert len(listed) >= 4


@pytest.mark.parametrize("measure", ["metric", "us"])
def test_each_measure_has_blocks(measure):
    assert sum(row.measure == measure for row in SHELF.blocks) >= 2


def test_the_thinnest_block_of_the_shelf_is_the_thinnest_of_the_rules():
    assert min(row.part.fit_mm for row in SHELF.sundries if row.part.use == "block") == THINNEST_BLOCK_MM
