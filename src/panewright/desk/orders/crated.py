"""How an order travels: as words, as a record for programs, and ready for a page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.crate.crated import Crated
    from panewright.desk import Made


@dataclass(frozen=True, slots=True)
class CrateShown:
    """The crate of an order for a page: words only."""

    reason: str
    proven: bool
    sentence: str
    loads: str
    inside: str
    outside: str
    mass: str
    people: str
    carrier: str  #: "" where none takes it
    kind: str
    carriage: str
    foam: tuple[tuple[str, str], ...]  #: side, and its foam
    failing: tuple[str, ...]
    weighed: tuple[tuple[str, str], ...]  #: question and answer
    notes: tuple[str, ...]


def crated(made: Made) -> Crated:
    """The crates of an order, with every rule."""
    from panewright.crate.crated import crated as reckoned
    from panewright.pack.sent import asked

    return reckoned(asked(made.design, made.quote.lines))


def crate_words(made: Made, found: Crated) -> str:
    """What a maker reads on the screen."""
    from panewright.pack.crate_told import crate_told

    return crate_told(made.design, found)


def crate_json(found: Crated) -> str:
    """The same for programs."""
    from panewright.paper.record import json_bytes

    return json_bytes(found).decode()


def crate_shown(made: Made) -> CrateShown:
    """The crate as a page shows it."""
    from panewright.crate.reasons import sizes
    from panewright.pack.crate_told import loads_told
    from panewright.pack.verdict import answer, sentence, told
    from panewright.units import show

    found, units = crated(made), made.design.order.job.units
    taken = found.taken
    return CrateShown(
        reason=found.reason,
        proven=found.proven,
        sentence=sentence(found.checks),
        loads=loads_told(found),
        inside=sizes(found.inside, units),
        outside=sizes(found.outside, units),
        mass=show(found.gross_kg, "kg", units),
        people={0: "a pallet truck", 1: "one person", 2: "two people"}[found.people],
        carrier=taken.carrier.name if taken else "",
        kind=taken.carrier.kind if taken else "",
        carriage=_charge(found),
        foam=tuple(
            (each.side, f"{show(each.thickness_mm, 'mm', units)} {each.foam}") for each in found.padding
        ),
        failing=tuple(f"{each.rule}: {told(each, units)}" for each in found.checks if not each.passed),
        weighed=tuple((each.question, answer(each)) for each in found.weighed),
        notes=found.notes,
    )


def _charge(found: Crated) -> str:
    """Carriage of all crates in words; "" where no carrier takes them."""
    from panewright.crate.reasons import money

    if found.taken is None:
        return ""
    return "to be asked" if found.price is None else money(found.price, found.taken.carrier.currency)
