"""On which terms an order is sold, what of it the customer does, and how many hands build it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

BREAKS = (1, 5, 10, 25)  #: quantities that are priced where the order names none
MOST_PANELS, MOST_BREAKS = 1000, 8
VALID_DAYS = 30  #: common practice, no source
Brought = Literal["cells", "ribbon", "glass", "frame", "seal", "electrical", "closing", "consumables"]
BROUGHT: tuple[Brought, ...] = (
    *("cells", "ribbon", "glass", "frame"),
    *("seal", "electrical", "closing", "consumables"),
)


@dataclass(frozen=True, slots=True)
class Tax:
    """A tax by its name in that country, and whether prices are told with it."""

    name: str
    rate: Decimal  #: share on top of the price without it
    included: bool = False


@dataclass(frozen=True, slots=True)
class MarketPrice:
    """What a watt of ready-made panel costs, as the shop read it somewhere."""

    per_watt: Decimal  #: in the shelf's currency
    source: str
    day: date  #: on which it was read


@dataclass(frozen=True, slots=True)
class Terms:
    """What stands in an offer beside the price."""

    breaks: tuple[int, ...] = BREAKS
    tax: Tax | None = None
    valid_days: int = VALID_DAYS
    deposit: Decimal = Decimal(0)  #: share of what is to pay
    payment: str = ""
    conditions: str = ""  #: in the maker's own words
    carriage: Decimal | None = None  #: of the whole order, without tax
    market: MarketPrice | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    """Whether panels are sold as kits that the customer finishes, and which parts the customer brings."""

    sold_as: Literal["finished panel", "kit"] = "finished panel"
    brings: tuple[Brought, ...] = ()

    @property
    def is_kit(self) -> bool:
        """Whether the customer builds it."""
        return self.sold_as == "kit"


@dataclass(frozen=True, slots=True)
class Hands:
    """Who works how long, and how much can lie still at once."""

    people: int = 1
    day_h: float = 8.0
    days_a_week: int = 5
    cure_places: int = 2  #: frames that may lie flat and cure
    forms: int = 1  #: templates to string on
    presses: int = 1  #: for film


@dataclass(frozen=True, slots=True)
class Unfit:
    """Why words are no list or no day, and the cure."""

    reason: str
    cure: str


def quantities(words: str) -> tuple[int, ...] | Unfit:
    """Numbers of panels out of a list, in order, each once.

    >>> quantities("10, 1, 5, 5")
    (1, 5, 10)
    """
    parts = [part.strip() for part in words.split(",")]
    if not all(part.isascii() and part.isdigit() and 1 <= int(part[:5]) <= MOST_PANELS for part in parts):
        return Unfit("A quantity is a whole number from 1 to 1000.", 'Write them as in breaks = "1, 5, 10".')
    found = tuple(sorted({int(part) for part in parts}))
    if len(found) > MOST_BREAKS:
        return Unfit(f"These are {len(found)} quantities.", f"Name {MOST_BREAKS} at most.")
    return found


def brought(words: str) -> tuple[Brought, ...] | Unfit:
    """Groups of parts out of a list, in the order of the parts list.

    >>> brought("glass, cells")
    ('cells', 'glass')
    """
    parts = {part.strip().lower() for part in words.split(",") if part.strip()}
    if unknown := sorted(parts - set(BROUGHT)):
        cure = f"Write groups of the parts list: {', '.join(BROUGHT)}."
        return Unfit(f"Nobody knows what {unknown[0]} is.", cure)
    return tuple(group for group in BROUGHT if group in parts)


def day_of(words: str) -> date | Unfit:
    """A day written year first.

    >>> day_of("2026-11-02")
    datetime.date(2026, 11, 2)
    """
    try:
        return date.fromisoformat(words)
    except ValueError:
        return Unfit("This is no day.", 'Write year, month and day, such as "2026-11-02".')
