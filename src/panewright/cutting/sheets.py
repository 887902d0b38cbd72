"""Which panel from which sheet, by cuts from edge to edge: least money, then least area used up.

Sheet by sheet first, each as full as it will go; where that meets the bound by area nothing better exists.
Else one programme over all sheets together (`panewright.cutting.parting`). What is left and large enough to
keep is not used up.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from panewright.cutting import shelves
from panewright.cutting.guillotine import Graph, Kind, Plate, Rules, graph
from panewright.cutting.layout import UNIT_MM, Placed, Step, Tree, leaves, steps, trees
from panewright.cutting.parting import Model, Parted, Root
from panewright.cutting.sheet import (
    Cutter,
    Panel,
    Rectangle,
    Sheet,
    checked_sheets,
    refuse_too_large,
    usable_mm,
)
from panewright.cutting.stock import StockShort

_FILL_WORK, _WORK = 0.3, 1.0  # CP-SAT's own measure of work; a second or two each


@dataclass(frozen=True, slots=True)
class SheetCut:
    """One sheet: panels in their places, the cuts in their order, and what is left."""

    sheet: Sheet
    panels: tuple[Placed, ...]
    steps: tuple[Step, ...]
    kept: tuple[Rectangle, ...]  #: rests that go back into the rack
    lost: tuple[Rectangle, ...]  #: rests that do not

    @property
    def panels_mm2(self) -> float:
        """Area of all panels. [mm2]"""
        return sum(each.at.width_mm * each.at.height_mm for each in self.panels)


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """All sheets, the fullest first."""

    sheets: tuple[SheetCut, ...]
    cutter: Cutter
    proven: bool  #: whether no plan costs less; without prices, whether none takes less area
    cost: Decimal | None
    bound: float  #: no plan costs less; without prices, takes less area [mm2]

    @property
    def area_mm2(self) -> float:
        """Of all sheets. [mm2]"""
        return sum(cut.sheet.area_mm2 for cut in self.sheets)

    @property
    def waste(self) -> float:
        """Share of the sheets that is in no panel and is not kept. [1]"""
        kept = sum(rest.width_mm * rest.height_mm for cut in self.sheets for rest in cut.kept)
        used = sum(cut.panels_mm2 for cut in self.sheets) + kept
        return 1 - used / self.area_mm2 if self.sheets else 0.0

    @property
    def kept(self) -> tuple[Sheet, ...]:
        """Remnants that go back into the rack, the largest first."""
        found = [
            Sheet(rest.width_mm, rest.height_mm, None, 1, cut.sheet.name, remnant=True)
            for cut in self.sheets
            for rest in cut.kept
        ]
        return tuple(sorted(found, key=lambda sheet: (-sheet.area_mm2, sheet.width_mm, sheet.name)))

    @property
    def grouped(self) -> tuple[tuple[SheetCut, int], ...]:
        """Sheets cut alike, with their number."""
        return tuple(Counter(self.sheets).items())


def cut_sheets(
    panels: Iterable[Panel],
    sheets: Sequence[Sheet],
    cutter: Cutter,
    keep_mm: tuple[float, float] | None = None,
) -> SheetPlan:
    """The plan that costs least money, and of those that which uses up least area; deterministic.

    `keep_mm`: a rest whose sides are no shorter than these, long and short, goes back into the rack. Without
    prices money is area. Raises `PanelTooLarge` where a panel fits in no sheet, `StockShort` where the sheets
    do not give all of them.
    """
    listed = sorted(
        (p for p in panels if p.quantity), key=lambda p: (p.order, p.name, p.width_mm, p.height_mm)
    )
    stock = checked_sheets(sheets)
    refuse_too_large(listed, stock, cutter)
    if not listed:
        return SheetPlan((), cutter, proven=True, cost=Decimal(0), bound=0.0)
    asked = _Job(_kinds(listed), stock, cutter, keep_mm)
    found = _solved(asked)
    return _plan(asked, listed, *found)


@dataclass(frozen=True, slots=True)
class _Job:
    kinds: tuple[Kind, ...]
    stock: tuple[Sheet, ...]
    cutter: Cutter
    keep_mm: tuple[float, float] | None

    @property
    def priced(self) -> bool:
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

    def rules(self, single: bool) -> Rules:
        keep = None
        if self.keep_mm:
            keep = (_units(max(self.keep_mm)), _units(min(self.keep_mm)))
        cutter = self.cutter
        return Rules(_units(cutter.kerf_mm), _units(cutter.breakout_mm), cutter.stages, single, keep)

    def roots(self, made: Graph, counts: Sequence[int | None]) -> list[Root]:
        most = sum(kind.quantity for kind in self.kinds)
        return [
            Root(
                made.index[Plate(*size)],
                most if have is None else min(have, most),
                cost,
                size[0] * size[1],
            )
            for size, have, cost in zip(self.sizes, counts, self.costs, strict=True)
        ]


def _price(sheet: Sheet, priced: bool) -> Fraction:
    return (
        Fraction(sheet.price or 0)
        if priced
        else Fraction(str(sheet.width_mm)) * Fraction(str(sheet.height_mm))
    )


def _units(length_mm: float) -> int:
    return round(length_mm / UNIT_MM)


def _kinds(panels: Sequence[Panel]) -> tuple[Kind, ...]:
    totals: Counter[tuple[int, int, bool]] = Counter()
    for panel in panels:
        totals[_size(panel)] += panel.quantity
    ordered = sorted(totals, key=lambda size: (-size[0] * size[1], size))
    return tuple(Kind(width, height, totals[width, height, turns], turns) for width, height, turns in ordered)


def _size(panel: Panel) -> tuple[int, int, bool]:
    return _units(panel.width_mm), _units(panel.height_mm), panel.turns


def _solved(asked: _Job) -> tuple[list[tuple[Tree, Graph, int]], int, bool]:
    """Trees with their graph and kind of sheet, the bound in steps, and whether the cost meets it."""
    least = _by_area(asked)
    plans = [plan for plan in (_sheet_by_sheet(asked, _fill), _sheet_by_sheet(asked, _by_shelves)) if plan]
    best = min(plans, key=lambda plan: _cost(asked, plan), default=None)
    proven = best is not None and _cost(asked, best) <= least
    for single in (True, False):
        made = None if proven and not single else graph(asked.sizes, asked.kinds, asked.rules(single))
        if made is None or (proven and asked.keep_mm is None and len(asked.stock) == 1):
            continue
        together = _together(asked, made, least, math.inf if best is None else _cost(asked, best))
        if together is not None:
            best, bound, done = together
            least = least if single else max(least, bound)
            proven = _cost(asked, best) <= least or (done and not single)
    if best is None:
        raise StockShort(
            "the sheets there are do not give all panels, or no way to cut them so was found. "
            "Buy more sheets."
        )
    return best, least, proven


def _cost(asked: _Job, plan: Sequence[tuple[Tree, Graph, int]]) -> int:
    return sum(asked.costs[kind] for _, _, kind in plan)


def _by_area(asked: _Job) -> int:
    """No plan costs less: all panels at the sheets' cost for their usable area, the cheapest first."""
    area = Fraction(sum(kind.width * kind.height * kind.quantity for kind in asked.kinds))
    cost = Fraction(0)
    offers = zip(asked.costs, asked.sizes, (sheet.have for sheet in asked.stock), strict=True)
    for each, (width, height), have in sorted(offers, key=lambda o: Fraction(o[0], o[1][0] * o[1][1])):
        sheets = area / (width * height)
        taken = sheets if have is None else min(sheets, Fraction(have))
        cost += taken * each
        area -= taken * width * height
    return math.ceil(cost)


_Filled = tuple[Graph, Parted, list[int]]
_Filler = Callable[[_Job, Sequence[Kind], tuple[int, int]], _Filled | None]


def _sheet_by_sheet(asked: _Job, filler: _Filler) -> list[tuple[Tree, Graph, int]] | None:
    """The sheet that gives most area of panels for its cost, again and again; None where they run out."""
    left = list(asked.kinds)
    have = [sheet.have for sheet in asked.stock]
    found: list[tuple[Tree, Graph, int]] = []
    while any(kind.quantity for kind in left):
        best = _best_fill(asked, left, have, filler)
        if best is None:
            return None
        kind, made, parted, given, root = best
        tree_list = trees(made, parted, (root,), (_corner(asked, kind),))
        times = min(k.quantity // n for k, n in zip(left, given, strict=True) if n)
        there = have[kind]
        if there is not None:
            times = min(times, there)
            have[kind] = there - times
        found += [(tree_list[0], made, kind)] * times
        left = [replace(k, quantity=k.quantity - n * times) for k, n in zip(left, given, strict=True)]
    return found


def _best_fill(
    asked: _Job, left: Sequence[Kind], have: Sequence[int | None], filler: _Filler
) -> tuple[int, Graph, Parted, list[int], int] | None:
    """The sheet and its cuts that give most area for the money; the smaller cost where equal."""
    best: tuple[Fraction, tuple[int, Graph, Parted, list[int], int]] | None = None
    for kind, (size, cost) in enumerate(zip(asked.sizes, asked.costs, strict=True)):
        filled = None if have[kind] == 0 else filler(asked, left, size)
        if filled is None:
            continue
        made, parted, given = filled
        area = sum(k.width * k.height * n for k, n in zip(left, given, strict=True))
        rate = Fraction(area, max(cost, 1))
        if area and (best is None or rate > best[0]):
            best = (rate, (kind, made, parted, given, 0))
    return best and best[1]


def _fill(asked: _Job, left: Sequence[Kind], size: tuple[int, int]) -> _Filled | None:
    """One sheet as full as it will go; of very many sizes, the largest that the programme can hold."""
    for number in range(len(left), 0, -1):
        some = [k if i < number else replace(k, quantity=0) for i, k in enumerate(left)]
        kinds = [k for k in some if k.quantity]
        made = graph([size], kinds, asked.rules(single=True)) if kinds else None
        if made is not None:
            return _filled(made, some, kinds, size)
    return None


def _by_shelves(asked: _Job, left: Sequence[Kind], size: tuple[int, int]) -> _Filled | None:
    return shelves.fill(size, left, asked.rules(single=True))


def _filled(
    made: Graph, some: Sequence[Kind], kinds: Sequence[Kind], size: tuple[int, int]
) -> _Filled | None:
    model = Model(made, [Root(0, 1, 1, size[0] * size[1])], kinds, exact=False)
    areas = [max(1, k.width * k.height // 1_000_000) for k in kinds]
    model.model.maximize(model.worth(areas))
    parted = model.solved(_FILL_WORK)
    if parted is None:
        return None
    counts: Counter[Kind] = Counter()
    for (_, kind), times in zip(made.uses, parted.uses, strict=True):
        counts[kinds[kind]] += times
    position = {k: i for i, k in enumerate(some) if k.quantity}
    renamed = replace_uses(made, [position[k] for k in kinds])
    return renamed, replace(parted, sheets=(1,)), [counts[k] if k.quantity else 0 for k in some]


def replace_uses(made: Graph, positions: Sequence[int]) -> Graph:
    """The same graph with kinds numbered as in the whole job."""
    return Graph(made.plates, made.cuts, [(p, positions[k]) for p, k in made.uses], made.index)


def _together(
    asked: _Job, made: Graph, least: int, cost: float
) -> tuple[list[tuple[Tree, Graph, int]], int, bool] | None:
    """All sheets in one programme: least cost, then least area used up."""
    roots = asked.roots(made, [sheet.have for sheet in asked.stock])
    model = Model(made, roots, asked.kinds, exact=True)
    model.model.add(model.cost >= least)
    if math.isfinite(cost):
        model.model.add(model.cost <= int(cost))
    model.model.minimize(model.cost)
    cheap = model.solved(_WORK)
    if cheap is None:
        return None
    second = Model(made, roots, asked.kinds, exact=True)
    second.model.add(second.cost <= cheap.value)
    second.hint(cheap)
    kept = [i for i, p in enumerate(made.plates) if _worth_keeping(asked, p.width, p.height)]
    keep = asked.rules(single=False).keep
    second.model.minimize(second.used_up(kept, keep[0] * keep[1] if keep else 0))
    best = second.solved(_WORK) or cheap
    corners = tuple(_corner(asked, kind) for kind in range(len(asked.stock)))
    grown = trees(made, best, tuple(root.plate for root in roots), corners)
    kinds = [kind for kind, number in enumerate(best.sheets) for _ in range(number)]
    placed = [(tree, made, kind) for tree, kind in zip(grown, kinds, strict=True)]
    return placed, cheap.bound, cheap.done


def _worth_keeping(asked: _Job, width: int, height: int) -> bool:
    keep = asked.rules(single=False).keep
    return keep is not None and max(width, height) >= keep[0] and min(width, height) >= keep[1]


def _corner(asked: _Job, kind: int) -> tuple[float, float]:
    trim = 0.0 if asked.stock[kind].remnant else asked.cutter.trim_mm
    return trim, trim


def _plan(
    asked: _Job, panels: Sequence[Panel], found: list[tuple[Tree, Graph, int]], bound: int, proven: bool
) -> SheetPlan:
    waiting = {size: list(_singles(panels, size)) for size in {_size(p) for p in panels}}
    cuts = [_sheet_cut(asked, tree, made, kind, waiting) for tree, made, kind in found]
    cuts.sort(key=lambda cut: (-cut.panels_mm2 / cut.sheet.area_mm2, cut.sheet.name, repr(cut.panels)))
    cost = sum((cut.sheet.price or Decimal(0) for cut in cuts), Decimal(0)) if asked.priced else None
    return SheetPlan(tuple(cuts), asked.cutter, proven, cost, float(bound * asked.step))


def _singles(panels: Sequence[Panel], size: tuple[int, int, bool]) -> Iterator[Panel]:
    for panel in panels:
        if _size(panel) == size:
            for _ in range(panel.quantity):
                yield replace(panel, quantity=1)


def _sheet_cut(
    asked: _Job, tree: Tree, made: Graph, kind: int, waiting: dict[tuple[int, int, bool], list[Panel]]
) -> SheetCut:
    placed: list[Placed] = []
    kept: list[Rectangle] = []
    lost: list[Rectangle] = []
    names: dict[int, str] = {}
    for leaf in leaves(tree):
        if leaf.kind is not None:
            size = asked.kinds[leaf.kind]
            panel = waiting[size.width, size.height, size.turns].pop(0)
            placed.append(Placed(panel, _rounded(leaf.at)))
            names[id(leaf)] = panel.name
        else:
            plate = made.plates[leaf.plate]
            worth = _worth_keeping(asked, plate.width, plate.height)
            (kept if worth else lost).append(_rounded(leaf.at))
            names[id(leaf)] = "a rest to keep" if worth else "waste"
    order = steps(tree, made, lambda leaf: names[id(leaf)], asked.cutter)
    return SheetCut(asked.stock[kind], tuple(placed), order, tuple(kept), tuple(lost))


def _rounded(at: Rectangle) -> Rectangle:
    return Rectangle(*(round(v, 3) for v in (at.left_mm, at.bottom_mm, at.width_mm, at.height_mm)))
