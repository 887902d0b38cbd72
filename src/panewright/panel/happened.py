"""What really happened to one serial, as a bench tells it, held against its design before it is believed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf
from typing import Literal, get_args

from panewright.errors import Problem
from panewright.panel.design import Design
from panewright.panel.electric.own import OtherCell

Kind = Literal["crack", "cold joint", "gap", "glue line", "bite", "bracket", "other"]
Soldered = Literal["tab", "bus", "lead"]

KINDS: tuple[Kind, ...] = get_args(Kind)
_SIZES = ("gap", "glue line", "bite")


@dataclass(frozen=True, slots=True)
class PlacedFrom:
    """Which cell lies at a place."""

    place: int  #: the cell's number on the drawings
    lot: str
    mark: str = ""  #: what is written on the cell, where it has a name of its own
    own: OtherCell | None = None  #: its own readings or shares, where it was measured


@dataclass(frozen=True, slots=True)
class Redone:
    """A joint that was soldered again."""

    kind: Soldered
    after_cell: int  #: between this cell and the next; 0 at the minus end
    times: int = 1
    note: str = ""


@dataclass(frozen=True, slots=True)
class Substitution:
    """Another part than the design's."""

    key: str  #: as in the order, 'parts.glass'
    really: str  #: the part's name on the shelf
    reason: str
    planned: str = ""  #: the design's; filled in where it is left out


@dataclass(frozen=True, slots=True)
class Deviation:
    """Something that is not as designed.

    `place` is the cell of a crack or a cold joint, and the bracket of a long rail, counted from its left end.
    `amount` is the share of the cell that is cut off, the ohms a joint has too many, or a size in mm as it
    was measured: a bracket's place from the left end of its rail, alike on both long rails.
    """

    what: Kind
    place: int = 0
    amount: float = 0.0
    note: str = ""


@dataclass(frozen=True, slots=True)
class Batch:
    """What went in from one lot."""

    kind: str  #: silicone, flux, ribbon ...
    lot: str
    amount: float = 0.0
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Happened:
    """All of it, of one serial."""

    serial: str
    cells: tuple[PlacedFrom, ...] = ()
    joints: tuple[Redone, ...] = ()
    substitutions: tuple[Substitution, ...] = ()
    deviations: tuple[Deviation, ...] = ()
    batches: tuple[Batch, ...] = ()


def problems(design: Design, happened: Happened) -> Iterator[Problem]:
    """What cannot be so on this design."""
    if happened.serial not in design.label.serials:
        listed = design.label.serials
        cure = f"This order's serials are {listed[0]} to {listed[-1]}."
        yield Problem("The order has no such serial.", cure, key="serial", value=happened.serial)
    yield from _cells(design, happened)
    for n, redone in enumerate(happened.joints, 1):
        if not 0 <= redone.after_cell <= len(design.layup.cells) or redone.times < 1:
            cure = f"Name the cell before the joint, 0 to {len(design.layup.cells)}, and once or more."
            yield Problem("There is no such joint.", cure, key=f"joint {n}", value=str(redone.after_cell))
    for n, deviation in enumerate(happened.deviations, 1):
        if told := _wrong(design, deviation):
            value = f"{deviation.what}, {deviation.place}, {deviation.amount:g}"
            yield Problem(*told, key=f"deviation {n}", value=value)


def _cells(design: Design, happened: Happened) -> Iterator[Problem]:
    count = len(design.layup.cells)
    places = [cell.place for cell in happened.cells]
    marks = [(cell.lot, cell.mark) for cell in happened.cells if cell.mark]
    for cell in happened.cells:
        if not 1 <= cell.place <= count:
            cure = f"The places are 1 to {count}."
            yield Problem("The panel has no such place.", cure, key="cell", value=str(cell.place))
    for place in sorted({place for place in places if places.count(place) > 1}):
        yield Problem("Two cells lie there.", "Keep the one that does.", key="cell", value=str(place))
    for lot, mark in sorted({each for each in marks if marks.count(each) > 1}):
        yield Problem("One cell lies in two places.", "Keep the one.", key=f"mark of lot {lot}", value=mark)


def _wrong(design: Design, deviation: Deviation) -> tuple[str, str] | None:
    """Reason and cure of a deviation that cannot be."""
    cells, brackets = len(design.layup.cells), design.structural.brackets.count
    what, place, amount = deviation.what, deviation.place, deviation.amount
    if what not in KINDS:
        return "There is no such deviation.", f"It is one of {', '.join(KINDS)}."
    if what in ("crack", "cold joint") and not 1 <= place <= cells:
        return "The panel has no such cell.", f"The cells are 1 to {cells}."
    if what == "crack" and not 0 <= amount <= 1:
        return "A crack cuts off a share of a cell.", "Write 0.1 for a tenth."
    if what == "cold joint" and not 0 <= amount <= inf:
        return "A joint has no less than no resistance.", "Write ohms, 0 or more."
    if what in _SIZES and not 0 < amount < inf:
        return "A size is more than nothing.", "Write what was measured, in mm."
    long_mm = design.structural.rail_proof.length_mm
    if what == "bracket" and not (1 <= place <= brackets and 0 < amount < long_mm):
        return (
            "There is no such bracket on its rail.",
            f"Name 1 to {brackets}, and a place up to {long_mm:.0f} mm.",
        )
    return None
