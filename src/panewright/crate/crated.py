"""The whole answer for one order: crates, their figures in full for programs, reasons, notes."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.check import Check
from panewright.crate.ask import Ask
from panewright.crate.bought import Bought, bought, used
from panewright.crate.box import Crate
from panewright.crate.carrier import Offer
from panewright.crate.carton import Carton
from panewright.crate.crating import Shell, Way, loads, ways
from panewright.crate.cushion import Cushion, Side, cushion_factor, least_mm
from panewright.crate.deciding import decided
from panewright.crate.drop import Falls
from panewright.crate.fragility import Fragility
from panewright.crate.reasons import notes, reason, weighed
from panewright.crate.room import Room
from panewright.crate.screws import Joint
from panewright.crate.timber import Board
from panewright.panel.design import Weighed
from panewright.shelf.shelf import Sundry
from panewright.structure.mass import ONE_PERSON_KG


@dataclass(frozen=True, slots=True)
class Padding:
    """Foam on one side of the stack, in figures."""

    side: Side
    foam: str
    thickness_mm: float
    pads: int  #: on this side, and as many opposite
    area_mm2: float
    fall_mm: float
    static_pa: float
    energy_pa: float
    shock_g: float
    fragile_g: float
    cushion_factor: float
    ideal_mm: float | None  #: thickness of a spring without flaw; None where the panel bears under 2 G


@dataclass(frozen=True, slots=True)
class Crated:
    """How one order travels."""

    goods: str  #: what is in them: 'panel' or 'kit'
    panels: int
    crates: int
    loads: tuple[tuple[int, int], ...]  #: (panels to a crate, crates that hold so many)
    by_hand: bool
    people: int  #: to lift one; 0 where a machine does
    inside: Room
    outside: Room
    tare_kg: float
    gross_kg: float  #: of the fullest
    falls: Falls
    fragility: Fragility
    padding: tuple[Padding, ...]
    boards: tuple[Board, ...]  #: of one crate
    screws: int
    joints: tuple[Joint, ...]  #: which screws go where
    taken: Offer | None
    offers: tuple[Offer, ...]
    price: Decimal | None  #: of all crates; None where it must be asked
    reason: str
    because: str  #: the end of it: why not by the other kind of carrier
    decided_by: str  #: the same in a word: length, girth, mass, lifting, price ...
    weighed: tuple[Weighed, ...]
    checks: tuple[Check, ...]
    notes: tuple[str, ...]
    crate: Crate | Carton
    wood: tuple[Sundry, ...]  #: what of the shelf's wood it is cut from

    @property
    def bought(self) -> tuple[Bought, ...]:
        """Bars and sheets for all crates."""
        return bought(self.boards, self.crates, self.wood)

    @property
    def shell(self) -> Shell:
        """What it travels in."""
        return "carton" if isinstance(self.crate, Carton) else "crate"

    @property
    def proven(self) -> bool:
        """Whether every rule of the crate holds."""
        return all(check.passed for check in self.checks)


def crated(ask: Ask) -> Crated:
    """The crates of one order."""
    found = ways(ask)
    best, told = found[0], decided(ask, found)
    crate = best.crate
    return Crated(
        goods=best.goods,
        panels=ask.panels,
        crates=best.crates,
        loads=loads(ask.panels, best.crates),
        by_hand=crate.by_hand,
        people=people(best),
        inside=crate.inside,
        outside=crate.outside,
        tare_kg=crate.tare_kg,
        gross_kg=crate.gross_kg,
        falls=best.falls,
        fragility=ask.fragility,
        padding=tuple(padding(each) for each in crate.cushions),
        boards=crate.boards,
        screws=crate.screws,
        joints=crate.joints,
        taken=best.taken,
        offers=best.offers,
        price=best.price,
        reason=reason(ask, found),
        because=told.words,
        decided_by=told.by,
        weighed=weighed(ask, found),
        checks=best.checks,
        notes=notes(ask, best),
        crate=crate,
        wood=used(crate.boards, ask.wish.wood),
    )


def people(way: Way) -> int:
    """To lift one crate by hand; 0 where a machine does."""
    if not way.crate.by_hand:
        return 0
    return 1 if way.crate.gross_kg <= ONE_PERSON_KG else 2


def padding(cushion: Cushion) -> Padding:
    """A cushion's figures."""
    asked = cushion.asked
    return Padding(
        asked.side,
        cushion.foam.name,
        cushion.thickness_mm,
        cushion.pads,
        cushion.area_mm2,
        asked.fall_mm,
        cushion.static_pa,
        cushion.energy_pa,
        cushion.shock_g,
        asked.fragile_g,
        cushion_factor(cushion.foam),
        least_mm(asked.fall_mm, asked.fragile_g) if asked.fragile_g > 2 else None,
    )
