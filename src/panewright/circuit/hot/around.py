"""One cell of a panel, and all the rest of the panel as that cell sees it.

Shade changes the cell and nothing else. At a given terminal voltage the rest of the panel is therefore one
fixed line of voltage against current between the cell's two ends, and every shade lies somewhere on it. With
the string's current I as the thing to go along, each figure follows from the one before without any search:

    Io = current of the other strings at V + R I (their leads being R),    U = V + R (I + Io)     the bus
    Vs = U - Vb(I)              Vb: the other substrings, the tail and the blocking diode
    Ib = bypass diode at -Vs,   i = I - Ib                                                    the cell
    v  = Vs - Va(i)             Va: the other cells of the substring, with all its joints
    shade = 1 - (i + D(v + i Rs)) / IL

so the greatest heat -v i is looked for on a line that is known, in closed form, and the shade read from it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

import numpy as np

from panewright.cell import curve
from panewright.cell.curve import swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.circuit.place import CellAt, within
from panewright.circuit.solve import current_a, voltage_v
from panewright.enclosure.bypass import Bypass


@dataclass(frozen=True, slots=True)
class Points:
    """Points of the line, side by side."""

    shade: Array
    voltage_v: Array  #: of the cell, in the direction of the string
    current_a: Array

    @property
    def absorbed_w(self) -> Array:
        """What the cell takes in at its terminals. [W]"""
        return np.asarray(-self.voltage_v * self.current_a)


@dataclass(frozen=True, slots=True)
class Around:
    """A cell, and what lies round it."""

    cell: Diode
    turned: bool
    mates: Network | None  #: the other cells of its substring
    joints_ohm: float  #: all of its substring
    bypass: Bypass | Turned | Bridge | None
    row: Network | None  #: the other substrings of its string
    tail_ohm: float
    blocking: Bypass | None
    others: Network | None  #: the other strings, with the leads
    lead_ohm: float

    @property
    def whole(self) -> bool:
        """Whether neither the string nor the substring is broken."""
        return max(self.tail_ohm, self.joints_ohm) < inf

    def at(self, terminal_v: float, string_a: Array) -> Points:
        """The cell while its string carries a current. Past the cell's own light there are shades below 0."""
        bus = terminal_v + self.lead_ohm * string_a
        if self.others is not None:
            bus = bus + self.lead_ohm * current_a(self.others, bus)
        substring_v = bus + self._dropped_v(string_a)
        own = string_a - _beside_a(self.bypass, substring_v)
        volt = substring_v + self.joints_ohm * own
        if self.mates is not None:
            volt = volt - voltage_v(self.mates, own)
        return Points(self._shade(volt, own), volt, own)

    def _dropped_v(self, string_a: Array) -> Array:
        """What the rest of the string takes between the bus and the substring. [V]"""
        drop = self.tail_ohm * string_a
        if self.row is not None:
            drop = drop - voltage_v(self.row, string_a)
        if self.blocking is not None:
            diode = self.blocking
            drop = drop + diode.ideality_v * np.log1p(string_a / diode.saturation_a)
            drop = drop + diode.series_ohm * string_a
        return np.asarray(drop)

    def _shade(self, volt: Array, current: Array) -> Array:
        """Share of the cell's light that is missing. [-]"""
        sign = -1.0 if self.turned else 1.0
        light = sign * current + swallowed_a(self.cell, sign * (volt + current * self.cell.series_ohm))[0]
        return np.asarray(1 - light / self.cell.light_a)


def around(network: Network, place: CellAt) -> Around:
    """What lies round a cell."""
    k, number = within(network, place)
    string = network.strings[place.string]
    substring = string.substrings[k]
    others = (*network.strings[: place.string], *network.strings[place.string + 1 :])
    row = (*string.substrings[:k], *string.substrings[k + 1 :])
    return Around(
        cell=substring.cells[number],
        turned=number in substring.turned,
        mates=_mates(substring, number),
        joints_ohm=sum(substring.joints_ohm),
        bypass=substring.bypass,
        row=Network((String(row),)) if row else None,
        tail_ohm=string.tail_ohm,
        blocking=string.blocking,
        others=replace(network, strings=others) if others else None,
        lead_ohm=network.lead_ohm,
    )


def _mates(substring: Substring, number: int) -> Network | None:
    """The other cells of a substring, without joints."""
    cells = (*substring.cells[:number], *substring.cells[number + 1 :])
    turned = tuple(k - (k > number) for k in substring.turned if k != number)
    return Network((String((Substring(cells, (0.0,) * len(cells), None, turned),)),)) if cells else None


def _beside_a(beside: Bypass | Turned | Bridge | None, substring_v: Array) -> Array:
    """Current that passes beside the cells, in the direction of the string's. [A]"""
    if beside is None:
        return np.zeros_like(substring_v)
    if isinstance(beside, Bridge):
        return -substring_v / beside.ohm
    if isinstance(beside, Turned):
        return curve.current_a(_dark(beside.diode), substring_v)
    return -curve.current_a(_dark(beside), -substring_v)


def _dark(diode: Bypass) -> Diode:
    """A diode as a cell without light or shunt."""
    return Diode(0.0, diode.saturation_a, diode.ideality_v, diode.series_ohm, float("inf"))
