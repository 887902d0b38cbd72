"""How finished panels travel."""

from __future__ import annotations

from typing import cast

from panewright.order.answers import Answers
from panewright.order.order import Carriage, Carried, Fragile, Handling, Lay, Parts
from panewright.order.sections.parts import part
from panewright.shelf import carriage as shelf_parts
from panewright.shelf.carriage import CarrierKind
from panewright.shelf.shelf import Shelf


def read_carriage(answers: Answers, shelf: Shelf, parts: Parts) -> Carriage:
    """The [carriage] section; glass stands on its edge."""
    glass = parts.front == "glass"
    edge = "glass bears shocks in its plane better than across it", "on edge"
    why, lay = edge if glass else ("plastic sags where it stands on its edge for long", "flat")
    answers.assume("carriage.lay", lay, why)
    foam = part(answers, "carriage.foam", shelf.foams, shelf_parts.foam)
    return Carriage(
        by=cast(CarrierKind | None, answers.sound_word("carriage.by")),
        way=cast(Carried | None, answers.sound_word("carriage.way")),
        lay=cast(Lay, answers.word("carriage.lay")),
        most_panels=answers.sound_count("carriage.panels"),
        most_kg=answers.number("carriage.most_mass"),
        handling=cast(Handling, answers.word("carriage.handling")),
        drop_mm=answers.sound_number("carriage.drop_height"),
        fragility=cast(Fragile, answers.word("carriage.fragility")),
        foams=(foam,) if foam else tuple(row.part for row in shelf.foams),
        border=answers.word("carriage.border") == "yes",
        carriers=shelf.carriers,
    )
