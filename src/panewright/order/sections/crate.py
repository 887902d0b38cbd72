"""How finished panels travel."""

from __future__ import annotations

from typing import Literal, cast

from panewright.order.answers import Answers
from panewright.order.order import Carried, CrateWishes, Fragile, Handling, Lay, Parts
from panewright.order.sections.parts import part
from panewright.shelf import carriage as shelf_parts
from panewright.shelf.carriage import CarrierKind
from panewright.shelf.shelf import Shelf, Sundry


def read_crate(answers: Answers, shelf: Shelf, parts: Parts) -> CrateWishes:
    """The [crate] section; glass stands on its edge."""
    glass = parts.front == "glass"
    edge = "glass bears shocks in its plane better than across it", "on edge"
    why, lay = edge if glass else ("plastic sags where it stands on its edge for long", "flat")
    answers.assume("crate.lay", lay, why)
    foam = part(answers, "crate.foam", shelf.foams, shelf_parts.foam)
    return CrateWishes(
        by=cast(CarrierKind | Literal["collected"] | None, answers.sound_word("crate.by")),
        way=cast(Carried | None, answers.sound_word("crate.way")),
        lay=cast(Lay, answers.word("crate.lay")),
        most_panels=answers.sound_count("crate.panels"),
        most_kg=answers.number("crate.most_mass"),
        handling=cast(Handling, answers.word("crate.handling")),
        drop_mm=answers.sound_number("crate.drop_height"),
        fragility=cast(Fragile, answers.word("crate.fragility")),
        foams=(foam,) if foam else tuple(row.part for row in shelf.foams),
        border=answers.word("crate.border") == "yes",
        carriers=shelf.carriers,
        cartons=()
        if answers.sound_word("crate.carton") == "no"
        else tuple(row.part for row in shelf.cartons),
        wood=_wood(answers, shelf),
    )


def _wood(answers: Answers, shelf: Shelf) -> tuple[Sundry, ...]:
    """Plywood and battens of the order's measure, of all where the shop keeps none of it."""
    units = cast(Literal["metric", "us"], answers.word("order.units"))
    kept = (tuple(row for row in shelf.sundries if row.part.use == use) for use in ("plywood", "batten"))
    return tuple(row.part for rows in kept for row in shelf.in_measure(rows, units))
