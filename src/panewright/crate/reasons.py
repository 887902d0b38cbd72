"""Why this crate and this carrier: one sentence, what was weighed, and what to know beside it."""

from __future__ import annotations

from decimal import Decimal

from panewright.crate.ask import Ask
from panewright.crate.box import Crate, Room
from panewright.crate.carrier import Offer
from panewright.crate.crating import Way, loads
from panewright.drawing.dimension import figure_digits
from panewright.panel.design import Weighed
from panewright.panel.weighed.grid import Column, Grid
from panewright.units import against, show

_MOST_ROWS = 8
_NO_CARRIER = "no carrier takes it"
TO_BE_ASKED = "carriage to be asked"

WOOD_ABROAD = (
    "Across a border: sawn wood of the crate must be heated to 56 °C (133 °F) in its core for 30 minutes, or "
    "treated in another way that ISPM 15 approves, and carry the mark of the yard that did so; plywood is "
    "exempt (ISPM 15, seen). Buy battens that bear the mark and leave the mark to be seen."
)
WOOD_AT_HOME = (
    "Sent at home, its wood needs no treatment. Across a border sawn wood must be heat-treated and marked "
    '(ISPM 15, seen): write border = "yes" under [crate].'
)
SHAKES = (
    "Shakes on the road are not proved: a lorry shakes most at 2 to 20 Hz (recalled). Blocks between the "
    "frames keep panes from swinging against each other; stow the crate so that panes stand along the drive."
)
UNKNOWN_PANE = (
    "The order's rule book does not cover this pane: its own strength in a fall is not known, and the class "
    "of things like it counts alone."
)
NARROW = "A narrow crate falls over: lean it on nothing, lay it on a side only to carry it, tie it upright."


def size(crate: Crate, units: str) -> str:
    """Outside: along, across, up."""
    out = crate.outside
    return sizes(out, units)


def sizes(room: Room, units: str) -> str:
    """Along, across, up, no digit that says nothing."""
    each = (room.along_mm, room.across_mm, room.up_mm)
    return " × ".join(show(size_mm, "mm", units, figure_digits(size_mm)) for size_mm in each)


def crates_of(panels: int, crates: int) -> str:
    """Crates with their panels in words.

    >>> crates_of(3, 1), crates_of(11, 3)
    ('one crate of 3 panels', '3 crates of up to 4 panels')
    """
    most = loads(panels, crates)[0][0]
    number = f"{crates} crates of" if crates > 1 else "one crate of"
    held = "1 panel" if most == 1 else f"{most} panels"
    return f"{number} {held}" if crates * most == panels else f"{number} up to {held}"


def money(price: Decimal, currency: str) -> str:
    """As every page writes it."""
    return f"{price:,.2f}\u2009{currency}".replace(",", "\u2009")


def reason(ask: Ask, found: tuple[Way, ...]) -> str:
    """One sentence: what is sent how, and why not otherwise."""
    best = found[0]
    crate = f"{crates_of(ask.panels, best.crates)}, each {size(best.crate, ask.units)} and " + show(
        best.crate.gross_kg, "kg", ask.units
    )
    if ask.wish.by == "collected":
        return f"Collected at the workshop, no crate in the price; if one is made: {crate}."
    if best.taken is None:
        nearest = min(best.offers, key=lambda each: each.used, default=None)
        why = f"; {nearest.carrier.name}: {nearest.against}" if nearest else ""
        return f"No carrier of the shelf takes {crate}{why}."
    kind, price = best.taken.carrier.kind.capitalize(), best.price
    cost = TO_BE_ASKED if price is None else f"{money(price, best.taken.carrier.currency)} in all"
    return f"{kind}, {best.taken.carrier.name}: {crate}, {cost}; {because(ask, found)}."


def because(ask: Ask, found: tuple[Way, ...]) -> str:
    """Why not the other kind of carrier."""
    best = found[0]
    taken = best.taken
    if ask.wish.by == "collected":
        return "collected at the workshop"
    if taken is None:
        return _NO_CARRIER
    if ask.wish.by:
        return "as ordered"
    other = "freight" if taken.carrier.kind == "parcel" else "parcel"
    able = [each for way in found if not way.fails for each in way.offers if each.takes]
    if not any(each.carrier.kind == other for each in able):
        return _nobody(other, found)
    if taken.price is None:
        return "the tariff has no charge"
    return f"no way by {other} costs less"


def _nobody(other: str, found: tuple[Way, ...]) -> str:
    """Who of the other kind comes nearest, and what is in the way."""
    suited = [way for way in found if way.crate.by_hand or other == "freight"]
    if not suited:
        return "a parcel is moved by hand, and one panel with its crate is too heavy for two people"
    offers = [(way, each) for way in suited for each in way.offers if each.carrier.kind == other]
    if not offers:
        return f"the shelf has no carrier of {other}"
    way, nearest = min(offers, key=lambda pair: (len(pair[0].fails), pair[1].used))
    if nearest.against:
        return f"no {other} takes {crates_of(way.panels, 1)}: {nearest.against}"
    broken = way.fails[0]
    told = " of ".join(against(broken.demand, broken.limit or 0.0, broken.unit))
    return f"{crates_of(way.panels, 1)} for a {other} breaks a rule ({broken.rule}: {told})"


def weighed(ask: Ask, found: tuple[Way, ...]) -> tuple[Weighed, Weighed]:
    """How many to a crate, and which carrier."""
    best = found[0]
    taken = f"{best.panels} to a crate" if best.panels > 1 else "one to a crate"
    grid = Grid(_columns(ask), found, found[:_MOST_ROWS])
    why = _pinned(ask) or "Rules first, then the least carriage for the order, then the fewest crates."
    carriers = Grid(_OFFERS, best.offers, best.offers)
    name = best.taken.carrier.name if best.taken else "none"
    cheapest = "The cheapest that takes a crate so large and so heavy."
    return (
        grid.weighed("How many to a crate?", taken, why, ask.units),
        carriers.weighed("Which carrier?", name, cheapest, ask.units),
    )


def _pinned(ask: Ask) -> str:
    wish = ask.wish
    pins = (("carrier", wish.by), ("way", wish.way), ("panels to a crate", wish.most_panels))
    named = [name for name, value in pins if value is not None]
    return f"As ordered: {', '.join(named)}. Of the rest the least carriage." if named else ""


def _columns(ask: Ask) -> tuple[Column[Way], ...]:
    return (
        Column("To a crate", "panels_to_a_crate", lambda way: way.panels),
        Column("Crates", "crates", lambda way: way.crates),
        Column("Moved", "moved", lambda way: "by hand" if way.crate.by_hand else "pallet"),
        Column("Outside", "outside", lambda way: size(way.crate, ask.units)),
        Column("Mass", "gross_kg", lambda way: way.crate.gross_kg, "kg"),
        Column("Carrier", "carrier", lambda way: way.taken.carrier.name if way.taken else _NO_CARRIER),
        Column("Carriage", "carriage", _carriage),
        Column("Against it", "against", lambda way: "; ".join(check.rule for check in way.fails)),
    )


def _carriage(way: Way) -> str:
    if way.taken is None:
        return ""
    return "to be asked" if way.price is None else money(way.price, way.taken.carrier.currency)


def _charge(each: Offer) -> str:
    """What a carrier asks for one crate."""
    if each.price is None:
        return "to be asked" if each.takes else ""
    return money(each.price, each.carrier.currency)


_OFFERS: tuple[Column[Offer], ...] = (
    Column("Carrier", "carrier", lambda each: each.carrier.name),
    Column("Kind", "kind", lambda each: each.carrier.kind),
    Column("Dimensional", "dimensional_kg", lambda each: each.dimensional_kg, "kg"),
    Column("Charged", "billed_kg", lambda each: each.billed_kg, "kg"),
    Column("One crate", "price", _charge),
    Column("Against it", "against", lambda each: each.against),
)


def notes(ask: Ask, best: Way) -> tuple[str, ...]:
    """What to know beside the figures."""
    told = [WOOD_ABROAD if ask.wish.border else WOOD_AT_HOME, SHAKES]
    if best.crate.by_hand and best.crate.base_mm > best.crate.outside.across_mm:
        told.append(NARROW)
    currencies = {each.carrier.currency for each in best.offers} - {ask.currency}
    if currencies:
        named = ", ".join(sorted(currencies))
        told.append(f"Carriers in {named} were not compared with those in {ask.currency}.")
    if ask.fragility.pane_g is None:
        told.append(UNKNOWN_PANE)
    return tuple(told)
