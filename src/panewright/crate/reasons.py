"""Why this crate and this carrier: one sentence, what was weighed, and what to know beside it."""

from __future__ import annotations

from decimal import Decimal

from panewright.crate.ask import Ask
from panewright.crate.box import Crate
from panewright.crate.carrier import Offer
from panewright.crate.carton import Carton
from panewright.crate.crating import Way
from panewright.crate.deciding import NO_CARRIER, crates_of, decided
from panewright.crate.room import Room
from panewright.drawing.dimension import figure_digits
from panewright.panel.design import Weighed
from panewright.panel.weighed.grid import Column, Grid
from panewright.units import show

_MOST_ROWS = 8
_OF_CRATE = "Rules first, then the least carriage for the order, then the fewest crates."
_OF_CARTON = (
    "Rugged, and without a pane: a carton that keeps its rules goes before a crate, then the least carriage."
)
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
NO_WOOD = (
    "A carton has no wood in it: across a border nothing is to be treated. Keep it dry: damp board is soft."
)
SHAKES = (
    "Shakes on the road are not proved: a lorry shakes most at 2 to 20 Hz (recalled). Blocks between the "
    "frames keep panes from swinging against each other; stow the crate so that panes stand along the drive."
)
_OF_KITS = (
    "The package of a kit is reckoned from its parts list, {}: measure and weigh it when it is packed. "
    "Shakes on the road are not proved; nothing in it may be loose."
)
OF_KITS = _OF_KITS.format("flat, with its pane between two sheets of card")
OF_KITS_BARE = _OF_KITS.format("flat, without a pane: the customer brings it")
UNKNOWN_PANE = (
    "The order's rule book does not cover this pane: its own strength in a fall is not known, and the class "
    "of things like it counts alone."
)
NARROW = "A narrow crate falls over: lean it on nothing, lay it on a side only to carry it, tie it upright."


def size(crate: Crate | Carton, units: str) -> str:
    """Outside: along, across, up."""
    out = crate.outside
    return sizes(out, units)


def sizes(room: Room, units: str) -> str:
    """Along, across, up, no digit that says nothing."""
    each = (room.along_mm, room.across_mm, room.up_mm)
    return " × ".join(show(size_mm, "mm", units, _digits(size_mm, units)) for size_mm in each)


def _digits(size_mm: float, units: str) -> int:
    """Beside inches whole millimetres will do."""
    return 3 if units == "us" else figure_digits(size_mm)


def money(price: Decimal, currency: str) -> str:
    """As every page writes it."""
    return f"{price:,.2f}\u2009{currency}".replace(",", "\u2009")


def reason(ask: Ask, found: tuple[Way, ...]) -> str:
    """One sentence: what is sent how, and why not otherwise."""
    best = found[0]
    each, many = (
        "" if best.crates == 1 else "each ",
        crates_of(ask.panels, best.crates, best.goods, best.shell),
    )
    crate = f"{many}, {each}{size(best.crate, ask.units)} and " + show(best.crate.gross_kg, "kg", ask.units)
    if ask.wish.by == "collected":
        return f"Collected at the workshop, no {best.shell} in the price; if one is made: {crate}."
    if best.taken is None:
        nearest = min(best.offers, key=lambda each: each.used, default=None)
        why = f"; {nearest.carrier.name}: {nearest.against}" if nearest else ""
        return f"No carrier of the shelf takes {crate}{why}."
    kind, price = best.taken.carrier.kind.capitalize(), best.price
    cost = TO_BE_ASKED if price is None else f"{money(price, best.taken.carrier.currency)} in all"
    return f"{kind}, {best.taken.carrier.name}: {crate}, {cost}; {decided(ask, found).words}."


def weighed(ask: Ask, found: tuple[Way, ...]) -> tuple[Weighed, Weighed]:
    """How many to a crate, and which carrier."""
    best = found[0]
    taken = f"{best.panels if best.panels > 1 else 'One'} to a {best.shell}"
    grid = Grid(_columns(ask), found, found[:_MOST_ROWS])
    why = _pinned(ask) or _OF_CARTON if best.shell == "carton" else _OF_CRATE
    carriers = Grid(_OFFERS, best.offers, best.offers)
    name = best.taken.carrier.name if best.taken else "none"
    cheapest = _FETCHED if ask.wish.by == "collected" else _CHEAPEST.format(best.shell)
    return (
        grid.weighed(f"How many to a {best.shell}?", taken, why, ask.units),
        carriers.weighed("Which carrier?", name, cheapest, ask.units),
    )


def _pinned(ask: Ask) -> str:
    wish = ask.wish
    pins = (("carrier", wish.by), ("way", wish.way), ("panels to a crate", wish.most_panels))
    named = [name for name, value in pins if value is not None]
    return f"As ordered: {', '.join(named)}. Of the rest the least carriage." if named else ""


def _columns(ask: Ask) -> tuple[Column[Way], ...]:
    return (
        Column("In each", "panels_to_a_crate", lambda way: way.panels),
        Column("Number", "crates", lambda way: way.crates),
        Column("In", "shell", lambda way: way.shell),
        Column("Moved", "moved", lambda way: "by hand" if way.crate.by_hand else "pallet"),
        Column("Outside", "outside", lambda way: size(way.crate, ask.units)),
        Column("Mass", "gross_kg", lambda way: way.crate.gross_kg, "kg"),
        Column("Carrier", "carrier", lambda way: _taken_by(ask, way)),
        Column("Carriage", "carriage", _carriage),
        Column("Against it", "against", lambda way: "; ".join(check.rule for check in way.fails)),
    )


_CHEAPEST = "The cheapest that takes a {} so large and so heavy."
_FETCHED = "The customer fetches it: no carrier is asked."


def _taken_by(ask: Ask, way: Way) -> str:
    if ask.wish.by == "collected":
        return "the customer"
    return way.taken.carrier.name if way.taken else NO_CARRIER


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
    of_kits = OF_KITS if ask.panel.pane else OF_KITS_BARE
    wood = WOOD_ABROAD if ask.wish.border else WOOD_AT_HOME
    told = [NO_WOOD if best.shell == "carton" else wood, of_kits if best.goods == "kit" else SHAKES]
    if best.crate.by_hand and best.crate.base_mm > best.crate.outside.across_mm:
        told.append(NARROW)
    currencies = {each.carrier.currency for each in best.offers} - {ask.currency}
    if currencies:
        named = ", ".join(sorted(currencies))
        told.append(f"Carriers in {named} were not compared with those in {ask.currency}.")
    if ask.fragility.pane_g is None and best.goods == "panel":
        told.append(UNKNOWN_PANE)
    return tuple(told)
