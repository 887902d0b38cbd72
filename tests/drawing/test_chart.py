"""A chart's words never lie on each other, its lines stay in the field, its axes are round."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds
from panewright.drawing.chart import Band, Chart, Mark, Series, draw_chart
from panewright.drawing.drawing import Arc, Path, Text
from panewright.drawing.overlap import overlaps
from panewright.drawing.ticks import nice_step, tick_words, ticks


def curve(isc, voc):
    xs = [voc * n / 100 for n in range(-10, 105)]
    return tuple(xs), tuple(isc * (1 - 1e-8 * (math.exp(x / voc * math.log(1e8)) - 1)) for x in xs)


def panel_chart(currents, voltages, marks=()):
    series = []
    for number, (isc, voc) in enumerate(zip(currents, voltages, strict=True)):
        layer = "measured" if number % 2 else "predicted"
        series.append(Series(*curve(isc, voc), f"condition {number}, {voc:.0f} V", layer))
    return Chart("Curve", "voltage, V", "current, A", tuple(series), marks, y_to=max(currents) * 1.05)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.floats(1, 12), st.floats(5, 60)), min_size=1, max_size=4), st.floats(0.3, 0.9))
def test_no_words_lie_on_other_words(pairs, share):
    currents, voltages = zip(*pairs, strict=True)
    marks = tuple(Mark(share * v, share * i, f"{i:.2f} A at {v:.1f} V") for i, v in pairs[:2])
    assert overlaps(draw_chart(panel_chart(currents, voltages, marks), 150, 90)) == ()


def test_a_chart_fills_its_room_and_no_more():
    seen = bounds(draw_chart(panel_chart((9.8, 2.0), (22, 21)), 150, 90))
    assert seen.left >= -0.01
    assert seen.bottom >= -0.01
    assert seen.right <= 150.01
    assert seen.top <= 90.01


def test_lines_are_cut_where_the_physics_starts():
    drawing = draw_chart(panel_chart((9.8,), (22.0,)), 150, 90)
    axis = next(item for item in drawing.items if isinstance(item, Path) and item.layer == "axis")
    (left, top), (_, bottom), (right, _) = axis.points
    for item in drawing.items:
        if isinstance(item, Path) and item.layer == "predicted":
            for x, y in item.points:
                assert left - 1e-6 <= x <= right + 1e-6
                assert bottom - 1e-6 <= y <= top + 1e-6


def test_a_mark_stands_at_its_values():
    chart = Chart("c", "x", "y", (Series((0, 10), (0, 10)),), (Mark(5, 5, "half way"),))
    drawing = draw_chart(chart, 100, 80)
    axis = next(item for item in drawing.items if isinstance(item, Path) and item.layer == "axis")
    (left, top), (_, bottom), (right, _) = axis.points
    dot = next(item for item in drawing.items if isinstance(item, Arc))
    assert dot.centre == pytest.approx(((left + right) / 2, (top + bottom) / 2))


def test_every_name_is_there_and_measured_names_are_bold():
    drawing = draw_chart(panel_chart((9.8, 8.0), (22, 20)), 150, 90)
    names = {item.words: item.bold for item in drawing.items if isinstance(item, Text)}
    assert names["condition 0, 22 V"] is False
    assert names["condition 1, 20 V"] is True


def test_a_band_is_a_closed_filled_outline_with_its_name():
    xs = (0.0, 5.0, 10.0)
    band = Band(xs, (1, 2, 3), (2, 3, 4), "spread")
    drawing = draw_chart(Chart("c", "x", "y", (), (), (band,)), 100, 80)
    outline = next(item for item in drawing.items if isinstance(item, Path) and item.layer == "band")
    assert outline.closed
    assert outline.filled
    assert len(outline.points) == 6


@pytest.mark.parametrize("values", [(), ((0.0, math.nan),), ((math.inf, 1.0),)])
def test_a_chart_of_nothing_is_refused(values):
    series = tuple(Series((0.0, 1.0), ys) for ys in values)
    with pytest.raises(ValueError, match="finite"):
        draw_chart(Chart("c", "x", "y", series), 100, 80)


def test_a_chart_too_small_for_its_letters_is_refused():
    with pytest.raises(ValueError, match="no room"):
        draw_chart(panel_chart((9.8,), (22.0,)), 15, 10)


def test_a_curve_with_unequal_rows_is_refused():
    with pytest.raises(ValueError, match="as many"):
        Series((0, 1, 2), (0, 1))


@given(st.floats(1e-6, 1e9), st.integers(1, 12))
def test_a_step_is_one_two_or_five_and_cuts_into_no_more_than_asked(span, at_most):
    step = nice_step(span, at_most)
    leading = float(f"{step:e}".split("e")[0])
    assert leading in (1.0, 2.0, 5.0)
    assert step * at_most >= span * (1 - 1e-9)
    assert step < 3 * span / at_most * (1 + 1e-9)


@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e5))
def test_ticks_reach_from_the_start_to_past_the_end(start, span):
    values = ticks(start, start + span)
    step = nice_step(span, 6)
    assert values[0] <= start + 1e-6 * step
    assert values[-1] >= start + span - 1e-6 * step
    assert all(b - a == pytest.approx(step) for a, b in pairwise(values))


def test_tick_words_carry_no_more_decimals_than_the_step():
    assert tick_words((0.0, 0.2, 0.4)) == ("0", "0.2", "0.4")
    assert tick_words((0.0, 0.05)) == ("0", "0.05")
    assert tick_words((0.0, 50.0)) == ("0", "50")
