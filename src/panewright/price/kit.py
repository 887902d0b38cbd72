"""A kit: what the shop puts into each box, which work it does, and what the customer brings.

Parts that the customer brings leave the price, not the drawings. Each box must be enough by itself, so what
is lost at the bench is added box by box, and pieces are rounded up in each.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.order.terms import Kit
from panewright.panel.design import Design
from panewright.price.bill import PIECES, STEPS, Line, Need
from panewright.price.breakage import cells_to_buy
from panewright.price.hours import Count
from panewright.price.money import up_to

LITRE_KG = 1.0  #: fluxes and encapsulants 0.8 to 1.1, data sheets (recalled)
SPARES = {  #: one more for so many that go in; common practice, no source
    **dict.fromkeys(
        ("screw", "tapping screw", "rivet", "stainless rivet", "bolt", "isolator", "board screw"), 10
    ),
    **dict.fromkeys(("corner", "bypass", "drain"), 0),
}

#: of each group, the work that the shop does before a kit leaves it; all other work is the customer's
SHOP_DOES: dict[Count, str] = {
    "orders": "",
    "kits": "",
    "rails": "frame",
    "holes": "frame",
    "seats cut back": "frame",
    "cut cells": "cells",
    "cells": "cells",
}


@dataclass(frozen=True, slots=True)
class Boxed:
    """One line of a packing list, for one box."""

    group: str
    name: str
    size: str
    amount: Decimal  #: goes in
    spare: Decimal  #: of that more than the drawings ask
    sold_by: str
    mass_kg: float | None  #: None where nobody knows it
    use: str = ""


def left(needs: tuple[Need, ...], kit: Kit) -> tuple[tuple[Need, ...], tuple[Need, ...]]:
    """Needs that the shop buys, and those that the customer brings."""
    ours = tuple(need for need in needs if need.group not in kit.brings)
    return ours, tuple(need for need in needs if need.group in kit.brings)


def as_kit(design: Design) -> Design:
    """The same design sold as a kit, whatever its order says."""
    kit = replace(design.order.kit, sold_as="kit")
    return replace(design, order=replace(design.order, kit=kit))


def in_boxes(needs: tuple[Need, ...], kit: Kit, panels: int) -> tuple[Need, ...]:
    """Needs of an order of kits: so many boxes, each enough by itself. Bars are cut for all together."""
    if not kit.is_kit:
        return needs
    return tuple(
        need if need.use == "rail" else replace(need, buy=amount_in_box(need) * panels) for need in needs
    )


def amount_in_box(need: Need) -> Decimal:
    """What of a need goes into one box, spares with it.

    >>> amount_in_box(Need("ribbon", "2 x 0.2", Decimal("23.4"), "metre", None, Decimal("0.03")))
    Decimal('25')
    """
    if need.use == "cell":
        return Decimal(cells_to_buy(int(need.one), float(need.waste)))
    gross = need.one * (1 + need.waste) + need.once
    more = SPARES.get(need.use, 0)
    if more and need.sold_by in PIECES:
        gross = max(gross, need.one + up_to(need.one / more, Decimal(1)))
    return up_to(gross, STEPS.get(need.sold_by, Decimal(1)))


def work_of_shop(counts: dict[Count, Decimal], kit: Kit) -> dict[Count, Decimal]:
    """The counts of the work that is left to the shop."""
    if not kit.is_kit:
        return counts
    return {name: count for name, count in counts.items() if _ours(name, kit)}


def work_of_customer(counts: dict[Count, Decimal], kit: Kit) -> dict[Count, Decimal]:
    """The counts of the work that the builder of a kit does."""
    if not kit.is_kit:
        return {}
    return {name: count for name, count in counts.items() if not _ours(name, kit)}


def _ours(name: Count, kit: Kit) -> bool:
    group = SHOP_DOES.get(name)
    return group is not None and group not in kit.brings


def steps_of_shop(kit: Kit) -> frozenset[str]:
    """Keys of the steps that are done when a kit arrives."""
    if not kit.is_kit or "frame" in kit.brings:
        return frozenset()
    return frozenset({"cut-rails", "drill-rails"})


@dataclass(frozen=True, slots=True)
class Sawn:
    """Rails of one length, sawn and drilled, for one box."""

    name: str
    size: str  #: length in words
    number: int
    share: float  #: of the mass of all rails


def packing(lines: tuple[Line, ...], rails: tuple[Sawn, ...]) -> tuple[Boxed, ...]:
    """What goes into one box; `rails` stand in place of the bars that they are sawn from."""
    return tuple(boxed for line in lines for boxed in _boxed(line, rails))


def _boxed(line: Line, rails: tuple[Sawn, ...]) -> Iterator[Boxed]:
    if line.use == "rail":
        for rail in rails:
            name, mass = f"{rail.name}, {line.name}", line.mass_kg * rail.share
            yield Boxed(line.group, name, rail.size, Decimal(rail.number), Decimal(0), "each", mass, "rail")
        return
    if line.use == "sheet":
        pane = Decimal(1)  # sold by the square metre, packed by the piece
        yield Boxed(line.group, line.name, line.size, pane, Decimal(0), "each", line.mass_kg, line.use)
        return
    need = Need(line.group, line.name, line.one, line.sold_by, None, line.waste, use=line.use, once=line.once)
    amount = amount_in_box(need)
    spare = (amount - line.one - line.once).quantize(Decimal("0.01")).normalize() + 0
    yield Boxed(
        line.group, line.name, line.size, amount, spare, line.sold_by, _mass_kg(line, amount), line.use
    )


def _mass_kg(line: Line, amount: Decimal) -> float | None:
    """Of what goes in: by its own measure, or as what stays in a panel weighs, or as what is sent along."""
    if line.sold_by == "kilogram":
        return float(amount)
    if line.sold_by == "litre":
        return float(amount) * LITRE_KG
    one_kg = line.mass_kg or line.sent_kg
    return float(amount / line.one) * one_kg if one_kg > 0 and line.one > 0 else None


def total_kg(boxed: tuple[Boxed, ...]) -> float:
    """What is known of the mass of a box's content. [kg]"""
    return sum(each.mass_kg for each in boxed if each.mass_kg is not None)
