"""Charts as lines for the command, and as pictures for a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.desk.charts.charted import OneChart, charts
from panewright.desk.charts.kept import ForCharts
from panewright.desk.orders.shown import Bar, bar
from panewright.drawing.chart import Chart, Mark, Series
from panewright.paper.screen_chart import chart_svg

_WIDE, _HIGH, _LETTER = 128.0, 78.0, 5.0


@dataclass(frozen=True, slots=True)
class ChartSeen:
    """One chart on a page."""

    name: str
    picture: str  #: svg; empty where there is none yet
    rows: tuple[tuple[str, str], ...]  #: serial and value, newest first
    good: int
    stop: tuple[str, ...]
    bars: tuple[Bar, ...]
    said: str


def lines(made: OneChart) -> Iterator[str]:
    """One chart in words."""
    name = made.watched.name
    yield f"{name[0].upper()}{name[1:]}: {len(made.values)} charted."
    if made.centre is None:
        yield f"  {made.said}"
        return
    limits = f"{made.low:.4g} to {made.high:.4g}, middle {made.centre:.4g} {made.unit}"
    yield f"  Limits by the first {made.good} that passed: {limits}."
    yield from (f"  {check}" for check in made.checks)
    yield from (f"  STOP AND LOOK. {each}" for each in made.stop)
    if not made.stop:
        yield "  As it should be."
    if made.said:
        yield f"  {made.said}"


def seen(known: ForCharts, good: int = 0) -> tuple[ChartSeen, ...]:
    """All three for a page."""
    return tuple(_seen(each) for each in charts(known, good))


def _seen(made: OneChart) -> ChartSeen:
    name = f"{made.watched.name[0].upper()}{made.watched.name[1:]}"
    rows = tuple((serial, f"{value:.4g}") for serial, value in zip(made.serials, made.values, strict=True))
    bars = tuple(bar(each, "metric") for each in made.checks)
    return ChartSeen(name, _picture(made, name), rows[::-1], made.good, made.stop, bars, made.said)


def _picture(made: OneChart, name: str) -> str:
    """Value after value between the limits; the newest is named."""
    if made.centre is None or made.low is None or made.high is None:
        return ""
    last = len(made.values)
    x = tuple(float(n) for n in range(1, last + 1))
    level = ((1.0, float(last)),) * 3
    series = (
        Series(level[0], (made.low, made.low), "low limit"),
        Series(level[1], (made.centre, made.centre), "middle"),
        Series(level[2], (made.high, made.high), "high limit"),
        Series(x, made.values, "", "measured"),
    )
    marks = (Mark(x[-1], made.values[-1], f"{made.serials[-1]}: {made.values[-1]:.4g}"),)
    chart = Chart("", "panel after panel", f"value, {made.unit}", series, marks, y_from=None)
    said = f"{name}, {last} values; the newest {made.values[-1]:.4g}"
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)
