"""What a panel does while its cells are shaded, cracked and swapped: words and a chart, ready for a page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.circuit.line import LineOf
    from panewright.desk import Made
    from panewright.panel.what_if import CellState, HotCell, Seen

_STATE = re.compile(r"(shade|crack|swap)-(\d{1,3})")
SOUND = "sound"
_LOOKS = {"shade": "shaded", "crack": "cracked", "swap": "swapped"}
_ROLES = {"limits": "holds the string back", "bypassed": "bypassed", "warms": "takes power in"}
_WIDE, _HIGH, _LETTER = 128.0, 88.0, 5.0


@dataclass(frozen=True, slots=True)
class Tried:
    """The panel as it would be."""

    power: str
    lost: str
    touched: int  #: cells that are not sound
    hot: str  #: which cell takes how much; empty where none does
    hot_even: str
    hottest: str  #: its number, at greatest power or else with the leads joined; empty where none is
    hottest_heat: str
    shorted: str  #: the same with the leads joined
    bypassing: str
    chart: str  #: svg
    looks: dict[int, str]  #: classes of cells
    words: dict[int, str]  #: what is said of cells that are not as the others
    rows: tuple[tuple[str, str, str, str], ...]  #: of the table behind: cell, state, volts, watts in


def state_of(words: str) -> CellState | None:
    """A cell's state as a page writes it, None for a sound one; `RecordError` where it is none.

    >>> state_of("shade-50").shade, state_of("sound")
    (0.5, None)
    """
    from panewright.panel.electric.own import Rated
    from panewright.panel.what_if import CellState

    if words == SOUND:
        return None
    found = _STATE.fullmatch(words)
    if found is None or not 0 < int(found[2]) <= 100:
        cure = "Write shade, crack or swap with 1 to 100 per cent."
        raise RecordError([Problem("This is no state of a cell.", cure, key="cell", value=words[:40])])
    share = int(found[2]) / 100
    if found[1] == "shade":
        return CellState(shade=share)
    return CellState(crack=share) if found[1] == "crack" else CellState(swapped=Rated(share, share))


def tried(made: Made, marks: Mapping[int, str], line_of: LineOf | None = None) -> Tried:
    """The panel with its cells in these states; cells that it does not have are passed over."""
    from panewright import desk

    known = {cell.number for cell in made.design.layup.cells}
    kept = {number: words for number, words in marks.items() if number in known}
    states = {number: state for number, words in kept.items() if (state := state_of(words)) is not None}
    seen = desk.what_if(made, states, line_of)
    units = made.design.order.job.units
    hot, worst = seen.hottest, seen.hottest or seen.hottest_shorted
    return Tried(
        power=_say(seen.points.power_w, "W", units),
        lost=_say(seen.lost_w if _changed(seen) else 0.0, "W", units),
        touched=len(states),
        hot=_hot(hot, units),
        hot_even=_say(hot.even_c, "degC", units) if hot else "",
        hottest=str(worst.number) if worst else "",
        hottest_heat=_say(worst.even_c, "degC", units) if worst else "",
        shorted=_hot(seen.hottest_shorted, units, heat=True),
        bypassing=", ".join(f"D{number}" for number in seen.conducting),
        chart=_chart(seen, made),
        looks=_looks(kept, seen),
        words=_words(kept, seen),
        rows=_rows(kept, seen, units),
    )


def _say(value: float, unit: str, units: str) -> str:
    from panewright.units import show

    return show(value, unit, units)


def _changed(seen: Seen) -> bool:
    return abs(seen.lost_w) > 1e-6 * seen.untouched.power_w


def _hot(hot: HotCell | None, units: str, *, heat: bool = False) -> str:
    if hot is None:
        return ""
    words = f"Cell {hot.number} takes in {_say(hot.absorbed_w, 'W', units)}"
    return f"{words} and reaches {_say(hot.even_c, 'degC', units)}" if heat else words


def _looks(marks: Mapping[int, str], seen: Seen) -> dict[int, str]:
    """Further classes of the cells of the drawing."""
    looks = {number: _look(words) for number, words in marks.items()}
    if hot := seen.hottest or seen.hottest_shorted:
        number = hot.number
        looks[number] = f"{looks.get(number, '')} hot".strip()
    return looks


def _look(words: str) -> str:
    kind, _, share = words.partition("-")
    return "half" if kind == "shade" and int(share) < 75 else _LOOKS[kind]


def _words(marks: Mapping[int, str], seen: Seen) -> dict[int, str]:
    """What a reader of the screen hears of a cell."""
    said = {number: told(words) for number, words in marks.items()}
    for cell in seen.cells:
        if cell.role in _ROLES:
            said[cell.number] = f"{said.get(cell.number, SOUND)}, {_ROLES[cell.role]}"
    if seen.hottest:
        said[seen.hottest.number] += ", the hottest"
    return said


def dressed(picture: str, looks: Mapping[int, str]) -> str:
    """The drawing with the looks of its cells, for a page without its script."""
    for number, look in looks.items():
        plain = f'<g class="cell" id="cell-{number}"'
        picture = picture.replace(plain, f'<g class="cell {look}" id="cell-{number}"')
    return picture


def told(words: str) -> str:
    """A state in words.

    >>> told("shade-50"), told("swap-90")
    ('shaded 50 %', 'swapped for one of 90 %')
    """
    kind, _, share = words.partition("-")
    if kind == SOUND:
        return SOUND
    return f"swapped for one of {share} %" if kind == "swap" else f"{_LOOKS[kind]} {share} %"


def _rows(marks: Mapping[int, str], seen: Seen, units: str) -> tuple[tuple[str, str, str, str], ...]:
    """Every cell that is not sound or does not give as the others do."""
    return tuple(
        (
            str(cell.number),
            "; ".join(
                each for each in (told(marks.get(cell.number, SOUND)), _ROLES.get(cell.role, "")) if each
            ),
            _say(cell.voltage_v, "V", units),
            _say(max(0.0, cell.absorbed_w), "W", units),
        )
        for cell in seen.cells
        if cell.number in marks or cell.role in ("limits", "warms")
    )


def _chart(seen: Seen, made: Made) -> str:
    from panewright.drawing.chart import Chart, Mark, Series
    from panewright.paper.screen_chart import chart_svg

    planned = made.design.electrical.curves[0].curve
    forward = [(v, i) for v, i in zip(seen.curve.voltage_v, seen.curve.current_a, strict=True) if v >= 0]
    series = [Series(planned.voltage_v, planned.current_a, "as designed")]
    if _changed(seen) and len(forward) > 1:
        series.append(Series(tuple(v for v, _ in forward), tuple(i for _, i in forward), "so", "measured"))
    points = seen.points
    units = made.design.order.job.units
    marks = (
        (Mark(points.vmp_v, points.imp_a, _say(points.power_w, "W", units)),) if points.power_w > 0 else ()
    )
    chart = Chart("", "voltage, V", "current, A", tuple(series), marks)
    said = f"Current over voltage: {_say(points.power_w, 'W', units)} at {_say(points.vmp_v, 'V', units)}"
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)
