"""A weighed lot as a page shows it: figures, the spread drawn with its table, suspects with their rows."""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.desk.lots.settled import Settled, applied
from panewright.desk.lots.stood import SHARE_WORDS, Spread, Stood, stand
from panewright.drawing.chart import Chart, Mark, Series
from panewright.intake.cells import FIGURES, CellRows
from panewright.units.showing import figure, show

MOST_SUSPECTS = 60  #: shown at once; those that follow are told by their number
_BARS = 40
_WIDE, _HIGH, _LETTER = 128.0, 78.0, 5.0
_UNITS = {"a": "A", "v": "V", "w": "W", "ohm": "ohm", "m2": "W/m²", "c": "°C"}


@dataclass(frozen=True, slots=True)
class Asked:
    """A figure of a row, to be written right."""

    name: str
    said: str
    unit: str
    value: str


@dataclass(frozen=True, slots=True)
class SeenRow:
    """A row of a suspect cell, as it counts now."""

    row: int
    figures: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class SeenSuspect:
    """Everything that is suspected of one cell."""

    mark: str
    reasons: tuple[tuple[str, str], ...]  #: kind and reason
    rows: tuple[SeenRow, ...]


@dataclass(frozen=True, slots=True)
class SeenSpread:
    """One figure over the lot."""

    said: str
    unit: str
    parts: tuple[str, ...]
    chart: str  #: svg
    bins: tuple[tuple[str, str, int, int], ...]  #: from, to, cells in it, cells that give that or more


@dataclass(frozen=True, slots=True)
class LotSeen:
    """A lot on a page."""

    cells: int
    kind: str
    guessed: bool
    left_out: int
    said: tuple[str, ...]
    known_to: str
    heads: tuple[str, ...]
    spreads: tuple[SeenSpread, ...]
    grades: tuple[tuple[str, int, tuple[str, ...]], ...]  #: each with its cells and parts of its watts
    suspects: tuple[SeenSuspect, ...]
    more: int  #: suspect cells that are not shown yet


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a worker gives: the page's part, and the lot itself, packed."""

    seen: LotSeen
    kept: bytes


def weigh(rows: CellRows, kind: str, settled: Sequence[Settled]) -> Weighed:
    """A lot weighed and drawn."""
    stood = stand(rows, kind, settled)
    return Weighed(seen(stood, applied(rows, settled)), pickle.dumps(stood, protocol=5))


def stood_of(kept: bytes) -> Stood:
    """The lot that a process of our own has packed."""
    stood = pickle.loads(kept)
    assert isinstance(stood, Stood)
    return stood


def seen(stood: Stood, rows: CellRows) -> LotSeen:
    """A lot for a page; the rows are those that count."""
    marks: dict[str, list[tuple[str, str]]] = {}
    where: dict[str, dict[int, None]] = {}
    for each in stood.suspects:
        marks.setdefault(each.mark, []).append((each.kind, each.reason))
        where.setdefault(each.mark, {}).update(dict.fromkeys(each.rows))
    shown = list(marks)[:MOST_SUSPECTS]
    found = _rows_of(rows, shown)
    return LotSeen(
        len(stood.standing.marks),
        stood.kind,
        stood.guessed,
        stood.left_out,
        stood.standing.said,
        show(stood.known_to_w, "W"),
        SHARE_WORDS,
        tuple(_spread(each, drawn=each.said in ("Pmp", "Imp")) for each in stood.spreads),
        tuple(
            (grade or "none", cells, tuple(figure(value, 4) for value in each.parts))
            for grade, cells, each in stood.by_grade
        ),
        tuple(
            SeenSuspect(mark, tuple(marks[mark]), tuple(_row(rows, k) for k in found.get(mark, ())))
            for mark in shown
        ),
        len(marks) - len(shown),
    )


def _rows_of(rows: CellRows, marks: Sequence[str]) -> dict[str, list[int]]:
    """The readings of some cells."""
    wanted, found = set(marks), dict[str, list[int]]()
    for k, mark in enumerate(rows.marks):
        if mark in wanted:
            found.setdefault(mark, []).append(k)
    return found


def _row(rows: CellRows, k: int) -> SeenRow:
    asked = tuple(
        Asked(name, FIGURES[name], _UNITS.get(name.rsplit("_", 1)[-1], ""), _typed(float(each[k])))
        for name, each in rows.figures.items()
    )
    return SeenRow(int(rows.row_numbers[k]), asked)


def _typed(value: float) -> str:
    return f"{value:.6g}" if np.isfinite(value) else ""


def _spread(spread: Spread, *, drawn: bool) -> SeenSpread:
    parts = tuple(figure(value, 4) for value in spread.parts)
    if not drawn:
        return SeenSpread(spread.said, spread.unit, parts, "", ())
    edges, counts = bins(spread)
    at_least = np.cumsum(counts[::-1])[::-1].tolist()
    low, high = edges[:-1], edges[1:]
    names = [f"{edge:.{_places(edges)}f}" for edge in edges]
    told = tuple(zip(names[:-1], names[1:], counts, at_least, strict=True))
    return SeenSpread(spread.said, spread.unit, parts, _chart(spread, (low, high, counts)), told)


def bins(spread: Spread) -> tuple[list[float], list[int]]:
    """Round steps from below the least to above the most, and how many cells lie in each."""
    low, high = float(spread.values.min()), float(spread.values.max())
    wide = _round_step(max(high - low, 1e-3 * abs(high), 1e-9) / _BARS)
    first = np.floor(low / wide)
    count = int(np.floor(high / wide) - first) + 1
    edges = [float((first + k) * wide) for k in range(count + 1)]
    place = np.clip(np.floor(spread.values / wide) - first, 0, count - 1).astype(np.intp)
    return edges, np.bincount(place, minlength=count).tolist()


def _round_step(wide: float) -> float:
    ten = 10.0 ** np.floor(np.log10(wide))
    return float(next(step * ten for step in (1, 2, 5, 10) if step * ten >= wide * (1 - 1e-9)))


def _places(edges: list[float]) -> int:
    return max(0, int(np.ceil(-np.log10(edges[1] - edges[0]) - 1e-9)))


def _chart(spread: Spread, told: tuple[list[float], list[float], list[int]]) -> str:
    """Cells over the figure, as stairs; the middle is named."""
    from panewright.paper.screen_chart import chart_svg

    low, high, counts = told
    x = [low[0], *(edge for pair in zip(low, high, strict=True) for edge in pair), high[-1]]
    y = [0.0, *(float(each) for each in counts for _ in range(2)), 0.0]
    middle = spread.parts[SHARE_WORDS.index("middle")]
    tall = float(counts[next(k for k, edge in enumerate(high) if middle < edge or edge == high[-1])])
    words = f"middle {show(middle, spread.unit)}"
    chart = Chart(
        "",
        f"{spread.said}, {spread.unit}",
        "count, cells",
        (Series(tuple(x), tuple(y), "", "measured"),),
        (Mark(middle, tall, words),),
        x_from=None,
    )
    ends = f"from {show(low[0], spread.unit)} to {show(high[-1], spread.unit)}"
    said = f"How {spread.said} spreads over the lot: {words}, {ends}"
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)
