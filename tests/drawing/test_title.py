"""The title block: everything said, nothing on anything else, whatever a person called the order."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds, item_bounds
from panewright.drawing.drawing import Drawing, Text, box
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.title import Title, title_block, with_title

TITLE = Title(
    "Pane",
    "NF-5 North fence",
    "abcd1234",
    "4 mm low-iron",
    "1 : 20",
    "millimetres",
    "",
    "± 2 mm",
    "NOT PROVEN",
)
WORDS = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF), max_size=120)


def words_of(items):
    return " ".join(item.words for item in items if isinstance(item, Text))


def test_every_place_is_told():
    said = words_of(title_block(TITLE, (0.0, 0.0), 170.0, 2.1))
    for words in (TITLE.name, TITLE.order, TITLE.revision, TITLE.material, TITLE.scale, TITLE.units):
        assert words in said
    assert TITLE.tolerance in said
    assert "NOT PROVEN" in said
    assert "as each view says" in said


@given(WORDS, WORDS, WORDS, st.sampled_from([120.0, 170.0, 900.0]))
@settings(max_examples=60, deadline=None)
def test_nothing_lies_on_anything_and_nothing_leaves_the_block(name, order, tolerance, wide):
    title = Title(name, order, "abcd1234", name, "1 : 2", "inches (mm)", "from behind", tolerance)
    drawing = Drawing("t", title_block(title, (0.0, 0.0), wide, wide / 80))
    assert overlaps(drawing) == ()
    assert crossed(drawing) == ()
    for item in drawing.items:
        around = item_bounds(item)
        assert around.left >= -1e-6
        assert around.right <= wide + 1e-6


@pytest.mark.parametrize("size", [(40.0, 20.0), (1700.0, 1000.0)])
def test_a_drawing_keeps_its_place_above_its_block(size):
    plain = Drawing("d", (box(0, 0, *size, "pane"),))
    titled = with_title(plain, TITLE)
    assert titled.items[: len(plain.items)] == plain.items
    block = bounds(Drawing("b", titled.items[len(plain.items) :]))
    assert block.top < bounds(plain).bottom
    assert block.left == pytest.approx(0.0)
