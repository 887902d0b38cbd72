"""Strips with clipped corners: the page says why they face as they do, where a maker would see it."""

import pytest

import examples
from panewright.cell.shape import outline
from panewright.layup.place import corners_meet_inside
from panewright.pack.bench import Bench
from panewright.pack.pages.layup import faces_words, layup_pages


def clipped_at_top(cell):
    """Whether the upper edge of the silicon is shorter than the lower one, by its outline alone."""
    points = outline(cell.shape)
    high, low = max(y for _, y in points), min(y for _, y in points)

    def edge(level):
        xs = [x for x, y in points if abs(y - level) < 0.01]
        return max(xs) - min(xs)

    return edge(high) < edge(low) - 1.0


def test_halves_face_inward_where_the_column_runs_back_and_the_page_says_so():
    made = examples.made("henhouse")
    layup = made.design.layup
    up = {cell.row: cell for cell in layup.cells if cell.column == 0}
    back = {cell.row: cell for cell in layup.cells if cell.column == 1}
    assert not clipped_at_top(up[0])
    assert clipped_at_top(up[1])
    assert clipped_at_top(back[0])  # its corners face the next cell of its wafer, above it
    assert not clipped_at_top(back[1])
    assert corners_meet_inside(layup)
    (front,) = [
        page for page in layup_pages(Bench(made.design, made.quote)) if page.title == "Lay-up from the front"
    ]
    assert "the clipped corners face inward" in front.blocks[0].words
    assert "no volt and no ampere" in front.blocks[0].words


@pytest.mark.parametrize("name", ["kiosk", "frost-sensor"])
def test_whole_cells_and_square_strips_need_no_word(name):
    assert faces_words(examples.made(name).design.layup) == ""
