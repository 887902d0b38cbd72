"""What can be wrong with a panel, in groups that its curve can tell apart.

A curve cannot part a cold joint from an open ribbon, a crack from dirt or a shadow on one cell, a cell left
out from one that is shorted, a dusty panel from an irradiance read too high. Such kinds are one group. A row
whose current goes by its bypass diode, as a joint of it is off, has lost its voltage as with a shorted one.

Every strength lies in a range, from what a bench's instruments hardly show to what nobody would miss;
within it each tenfold step is as likely as the next (common practice, no source). Resistances are told in
parts of the panel's own, Voc over Isc, and shunts in parts of one cell's, so that the ranges hold for
panels of any size.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from panewright.cell.damage import Cracked, Shaded, Shunted
from panewright.circuit.damage import (
    CellTurned,
    Damage,
    DiodeShorted,
    DiodeTurned,
    Fault,
    JointCold,
    JointOpen,
    StringOpen,
    damaged,
)
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, DiodeAt, Place, StringAt, within

Group = Literal[
    "healthy",
    "lost voltage",
    "weak cell",
    "added resistance",
    "shunted cell",
    "dimmed",
    "open string",
    "two faults",
]
Key = Literal[
    "cell gone", "cell turned", "bypass shorted", "bypass turned", "joint open",
    "weak cell", "cracked cell", "resistance", "shunt", "dimmed", "string open",
]  # fmt: skip
Site = Literal["cell", "row", "string", "panel"]


@dataclass(frozen=True, slots=True)
class Kind:
    """One thing that can be wrong, by itself."""

    key: Key
    group: Group
    site: Site  #: of what it is one
    least: float = 0.0  #: of the strength; a kind without one has none to tell
    most: float = 0.0
    guarded: bool = False  #: only where a bypass diode lies beside the row

    @property
    def graded(self) -> bool:
        """Whether it comes in strengths."""
        return self.most > 0


KINDS = (
    Kind("cell gone", "lost voltage", "cell"),
    Kind("cell turned", "lost voltage", "cell"),
    Kind("bypass shorted", "lost voltage", "row", guarded=True),
    Kind("bypass turned", "lost voltage", "row", guarded=True),
    Kind("joint open", "lost voltage", "cell", guarded=True),  # without a diode no current is left
    Kind("weak cell", "weak cell", "cell", 0.008, 0.97),  # share of the light
    Kind("cracked cell", "weak cell", "cell", 0.008, 0.97),  # of its area: what is left also resists more
    Kind("resistance", "added resistance", "cell", 0.004, 1.0),  # of the panel's Voc / Isc
    Kind("shunt", "shunted cell", "cell", 0.2, 150.0),  # of a cell's Voc / Isc
    Kind("dimmed", "dimmed", "panel", 0.015, 0.75),  # share of the light
    Kind("string open", "open string", "string"),
)


def sought(kind: Kind) -> Kind:
    """As what its place is looked for: a crack as a shade that takes as much light, in the same cell."""
    return next(each for each in KINDS if each.key == "weak cell") if kind.key == "cracked cell" else kind


@dataclass(frozen=True, slots=True)
class Scale:
    """What strengths are told in."""

    panel_ohm: float  #: Voc / Isc of the whole panel
    cell_ohm: float  #: of one cell


def broken(network: Network, kind: Kind, strength: float, place: Place | None, scale: Scale) -> Network:
    """The panel with that wrong in that place. `dimmed` is not of the network, but of the light on it."""
    if kind.key == "cell gone":
        assert isinstance(place, CellAt)
        return _without(network, place)
    damage = _damage(kind.key, strength, scale)
    assert place is not None
    return damaged(network, Fault(damage, place))


def _damage(key: Key, strength: float, scale: Scale) -> Damage:
    match key:
        case "cell turned":
            return CellTurned()
        case "bypass shorted":
            return DiodeShorted()
        case "bypass turned":
            return DiodeTurned()
        case "weak cell":
            return Shaded(strength)
        case "cracked cell":
            return Cracked(strength)
        case "resistance":
            return JointCold(strength * scale.panel_ohm)
        case "joint open":
            return JointOpen()
        case "shunt":
            return Shunted(strength * scale.cell_ohm)
        case "string open":
            return StringOpen()
    raise ValueError(f"{key} is nothing that is wrong in one place of a circuit")


def _without(network: Network, place: CellAt) -> Network:
    """The panel with a cell bridged: left out, or shorted through."""
    row, cell = within(network, place)
    string = network.strings[place.string]
    there = string.substrings[row]
    if len(there.cells) == 1:
        return damaged(network, Fault(Shunted(1e-3), place))
    left = replace(
        there,
        cells=there.cells[:cell] + there.cells[cell + 1 :],
        joints_ohm=there.joints_ohm[:cell] + there.joints_ohm[cell + 1 :],
        turned=tuple(k - (k > cell) for k in there.turned if k != cell),
    )
    rows = (*string.substrings[:row], left, *string.substrings[row + 1 :])
    strings = list(network.strings)
    strings[place.string] = replace(string, substrings=rows)
    return replace(network, strings=tuple(strings))


def sites(network: Network, kind: Kind) -> tuple[Place | None, ...]:
    """One place of each sort that the panel's curve could tell apart: rows of unlike length or diode.

    Cells of a row are taken to be alike: the middle one stands for all.
    """
    if kind.site == "panel":
        return (None,)
    if kind.site == "string":
        return (StringAt(0),) if len(network.strings) > 1 else ()
    seen: dict[tuple[object, ...], Place] = {}
    for s, k in _rows(network):
        place = _in_row(network, kind, (s, k), 0)
        if place is not None:
            seen.setdefault(_sort_of(network, (s, k)), place)
    return tuple(seen.values())


def sites_of_two(network: Network, one: Kind, other: Kind) -> tuple[tuple[Place | None, Place | None], ...]:
    """Pairs of places of each sort: in one row, in two rows of a string, in two strings."""
    if "panel" in (one.site, other.site) or "string" in (one.site, other.site):
        return tuple((a, b) for a in sites(network, one) for b in sites(network, other))
    seen: dict[tuple[object, ...], tuple[Place | None, Place | None]] = {}
    for first in _rows(network):
        for second in _rows(network):
            a, b = _in_row(network, one, first, 0), _in_row(network, other, second, 1)
            if a is None or b is None or a == b:
                continue
            sort = (
                _sort_of(network, first),
                _sort_of(network, second),
                first == second,
                first[0] == second[0],
            )
            seen.setdefault(sort, (a, b))
    return tuple(seen.values())


def alike_places(network: Network, kind: Kind, place: Place | None) -> tuple[Place, ...]:
    """All places at which the kind would look the same in the panel's curve."""
    if place is None:
        return ()
    if isinstance(place, StringAt):
        return tuple(StringAt(s) for s in range(len(network.strings)))
    row = (place.string, place.substring if isinstance(place, DiodeAt) else within(network, place)[0])
    sort = _sort_of(network, row)
    rows = [each for each in _rows(network) if _sort_of(network, each) == sort]
    if kind.site == "row":
        return tuple(DiodeAt(s, k) for s, k in rows)
    return tuple(CellAt(s, number) for s, k in rows for number in _numbers(network, s, k))


def _numbers(network: Network, s: int, k: int) -> range:
    """Of a row's cells."""
    rows = network.strings[s].substrings
    first = 1 + sum(len(each.cells) for each in rows[:k])
    return range(first, first + len(rows[k].cells))


def _rows(network: Network) -> list[tuple[int, int]]:
    """String and substring of every row."""
    return [(s, k) for s, string in enumerate(network.strings) for k in range(len(string.substrings))]


def _in_row(network: Network, kind: Kind, row: tuple[int, int], beside: int) -> Place | None:
    """A place of the kind's sort in a row, so many cells from the middle; None where there is none."""
    s, k = row
    rows = network.strings[s].substrings
    if kind.guarded and rows[k].bypass is None:
        return None
    if kind.site == "row":
        return DiodeAt(s, k)
    size, first = len(rows[k].cells), 1 + sum(len(each.cells) for each in rows[:k])
    at = size // 2 + beside
    return CellAt(s, first + at) if at < size else None


def _sort_of(network: Network, row: tuple[int, int]) -> tuple[object, ...]:
    """What tells a row from another, for the panel's curve."""
    rows = network.strings[row[0]].substrings
    there = rows[row[1]]
    return (len(there.cells), there.bypass, sum(len(each.cells) for each in rows))
