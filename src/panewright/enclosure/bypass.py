"""Bypass diodes in the junction box.

A cell that gets less light than its neighbours is driven backward by them. The diode over its substring
opens as soon as the substring turns negative, so the cell bears at most the voltage of the others plus
the diode's own drop:

    reverse voltage of one cell <= (n - 1) Voc + Vd

which must stay under the cell's breakdown voltage. Voc is that of the record cold in full sun, when the
others push hardest. Without a diode the whole string takes the diode's place.
The diode itself carries the panel's current while it helps and blocks the substring's voltage while
it waits. Schottky diodes leak more, and bear less current, in a box which passes 70 degC in summer.

[H] Breakdown voltages (-15 to -30 V mono, -10 to -20 V multi) and 18 to 24 cells a diode: from memory. Worked
    examples after Bishop use -18 V for mono.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from panewright.check import Check

CURRENT_FACTOR = 1.25  #: of Isc, as bright cloud may give it [NEC 690.8]
VOLTAGE_FACTOR = 2.0  #: of the substring's cold Voc; common practice
MOST_CELLS = 24  #: under one diode; common practice [H]
FIRST_DROP_V = 0.5  #: of a diode at work, before one is chosen


@dataclass(frozen=True, slots=True)
class Bypass:
    """A bypass diode: I = I0 (exp((V - I Rs) / nVth) - 1), with its rating."""

    name: str
    saturation_a: float
    ideality_v: float
    series_ohm: float
    rated_a: float
    reverse_v: float
    # in its box; what stands here serves a Schottky diode whose sheet is silent
    drift_v_k: float = -5e-4  #: of the drop, at the current it is rated for
    sheds_k_w: float = 18.0  #: junction to the air round the box, all diodes at work
    bears_c: float = 150.0  #: junction, for good
    survives_c: float = 200.0  #: junction, forward for an hour
    leaks_a: float = 0.05  #: at 100 degC and the voltage it may block
    leak_per_k: float = 0.055  #: how that grows with heat

    def __post_init__(self) -> None:
        if not (0 < self.saturation_a < math.inf and 0 < self.ideality_v < math.inf):
            raise ValueError(f"a diode has a saturation current and nVth above zero, got {self}")
        if not 0 <= self.series_ohm < math.inf:
            raise ValueError(f"a diode's resistance is zero or more, got {self}")


def forward_v(bypass: Bypass, current_a: float) -> float:
    """Voltage over the diode while it carries a current. [V]"""
    return bypass.ideality_v * math.log1p(current_a / bypass.saturation_a) + bypass.series_ohm * current_a


def heat_w(bypass: Bypass, current_a: float) -> float:
    """Heat the box must get rid of while one diode carries a current. [W]"""
    return current_a * forward_v(bypass, current_a)


def reverse_cell_v(cells: int, voc_v: float, drop_v: float) -> float:
    """Most that the other cells of a substring can drive one cell backward. [V]"""
    return (cells - 1) * voc_v + drop_v


def most_cells(voc_v: float, drop_v: float, breakdown_v: float) -> int:
    """Cells that one diode may guard: bounded by breakdown and by practice, 1 at least.

    >>> most_cells(0.62, 0.5, -15.0), most_cells(0.74, 0.5, -15.0)
    (24, 20)
    """
    by_breakdown = math.floor((abs(breakdown_v) - drop_v) / voc_v + 1 + 1e-9)
    return max(1, min(by_breakdown, MOST_CELLS))


def rating_checks(bypass: Bypass, isc_a: float, substring_cold_voc_v: float) -> tuple[Check, Check]:
    """The diode carries the panel's current and blocks its substring."""
    current = Check(
        rule="bypass diode carries the current",
        demand=CURRENT_FACTOR * isc_a,
        limit=bypass.rated_a,
        unit="A",
        source="1.25 Isc, as NEC 690.8 counts bright cloud",
        cure="Take a bypass diode with a higher current rating.",
        room="enclosure",
    )
    voltage = Check(
        rule="bypass diode blocks its substring",
        demand=VOLTAGE_FACTOR * substring_cold_voc_v,
        limit=bypass.reverse_v,
        unit="V",
        source="twice the cold open-circuit voltage: common practice",
        cure="Take a bypass diode with a higher reverse voltage, or more diodes over fewer cells each.",
        room="enclosure",
    )
    return current, voltage


def guard_checks(cells: int, voc_v: float, drop_v: float, breakdown_v: float) -> tuple[Check, Check]:
    """A shaded cell stays out of breakdown, and the diode guards no more cells than is usual.

    `cells` are those under one diode, `voc_v` that of one cell at the record cold.
    """
    backward = Check(
        rule="shaded cell stays out of breakdown",
        demand=reverse_cell_v(cells, voc_v, drop_v),
        limit=abs(breakdown_v),
        unit="V",
        source="cold Voc of the other cells and the diode's drop, against the cell's breakdown voltage",
        cure="Put a bypass diode over fewer cells: take more columns, an even number for each diode.",
        room="enclosure",
    )
    usual = Check(
        rule="cells under one bypass diode",
        demand=float(cells),
        limit=float(MOST_CELLS),
        unit="-",
        source="18 to 24 cells a diode: common practice, from memory",
        cure="Add a bypass diode.",
        room="enclosure",
    )
    return backward, usual


def bare_string_check(cells: int, voc_v: float, breakdown_v: float) -> Check:
    """A panel without bypass diodes, short-circuited: the whole string drives one shaded cell backward.

    `voc_v` is that of one cell at the record cold.
    """
    return Check(
        rule="shaded cell stays out of breakdown",
        demand=reverse_cell_v(cells, voc_v, 0.0),
        limit=abs(breakdown_v),
        unit="V",
        source="cold Voc of the other cells, against the cell's breakdown voltage",
        cure="Add bypass diodes.",
        room="enclosure",
    )


@dataclass(frozen=True, slots=True)
class Guarded:
    """The cells that would lie under one diode."""

    cells: int
    cold_voc_v: float  #: of one cell at the record cold
    breakdown_v: float
    isc_a: float

    @property
    def cold_v(self) -> float:
        """Open-circuit voltage of all of them in the cold. [V]"""
        return self.cells * self.cold_voc_v


def choose_bypass(
    diodes: Sequence[Bypass],
    guarded: Guarded,
    *,
    always: bool,
    cool: Callable[[Bypass], bool] = lambda _: True,
) -> Bypass | None:
    """The first diode that serves and stays `cool`; else the first that serves, else the strongest.

    None where the cells bear each other's voltage without one, unless a diode is wanted `always`.
    """
    if not always and bare_string_check(guarded.cells, guarded.cold_voc_v, guarded.breakdown_v).passed:
        return None
    serving = [
        diode
        for diode in diodes
        if all(check.passed for check in rating_checks(diode, guarded.isc_a, guarded.cold_v))
    ]
    if serving:
        return next((diode for diode in serving if cool(diode)), serving[0])
    return max(diodes, key=lambda diode: diode.rated_a)


def diode_checks(bypass: Bypass | None, guarded: Guarded) -> tuple[Check, ...]:
    """Every rule of the diode over these cells, or of the cells without one."""
    if bypass is None:
        return (bare_string_check(guarded.cells, guarded.cold_voc_v, guarded.breakdown_v),)
    drop = forward_v(bypass, guarded.isc_a)
    guards = guard_checks(guarded.cells, guarded.cold_voc_v, drop, guarded.breakdown_v)
    return (*guards, *rating_checks(bypass, guarded.isc_a, guarded.cold_v))
