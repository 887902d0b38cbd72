"""How many cells in series, and what the battery then gets.

Two ends hold a string. On the hottest cells its voltage at maximum power, less what its ribbons lose, must
still exceed the battery's absorption voltage and all that is lost in controller, cable and blocking diode.
On the record-cold bright morning its open-circuit voltage must stay under what the controller bears.

A direct controller holds the string at the battery's own voltage: every cell more than the hot day needs
is paid for and gives nothing, so the least count is the best. An MPPT controller turns what voltage there
is into current: there a count in the middle of the window is best, and usual counts are easiest to lay.

A string of N equal cells is one diode with N times the voltages and resistances of a cell:

    IL, I0;  N n k T / q;  N (Rs + tab) + rest;  N Rsh

so a count costs no more to reckon than a cell. Cable and bus count once, whatever N.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from panewright.battery.controller import battery_power_w, input_window
from panewright.battery.window import Window, charge_window
from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import diode_at
from panewright.check import Check
from panewright.circuit.string_count import COMMON_COUNTS, CountRow, StringAsk, StringStudy
from panewright.circuit.string_reason import Told, reason
from panewright.ribbon.resistance import heat_factor
from panewright.wire.drop import resistance_ohm

FULL_SUN_W_M2 = 1000.0
MOST_COUNT = 400  #: no panel has more cells in series
TEXTBOOK_PER_12V = 36


@dataclass(frozen=True, slots=True)
class _Bench:
    """The ask with everything reckoned once that no count changes."""

    ask: StringAsk
    hot: Diode
    running: Diode
    cold_voc_v: float
    window: Window | None
    cable_ohm: float

    @property
    def most_v(self) -> float:
        return self.ask.controller.most_v if self.ask.controller else math.inf


def string_diode(cell: Diode, count: int, tab_ohm: float = 0.0, extra_ohm: float = 0.0) -> Diode:
    """A string of equal cells as one diode."""
    return replace(
        cell,
        ideality_v=count * cell.ideality_v,
        series_ohm=count * (cell.series_ohm + tab_ohm) + extra_ohm,
        shunt_ohm=count * cell.shunt_ohm,
        breakdown_siemens=cell.breakdown_siemens / count,
        breakdown_v=count * cell.breakdown_v,
    )


def direct_current_a(string: Diode, held_v: float) -> float:
    """Current a string gives when it is held at a voltage; none runs back. [A]"""
    return 0.0 if held_v >= voltage_v(string, 0.0) else current_a(string, held_v)


def study_string(ask: StringAsk) -> StringStudy:
    """Choose how many cells stand in series, and say why."""
    bench = _bench(ask)
    fewest, most = _fewest(bench), _most(bench)
    acceptable = tuple(range(fewest, most + 1))
    chosen = _choose(ask, acceptable, most)
    textbook = round(TEXTBOOK_PER_12V * bench.window.twelves) if bench.window else None
    counts = _counts_shown(chosen, acceptable, textbook)
    rows = tuple(_row(bench, count, chosen) for count in counts)
    row = next(row for row in rows if row.cells == chosen)
    return StringStudy(
        rows=rows,
        chosen=chosen,
        reason=reason(Told(ask, bench.window, rows, row, acceptable, textbook)),
        checks=_checks(bench, row, fewest, most),
        acceptable=acceptable if bench.window else (chosen,),
        textbook=textbook,
        window=bench.window,
        battery_current_a=row.battery_a,
        battery_power_w=row.battery_w,
        pmp_there_w=row.pmp_w,
    )


def _bench(ask: StringAsk) -> _Bench:
    """Everything the counts share."""
    known = ask.battery is not None and ask.controller is not None
    if not known and ask.pinned_in_series is None and ask.cells_wanted is None:
        raise ValueError("a string needs a battery behind a controller, or a number of cells")
    cold = diode_at(ask.model, FULL_SUN_W_M2, ask.cold_cell_c)
    cable_ohm = resistance_ohm(ask.cable, ask.cable_c) if ask.cable else 0.0
    return _Bench(
        ask=ask,
        hot=diode_at(ask.model, ask.light * FULL_SUN_W_M2, ask.hot_cell_c),
        running=diode_at(ask.model, ask.light * FULL_SUN_W_M2, ask.running_cell_c),
        cold_voc_v=voltage_v(cold, 0.0),
        window=charge_window(ask.battery, ask.battery_c) if ask.battery and ask.controller else None,
        cable_ohm=cable_ohm * ask.strings,  # as one string feels it: the others' current runs there too
    )


def _hot_points(bench: _Bench, count: int) -> KeyPoints:
    return key_points(_in_line(bench.ask, bench.hot, count, bench.ask.hot_cell_c))


def _in_line(ask: StringAsk, cell: Diode, count: int, cell_c: float, more_ohm: float = 0.0) -> Diode:
    """The string with its ribbons, as warm as its cells, and what else lies in its line."""
    warm = heat_factor(cell_c)
    return string_diode(cell, count, warm * ask.tab_ohm_per_cell, warm * ask.extra_ohm + more_ohm)


def _needed_v(bench: _Bench, current: float) -> float:
    """What the string's ends must reach to finish the charge. [V]"""
    if bench.window is None or bench.ask.controller is None:
        return 0.0
    at_input = input_window(bench.ask.controller, bench.window).least_v
    return at_input + bench.ask.blocking_drop_v + current * bench.cable_ohm


def _fewest(bench: _Bench) -> int:
    """Least count that still charges on the hottest cells; one past the most where none does."""
    if bench.window is None:
        return 1

    def charges(count: int) -> bool:
        points = _hot_points(bench, count)
        return points.vmp_v >= _needed_v(bench, points.imp_a)

    # the voltage left over grows with every cell, so the first count that charges is found by halving
    low, high = 0, MOST_COUNT
    if not charges(high):
        return MOST_COUNT + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if charges(middle) else (middle, high)
    return high


def _most(bench: _Bench) -> int:
    """Greatest count which the controller bears on the coldest morning."""
    if math.isinf(bench.most_v):
        return MOST_COUNT
    return min(MOST_COUNT, math.floor(bench.most_v / bench.cold_voc_v * (1 + 1e-12)))


def _choose(ask: StringAsk, acceptable: tuple[int, ...], most: int) -> int:
    """The count as pinned, or the best of those which hold, or what at least does no harm."""
    if decided := ask.pinned_in_series or ask.cells_wanted or ask.laid_out:
        return decided
    if not acceptable:
        return max(1, most)
    return _middle(acceptable) if ask.controller and ask.controller.kind == "mppt" else acceptable[0]


def _middle(acceptable: tuple[int, ...]) -> int:
    """The usual count nearest the middle of the window, or an even one, or any."""
    middle = (acceptable[0] + acceptable[-1]) / 2
    even = tuple(count for count in acceptable if count % 2 == 0)
    for group in (*COMMON_COUNTS, even, acceptable):
        if inside := [count for count in group if acceptable[0] <= count <= acceptable[-1]]:
            return min(inside, key=lambda count: abs(count - middle))
    raise ValueError("no count holds, so none can stand in the middle")


def _counts_shown(chosen: int, acceptable: tuple[int, ...], textbook: int | None) -> list[int]:
    """Counts for the table: round the chosen one, both ends of the window and past them, the textbook's."""
    shown = set(range(chosen - 2, chosen + 3))
    if acceptable:
        first, last = acceptable[0], acceptable[-1]
        shown |= {first - 1, first, last, last + 1}
    if textbook is None:
        shown = {chosen}
    else:
        shown.add(textbook)
    return sorted(count for count in shown if 1 <= count < MOST_COUNT or count == chosen)


def _row(bench: _Bench, count: int, chosen: int) -> CountRow:
    """One count reckoned in heat, in cold and on a usual sunny day."""
    ask, hot = bench.ask, _hot_points(bench, count)
    battery_a, battery_w = _delivered(bench, count)
    usual = key_points(_in_line(ask, bench.running, count, ask.running_cell_c))
    row = CountRow(
        cells=count,
        hot_vmp_v=hot.vmp_v,
        needed_v=_needed_v(bench, hot.imp_a),
        cold_voc_v=count * bench.cold_voc_v,
        most_v=bench.most_v,
        battery_a=battery_a,
        battery_w=battery_w,
        pmp_w=ask.strings * usual.power_w,
        verdict="",
    )
    return replace(row, verdict=_verdict(row, count == chosen))


def _delivered(bench: _Bench, count: int) -> tuple[float, float]:
    """Current into the battery and its power, at the battery's own voltage. [A, W]"""
    ask, window, controller = bench.ask, bench.window, bench.ask.controller
    if window is None or controller is None:
        return 0.0, 0.0
    with_cable = _in_line(ask, bench.running, count, ask.running_cell_c, bench.cable_ohm)
    held_v = input_window(controller, window).usual_v
    if controller.kind == "direct":
        input_v, string_a = held_v, direct_current_a(with_cable, held_v + ask.blocking_drop_v)
    else:
        best = key_points(with_cable)
        input_v = best.vmp_v - ask.blocking_drop_v
        string_a = best.imp_a if input_v >= held_v else 0.0  # below its headroom it does not start
    power_w = battery_power_w(controller, window, ask.strings * string_a, input_v)
    return power_w / window.usual_v, power_w


def _verdict(row: CountRow, chosen: bool) -> str:
    """Words for the table."""
    words = "chosen" if chosen else "holds"
    if not row.holds_hot:
        words = "too few: never full on hot days"
    if not row.holds_cold:
        words = "too many: harms the controller in the cold"
    if not row.holds_hot and not row.holds_cold:
        words = "too few for the heat, too many for the cold"
    return f"chosen, but {words}" if chosen and not row.holds else words


def _checks(bench: _Bench, row: CountRow, fewest: int, most: int) -> tuple[Check, ...]:
    """Both ends of the chosen count."""
    checks = []
    if bench.window is not None:
        checks.append(_hot_check(bench, row, fewest, most))
    if math.isfinite(row.most_v):
        checks.append(_cold_check(row, most))
    return tuple(checks)


def _hot_check(bench: _Bench, row: CountRow, fewest: int, most: int) -> Check:
    source = bench.window.source if bench.window else ""
    cure = f"Put {fewest} cells in series."
    if fewest > most:
        bears = math.ceil(fewest * bench.cold_voc_v)
        cure = f"{fewest} cells in series would do; they need a controller that bears {bears} V."
    if fewest > MOST_COUNT:
        cure = "Take a cell with more voltage, a thicker cable, or a battery of fewer volts."
    return Check(
        rule="string charges the battery on the hottest cells",
        demand=row.needed_v,
        limit=row.hot_vmp_v,
        unit="V",
        source=f"voltage at maximum power against absorption and all drops; {source}",
        cure=cure,
        room="circuit",
    )


def _cold_check(row: CountRow, most: int) -> Check:
    bears = math.ceil(row.cold_voc_v)
    fewer = f"Put no more than {most} cells in series, or take" if most else "Take"
    return Check(
        rule="controller bears the string on the coldest morning",
        demand=row.cold_voc_v,
        limit=row.most_v,
        unit="V",
        source="open-circuit voltage in full sun, cells as cold as the air; the controller's own limit",
        cure=f"{fewer} a controller that bears {bears} V.",
        room="circuit",
    )
