"""What an array gives: bars by month with what each cause takes, and the hours of a day in four seasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from panewright.array.driven import Driven
from panewright.array.plan.plan import Plan
from panewright.array.year import CAUSES, Year
from panewright.drawing.chart import Chart, Mark, Series
from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.lettering import CAPITAL, text_width_mm
from panewright.drawing.ticks import tick_words, ticks
from panewright.pack.array_book.drawn.patterns import pattern
from panewright.pack.array_book.saying import GALLONS, MONTHS, kwh, say
from panewright.sky.hours import Floats
from panewright.units import figure

CAUSE_WORDS = {
    "slant": "light that comes aslant",
    "dirt": "dirt and age",
    "heat": "heat and dim light",
    "shade": "shade and snow",
    "together": "panels worked together",
    "wire": "wires and diodes",
}
_LETTER = 2.7
_WIDE, _HIGH = 168.0, 84.0  # mm of paper
_PATTERN = {"given": 0, "wire": 6, "together": 5, "shade": 3, "heat": 1, "dirt": 7, "slant": 0}
_SEASONS = (
    ("December to February", (11, 0, 1)),
    ("March to May", (2, 3, 4)),
    ("June to August", (5, 6, 7)),
    ("September to November", (8, 9, 10)),
)


@dataclass(frozen=True, slots=True)
class _Part:
    """One layer of all bars, from the foot up."""

    key: str
    words: str
    by_month: Floats
    of_year: float = 0.0  #: less what cold gives back in some months, which no bar shows


def _parts(year: Year) -> tuple[_Part, ...]:
    lost = year.lost_kwh()
    found = [_Part("given", "given where their run ends", year.month_kwh(), year.kwh)]
    for cause in reversed(CAUSES):
        months = np.maximum(0.0, lost[cause])
        found.append(_Part(cause, CAUSE_WORDS[cause], months, float(lost[cause].sum())))
    return tuple(found)


def month_bars(plan: Plan) -> Drawing:
    """Twelve bars: what is given, and over it what each cause takes, up to what the light would give."""
    parts = _parts(plan.year)
    under = tuple(kwh(float(value)) for value in parts[0].by_month)
    words = "kWh in the month; what is given stands under its name"
    return Drawing("Energy by month", tuple(_bars(parts, words, under, named=True)))


def water_bars(plan: Plan, pumped: Driven) -> Drawing:
    """Twelve bars: water of a day in each month."""
    us = plan.site.named.units == "us"
    by_month = pumped.day_m3() * (GALLONS if us else 1.0)
    under = tuple(figure(float(value)) for value in by_month)
    words = f"water of a day, {'gallons' if us else 'm³'}; it stands under the month"
    return Drawing("Water by month", tuple(_bars((_Part("given", "", by_month),), words, under)))


def _bars(parts: Sequence[_Part], words: str, under: Sequence[str], named: bool = False) -> Iterator[Item]:
    """Bars of parts over each other, a figure under each month, and the parts' names beside where wanted."""
    most = float(np.sum([part.by_month for part in parts], axis=0).max()) or 1.0
    marks = ticks(0.0, most, 6)
    left = max(text_width_mm(words, _LETTER) for words in tick_words(marks)) + 2.0
    right, foot, top = _WIDE - 48.0 * named, 9.0, _HIGH - 6.0
    per_kwh = (top - foot) / marks[-1]
    yield Text((0.0, top + 2.4), words, _LETTER, "axis")
    yield from _scale(marks, left, right, foot, per_kwh)
    pitch = (right - left) / 12
    for month in range(12):
        x, y = left + (month + 0.14) * pitch, foot
        for part in parts:
            high = float(part.by_month[month]) * per_kwh
            yield from _segment(part.key, x, y, x + 0.72 * pitch, y + high)
            y += high
        middle = x + 0.36 * pitch
        yield Text((middle, foot - 3.4), MONTHS[month], _LETTER, "axis", "centre")
        yield Text((middle, foot - 6.8), under[month], _LETTER, "axis", "centre", bold=True)
    if named:
        yield from _names(parts, right + 4.0, top)


def _scale(marks: Sequence[float], left: float, right: float, foot: float, per_kwh: float) -> Iterator[Item]:
    for mark, words in zip(marks, tick_words(tuple(marks)), strict=True):
        y = foot + mark * per_kwh
        yield Path(((left, y), (right, y)), "grid" if mark else "axis")
        yield Text((left - 1.2, y - CAPITAL / 2 * _LETTER), words, _LETTER, "axis", "right")


def _segment(key: str, left: float, low: float, right: float, high: float) -> Iterator[Item]:
    """A part of a bar: given is filled, the others have their pattern on white."""
    if high - low < 0.05:
        return
    yield box(left, low, right, high, "busbar" if key == "given" else "hole", True)
    yield from pattern(_PATTERN[key], (left, low, right, high), 1.1, "axis")
    yield box(left, low, right, high, "text")


def _names(parts: Sequence[_Part], left: float, top: float) -> Iterator[Item]:
    """The patterns by name, with the year's sum, in the order of the bars."""
    y = top - 4.0
    yield Text((left, y + 2.0), "in the year, kWh", _LETTER, "axis")
    for part in reversed(parts):
        y -= 7.6
        yield from _segment(part.key, left, y, left + 6.0, y + 4.4)
        yield Text((left + 7.4, y + 2.5), part.words, _LETTER, "axis")
        yield Text((left + 7.4, y - 0.6), kwh(part.of_year), _LETTER, "axis", bold=True)


def day_chart(plan: Plan) -> Chart:
    """Mean power at the inputs by hour of the day, in four seasons."""
    hours = plan.year.hours
    local = hours.middles + np.timedelta64(round(hours.zone_h * 3600), "s")
    clock = (local - local.astype("datetime64[D]")) / np.timedelta64(1, "h")
    at = clock.astype(int)
    watts = plan.year.input_w.sum(axis=1)
    months = hours.months
    series, marks = [], []
    for name, of in _SEASONS:
        inside = np.isin(months, of)
        mean = np.bincount(at[inside], watts[inside], 24) / np.maximum(1, np.bincount(at[inside], None, 24))
        series.append(Series(tuple(k + 0.5 for k in range(24)), tuple(mean.tolist())))
        most = int(np.argmax(mean))
        marks.append(Mark(most + 0.5, float(mean[most]), f"{name}: {say(plan, float(mean[most]), 'W')}"))
    words = "hour by the clock of the place", "mean power, W"
    return Chart("", *words, tuple(series), tuple(marks), x_to=24.0)
