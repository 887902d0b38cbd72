"""A chart says one thing: curves with their names on them, and the point that matters with its numbers.

Axes start where the physics starts and end at a round number. The grid is barely visible, there is no
legend, and the words never lie on each other. A chart becomes a `Drawing` in millimetres of paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from panewright.drawing.drawing import Arc, Drawing, Item, Path, Point, Text
from panewright.drawing.lettering import CAPITAL, text_width_mm
from panewright.drawing.placing import FAR, Box, Field, Place, box_of, clipped_runs
from panewright.drawing.ticks import tick_words, ticks


@dataclass(frozen=True, slots=True)
class Series:
    """One curve: thin where predicted, thick where measured; its name stands at the line."""

    x: tuple[float, ...]
    y: tuple[float, ...]
    label: str = ""
    layer: Literal["predicted", "measured"] = "predicted"

    def __post_init__(self) -> None:
        if len(self.x) != len(self.y) or len(self.x) < 2:
            raise ValueError(f"a curve needs as many x as y and two at least: {len(self.x)}, {len(self.y)}")


@dataclass(frozen=True, slots=True)
class Mark:
    """A point that matters, named with its numbers."""

    x: float
    y: float
    words: str


@dataclass(frozen=True, slots=True)
class Band:
    """The room between a low and a high curve: an uncertainty or a range that may be used."""

    x: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Chart:
    """What a chart shows. An axis end of None is taken from the data; starts are 0 unless told."""

    title: str
    x_label: str  #: quantity and unit: 'voltage, V'
    y_label: str
    series: tuple[Series, ...]
    marks: tuple[Mark, ...] = ()
    bands: tuple[Band, ...] = ()
    x_from: float | None = 0.0
    y_from: float | None = 0.0
    x_to: float | None = None
    y_to: float | None = None


@dataclass(frozen=True, slots=True)
class _Plot:
    """Where the values lie on the paper."""

    x_ticks: tuple[float, ...]
    y_ticks: tuple[float, ...]
    area: Box
    letter_mm: float

    def at(self, x: float, y: float) -> Point:
        """The place of a pair of values. [mm]"""
        left, bottom, right, top = self.area
        across = (x - self.x_ticks[0]) / (self.x_ticks[-1] - self.x_ticks[0])
        up = (y - self.y_ticks[0]) / (self.y_ticks[-1] - self.y_ticks[0])
        return left + across * (right - left), bottom + up * (top - bottom)


def plot_frame(chart: Chart, width_mm: float, height_mm: float, letter_mm: float = 3.2) -> tuple[float, ...]:
    """First and last x of the axis, then left, right, top and bottom of the plot: to read it by a finger.

    x in the chart's own unit, the others in mm of paper as `draw_chart` lays them out.
    """
    plot = _plot(chart, width_mm, height_mm, letter_mm)
    left, bottom, right, top = plot.area
    return plot.x_ticks[0], plot.x_ticks[-1], left, right, top, bottom


def draw_chart(chart: Chart, width_mm: float, height_mm: float, letter_mm: float = 3.2) -> Drawing:
    """The chart as a drawing whose lower left corner is the origin. [mm of paper]"""
    plot = _plot(chart, width_mm, height_mm, letter_mm)
    space = Field((plot.area[0] + 0.5, plot.area[1] + 0.5, width_mm, plot.area[3]))
    runs = [(series, _runs(series, plot)) for series in chart.series]
    for _, parts in runs:
        for part in parts:
            space.add_line(part)
    axes = list(_axes(chart, plot, height_mm))
    space.words += [_box_round(item) for item in axes if isinstance(item, Text)]
    items: list[Item] = [*_bands(chart, plot), *_grid(plot), *axes]
    items += [Path(tuple(part), series.layer) for series, parts in runs for part in parts]
    dots = [_dot(mark, plot) for mark in chart.marks]
    space.words += [_dot_box(dot) for dot in dots]
    for mark, dot in zip(chart.marks, dots, strict=True):
        items += [dot, *_mark_words(mark, dot, space, letter_mm)]
    for series, parts in runs:
        if series.label and parts:
            items += _line_name(series, parts, space, letter_mm)
    items += [_band_name(band, plot, space) for band in chart.bands if band.label]
    return Drawing(chart.title, tuple(items))


def _plot(chart: Chart, width: float, height: float, letter: float) -> _Plot:
    """Room for the words first, then the round numbers that fit in what is left."""
    x_low, x_high = _ends([s.x for s in chart.series] + [b.x for b in chart.bands], chart.x_from, chart.x_to)
    values = [s.y for s in chart.series] + [b.low for b in chart.bands] + [b.high for b in chart.bands]
    values += [(mark.y,) for mark in chart.marks]
    y_low, y_high = _ends(values, chart.y_from, chart.y_to)
    bottom, top = 2.9 * letter, height - (3.0 if chart.title else 1.6) * letter
    y_ticks = ticks(y_low, y_high, max(2, int((top - bottom) / (3.2 * letter))))
    left = max(text_width_mm(words, letter) for words in tick_words(y_ticks)) + 0.6 * letter
    x_ticks = ticks(x_low, x_high, max(2, int((width - left) / (5.0 * letter))))
    right = width - text_width_mm(tick_words(x_ticks)[-1], letter) / 2
    if right - left < 4 * letter or top - bottom < 4 * letter:
        raise ValueError(f"a chart of {width} x {height} mm has no room for letters of {letter} mm")
    return _Plot(x_ticks, y_ticks, (left, bottom, right, top), letter)


def _ends(values: Sequence[Sequence[float]], start: float | None, end: float | None) -> tuple[float, float]:
    flat = [value for row in values for value in row]
    if not flat or not all(map(math.isfinite, flat)):
        raise ValueError("a chart needs at least one curve, of finite numbers")
    low = min(flat) if start is None else start
    high = max(flat) if end is None else end
    return low, high if high > low else low + 1.0


def _runs(series: Series, plot: _Plot) -> list[list[Point]]:
    points = [plot.at(x, y) for x, y in zip(series.x, series.y, strict=True)]
    return clipped_runs(points, plot.area)


def _grid(plot: _Plot) -> Iterator[Path]:
    left, bottom, right, top = plot.area
    for x in plot.x_ticks[1:]:
        at = plot.at(x, plot.y_ticks[0])[0]
        yield Path(((at, bottom), (at, top)), "grid")
    for y in plot.y_ticks[1:]:
        at = plot.at(plot.x_ticks[0], y)[1]
        yield Path(((left, at), (right, at)), "grid")


def _axes(chart: Chart, plot: _Plot, height: float) -> Iterator[Item]:
    """Two lines, their numbers, and what they measure; no axis is read sideways."""
    left, bottom, right, top = plot.area
    letter = plot.letter_mm
    yield Path(((left, top), (left, bottom), (right, bottom)), "axis")
    for x, words in zip(plot.x_ticks, tick_words(plot.x_ticks), strict=True):
        at = plot.at(x, plot.y_ticks[0])[0]
        yield Text((at, bottom - 1.15 * letter), words, letter, "axis", "centre")
    for y, words in zip(plot.y_ticks, tick_words(plot.y_ticks), strict=True):
        at = plot.at(plot.x_ticks[0], y)[1]
        yield Text((left - 0.4 * letter, at - CAPITAL / 2 * letter), words, letter, "axis", "right")
    yield Text((right, 0.25 * letter), chart.x_label, letter, "axis", "right")
    yield Text((0.0, top + 0.6 * letter), chart.y_label, letter, "axis", "left")
    if chart.title:
        yield Text((0.0, height - 0.85 * letter), chart.title, letter * 1.15, "text", "left", bold=True)


def _bands(chart: Chart, plot: _Plot) -> Iterator[Path]:
    low, high = plot.y_ticks[0], plot.y_ticks[-1]
    start, end = plot.x_ticks[0], plot.x_ticks[-1]
    for band in chart.bands:
        there = list(zip(band.x, band.low, strict=True))
        back = list(zip(band.x, band.high, strict=True))[::-1]
        points = (plot.at(min(max(x, start), end), min(max(y, low), high)) for x, y in there + back)
        yield Path(tuple(points), "band", closed=True, filled=True)


def _dot(mark: Mark, plot: _Plot) -> Arc:
    return Arc(plot.at(mark.x, mark.y), 0.28 * plot.letter_mm, "mark", filled=True)


def _dot_box(dot: Arc) -> Box:
    (x, y), r = dot.centre, dot.radius_mm
    return x - r, y - r, x + r, y + r


_BESIDE = 8.0  # dislike up to which words stand beside their point and need no line


def _mark_words(mark: Mark, dot: Arc, space: Field, letter: float) -> list[Item]:
    """The words near the point, and a thin line to it where they had to stand further off."""
    width = text_width_mm(mark.words, letter, bold=True)

    def tie(place: Place) -> tuple[Point, Point] | None:
        return (
            None
            if place.dislike < _BESIDE
            else (dot.centre, _foot(place.at[0], place.at[1], dot.centre, letter))
        )

    place = space.best(_round_a_point(dot.centre, letter), width, letter, tie)
    words = Text(place.at, mark.words, letter, "mark", place.align, bold=True)
    line = tie(place)
    return [Path(line, "mark"), words] if line else [words]


def _foot(x: float, y: float, to: Point, letter: float) -> Point:
    """Where a line to words ends: under them, or over them where it comes from above."""
    return x, y + (-0.3 if y > to[1] else CAPITAL + 0.3) * letter


def _round_a_point(centre: Point, letter: float) -> Iterator[Place]:
    x, y = centre
    for rings, far in enumerate((0.7, 1.6, 3.0, 4.5, 6.0)):
        d, dislike = far * letter, rings * 8.0
        yield Place((x + 0.7 * d, y + 0.7 * d), "left", dislike)
        yield Place((x - 0.7 * d, y - 0.7 * d - CAPITAL * letter), "right", dislike + 1)
        yield Place((x - 0.7 * d, y + 0.7 * d), "right", dislike + 2)
        yield Place((x + 0.7 * d, y - 0.7 * d - CAPITAL * letter), "left", dislike + 3)
        yield Place((x, y + d), "centre", dislike + 4)
        yield Place((x, y - d - CAPITAL * letter), "centre", dislike + 5)


def _box_round(text: Text) -> Box:
    width = text_width_mm(text.words, text.height_mm, text.bold)
    return box_of(Place(text.at, text.align), width, text.height_mm)


def _line_name(series: Series, parts: list[list[Point]], space: Field, letter: float) -> list[Item]:
    """The curve's name, as near to the curve as the other words let it; from afar with a line to it."""
    bold = series.layer == "measured"
    width = text_width_mm(series.label, letter, bold)
    points = [point for part in parts for point in part]

    def tie(place: Place) -> tuple[Point, Point] | None:
        if place.dislike < FAR:
            return None
        middle = place.at[0] + width / 2
        nearest = min(points, key=lambda point: math.dist(point, (middle, place.at[1])))
        return nearest, _foot(middle, place.at[1], nearest, letter)

    place = space.best(_along_a_line(points, letter), width, letter, tie)
    name = Text(place.at, series.label, letter, series.layer, place.align, bold=bold)
    line = tie(place)
    return [Path(line, "mark"), name] if line else [name]


def _along_a_line(points: list[Point], letter: float) -> Iterator[Place]:
    for order, share in enumerate((0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.9, 0.05, 0.97)):
        x, y = points[round(share * (len(points) - 1))]
        for ring, far in enumerate((0.45, 0.9, 1.6)):
            d, dislike = far * letter, 2.0 * order + 6.0 * ring
            yield Place((x, y + d), "centre", dislike)
            yield Place((x, y - d - CAPITAL * letter), "centre", dislike + 1)
            yield Place((x + d, y - CAPITAL / 2 * letter), "left", dislike + 1.5)
            yield Place((x - d, y - CAPITAL / 2 * letter), "right", dislike + 1.7)


def _band_name(band: Band, plot: _Plot, space: Field) -> Text:
    """The band's name along its upper edge, or its lower one where there is no room above."""
    letter = plot.letter_mm
    edges = [[plot.at(x, y) for x, y in zip(band.x, ys, strict=True)] for ys in (band.high, band.low)]
    places = [place for edge in edges for place in _along_a_line(edge, letter)]
    best = space.best(places, text_width_mm(band.label, letter), letter)
    return Text(best.at, band.label, letter, "band", best.align)
