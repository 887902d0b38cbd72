"""The parts list: what one panel takes, what the whole order buys, and what that costs.

Every line tells the net need of one panel, the share lost at the bench, and what the shop sells: whole
cells, whole bars, whole cartridges, metres, a tenth of a kilogram. The order is bought at once, so a
remnant of one panel serves the next. Shares lost are common practice without a source unless a line says
otherwise, and stand in one table here.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from panewright.price.money import cents, up_to

Group = Literal[
    "cells", "ribbon", "glass", "frame", "seal", "electrical", "closing", "consumables", "mounting", "crate"
]
GROUPS: tuple[Group, ...] = (
    "cells",
    "ribbon",
    "glass",
    "frame",
    "seal",
    "electrical",
    "closing",
    "consumables",
    "mounting",
    "crate",
)

STEPS = {  # the smallest amount that is sold
    "each": Decimal(1),
    "bar": Decimal(1),
    "cartridge": Decimal(1),
    "metre": Decimal(1),
    "square metre": Decimal("0.01"),
    "kilogram": Decimal("0.1"),
    "litre": Decimal("0.1"),
}
PIECES = frozenset({"each", "bar", "cartridge"})


@dataclass(frozen=True, slots=True)
class Need:
    """What one panel takes of one part, before anything is lost."""

    group: Group
    name: str
    one: Decimal  #: for one panel, in `sold_by`
    sold_by: str
    price: Decimal | None  #: for one `sold_by`; None where the shelf has no such part
    waste: Decimal = Decimal(0)  #: share lost at the bench
    size: str = ""  #: such as the sides of a pane
    mass_kg: float = 0.0  #: what of it stays in one finished panel
    buy: Decimal | None = None  #: for the whole order, where a rule other than the share decides
    source: str = ""
    use: str = ""  #: what it is for, by which steps ask for it
    per_crate: Decimal | None = None  #: one crate takes, of which `one` is a panel's share
    shelf_name: str = ""  #: by which the shelf sells it, where its own name tells its thickness too
    once: Decimal = Decimal(0)  #: besides, for the whole order, or for each box of a kit
    sent_kg: float = 0.0  #: of `one`, where it goes along and no panel's mass counts it
    lot: Decimal = Decimal(0)  #: the least that is sold of it, where it is another than of its measure


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the parts list."""

    group: Group
    name: str
    size: str
    sold_by: str
    one: Decimal  #: one panel takes, nothing lost
    waste: Decimal  #: share lost
    buy: Decimal  #: to buy for the whole order
    price: Decimal | None  #: for one `sold_by`
    cost: Decimal | None  #: of the whole order
    mass_kg: float  #: in one finished panel
    source: str
    use: str = ""
    per_crate: Decimal | None = None  #: one crate takes; None of what goes into panels
    once: Decimal = Decimal(0)  #: besides, for the whole order, or for each box of a kit
    sent_kg: float = 0.0  #: of `one`, where it goes along and no panel's mass counts it


def bill(needs: tuple[Need, ...], panels: int) -> tuple[Line, ...]:
    """Lines of the parts list in the order of the groups."""
    lines = [line(need, panels) for need in needs if need.one > 0]
    return tuple(sorted(lines, key=lambda made: GROUPS.index(made.group)))


def line(need: Need, panels: int) -> Line:
    """One need as a line: raised to what the shop sells, and priced.

    >>> made = line(Need("ribbon", "2 x 0.15", Decimal("11.2"), "metre", Decimal("0.10"), Decimal("0.03")), 3)
    >>> made.buy, made.cost
    (Decimal('35'), Decimal('3.50'))
    """
    step = STEPS.get(need.sold_by, Decimal(1))
    gross = need.one * (1 + need.waste)
    buy = up_to(gross * panels + need.once, step) if need.buy is None else need.buy
    return Line(
        need.group,
        need.name,
        need.size,
        need.sold_by,
        need.one,
        need.waste,
        buy,
        need.price,
        _cost(buy, need.price),
        need.mass_kg,
        need.source,
        need.use,
        need.per_crate,
        need.once,
        need.sent_kg,
    )


def _cost(quantity: Decimal, price: Decimal | None) -> Decimal | None:
    return None if price is None else cents(quantity * price)


def total(lines: tuple[Line, ...]) -> Decimal:
    """What the lines with a price cost for the whole order."""
    return sum((made.cost for made in lines if made.cost is not None), Decimal(0))
