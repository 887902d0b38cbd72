"""What sending an order takes beside the carrier's charge: the crate's wood, foam, screws and work.

Another room reckons the crate and hands its amounts over; here they become needs with a price, as every
other part. A list tells them for one crate; a panel's share of them is a sum in the price alone, and no
part of a panel's mass.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from decimal import ROUND_DOWN, Decimal
from functools import lru_cache
from typing import Literal, Protocol

from panewright.drawing.dimension import figure_digits
from panewright.price.bill import PIECES, Need
from panewright.price.hours import Count
from panewright.price.money import cents, exact
from panewright.shelf.shelf import Row, Shelf, Sundry
from panewright.units import MM, THIN, show

FOAM_MM = 50.0  #: thickness for which a foam's price of a square metre stands on the shelf
WASTE = {
    "plywood": Decimal("0.15"),
    "batten": Decimal("0.10"),
    "carton": Decimal("0.15"),
    "foam": Decimal("0.10"),
}  # common practice
_HAIR_MM = 0.3  #: as far as what is sold may differ from what was reckoned
_NOT_THERE = "not on the shelf in this size"
_NO_SIZE = {
    "plywood": "boards larger than a sheet, or sheets without their sides: to be asked",
    "batten": "sold by the piece without its lengths: to be asked",
}
_COUNTED_BY = {"plywood": "square metre", "batten": "metre", "void fill": "kilogram"}
_MILLIONTH = Decimal("0.000001")
_TENTH_MM2 = Decimal("0.0000001")  #: of a square metre; of a metre a ten-thousandth of a millimetre


Of = Literal["plywood", "batten", "foam", "crate screw", "carton", "void fill"]


class Sold(Protocol):
    """So many bars or sheets of one size."""

    @property
    def long_mm(self) -> float: ...
    @property
    def wide_mm(self) -> float: ...
    @property
    def count(self) -> int: ...


class Material(Protocol):
    """So much of one stuff for one crate."""

    @property
    def of(self) -> Of: ...
    @property
    def count(self) -> float:
        """Square metres, metres, kilograms, or pieces."""
        ...

    @property
    def thick_mm(self) -> float:
        """Of a screw how wide it is."""
        ...

    @property
    def wide_mm(self) -> float:
        """Of a batten; how long a screw is."""
        ...

    @property
    def name(self) -> str:
        """Of a foam, a board for cartons; the size of a screw in words."""
        ...

    @property
    def sold(self) -> Sequence[Sold]:
        """Bars or sheets of it for all crates; none where it is sold as it is cut."""
        ...


@dataclass(frozen=True, slots=True)
class Loads:
    """So many like crates, or cartons, for so many panels."""

    crates: int
    panels: int
    shell: Literal["crate", "carton"] = "crate"

    def need(self, need: Need) -> Need:
        """What one crate takes, with one panel's share of it."""
        return replace(need, per_crate=need.one, one=need.one * self.crates / self.panels)


@dataclass(frozen=True, slots=True)
class Packing:
    """Parts and work of all crates; none where nothing is crated."""

    needs: tuple[Need, ...] = ()
    counts: dict[Count, Decimal] = field(default_factory=dict)
    crates: int = 0
    shell: Literal["crate", "carton"] = "crate"


def packing_needs(
    materials: Iterable[Material], shelf: Shelf, loads: Loads, measure: Literal["metric", "us"] = "metric"
) -> tuple[Need, ...]:
    """What a crate takes, priced where the shelf has it; one line for each part."""
    found: dict[tuple[str, str], Need] = {}
    for each in materials:
        need = _whole(_need(each, shelf, measure), each, loads.crates, measure)
        before = found.get((need.name, need.size))
        found[need.name, need.size] = _both(before, need) if before else need
    return tuple(loads.need(need) for need in found.values() if need.one > 0)


def _both(one: Need, other: Need) -> Need:
    """Two amounts of one part."""
    buy = None if one.buy is None or other.buy is None else one.buy + other.buy
    return replace(one, one=one.one + other.one, buy=buy)


def _need(one: Material, shelf: Shelf, measure: Literal["metric", "us"]) -> Need:
    if one.of == "foam":
        return _foam(one, shelf, measure)
    if one.of == "carton":
        return _carton(one, shelf)
    row = next(_fitting(one, _thin_first(shelf, one.of, measure)), None)
    count, lost = exact(one.count), WASTE.get(one.of, Decimal(0))
    if row is None:
        by = _COUNTED_BY.get(one.of, "each")
        return Need("crate", _named(one), count, by, None, lost, source=_NOT_THERE, use=one.of)
    if one.of in _NO_SIZE and row.sold_by in PIECES and not one.sold:
        by, why = _COUNTED_BY[one.of], _NO_SIZE[one.of]
        return Need("crate", row.name, count, by, None, lost, source=why, use=one.of)
    return Need("crate", row.name, count, row.sold_by, row.price, lost, source=row.source, use=one.of)


def _whole(need: Need, one: Material, crates: int, measure: Literal["metric", "us"]) -> Need:
    """In bars or sheets as they are sold, for all crates; what of them is in no board is lost."""
    if not one.sold or need.price is None:
        return need
    units = [_of_one(each, need.sold_by) for each in one.sold]
    buy = sum((unit * each.count for unit, each in zip(units, one.sold, strict=True)), Decimal(0))
    measured = sum((_of_one(each, "") * each.count for each in one.sold), Decimal(0))
    net = exact(float(need.one * buy / measured))
    lost = (buy / (net * crates) - 1).quantize(_MILLIONTH, rounding=ROUND_DOWN)
    size = ", ".join(_sold_words(each, measure) for each in one.sold)
    return replace(need, one=net, buy=buy, waste=max(lost, Decimal(0)), size=size, lot=_lot(units))


def _of_one(each: Sold, sold_by: str) -> Decimal:
    """One bar or sheet in what it is sold by; its metres or square metres where that is no piece."""
    if sold_by in PIECES:
        return Decimal(1)
    wide = exact(each.wide_mm * MM) if each.wide_mm else Decimal(1)
    return exact(each.long_mm * MM) * wide


def _lot(units: Sequence[Decimal]) -> Decimal:
    """The greatest amount of which each bar or sheet is a whole number."""
    whole = math.gcd(*(int(unit / _TENTH_MM2) for unit in units))
    return whole * _TENTH_MM2


def _sold_words(each: Sold, measure: Literal["metric", "us"]) -> str:
    sides = (side for side in (each.long_mm, each.wide_mm) if side)
    told = " × ".join(show(side, "mm", measure, figure_digits(side)) for side in sides)
    return f"{each.count} × {told}"


@lru_cache(maxsize=64)
def _thin_first(shelf: Shelf, use: Of, measure: Literal["metric", "us"]) -> tuple[Row[Sundry], ...]:
    """Rows of a use in one measure; kept, for every crate of a catalogue asks for the same."""
    rows = tuple(row for row in shelf.sundries if row.part.use == use)
    return tuple(sorted(shelf.in_measure(rows, measure), key=lambda each: each.part.wall_mm))


def _fitting(one: Material, rows: tuple[Row[Sundry], ...]) -> Iterator[Row[Sundry]]:
    """Battens of that section, screws of that size, sheets that are as thick."""
    for row in rows:
        part = row.part
        if one.of == "plywood":
            fits = _alike(part.wall_mm, one.thick_mm)
        elif one.of == "batten":
            fits = _alike(part.wall_mm, one.thick_mm) and _alike(part.fit_mm, one.wide_mm)
        else:
            screw = _alike(part.fit_mm, one.thick_mm) and _alike(part.wall_mm, one.wide_mm)
            fits = one.of == "void fill" or screw
        if fits:
            yield row


def _alike(one_mm: float, other_mm: float) -> bool:
    return abs(one_mm - other_mm) < _HAIR_MM


def _carton(one: Material, shelf: Shelf) -> Need:
    """Board for cartons, by its name."""
    row = next((row for row in shelf.cartons if row.name == one.name), None)
    need = Need("crate", one.name, exact(one.count), "square metre", None, WASTE["carton"], source=_NOT_THERE)
    need = replace(need, use="carton", shelf_name=one.name)
    return need if row is None else replace(need, price=row.price, source=row.source)


def _foam(one: Material, shelf: Shelf, measure: Literal["metric", "us"]) -> Need:
    """Foam in the thickness that is cut; its price goes by volume, from that of the shelf's thickness."""
    row = next((row for row in shelf.foams if row.name == one.name), None)
    thick = show(one.thick_mm, "mm", measure, figure_digits(one.thick_mm)).partition(" (")[0]
    need = Need(
        *(
            "crate",
            f"{one.name}, {thick}".replace(THIN, " "),
            exact(one.count),
            "square metre",
            None,
            WASTE["foam"],
        ),
        source=_NOT_THERE,
        use="foam",
        shelf_name=one.name,
    )
    if row is None or row.price is None or row.sold_by != "square metre":
        return need
    return replace(need, price=cents(row.price * exact(one.thick_mm / FOAM_MM)), source=row.source)


def _named(one: Material) -> str:
    if one.of == "crate screw":
        return f"wood screw {one.name}"
    if one.of == "void fill":
        return "paper to fill hollows"
    sides = f"{one.thick_mm:g} × {one.wide_mm:g} mm" if one.wide_mm else f"{one.thick_mm:g} mm"
    return f"{one.of} {sides}"


def packing_of(
    materials: Iterable[Material], shelf: Shelf, loads: Loads, measure: Literal["metric", "us"] = "metric"
) -> Packing:
    """Parts and work of all crates."""
    needs = packing_needs(materials, shelf, loads, measure)
    return Packing(needs, packing_counts(loads), loads.crates, loads.shell)


def packing_counts(sent: Loads) -> dict[Count, Decimal]:
    """What the hours of packing are counted by."""
    shells: Count = "cartons" if sent.shell == "carton" else "crates"
    inside: Count = "kits in cartons" if sent.shell == "carton" else "crated panels"
    return {shells: Decimal(sent.crates), inside: Decimal(sent.panels)}
