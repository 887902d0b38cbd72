"""Safe wind speeds by glass: a table of all sizes, and a chart of a few against thickness."""

from __future__ import annotations

import math

from panewright.catalogue.columns import fitted
from panewright.catalogue.row import Row
from panewright.drawing.chart import Chart, Series, draw_chart
from panewright.drawing.sheet import Block, Figure
from panewright.structure.panes.safe_wind import MOST_M_S

_MOST_LINES = 4  #: of a chart
_MOST_GLASS = 5  #: columns of a table
_INCH_MM, _MPH_M_S = 25.4, 0.44704
TIMES = "\u00a0×\u00a0"  #: between two counts or sizes, never at the end of a line
_WIDE_MM, _HIGH_MM = 164.0, 78.0


def layup(columns: int, rows: int) -> str:
    """Columns by rows, on one line."""
    return f"{columns}{TIMES}{rows}"


def wind_figure(speed_m_s: float | None, *, us: bool) -> str:
    """A safe speed as a table has it; speeds end where the codes' maps do.

    >>> wind_figure(41.7, us=False), wind_figure(None, us=True)
    ('41', '–')
    >>> print(wind_figure(100.0, us=False).replace("\N{NO-BREAK SPACE}", " "))
    ≥ 100
    """
    if speed_m_s is None:
        return "–"
    whole = math.floor(speed_m_s / (_MPH_M_S if us else 1) + 1e-9)  # never more than it bears
    return f"≥\u00a0{whole}" if speed_m_s >= MOST_M_S else f"{whole}"


def wind_blocks(rows: tuple[Row, ...], units: str) -> tuple[Block, ...]:
    """Charts and tables of one cell format; nothing where no rule book covers any of its glass."""
    known = tuple(row for row in rows if row.figures and row.figures.safe_wind_m_s is not None)
    if not known:
        return ()
    return (*_charts(known, units == "us"), *_tables(rows, known, units == "us"))


def _charts(rows: tuple[Row, ...], us: bool) -> tuple[Block, ...]:
    """A chart for each kind of glass that comes in more than one thickness."""
    kinds = dict.fromkeys(row.figures.glass_kind for row in rows if row.figures)
    charts = (_chart(kind, tuple(row for row in rows if _kind(row) == kind), us) for kind in kinds)
    return tuple(chart for chart in charts if chart is not None)


def _kind(row: Row) -> str:
    return row.figures.glass_kind if row.figures else ""


def _chart(kind: str, rows: tuple[Row, ...], us: bool) -> Figure | None:
    lines = {size: _line(rows, size) for size in dict.fromkeys((row.columns, row.rows) for row in rows)}
    drawn = {size: line for size, line in lines.items() if len(line) > 1}
    if not drawn:
        return None
    mm, m_s = (_INCH_MM, _MPH_M_S) if us else (1.0, 1.0)
    series = tuple(
        Series(
            tuple(round(thick / mm, 4) for thick, _ in drawn[size]),
            tuple(round(speed / m_s, 2) for _, speed in drawn[size]),
            layup(*size),
        )
        for size in _spread(sorted(drawn, key=lambda size: (size[0] * size[1], size)))
    )
    labels = (
        ("thickness as sold, in", "safe wind, mph") if us else ("thickness as sold, mm", "safe wind, m/s")
    )
    ends = [x for each in series for x in each.x]
    room = 0.04 if us else 1.0  # for the lines' names
    chart = Chart("", *labels, series, x_from=max(0.0, min(ends) - room), x_to=max(ends) + room)
    drawing = draw_chart(chart, _WIDE_MM, _HIGH_MM)
    return Figure(drawing, 1.0, f"{kind.capitalize()}: columns × rows of cells", to_scale=False)


def _line(rows: tuple[Row, ...], size: tuple[int, int]) -> list[tuple[float, float]]:
    """Least safe wind at each thickness."""
    found: dict[float, float] = {}
    for row in rows:
        if (row.columns, row.rows) == size and row.figures and row.figures.safe_wind_m_s is not None:
            thick, speed = row.figures.glass_mm, row.figures.safe_wind_m_s
            found[thick] = min(speed, found.get(thick, speed))
    return sorted(found.items())


def _spread(sizes: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """A few of the sizes, from the smallest to the largest."""
    if len(sizes) <= _MOST_LINES:
        return sizes
    last = len(sizes) - 1
    return [sizes[round(n * last / (_MOST_LINES - 1))] for n in range(_MOST_LINES)]


def _tables(rows: tuple[Row, ...], known: tuple[Row, ...], us: bool) -> tuple[Block, ...]:
    """Size against glass, a few kinds of glass beside each other."""
    glass = list(dict.fromkeys(row.glass for row in known))
    parts = [glass[n : n + _MOST_GLASS] for n in range(0, len(glass), _MOST_GLASS)]
    speeds = {(row.columns, row.rows, row.glass): row for row in rows}
    sizes = sorted({(row.columns, row.rows) for row in rows}, key=lambda size: (size[0] * size[1], size))
    unit = "mph" if us else "m/s"
    return tuple(
        fitted(
            ("Cells", *part),
            tuple((layup(c, r), *(_speed(speeds.get((c, r, each)), us) for each in part)) for c, r in sizes),
            f"Safe wind of the glass, {unit}",
            left={0},
        )
        for part in parts
    )


def _speed(row: Row | None, us: bool) -> str:
    return wind_figure(row.figures.safe_wind_m_s if row and row.figures else None, us=us)
