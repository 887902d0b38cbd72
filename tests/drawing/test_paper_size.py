"""A figure at the scale given fits its room, and one step larger would not."""

from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, box
from panewright.drawing.paper_size import figure_area, scale_to_fit, text_area


@given(st.floats(1, 5000), st.floats(1, 5000), st.sampled_from(["A4", "Letter"]))
def test_a_drawing_fits_at_the_scale_given(width, height, paper):
    drawing, room = Drawing("d", (box(0, 0, width, height, "pane"),)), figure_area(paper)
    scale = scale_to_fit(drawing, room)
    assert scale >= 1
    assert bounds(drawing).width_mm / scale <= room.width_mm - 1.4 + 1e-6
    assert bounds(drawing).height_mm / scale <= room.height_mm - 1.4 + 1e-6
    larger = scale / 1.6
    if larger >= 1:
        assert width / larger > room.width_mm - 1.4 or height / larger > room.height_mm - 1.4


def test_a_figure_leaves_room_for_title_and_caption():
    for paper in ("A4", "Letter"):
        assert figure_area(paper).height_mm < text_area(paper).height_mm
