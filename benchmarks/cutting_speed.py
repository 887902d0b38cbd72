"""Cutting plans of 200 pieces beside first fit, longest first: bars and wall time; known best values."""

from __future__ import annotations

from functools import partial
from random import Random

from campaigns import cutting
from clock import best_s
from row import Row

from panewright.cutting.bars.bars import cut_bars, cut_from
from panewright.cutting.piece import Piece
from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheets import cut_sheets, fill_sheet

MOST_S = 5.0
PAPER = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
    2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip
FINALS = {45: 97, 36: 610, 31: 395, 14: 211}
OF1 = (
    (29, 5, 1), (9, 39, 4), (55, 9, 1), (31, 15, 1), (11, 16, 2),
    (23, 21, 3), (29, 14, 4), (16, 19, 3), (9, 36, 2), (22, 4, 2),
)  # fmt: skip
#: published: what is cut, from bars of which length, how many are the fewest
PUBLISHED = (("a paper machine's widths", PAPER, 5600.0, 73), ("Chvatal's finals", FINALS, 100.0, 453))


def rows() -> list[Row]:
    """Bars, published orders, sheets."""
    jobs = [(kind, cutting.job(Random(1), kind, cutting.PIECES)) for kind in cutting.KINDS]
    return [
        *(_job(kind, pieces) for kind, pieces in jobs),
        *(_racks(kind) for kind in (cutting.PRICED, cutting.BY_LENGTH)),
        *(_published(*each) for each in PUBLISHED),
        _sheets(),
        _six_fronts(),
        _of1(),
    ]


def _job(kind: str, pieces: list[Piece]) -> Row:
    ours = partial(cut_bars, pieces, cutting.BAR_MM, cutting.KERF_MM, cutting.TRIM_MM)
    plan, theirs = ours(), cutting.first_fit(pieces)
    word = "proven" if plan.proven else "NOT PROVEN"
    peer = f"first fit, longest first: {theirs} bars, {theirs / len(plan.bars):.3f} x"
    what = f"200 pieces, {kind}: {len(plan.bars)} bars, {word}"
    return Row(what, best_s(ours, 3), peer, best_s(partial(cutting.first_fit, pieces), 3), MOST_S)


def _racks(kind: str) -> Row:
    """Two lengths of bar and six remnants, beside first fit from the rack and then one length."""
    chance = Random(1)
    pieces, bars = cutting.job(chance, kind, cutting.PIECES), cutting.stock(chance, kind)
    ours, theirs = partial(cut_from, pieces, bars, cutting.SAW), partial(cutting.first_fit_cost, pieces, bars)
    plan, dearer = ours(), theirs()
    word = "proven" if plan.proven else "NOT PROVEN"
    what = f"200 pieces, {kind}: {cutting.cost(plan):g}, {word}"
    peer = f"first fit, longest first: {dearer:g}, {dearer / cutting.cost(plan):.3f} x"
    return Row(what, best_s(ours, 3), peer, best_s(theirs, 3), MOST_S)


def _published(name: str, order: dict[int, int], bar_mm: float, fewest: int) -> Row:
    pieces = [Piece(str(size), float(size), count) for size, count in order.items()]
    ours = partial(cut_bars, pieces, bar_mm, 0.0, 0.0)
    return Row(f"{name}: {len(ours().bars)} bars; published {fewest}", best_s(ours, 2), most_s=MOST_S)


def _sheets() -> Row:
    panels = [Panel("front", 1490.0, 680.0, 12), Panel("front", 1200.0, 540.0, 9)]
    ours = partial(cut_sheets, panels, [Sheet(3210.0, 2250.0)], Cutter(0.0, 10.0, 15.0), (600.0, 300.0))
    plan = ours()
    word = "proven" if plan.proven else "NOT PROVEN"
    return Row(f"21 fronts: {len(plan.sheets)} sheets, {word}", best_s(ours, 3), most_s=MOST_S)


def _six_fronts() -> Row:
    sizes = ((1490, 680, 8), (1200, 540, 7), (1633, 715, 6), (980, 640, 5), (660, 520, 4), (1310, 990, 3))
    panels = [Panel("front", float(w), float(h), n) for w, h, n in sizes]
    ours = partial(cut_sheets, panels, [Sheet(3210.0, 2250.0)], Cutter(0.0, 10.0, 15.0), (600.0, 300.0))
    plan = ours()
    word = "proven" if plan.proven else f"NOT PROVEN, gap {plan.gap:.0%}"
    return Row(f"33 fronts of 6 sizes: {len(plan.sheets)} sheets, {word}", best_s(ours, 1), most_s=MOST_S)


def _of1() -> Row:
    panels = [Panel(str(i), float(w), float(h), n, turns=False) for i, (w, h, n) in enumerate(OF1)]
    ours = partial(fill_sheet, panels, Sheet(70.0, 40.0), Cutter())
    cut, most = ours()
    what = f"OF1 on one sheet: {cut.panels_mm2:g}, none above {most:g}; published 2737 (recalled)"
    return Row(what, best_s(ours, 3), most_s=MOST_S)
