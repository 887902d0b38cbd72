"""A panel with something wrong: each fault turns a network into another one.

What is wrong with a cell's inside stands in `cell.damage`. Here is what is wrong with the way it is joined:

cold joint     a resistance more on the cell's plus side, the same at all currents, and steady
open joint     no current through the cells of that substring; a bypass diode beside them still passes
turned cell    the cell soldered in the wrong way round: the string drives it backward past its own Voc, and
               its light works against the string
missing diode  nothing beside the substring. A diode that has failed open is the same to the circuit
shorted diode  a few milliohm beside the substring
turned diode   conducts while its cells work, and holds them at its own forward drop
open string    no current through the string

Faults on the same cell add up in the order given. Turning round what is turned round puts it right again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TypeVar

from panewright.cell.damage import Cracked, Exchanged, OfCell, RibbonOff, Shaded, Shunted, Soiled
from panewright.circuit.network import Bridge, Network, Substring, Turned
from panewright.circuit.place import CellAt, DiodeAt, Place, StringAt, string_at, substring_of, within
from panewright.enclosure.bypass import Bypass

T = TypeVar("T")

_INSIDE = (Cracked, Shaded, Soiled, Shunted, Exchanged, RibbonOff)


@dataclass(frozen=True, slots=True)
class JointCold:
    """A joint that resists more than it should."""

    ohm: float  #: on top of what the joint has

    def __post_init__(self) -> None:
        if not 0 <= self.ohm < inf:
            raise ValueError(f"a cold joint adds 0 ohm or more, got {self.ohm:g}: an open one is JointOpen()")


@dataclass(frozen=True, slots=True)
class JointOpen:
    """A joint that has come apart, all ribbons of it."""


@dataclass(frozen=True, slots=True)
class CellTurned:
    """A cell soldered in the wrong way round."""


@dataclass(frozen=True, slots=True)
class DiodeMissing:
    """A bypass diode that was never put in."""


@dataclass(frozen=True, slots=True)
class DiodeOpen:
    """A bypass diode that has failed open."""


@dataclass(frozen=True, slots=True)
class DiodeShorted:
    """A bypass diode that has failed short."""

    ohm: float = 0.005  #: with its legs; a guess without source

    def __post_init__(self) -> None:
        if not 0 < self.ohm < inf:
            raise ValueError(
                f"a shorted diode has more than 0 ohm, got {self.ohm:g}: write 0.001 for next to none"
            )


@dataclass(frozen=True, slots=True)
class DiodeTurned:
    """A bypass diode soldered in the wrong way round."""


@dataclass(frozen=True, slots=True)
class StringOpen:
    """A string that is broken somewhere outside its bypass diodes."""


OfJoint = JointCold | JointOpen | CellTurned
OfDiode = DiodeMissing | DiodeOpen | DiodeShorted | DiodeTurned
Damage = OfCell | OfJoint | OfDiode | StringOpen
Beside = Bypass | Turned | Bridge


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong, and where."""

    damage: Damage
    place: Place

    def __post_init__(self) -> None:
        wanted = _place_of(self.damage)
        if not isinstance(self.place, wanted):
            raise ValueError(f"{self.damage} lies at a {wanted.__name__}, got {self.place}")


def damaged(network: Network, *faults: Fault) -> Network:
    """The panel with all these faults, taken one after the other."""
    for fault in faults:
        network = _with(network, fault.damage, fault.place)
    return network


def _place_of(damage: Damage) -> type[Place]:
    if isinstance(damage, StringOpen):
        return StringAt
    return DiodeAt if isinstance(damage, OfDiode) else CellAt


def _with(network: Network, damage: Damage, place: Place) -> Network:
    string = string_at(network, place)
    match place:
        case StringAt():
            changed = replace(string, tail_ohm=inf)
        case DiodeAt():
            k = substring_of(network, place)
            substring = _beside(string.substrings[k], damage, place)
            changed = replace(string, substrings=_put(string.substrings, k, substring))
        case CellAt():
            k, cell = within(network, place)
            substring = _along(string.substrings[k], damage, cell)
            changed = replace(string, substrings=_put(string.substrings, k, substring))
    return replace(network, strings=_put(network.strings, place.string, changed))


def _along(substring: Substring, damage: Damage, cell: int) -> Substring:
    """A substring in which one of its cells, or the joint of one, is changed."""
    if isinstance(damage, _INSIDE):
        substring = replace(substring, cells=_put(substring.cells, cell, damage.of(substring.cells[cell])))
    match damage:
        case JointCold(ohm):
            return _resisting(substring, cell, ohm)
        case RibbonOff():
            return _resisting(substring, cell, damage.joint_ohm)
        case JointOpen():
            return _resisting(substring, cell, inf)
        case CellTurned():
            return replace(substring, turned=tuple(sorted({*substring.turned} ^ {cell})))
    return substring


def _resisting(substring: Substring, cell: int, ohm: float) -> Substring:
    joints = substring.joints_ohm
    return replace(substring, joints_ohm=_put(joints, cell, joints[cell] + ohm))


def _beside(substring: Substring, damage: Damage, place: DiodeAt) -> Substring:
    """A substring whose bypass diode is changed."""
    there = substring.bypass
    if there is None:
        raise ValueError(f"{damage} at {place}: no bypass diode lies there; name a substring that has one")
    match damage:
        case DiodeShorted(ohm):
            return replace(substring, bypass=Bridge(ohm))
        case DiodeTurned():
            return replace(substring, bypass=_turned(there, place))
    return replace(substring, bypass=None)


def _turned(there: Beside, place: DiodeAt) -> Bypass | Turned:
    if isinstance(there, Bridge):
        raise ValueError(f"{place}: a shorted diode lies there; turned round it is the same, so leave it")
    return there.diode if isinstance(there, Turned) else Turned(there)


def _put(row: tuple[T, ...], k: int, new: T) -> tuple[T, ...]:
    return (*row[:k], new, *row[k + 1 :])
