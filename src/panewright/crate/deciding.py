"""What decides between parcel and freight: one word, and the same with its figures."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.crate.ask import Ask
from panewright.crate.crating import Way, loads
from panewright.units import against

NO_CARRIER = "no carrier takes it"
LIFTED = "lifting"
_OF_RULES = (
    ("crate light enough", LIFTED),
    ("carton light enough", LIFTED),
    ("shock", "shock"),
)  #: how their names begin


@dataclass(frozen=True, slots=True)
class Decided:
    """Why an order goes by this kind of carrier and not by the other."""

    by: str  #: length, girth, mass, mass by volume, lifting, shock, price ...
    words: str


def crates_of(panels: int, crates: int, goods: str = "panel", shell: str = "crate") -> str:
    """Crates with what they hold in words.

    >>> crates_of(3, 1), crates_of(11, 3)
    ('one crate of 3 panels', '3 crates of up to 4 panels')
    """
    most = loads(panels, crates)[0][0]
    number = f"{crates} {shell}s of" if crates > 1 else f"one {shell} of"
    held = f"1 {goods}" if most == 1 else f"{most} {goods}s"
    return f"{number} {held}" if crates * most == panels else f"{number} up to {held}"


def decided(ask: Ask, found: tuple[Way, ...]) -> Decided:
    """What decides, of all ways that were tried, the best first."""
    taken = found[0].taken
    if ask.wish.by == "collected":
        return Decided("order", "collected at the workshop")
    if taken is None:
        return _not_taken(found)
    if ask.wish.by:
        return Decided("order", "as ordered")
    if found[0].shell == "carton":
        return _carton(found)
    other = "freight" if taken.carrier.kind == "parcel" else "parcel"
    able = [each for way in found if not way.fails for each in way.offers if each.takes]
    if not any(each.carrier.kind == other for each in able):
        return _nobody(other, found, ask.units)
    if taken.price is None:
        return Decided("price", "the tariff has no charge")
    return Decided("price", f"no way by {other} costs less")


def _carton(found: tuple[Way, ...]) -> Decided:
    """Why no crate, and what one would cost in carriage where that is less."""
    price, words = found[0].price, f"nothing in the {found[0].goods} breaks or cuts: it needs no crate"
    sound = [way for way in found if way.shell == "crate" and way.taken and not way.fails]
    named = [(way.price, way.taken.carrier) for way in sound if way.taken and way.price is not None]
    home = found[0].taken.carrier.currency if found[0].taken else ""
    least = min((pair for pair in named if pair[1].currency == home), key=lambda pair: pair[0], default=None)
    if price is not None and least is not None and least[0] < price:
        words += f"; crated, by {least[1].kind}, {least[0]:.2f}\u2009{home} and its wood and work"
    return Decided("rugged", words)


def _not_taken(found: tuple[Way, ...]) -> Decided:
    """The limit of the carrier that comes nearest to taking the best crate."""
    nearest = min(found[0].offers, key=lambda each: each.used, default=None)
    if nearest is None:
        return Decided("no carrier", NO_CARRIER)
    return Decided(nearest.limit, f"{NO_CARRIER}; {nearest.carrier.name}: {nearest.against}")


def _nobody(other: str, found: tuple[Way, ...], units: str) -> Decided:
    """Who of the other kind comes nearest, and what is in the way."""
    suited = [way for way in found if way.crate.by_hand or other == "freight"]
    if not suited:
        one = f"one {found[0].goods} with its {found[0].shell}"
        return Decided(LIFTED, f"a parcel is moved by hand, and {one} is too heavy for two people")
    offers = [(way, each) for way in suited for each in way.offers if each.carrier.kind == other]
    if not offers:
        return Decided(f"no {other} carrier", f"the shelf has no carrier of {other}")
    way, nearest = min(offers, key=lambda pair: (len(pair[0].fails), pair[1].used))
    if nearest.against:
        crate = crates_of(way.panels, 1, way.goods, way.shell)
        return Decided(nearest.limit, f"{nearest.carrier.name} does not take {crate}: {nearest.against}")
    return _broken(other, way, units)


def _broken(other: str, way: Way, units: str) -> Decided:
    """The rule that a crate for the other kind breaks."""
    broken: Check = way.fails[0]
    by = next((word for start, word in _OF_RULES if broken.rule.startswith(start)), "a rule of the crate")
    told = " of ".join(against(broken.demand, broken.limit or 0.0, broken.unit, units))
    crate = crates_of(way.panels, 1, way.goods, way.shell)
    return Decided(by, f"{crate} for a {other} breaks a rule ({broken.rule}: {told})")
