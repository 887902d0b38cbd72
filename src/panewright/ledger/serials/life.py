"""A panel's whole life, as it is told when a claim comes in years later."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.ledger.arrays.stays import Stay, stays
from panewright.ledger.bench.ratings import Found, RatingKept, findings, ratings
from panewright.ledger.bench.readings import ReadingKept, readings, readings_of_cells
from panewright.ledger.files import Attached, attached
from panewright.ledger.open import Ledger
from panewright.ledger.orders.customers import customer_of
from panewright.ledger.orders.designs import DesignMade, design_of_serial
from panewright.ledger.orders.kits import Packed, all_packed
from panewright.ledger.serials.built import BuiltVersion, builts
from panewright.ledger.serials.expiry import Past, past_their_day
from panewright.ledger.serials.hours import Spent, all_hours
from panewright.ledger.serials.laid import Laid, all_laid
from panewright.ledger.serials.repairs import Claim, Repair, claims, repairs
from panewright.ledger.serials.serials import Serial, find_serial
from panewright.ledger.serials.steps import Tick, all_ticks
from panewright.ledger.stores.lots import LotVersion, lots_of_serial
from panewright.ledger.stores.stock import Moved, movements


@dataclass(frozen=True, slots=True)
class Life:
    """Everything the records hold of one panel; all lists oldest first."""

    serial: Serial
    customer: str | None  #: mark
    design: DesignMade
    builts: tuple[BuiltVersion, ...]
    laid: tuple[Laid, ...]  #: cells by their marks: laid, lifted, broken
    lots: tuple[LotVersion, ...]  #: that went into any version of it
    past: tuple[Past, ...]  #: those that were past their day then
    ticks: tuple[Tick, ...]
    packed: tuple[Packed, ...]  #: into its box, where it was sold as a kit
    hours: tuple[Spent, ...]  #: minutes beside the ticks
    readings: tuple[ReadingKept, ...]
    cell_readings: tuple[ReadingKept, ...]
    ratings: tuple[RatingKept, ...]
    findings: tuple[Found, ...]  #: what was found wrong with it, measured to tell more, mended
    papers: tuple[Attached, ...]
    movements: tuple[Moved, ...]
    claims: tuple[Claim, ...]
    repairs: tuple[Repair, ...]
    stays: tuple[Stay, ...]  #: in which array it lay and lies


def life(ledger: Ledger, serial: str) -> Life:
    """All of a panel; `RecordError` where the serial is not known."""
    panel = find_serial(ledger, serial)
    return Life(
        panel,
        customer_of(ledger, panel.order),
        design_of_serial(ledger, serial),
        builts(ledger, serial),
        all_laid(ledger, serial),
        lots_of_serial(ledger, serial),
        past_their_day(ledger, serial),
        all_ticks(ledger, serial),
        all_packed(ledger, serial),
        all_hours(ledger, serial),
        readings(ledger, serial=serial),
        readings_of_cells(ledger, serial),
        ratings(ledger, serial),
        findings(ledger, serial),
        attached(ledger, serial=serial),
        movements(ledger, serial=serial)[::-1],
        claims(ledger, serial),
        repairs(ledger, serial),
        stays(ledger, serial),
    )
