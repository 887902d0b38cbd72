"""Which panel from which sheet, by cuts from edge to edge: least money, then least area used up.

Sheet by sheet first, each as full as it will go; where that meets the bound by area, or by prices of the
panels (`sheet_bound`), nothing better exists. Else one programme over all sheets together
(`parting`). What is left and large enough to keep is not used up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.cutting.bars.stock import StockShort
from panewright.cutting.sheets import shelves
from panewright.cutting.sheets.filling import Grown, by_programme, by_shelves, fullest, sheet_by_sheet
from panewright.cutting.sheets.guillotine import Graph, Rules, graph
from panewright.cutting.sheets.layout import UNIT_MM, Placed, Tree, leaves, steps, trees
from panewright.cutting.sheets.parting import Limit, Model, Parted
from panewright.cutting.sheets.sheet import Cutter, Panel, Rectangle, Sheet, checked_sheets, refuse_too_large
from panewright.cutting.sheets.sheet_bound import least_cost
from panewright.cutting.sheets.sheet_job import Job, job, size
from panewright.cutting.sheets.sheet_plan import SheetCut, SheetPlan

_NODES = 100  #: branches of the programme for all sheets together
_TINY = 1e-6
_NO_WAY = "no way to cut the panels was found. Take a larger sheet."


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
    asked = job(listed, stock, cutter, keep_mm)
    return _plan(asked, listed, _solved(asked))


def fill_sheet(
    panels: Sequence[Panel], sheet: Sheet, cutter: Cutter, worth: Sequence[float] | None = None
) -> tuple[SheetCut, float]:
    """One sheet with the panels that are worth most, and a worth that no cuts exceed.

    `worth` of one panel, panel by panel; without it their area [mm2]. Panels alike in size are counted by the
    first one's worth. The bound is inf where not all cuts could be tried.

    >>> cut, most = fill_sheet([Panel("a", 400.0, 300.0, 9)], Sheet(1000.0, 700.0), Cutter())
    >>> len(cut.panels), most
    (5, 600000.0)
    """
    asked = job(panels, (sheet,), cutter, None)
    worths = worth or [panel.width_mm * panel.height_mm for panel in panels]
    first: dict[tuple[int, int, bool], float] = {}
    for panel, each in zip(panels, worths, strict=True):
        first.setdefault(size(panel), each)
    by_kind = [first[kind.width, kind.height, kind.turns] for kind in asked.kinds]
    found = fullest(asked, asked.kinds, asked.sizes[0], by_kind)
    if found is None:
        raise StockShort("no way to cut any of the panels was found. Take a larger sheet.")
    tree = trees(found.made, found.parted, (0,), (asked.corner(0),), cutter.kerf_mm)[0]
    cut = _sheet_cut(asked, tree, 0, _waiting(panels))
    return cut, math.inf if found.most is None else round(found.most, 6)


def cut_by_rule(panels: Sequence[Panel], sheet: Sheet, cutter: Cutter) -> SheetPlan:
    """A good plan at once, for what is cheap: shelves along and across the sheet, panels lying either way.

    `proven` where it meets the bound by area. Raises `PanelTooLarge` where a panel fits in no sheet.
    """
    refuse_too_large(panels, (sheet,), cutter)
    best: SheetPlan | None = None
    for stock, lying in _lain(panels, sheet):
        asked = job(lying, (stock,), cutter, None)
        grown = sheet_by_sheet(asked, by_shelves)
        if grown is not None and (best is None or len(grown) < len(best.sheets)):
            found = _Found(tuple(grown), asked.least, _cost(asked, grown) <= asked.least)
            best = _plan(asked, lying, found)
            if best.proven:
                break
    if best is None:
        raise StockShort(_NO_WAY)
    return best


def count_by_rule(panels: Sequence[Panel], sheet: Sheet, cutter: Cutter) -> int:
    """How many sheets `cut_by_rule` takes, without its plan. Raises what that does."""
    refuse_too_large(panels, (sheet,), cutter)
    least: int | None = None
    for stock, lying in _lain(panels, sheet):
        asked = job(lying, (stock,), cutter, None)
        number = shelves.fewest(asked.sizes[0], asked.kinds, asked.rules(single=True))
        if number is not None and (least is None or number < least):
            least = number
            if number <= asked.fewest:
                break
    if least is None:
        raise StockShort(_NO_WAY)
    return least


def _lain(panels: Sequence[Panel], sheet: Sheet) -> Iterator[tuple[Sheet, list[Panel]]]:
    """The sheet along and across; on it panels with their long sides along, then across."""
    turned = replace(sheet, width_mm=sheet.height_mm, height_mm=sheet.width_mm)
    for stock in (sheet, turned):
        for order in (_long_first, _short_first):
            yield stock, [order(panel) if panel.turns else panel for panel in panels]


def _long_first(panel: Panel) -> Panel:
    short, long = sorted((panel.width_mm, panel.height_mm))
    return replace(panel, width_mm=long, height_mm=short)


def _short_first(panel: Panel) -> Panel:
    short, long = sorted((panel.width_mm, panel.height_mm))
    return replace(panel, width_mm=short, height_mm=long)


@dataclass(frozen=True, slots=True)
class _Found:
    """Trees with their kind of sheet, a cost in steps that no plan undercuts, and whether this one is it."""

    grown: tuple[Grown, ...]
    least: int
    proven: bool


def _solved(asked: Job) -> _Found:
    """By rule and sheet by sheet, then all sheets together, then the same money with least used up."""
    best, least = sheet_by_sheet(asked, by_shelves), asked.least
    if best is None or _cost(asked, best) > least:
        least = least_cost(asked, math.inf if best is None else _cost(asked, best))
    if best is None or _cost(asked, best) > least:
        plan = sheet_by_sheet(asked, by_programme)
        best = min((p for p in (best, plan) if p), key=lambda p: _cost(asked, p), default=None)
    for rules, holds in _ways(asked):
        if best is None or _cost(asked, best) > least:
            best, least = _cheaper(asked, best, least, rules, holds=holds)
    if best is None:
        raise StockShort(
            "the sheets there are do not give all panels, or no way to cut them so was found. "
            "Buy more sheets."
        )
    if asked.keep_mm is not None or len(asked.stock) > 1:
        best = _least_used_up(asked, best)
    return _Found(tuple(best), min(least, _cost(asked, best)), _cost(asked, best) <= least)


def _ways(asked: Job) -> Iterator[tuple[Rules, bool]]:
    """Cuts to try one after the other, and whether what they say of the least cost holds for all cuts."""
    rounded = asked.rules(single=False, rounded=True)
    yield rounded, asked.free or not rounded.rounded
    if not asked.free:
        yield asked.freed, True
        yield asked.rules(single=False), True
    yield asked.rules(single=True, rounded=True), False


def _cost(asked: Job, plan: Sequence[Grown]) -> int:
    return sum(asked.costs[kind] for _, kind in plan)


def _cheaper(
    asked: Job, best: list[Grown] | None, least: int, rules: Rules, *, holds: bool
) -> tuple[list[Grown] | None, int]:
    """A plan of less cost, and what all cuts together say of the least; as before where there is none."""
    made = graph(asked.sizes, asked.kinds, rules)
    if made is None:
        return best, least
    most = math.inf if best is None else _cost(asked, best)
    found, bound = _cheapest(asked, made, least, most)
    least = max(least, bound) if holds else least
    if found is None or (rules == asked.freed and not asked.free):
        return best, least
    plan = _grown(asked, made, found)
    return (plan if best is None or _cost(asked, plan) < most else best), least


def _cheapest(asked: Job, made: Graph, least: int, most: float) -> tuple[Parted | None, int]:
    """The cheapest by these cuts, and a cost in steps that none of them undercuts."""
    model = Model(made, asked.roots(made), asked.kinds, exact=True)
    scale = float(max(*asked.costs, 1))
    cost = model.cost() / scale
    found = model.solved(cost, _NODES, [Limit(cost, least / scale - _TINY, most / scale + _TINY)])
    if found is None:
        return None, least
    return found, min(math.ceil(found.bound * scale - 1e-4), round(found.value * scale))


def _least_used_up(asked: Job, best: list[Grown]) -> list[Grown]:
    """Of plans of equal money that which uses up least area."""
    scale, most = float(max(*asked.costs, 1)), _cost(asked, best)
    for single in (False, True):
        made = graph(asked.sizes, asked.kinds, asked.rules(single=single))
        if made is None:
            continue
        model = Model(made, asked.roots(made), asked.kinds, exact=True)
        kept = [i for i, p in enumerate(made.plates) if asked.keeps(p.width, p.height)]
        aim = model.used_up(kept, asked.keep[0] * asked.keep[1] if asked.keep else 0)
        cost = model.cost() / scale
        found = model.solved(aim, _NODES, [Limit(cost, -math.inf, most / scale + _TINY)])
        if found is not None:
            plan = _grown(asked, made, found)
            return plan if _used_up(asked, plan) < _used_up(asked, best) else best
    return best


def _used_up(asked: Job, plan: Sequence[Grown]) -> tuple[float, int]:
    """Area of sheets less what kept rests are larger than the least, and the number of cuts."""
    least = math.prod(asked.keep_mm) if asked.keep_mm else 0.0
    area = sum(asked.stock[kind].area_mm2 for _, kind in plan)
    rests = [leaf.at for tree, _ in plan for leaf in leaves(tree) if _kept(asked, leaf)]
    worth = sum(at.width_mm * at.height_mm - least for at in rests)
    return round(area - worth, 3), sum(1 for tree, _ in plan for _ in leaves(tree))


def _kept(asked: Job, leaf: Tree) -> bool:
    sides = round(leaf.at.width_mm / UNIT_MM), round(leaf.at.height_mm / UNIT_MM)
    return leaf.kind is None and asked.keeps(*sides)


def _grown(asked: Job, made: Graph, parted: Parted) -> list[Grown]:
    corners = tuple(asked.corner(kind) for kind in range(len(asked.stock)))
    roots = tuple(root.plate for root in asked.roots(made))
    kinds = [kind for kind, number in enumerate(parted.sheets) for _ in range(number)]
    found = zip(trees(made, parted, roots, corners, asked.cutter.kerf_mm), kinds, strict=True)
    return [(tree, kind) for tree, kind in found if any(leaf.kind is not None for leaf in leaves(tree))]


def _plan(asked: Job, panels: Sequence[Panel], found: _Found) -> SheetPlan:
    waiting = _waiting(panels)
    cuts = [_sheet_cut(asked, tree, kind, waiting) for tree, kind in found.grown]
    cuts.sort(key=lambda cut: (-cut.panels_mm2 / cut.sheet.area_mm2, cut.sheet.name, repr(cut.panels)))
    cost = sum((cut.sheet.price or Decimal(0) for cut in cuts), Decimal(0)) if asked.priced else None
    return SheetPlan(tuple(cuts), asked.cutter, found.proven, cost, float(found.least * asked.step))


Waiting = dict[tuple[int, int, bool], list[Panel]]
"""Panels that have no place yet, by their size."""


def _waiting(panels: Sequence[Panel]) -> Waiting:
    return {each: list(_singles(panels, each)) for each in {size(p) for p in panels}}


def _singles(panels: Sequence[Panel], wanted: tuple[int, int, bool]) -> Iterator[Panel]:
    for panel in panels:
        if size(panel) == wanted:
            for _ in range(panel.quantity):
                yield replace(panel, quantity=1)


def _sheet_cut(asked: Job, tree: Tree, kind: int, waiting: Waiting) -> SheetCut:
    placed: list[Placed] = []
    kept: list[Rectangle] = []
    lost: list[Rectangle] = []
    names: dict[int, str] = {}
    for leaf in leaves(tree):
        if leaf.kind is not None:
            wanted = asked.kinds[leaf.kind]
            panel = waiting[wanted.width, wanted.height, wanted.turns].pop(0)
            placed.append(Placed(panel, _rounded(leaf.at)))
            names[id(leaf)] = panel.name
        else:
            keeps = _kept(asked, leaf)
            (kept if keeps else lost).append(_rounded(leaf.at))
            names[id(leaf)] = "a rest to keep" if keeps else "waste"
    order = steps(tree, lambda leaf: names[id(leaf)], asked.cutter)
    return SheetCut(asked.stock[kind], tuple(placed), order, tuple(kept), tuple(lost))


def _rounded(at: Rectangle) -> Rectangle:
    return Rectangle(*(round(v, 3) for v in (at.left_mm, at.bottom_mm, at.width_mm, at.height_mm)))
