"""Which drill an inch set has for a hole."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

import examples
from panewright.pack.bench import Bench
from panewright.pack.pages.frame import hole_size
from panewright.pack.steps.frame import assemble_frame, drill_rails
from panewright.pack.steps.tools import tools
from panewright.structure.drilling.drill import FAR_MM, TIGHT_MM, drill_mm, drill_words


@pytest.mark.parametrize(("hole_mm", "number", "inches"), [(4.9, 11, 0.1910), (4.5, 16, 0.1770)])
def test_a_number_is_taken_where_a_fraction_is_far_too_wide(hole_mm, number, inches):
    """A 3/16 in blind rivet, 4.8 mm, takes drill No. 11: charts of rivet makers (recalled)."""
    assert drill_words(hole_mm, "us").startswith(f"No. {number} (")
    assert drill_mm(hole_mm, "us") == pytest.approx(25.4 * inches)


@given(st.floats(3.3, 26.0))
def test_a_drill_is_wide_enough_and_hardly_wider(hole_mm):
    wide_mm = drill_mm(hole_mm, "us")
    assert hole_mm - TIGHT_MM - 1e-9 <= wide_mm <= hole_mm + 25.4 / 64
    words = drill_words(hole_mm, "us").split(" (")[0].split("\u2009")[0]
    if not words.startswith("No."):
        assert 25.4 * float(sum(map(Fraction, words.split()))) == pytest.approx(wide_mm)
    elif hole_mm < 5.7:
        assert wide_mm - hole_mm <= 2 * FAR_MM
    assert drill_mm(hole_mm, "metric") == hole_mm


def test_an_order_in_inches_names_one_drill_for_each_hole_everywhere():
    """Both 6 mm and 6.6 mm were told as 1/4 in: two drills were one, and a bolt M6 hardly went through."""
    made = examples.made("fence")
    bench, frame = Bench(made.design, made.quote), made.design.structural.frame
    holes = [hole for piece in frame.pieces for hole in piece.holes]
    drills = {drill_words(hole.diameter_mm, "us") for hole in holes}
    assert len({words.split(" (")[0] for words in drills}) == len({hole.diameter_mm for hole in holes})
    step, listed = drill_rails(bench).do, " ".join(tools(bench, "drill-rails"))
    for words in drills:
        assert words in step
        assert words in listed
    assert all(any(words in hole_size(bench, hole) for words in drills) for hole in holes)
    assert "1/32\u2009in (0.79\u2009mm)" in assemble_frame(bench).check
