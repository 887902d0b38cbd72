"""A lot scanned at the bench: whether it is the one that is due, and what it makes of the panel.

A doubt is told before the lot goes in, and a hand may set it aside: a shop knows what it does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.stores.lots import Lot, LotVersion
    from panewright.pack.steps.steps import BenchStep
    from panewright.panel.happened import Happened

_KEYS = {
    "ribbon": ("parts.tab", "parts.bus"),
    "silicone": ("parts.sealant",),
    "glass": ("parts.glass",),
    "rail": ("parts.rail",),
    "diodes": ("parts.bypass",),
    "encapsulant": ("parts.pour",),
    "film": ("parts.film",),
    "sheet": ("parts.back",),
}


@dataclass(frozen=True, slots=True)
class Asked:
    """A lot that is asked about before it goes in."""

    mark: str
    kind: str
    doubts: tuple[str, ...]
    step: str = ""  #: at which it was scanned


@dataclass(frozen=True, slots=True)
class GoesIn:
    """A kind of material of a step, and the lots of it that are in."""

    kind: str
    lots: tuple[str, ...]


def asked(made: Made, found: LotVersion, step: str, today: date) -> Asked | None:
    """What to ask before this lot goes in at that step; None where it is as it should be."""
    doubts = tuple(_doubts(made, found.lot, step, today))
    return Asked(found.mark, found.lot.kind, doubts, step) if doubts else None


def _doubts(made: Made, lot: Lot, step: str, today: date) -> Iterator[str]:
    if lot.expires is not None and lot.expires < today:
        yield (
            f"It is past its day: it was good until {lot.expires}. "
            "Take a fresh one. Old silicone, flux and glue may never hold."
        )
    yield from _not_due(made, lot, step)
    if planned := _other_part(made, lot):
        yield f"The design has {planned}; this lot is {lot.name}. Tell it as another part too."


def _not_due(made: Made, lot: Lot, step: str) -> Iterator[str]:
    """What is wrong with its kind, at this step or on this panel at all; no step is the whole panel."""
    from panewright import desk
    from panewright.pack.steps.material import KINDS, kind_of

    kind, steps = kind_of(lot.kind), desk.steps(made)
    here = next((each for each in steps if each.key == step), None)
    at = [each for each in steps if kind in each.material]
    if here is not None and kind in here.material:
        return
    if at and here is not None:
        yield f"It is not due here but at {_listed(at)}; this is {here.step.title}."
    elif not at and (here is not None or kind in KINDS):
        yield f"No step of this panel asks for {lot.kind}."


def _listed(steps: list[BenchStep]) -> str:
    from panewright.pack.bench import listed

    return listed([each.step.title for each in steps])


def _other_part(made: Made, lot: Lot) -> str:
    """What the design has, where the lot is another part of the shelf; empty where nobody can say."""
    from panewright.pack.steps.material import kind_of
    from panewright.panel.built import part_names, planned_part

    shelf, kind, name = own_shelf(), kind_of(lot.kind), _plain(lot.name)
    if kind == "cells":
        planned, known = [made.design.order.cell.name], [row.name for row in shelf.cells]
    else:
        keys = _KEYS.get(kind, ())
        planned = [planned_part(made.design, key) for key in keys]
        known = [each for key in keys for each in part_names(shelf, key)]
    strange = name in map(_plain, known) and name not in map(_plain, planned)
    return " and ".join(planned) if strange else ""


def _plain(name: str) -> str:
    return "".join(name.lower().replace("×", "x").split())


def put(told: Happened, found: LotVersion, cells: int) -> Happened:
    """The lot put in: cells at every place where none lies yet, other material once."""
    from panewright.pack.steps.material import kind_of
    from panewright.panel.happened import Batch, PlacedFrom

    if kind_of(found.lot.kind) != "cells":
        if found.mark in {each.lot for each in told.batches}:
            raise _mistake("It is in already.", "Nothing was changed.", found.mark)
        return replace(told, batches=(*told.batches, Batch(found.lot.kind, found.mark)))
    taken = {each.place for each in told.cells}
    free = [place for place in range(1, cells + 1) if place not in taken]
    if not free:
        cure = "Take some out first, or write its places, as built."
        raise _mistake("Every place has its cell already.", cure, found.mark)
    laid = [*told.cells, *(PlacedFrom(place, found.mark) for place in free)]
    return replace(told, cells=tuple(sorted(laid, key=lambda each: each.place)))


def goes_in(step: BenchStep, told: Happened | None) -> tuple[GoesIn, ...]:
    """What a step takes, and which lots of it are in."""
    from panewright.pack.steps.material import kind_of

    inside: dict[str, list[str]] = {}
    for each in told.batches if told else ():
        inside.setdefault(kind_of(each.kind), []).append(each.lot)
    for cell in told.cells if told else ():
        inside.setdefault("cells", []).append(cell.lot)
    return tuple(GoesIn(kind, tuple(dict.fromkeys(inside.get(kind, ())))) for kind in step.material)


def _mistake(reason: str, cure: str, mark: str) -> RecordError:
    return RecordError([Problem(reason, cure, key="lot", value=mark[:40])])
