"""One job of sheets in whole numbers: panels counted by size, sheets with their cost in steps."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from panewright.cutting.sheets.guillotine import Graph, Kind, Plate, Rules
from panewright.cutting.sheets.layout import UNIT_MM
from panewright.cutting.sheets.parting import Root
from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet, usable_mm


@dataclass(frozen=True, slots=True)
class Job:
    """What is wanted, from which sheets, and which rests are kept."""

    kinds: tuple[Kind, ...]
    stock: tuple[Sheet, ...]
    cutter: Cutter
    keep_mm: tuple[float, float] | None

    @property
    def priced(self) -> bool:
        """Whether sheets have prices; else their area is their price."""
        return any(sheet.price is not None for sheet in self.stock)

    @property
    def sizes(self) -> list[tuple[int, int]]:
        """Usable width and height of each kind of sheet, in whole units."""
        found = (usable_mm(sheet, self.cutter) for sheet in self.stock)
        return [(_units(width), _units(height)) for width, height in found]

    @property
    def step(self) -> Fraction:
        """Every price is a whole number of this."""
        prices = [_price(sheet, self.priced) for sheet in self.stock]
        below = math.lcm(*(price.denominator for price in prices))
        return Fraction(math.gcd(*(int(price * below) for price in prices)) or 1, below)

    @property
    def costs(self) -> list[int]:
        """Of each kind of sheet, in steps."""
        return [int(_price(sheet, self.priced) / self.step) for sheet in self.stock]

    @property
    def least(self) -> int:
        """No plan costs less: all panels at the sheets' cost for their usable area, the cheapest first."""
        area = Fraction(sum(kind.width * kind.height * kind.quantity for kind in self.kinds))
        cost = Fraction(0)
        offers = zip(self.costs, self.sizes, (sheet.have for sheet in self.stock), strict=True)
        for each, (width, height), have in sorted(offers, key=lambda o: Fraction(o[0], o[1][0] * o[1][1])):
            sheets = area / (width * height)
            taken = sheets if have is None else min(sheets, Fraction(have))
            cost += taken * each
            area -= taken * width * height
        return math.ceil(cost)

    @property
    def fewest(self) -> int:
        """Sheets of the largest kind that all panels fill, by their area alone."""
        area = sum(kind.width * kind.height * kind.quantity for kind in self.kinds)
        return -(-area // max(width * height for width, height in self.sizes))

    @property
    def free(self) -> bool:
        """Whether strips may be as narrow, and turns as many, as one likes."""
        return not self.cutter.breakout_mm and not self.cutter.stages

    @property
    def rounds(self) -> bool:
        """Whether plates may be rounded: turns count for nothing, and a kerf leaves no narrow strips."""
        return not self.cutter.stages and not (self.cutter.breakout_mm and self.cutter.kerf_mm)

    def rules(self, *, single: bool, rounded: bool = False) -> Rules:
        """The cutter's rules in whole units; plates are rounded only where the cutter allows it."""
        cutter = self.cutter
        narrow = _units(cutter.breakout_mm)
        return Rules(
            _units(cutter.kerf_mm), narrow, cutter.stages, single, self.keep, rounded and self.rounds
        )

    @property
    def freed(self) -> Rules:
        """All that any cuts could do: narrow strips and any number of turns allowed."""
        return Rules(_units(self.cutter.kerf_mm), 0, 0, single=False, keep=None, rounded=True)

    @property
    def keep(self) -> tuple[int, int] | None:
        """Long and short side of a rest that is kept, in whole units."""
        return (_units(max(self.keep_mm)), _units(min(self.keep_mm))) if self.keep_mm else None

    def keeps(self, width: float, height: float) -> bool:
        """Whether a rest of these sides, in whole units, goes back into the rack."""
        keep = self.keep
        return keep is not None and max(width, height) >= keep[0] and min(width, height) >= keep[1]

    def corner(self, kind: int) -> tuple[float, float]:
        """Lower left corner of a sheet's usable part. [mm]"""
        trim = 0.0 if self.stock[kind].remnant else self.cutter.trim_mm
        return trim, trim

    def roots(self, made: Graph) -> list[Root]:
        """The sheets as plates of a graph."""
        wanted = sum(kind.quantity for kind in self.kinds)
        return [
            Root(
                made.index[Plate(*size)],
                wanted if sheet.have is None else min(sheet.have, wanted),
                cost,
                size[0] * size[1],
            )
            for size, sheet, cost in zip(self.sizes, self.stock, self.costs, strict=True)
        ]


def job(
    panels: Sequence[Panel], stock: tuple[Sheet, ...], cutter: Cutter, keep_mm: tuple[float, float] | None
) -> Job:
    """Panels of one size and one way of lying are one kind, the largest first."""
    totals: Counter[tuple[int, int, bool]] = Counter()
    for panel in panels:
        totals[size(panel)] += panel.quantity
    ordered = sorted(totals, key=lambda s: (-s[0] * s[1], s))
    kinds = tuple(
        Kind(width, height, totals[width, height, turns], turns) for width, height, turns in ordered
    )
    return Job(kinds, stock, cutter, keep_mm)


def size(panel: Panel) -> tuple[int, int, bool]:
    """Width and height in whole units, and whether it may be turned."""
    return _units(panel.width_mm), _units(panel.height_mm), panel.turns


def _price(sheet: Sheet, priced: bool) -> Fraction:
    if priced:
        return Fraction(sheet.price or 0)
    return Fraction(str(sheet.width_mm)) * Fraction(str(sheet.height_mm))


def _units(length_mm: float) -> int:
    return round(length_mm / UNIT_MM)
