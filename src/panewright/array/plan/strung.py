"""Panels in strings: as the maker typed them, or as they give most; and by which voltages and currents.

Panels count in record cold by their own coefficients or by the table of the rules, in record heat with their
cells as hot as full sun and hardly any wind make them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from panewright.array.arranged import Allowed, Arrangement, Rows, States, alone_kwh, arranged, weighed
from panewright.array.driven import told_volts
from panewright.array.fuses import Fusing
from panewright.array.limits import THROWN_AWAY_MOST, Extremes, Port, rules_most_v, string_cold_v
from panewright.array.plan.plan import Placed
from panewright.array.wiring import Input, Row
from panewright.array.year import Span
from panewright.battery.controller import input_window
from panewright.battery.converter import Switch, held_volts
from panewright.battery.window import Window
from panewright.climate.hourly import hourly_cell_c
from panewright.order.site.site import Site
from panewright.wire.rules import greatest_of_panels_a

FULL_SUN_W_M2, HARDLY_A_WIND_M_S = 1000.0, 1.0
_NOBODY_KNOWS_PER_K = -0.005  # of Voc, where the table of factors ends: more than any silicon panel's


@dataclass(frozen=True)
class Strung:
    """Strings by panel, input by input, and how they came to be."""

    inputs: tuple[Rows, ...]
    numbers: tuple[int, ...]  #: of the controller's inputs that are used, from 0
    left_out: tuple[int, ...]
    arrangement: Arrangement | None  #: of the program, None where they were typed or none fits
    best: Arrangement | None  #: of the program beside typed ones
    kept_share: float  #: of what each panel alone would give
    said: tuple[str, ...] = ()

    def within(self, limits: Allowed) -> bool:
        """Whether the program's own strings hold these limits: narrower ones then allow none better."""
        own = self.arrangement or self.best
        return own is not None and all(limits.keeps(rows) for rows in own.inputs if rows)

    def wired(self, wire_ohm: Sequence[float] = (), run_ohm: float = 0.0) -> tuple[Input, ...]:
        """The inputs; `wire_ohm` of each string, input after input."""
        ohms = iter(wire_ohm)
        return tuple(Input(tuple(Row(row, next(ohms, 0.0)) for row in rows), run_ohm) for rows in self.inputs)


def extremes_of(site: Site, hot_cell_c: float) -> Extremes:
    """The site's rules at their ends."""
    rules = site.rules
    return Extremes(rules.family, rules.coldest_c, hot_cell_c, rules.dwelling, rules.on_building)


def hot_cell_c(site: Site, warmest_c: float) -> float:
    """Hottest cells: record heat in full sun on the warmest stand, or of the year, the hotter. [degC]"""
    sun, air = np.array([FULL_SUN_W_M2]), np.array([site.rules.hottest_air_c])
    wind = np.array([HARDLY_A_WIND_M_S])
    return max(warmest_c, *(float(hourly_cell_c(sun, air, wind, each.behind)[0]) for each in site.stands))


def window_of(site: Site) -> Window:
    """The bank's voltages; without one an input asks for what its sheet says."""
    if site.bank is not None:
        return site.bank.window
    return Window(0, 0.0, 0.0, None, 0.0, 0.0, 0.0, 0.0, 25.0, 0.0, "no battery")


def port_of(site: Site, lost_v: float = 0.0) -> Port:
    """One input of the controller with what is behind it."""
    box = site.box
    battery_v = site.bank.battery.nominal_v if site.bank else 0.0
    takes = box.takes_v if site.bank else (0.0,)
    return Port(box.controller, window_of(site), box.input_a, battery_v, takes, lost_v)


def least_v(site: Site) -> float:
    """Lowest voltage at which an input works. [V]"""
    asked = input_window(site.box.controller, window_of(site)).least_v if site.bank else 0.0
    return max(site.box.least_v, asked)


def allowed(
    site: Site, panels: Sequence[Placed], hot_c: float, lost_v: float = 0.0, carries_a: float = math.inf
) -> Allowed:
    """What the inputs bear and ask of these panels; `carries_a` the thickest wire that a string may have."""
    box, plates = site.box, [each.plate for each in panels]
    one_a = greatest_of_panels_a(max(plate.isc_a for plate in plates))
    bears_v = min(
        box.controller.most_v, rules_most_v(extremes_of(site, hot_c)), *(p.system_v for p in plates)
    )
    held_v = (
        input_window(box.controller, window_of(site)).usual_v if box.controller.kind == "direct" else None
    )
    # more in series than a switch can use: never by choice, but one panel alone has to do
    wasteful_v = math.inf
    if held_v is not None and site.bank is not None:
        wasteful_v = max(THROWN_AWAY_MOST * held_v, *(plate.vmp_v for plate in plates), 0.0)
    if site.pump is not None and box.straight:
        held_v = site.pump.rated_v  # near it such a motor works
    return Allowed(
        inputs=min(box.inputs, len(panels)),
        most_rows=max(1, min(len(panels), int(box.input_a / one_a))),
        least_v=min(least_v(site) + lost_v, 0.999 * bears_v),
        most_v=bears_v,
        cold_v=tuple(_cold_v(each, site.rules.coldest_c) for each in panels),
        hot_v=tuple(plate.hot_vmp_v(hot_c) for plate in plates),
        held_v=held_v,
        work_v=tuple(plate.vmp_v for plate in plates),
        most_work_v=wasteful_v,
        fusing=Fusing(
            site.rules.family,
            tuple(plate.isc_a for plate in plates),
            tuple(plate.fuse_a for plate in plates),
            carries_a,
        ),
        floor_v=least_v(site),
    )


def open_v(site: Site, panels: Sequence[Placed], found: Strung) -> float:
    """Of the longest string in record cold. [V]"""
    volts = [_cold_v(panel, site.rules.coldest_c) for panel in panels]
    return max(sum(volts[p] for p in row) for rows in found.inputs for row in rows)


def _cold_v(panel: Placed, coldest_c: float) -> float:
    found = string_cold_v((panel.plate,), coldest_c)
    return panel.plate.voc_v * (1 + _NOBODY_KNOWS_PER_K * (coldest_c - 25)) if found is None else found


def strung(site: Site, states: States, limits: Allowed) -> Strung:
    """Strings as typed, with the best beside them; else the best; else something whose limits fail."""
    best = arranged(states, limits)
    if site.strings:
        return _typed(site, states, limits, best)
    if best is not None:
        inputs = tuple(rows for rows in best.inputs if rows)
        return Strung(inputs, tuple(range(len(inputs))), best.left_out, best, None, 1 - best.lost_share)
    return _nothing_fits(states, limits)


def _typed(site: Site, states: States, limits: Allowed, best: Arrangement | None) -> Strung:
    numbers = tuple(sorted({string.input for string in site.strings}))
    inputs = tuple(
        tuple(string.panels for string in site.strings if string.input == number) for number in numbers
    )
    used = {p for string in site.strings for p in string.panels}
    left = tuple(p for p in range(len(site.panels)) if p not in used)
    return Strung(inputs, numbers, left, None, best, _share(states, limits, inputs))


def _share(states: States, limits: Allowed, inputs: tuple[Rows, ...]) -> float:
    """Of what each panel alone gives, whatever the limits."""
    ends = replace(
        limits,
        least_v=0.0,
        most_v=1e6,
        most_work_v=math.inf,
        inputs=max(limits.inputs, len(inputs)),
        fusing=None,
    )
    alone = alone_kwh(states)
    return weighed(states, ends, inputs) / alone if alone > 0 else 0.0


def _nothing_fits(states: States, limits: Allowed) -> Strung:
    """Strings as long as cold and a switch allow, or single panels; the failed checks say what is wrong."""
    count = len(limits.cold_v)
    long = max(1, min(count, int(limits.most_v / max(limits.cold_v))))
    if limits.most_work_v < math.inf:
        long = max(1, min(long, int(limits.most_work_v / max(limits.work_v))))
    rows = tuple(tuple(range(k, k + long)) for k in range(0, count - long + 1, long))
    used = len(rows) * long
    said = "No string of these panels stays within the controller's voltages: what is told breaks its limits."
    share = _share(states, limits, (rows,))
    return Strung((rows,), (0,), tuple(range(used, count)), None, None, share, (said,))


def spans_of(site: Site, inputs: int, run_ohm: float, open_v: float) -> tuple[Span, ...]:
    """Voltages between which each input works; of a direct one those that its battery passes through, of a
    pump all up to the strings' open voltage.
    """
    most_v = site.box.controller.most_v
    if site.pump is not None:
        return (Span(least_v(site), most_v, told_volts(open_v)),) * inputs
    if site.bank is None or site.box.controller.kind == "mppt":
        return (Span(least_v(site), most_v),) * inputs
    switch = Switch(site.box.output_a, site.box.controller.drop_v, site.box.own_w)
    return (Span(0.0, most_v, held_volts(site.bank, switch, run_ohm)),) * inputs
