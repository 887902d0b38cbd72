"""Round scales that fit the page."""

from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Text, box
from panewright.drawing.paper_size import Size
from panewright.pack.figures.scale import LETTERS_MM, SCALES, figure, fitting


@given(st.floats(1, 4000), st.floats(1, 4000))
def test_a_drawing_fits_its_room_and_would_not_at_the_next_larger_scale(width, height):
    scale = fitting(width, height, Size(160.0, 200.0))
    assert width / scale <= 160.0 + 1e-6
    assert height / scale <= 200.0 + 1e-6
    smaller = [other for other in SCALES if other < scale]
    if smaller:
        assert width / smaller[-1] > 160.0 or height / smaller[-1] > 200.0


def test_words_are_alike_on_paper_at_any_scale():
    def make(size):
        def draw(text):
            return Drawing("", (box(0, 0, size, size, "pane"), Text((0, -2 * text), "words", text)))

        return figure(draw, Size(160.0, 120.0))

    heights = {round(made.drawing.items[1].height_mm / made.scale, 6) for made in (make(100.0), make(3000.0))}
    assert len(heights) == 1
    made = make(777.0)
    assert bounds(made.drawing).height_mm / made.scale <= 120.0


@given(st.floats(20, 3000), st.floats(20, 3000), st.text("weird", min_size=1, max_size=25), st.floats(0.5, 6))
def test_no_smaller_scale_would_do_with_words_so_high(wide, high, words, lines):
    room = Size(90.0, 70.0)

    def draw(text):
        beside = Text((wide + text, high / 2), words, text)
        return Drawing("", (box(0, 0, wide, high, "pane"), beside, Text((0, -lines * text), words, text)))

    made = figure(draw, room)
    letter = made.drawing.items[1].height_mm / made.scale
    smaller = [(letter, scale) for scale in SCALES if scale < made.scale]
    larger = [(other, scale) for other in LETTERS_MM if other > letter + 1e-6 for scale in SCALES]
    for height, scale in smaller + larger:
        around = bounds(draw(height * scale))
        assert (
            around.width_mm / scale > room.width_mm - 1.5 or around.height_mm / scale > room.height_mm - 1.5
        )
