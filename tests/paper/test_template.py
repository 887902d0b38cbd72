"""Full-size sheets are read back: every corner, cross and check bar within 0.01 mm."""

import io

import pdfplumber
import pytest

from panewright.drawing.bounds import Bounds
from panewright.drawing.drawing import Drawing, Path, box
from panewright.drawing.paper_size import tile_area
from panewright.paper.pdf import template_pdf
from panewright.paper.svg import frame
from panewright.paper.template import BORDER_MM, template_data
from panewright.paper.tile import MARGIN_MM, OVERLAP_MM, tiling

MM = 72 / 25.4


@pytest.fixture(scope="module")
def pages():
    def opened(drawing, paper):
        pdf = pdfplumber.open(io.BytesIO(template_pdf(drawing, order="0042", revision="abc", paper=paper)))
        return pdf.pages

    return opened


def points_on(page):
    """Corners of all lines, curves and boxes on a page, from its upper left. [mm]"""
    found = []
    for thing in page.lines + page.curves + page.rects:
        if thing.get("pts"):
            found += [(x / MM, y / MM) for x, y in thing["pts"]]
    return found


def near(point, points, tolerance=0.01):
    return any(abs(point[0] - x) < tolerance and abs(point[1] - y) < tolerance for x, y in points)


def cell_corners(drawing):
    return [
        p for item in drawing.items if isinstance(item, Path) and item.layer == "cell" for p in item.points
    ]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_cell_corner_is_true_on_the_sheet_and_on_every_tile_that_shows_it(lopsided, pages, paper):
    sheet, *tiles = pages(lopsided, paper)
    seen = frame(lopsided)
    width = sheet.width / MM
    on_sheet = points_on(sheet)
    for x, y in cell_corners(lopsided):
        assert near(((width - seen.width_mm) / 2 + x - seen.left, BORDER_MM + seen.top - y), on_sheet)
    shown = 0
    plan = tiling(seen, paper)
    assert len(tiles) == len(plan.tiles)
    for tile, page in zip(plan.tiles, tiles, strict=True):
        there, window = points_on(page), tile.window
        for x, y in cell_corners(lopsided):
            if window.left < x < window.right and window.bottom < y < window.top:
                shown += 1
                assert near((MARGIN_MM + x - window.left, MARGIN_MM + window.top - y), there)
    assert shown >= len(cell_corners(lopsided))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_page_carries_a_bar_of_100_mm_and_one_of_4_inches(lopsided, pages, paper):
    for page in pages(lopsided, paper):
        lengths = [line["width"] / MM for line in page.lines]
        assert any(abs(length - 100.0) < 0.01 for length in lengths)
        assert any(abs(length - 101.6) < 0.01 for length in lengths)


def test_crosses_stand_at_the_same_place_of_the_drawing_on_all_tiles_that_show_them(lopsided):
    data = template_data(lopsided)
    plan = tiling(frame(lopsided), "A4")
    assert plan.columns == 5
    assert plan.rows == 4
    for one, other in zip(plan.tiles, plan.tiles[1:], strict=False):
        if one.row == other.row:
            assert one.window.right - other.window.left == pytest.approx(OVERLAP_MM)
    joint = (plan.lines_x[0], plan.lines_y[0])
    sharing = [t for t in plan.tiles if _inside(joint, t.window)]
    assert len(sharing) == 4
    cross = f"M{joint[0] - 4:.4f}".rstrip("0").rstrip(".")
    assert sum(cross in tile["svg"] for tile in data["tiles"]) >= 4


def _inside(point, window):
    return window.left <= point[0] <= window.right and window.bottom <= point[1] <= window.top


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("size", [(50, 50), (190, 254), (192.001, 255), (1000, 1700), (2400, 1200)])
def test_tiles_together_show_everything(paper, size):
    seen = Bounds(-3, 7, -3 + size[0], 7 + size[1])
    plan = tiling(seen, paper)
    assert min(t.window.left for t in plan.tiles) <= seen.left + 1e-9
    assert max(t.window.right for t in plan.tiles) >= seen.right - 1e-9
    assert min(t.window.bottom for t in plan.tiles) <= seen.bottom + 1e-9
    assert max(t.window.top for t in plan.tiles) >= seen.top - 1e-9
    tile = tile_area(paper)
    spare = plan.columns * (tile.width_mm - OVERLAP_MM) + OVERLAP_MM - seen.width_mm
    assert spare < tile.width_mm - OVERLAP_MM + 1e-6 or plan.columns == 1


def test_every_tile_says_row_column_order_revision_and_side(lopsided, pages):
    sheet, *tiles = pages(lopsided, "A4")
    plan = tiling(frame(lopsided), "A4")
    for tile, page in zip(plan.tiles, tiles, strict=True):
        words = page.extract_text().replace("\u00a0", " ")
        assert f"row {tile.row + 1}, column {tile.column + 1}" in words
        assert "0042" in words
        assert "revision abc" in words
        assert "seen from the bench, sunny side down" in words
    assert "seen from the bench, sunny side down" in sheet.extract_text()


def test_a_stamp_stands_on_sheet_and_tiles(lopsided):
    with pdfplumber.open(io.BytesIO(template_pdf(lopsided, stamp="NOT PROVEN"))) as pdf:
        assert all("NOT PROVEN" in page.extract_text() for page in pdf.pages)


def test_the_same_drawing_gives_the_same_bytes(lopsided, make_lopsided):
    assert template_pdf(lopsided) == template_pdf(make_lopsided())


def test_a_drawing_longer_than_any_page_comes_as_tiles_alone():
    row = Drawing("row", (box(0, 0, 6000, 100, "pane"),))
    data = template_data(row)
    assert data["sheet"] is None
    with pdfplumber.open(io.BytesIO(template_pdf(row))) as pdf:
        assert len(pdf.pages) == len(data["tiles"]) > 30


def test_a_small_drawing_has_one_tile_and_no_lines_to_cut():
    drawing = Drawing("clip", (box(0, 0, 40, 20, "bracket"),))
    data = template_data(drawing)
    assert (data["rows"], data["columns"]) == (1, 1)
    assert 'class="cut"' not in data["tiles"][0]["svg"]
