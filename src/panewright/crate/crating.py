"""How many panels to a crate, which crate, which carrier: every sensible number is tried, the cheapest taken.

Panels are shared out evenly: crates differ by one panel at most, are built alike, and where one is missing
foam of its size stands in its place. A crate that breaks a rule, or that no carrier takes, stands behind
all that do. What is rugged and has no pane goes in cartons, where one keeps its rules and a parcel carrier
takes it. Of the rest the least carriage counts, then the fewest crates. What wood, foam and an hour of sawing
cost is not in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from panewright.check import Check
from panewright.crate.ask import Ask
from panewright.crate.box import Crate, make_crate
from panewright.crate.carrier import Offer, carrier_check, offer
from panewright.crate.carton import RUGGED_G, Carton
from panewright.crate.carton_proof import carton_checks
from panewright.crate.cushion import Cushion, Side, choose_cushion
from panewright.crate.drop import Falls, falls
from panewright.crate.pads import bearing, whole_pads
from panewright.crate.proof import crate_checks
from panewright.crate.stack import Lay, Stack
from panewright.crate.timber import YARDS
from panewright.order.order import Carried
from panewright.shelf.carton import CartonBoard

Shell = Literal["crate", "carton"]

# all common practice, no source
MOST: dict[Lay, int] = {"on edge": 24, "flat": 15}  #: panels on a pallet
PALLET_KG = 600.0  #: of panels on a pallet that a hand pallet truck still moves with ease
OF_PANELS = 0.75  #: of what may be lifted, the rest is the crate


@dataclass(frozen=True, slots=True)
class Way:
    """One way to send the order: crates or cartons alike, and the carrier that takes them for least."""

    crate: Crate | Carton
    crates: int
    falls: Falls
    offers: tuple[Offer, ...]
    taken: Offer | None  #: None where no carrier takes it
    checks: tuple[Check, ...]

    @property
    def shell(self) -> Shell:
        """What it travels in."""
        return "carton" if isinstance(self.crate, Carton) else "crate"

    @property
    def panels(self) -> int:
        """In the fullest crate."""
        return self.crate.stack.panels

    @property
    def goods(self) -> str:
        """What it holds: 'panel' or 'kit'."""
        return self.crate.stack.panel.goods

    @property
    def price(self) -> Decimal | None:
        """Carriage of all crates."""
        return self.taken.price * self.crates if self.taken and self.taken.price is not None else None

    @property
    def fails(self) -> tuple[Check, ...]:
        """Rules it breaks."""
        return tuple(check for check in self.checks if not check.passed)


def most_in_crate(mass_kg: float, lay: Lay, way: Carried, most_kg: float) -> int:
    """Panels that a crate may hold by their mass; one at least.

    >>> most_in_crate(2.0, "on edge", "by hand", 30.0), most_in_crate(30.0, "on edge", "pallet", 30.0)
    (11, 20)
    """
    if mass_kg <= 0:
        raise ValueError(f"a panel has a mass, got {mass_kg}")
    by_mass = (OF_PANELS * most_kg if way == "by hand" else PALLET_KG) / mass_kg
    return max(1, min(MOST[lay], math.floor(by_mass + 1e-9)))


def loads(panels: int, crates: int) -> tuple[tuple[int, int], ...]:
    """Panels to a crate and how many crates hold so many, the fullest first.

    >>> loads(11, 3), loads(12, 3)
    (((4, 2), (3, 1)), ((4, 3),))
    """
    if not 1 <= crates <= panels:
        raise ValueError(f"every crate holds a panel: {panels} panels, {crates} crates")
    few, more = divmod(panels, crates)
    return tuple((held, count) for held, count in ((few + 1, more), (few, crates - more)) if count)


def ways(ask: Ask) -> tuple[Way, ...]:
    """Every way that is tried, the best first."""
    found = [way for carried in _carried(ask) for way in _of(ask, carried)]
    if in_carton(ask):
        found += [
            carton_way(ask, board, crates) for board in ask.wish.cartons for crates in _counts(ask, "by hand")
        ]
    return tuple(sorted(found, key=lambda way: _rank(way, ask)))


def in_carton(ask: Ask) -> bool:
    """Whether a carton comes into question: rugged, without a pane, by hand."""
    rugged = ask.panel.goods == "kit" and not ask.panel.pane and ask.fragility.class_g >= RUGGED_G
    return rugged and ask.wish.way != "pallet" and ask.wish.by != "freight"


def _carried(ask: Ask) -> tuple[Carried, ...]:
    """Ways to move a crate that come into question."""
    if ask.wish.way:
        return (ask.wish.way,)
    hands = ask.panel.mass_kg <= OF_PANELS * ask.wish.most_kg
    if ask.wish.by == "parcel":
        return ("by hand",)
    return ("by hand", "pallet") if hands else ("pallet",)


def _of(ask: Ask, carried: Carried) -> Iterator[Way]:
    """One way for each number of panels to a crate that is not the same as another."""
    return (way(ask, carried, crates) for crates in _counts(ask, carried))


def _counts(ask: Ask, carried: Carried) -> list[int]:
    """Numbers of crates, each once, that hold from one panel to as many as may be."""
    most = most_in_crate(ask.panel.mass_kg, ask.wish.lay, carried, ask.wish.most_kg)
    most = min(most, ask.wish.most_panels or most, ask.panels)
    return sorted({math.ceil(ask.panels / held) for held in range(1, most + 1)})


def way(ask: Ask, carried: Carried, crates: int) -> Way:
    """So many crates of one kind, proved and offered to every carrier."""
    wish, by_hand, yard = ask.wish, carried == "by hand", YARDS[ask.units]
    stack = Stack(ask.panel, loads(ask.panels, crates)[0][0], wish.lay, yard.loose_mm)
    fall = falls(stack.panels * ask.panel.mass_kg, wish.handling, by_hand, wish.drop_mm)
    ply = tuple(each for each in wish.wood if each.use == "plywood")
    return _offered(ask, make_crate(yard, stack, _cushions(ask, stack, fall), by_hand, ply), crates, fall)


def carton_way(ask: Ask, board: CartonBoard, crates: int) -> Way:
    """So many cartons of one board, lying flat, for a parcel carrier."""
    stack = Stack(ask.panel, loads(ask.panels, crates)[0][0], "flat", board.thick_mm)
    fall = falls(stack.panels * ask.panel.mass_kg, ask.wish.handling, True, ask.wish.drop_mm)
    return _offered(ask, Carton(YARDS[ask.units], stack, _cushions(ask, stack, fall), board), crates, fall)


def _offered(ask: Ask, crate: Crate | Carton, crates: int, fall: Falls) -> Way:
    """Proved, and offered to every carrier that is asked; a carton to those of parcels."""
    wish, carton = ask.wish, isinstance(crate, Carton)
    kinds = ("parcel",) if carton else ("parcel", "freight")
    carriers = (each for each in wish.carriers if wish.by in (None, each.kind) and each.kind in kinds)
    offers = tuple(offer(each, crate, ask.units) for each in carriers)
    taken = min((each for each in offers if each.takes), key=lambda each: _dear(each, ask), default=None)
    sent = () if wish.by == "collected" else (carrier_check(offers, "carton" if carton else "crate"),)
    own = (
        carton_checks(crate, wish.most_kg) if isinstance(crate, Carton) else crate_checks(crate, wish.most_kg)
    )
    checks = (*own, *sent)
    return Way(crate, crates, fall, offers, taken, checks)


def _cushions(ask: Ask, stack: Stack, fall: Falls) -> tuple[Cushion, ...]:
    """Foam of each side; the fall on the base also counts for the lid."""
    sides: tuple[Side, ...] = ("face", "edge", "end")
    down: Side = "edge" if stack.lay == "on edge" else "face"
    yard, made = YARDS[ask.units], []
    for side in sides:
        height = fall.down_mm if side == down else fall.aside_mm
        bears = ask.fragility.face_g if side == "face" else ask.fragility.edge_g
        asked = bearing(stack, side, height, bears)
        made.append(choose_cushion(ask.wish.foams, asked, yard.foam_mm, whole_pads(yard, stack)))
    return tuple(made)


def _dear(each: Offer, ask: Ask) -> tuple[bool, bool, Decimal]:
    """Charges in the order's own currency first: others cannot be compared, nor those that must be asked."""
    foreign = each.price is not None and each.carrier.currency != ask.currency
    return each.price is None, foreign, each.price or Decimal(0)


def _rank(each: Way, ask: Ask) -> tuple[int, bool, bool, tuple[bool, bool, Decimal], int]:
    unknown, foreign, one = _dear(each.taken, ask) if each.taken else (True, True, Decimal(0))
    wood = each.shell == "crate"
    return len(each.fails), each.taken is None, wood, (unknown, foreign, one * each.crates), each.crates
