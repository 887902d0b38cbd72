"""A deal on paper: the list to follow, labels, lists for programs, each panel drawn with its cells."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import TYPE_CHECKING, Literal

from panewright.desk.deals import told
from panewright.desk.deals.curves import KeyFigures, chart_of, points_listed
from panewright.desk.deals.deal import Deal, as_text
from panewright.desk.deals.doubted import Doubted, doubt_words, doubted
from panewright.pack.leaf import BookLeaf, CsvLeaf, Leaf, SvgLeaf, WorkbookLeaf
from panewright.pack.pages.pick import (
    PickedPanel,
    Picks,
    beginning,
    ends,
    label_book,
    pick_book,
    pick_listings,
    seated_drawing,
)
from panewright.panel.design import Design
from panewright.paper.leaf import render

if TYPE_CHECKING:
    from panewright.lots.matching.matched import Matched

DEAL = "deal.json"
PICKS, LABELS, BOOK, LIST = "picks.pdf", "labels.pdf", "picks.xlsx", "picks.csv"
POINTS = "curves.csv"
_LETTER_MM = 25.0
_MOST_DRAWN = 40  #: panels that get drawings in files of their own; the list has all of them


def picks_of(deal: Deal, matched: Matched) -> Picks:
    """A deal in words, for its papers."""
    lot, strongest = matched.lot, told.by_power(deal, matched)
    explained = strongest[: told.whys(deal)]
    figures = zip(lot.marks, zip(lot.power_w.tolist(), lot.imp_a.tolist(), strict=True), strict=True)
    return Picks(
        lot=deal.lot,
        aim=deal.wish.words,
        sentence=told.sentence(deal),
        compared=tuple((each.what, each.value, each.note) for each in told.compared(deal)),
        panels=tuple(picked(deal, number, each) for number, each in enumerate(doubted(deal), 1)),
        left=tuple((mark, told.reason_words(matched, mark)) for mark in explained),
        rest=strongest[told.whys(deal) :],
        figures=dict(figures),
        said=(*deal.said, *doubt_words(deal)),
        swaps=tuple(told.swap_words(each) for each in deal.swaps),
        noted={mark: (each.grade, each.remark) for mark, each in deal.written_of.items()},
    )


def picked(deal: Deal, number: int, known: Doubted | None) -> PickedPanel:
    """One panel of it in words."""
    each = deal.panels[number - 1]
    price = told.money(each.price, deal.currency) if each.price else ""
    figures = told.watts(each.power_w), told.watts(each.own_w), *told.lost(each)
    doubt = (known.own, known.common, known.reaches) if known else ("", "", "")
    key = KeyFigures.of(each)
    points = key.isc, key.voc, key.imp, key.vmp
    return PickedPanel(number, each.cells, *figures, *doubt, price, points, chart_of(each))


def leaves(design: Design, deal: Deal, matched: Matched) -> dict[str, Callable[[], Leaf]]:
    """Every paper by its name, made when it is asked for."""
    picks = cache(lambda: picks_of(deal, matched))
    listings = cache(lambda: pick_listings(design, picks()))
    makers: dict[str, Callable[[], Leaf]] = {
        PICKS: lambda: BookLeaf(PICKS, pick_book(design, picks())),
        LABELS: lambda: BookLeaf(LABELS, label_book(design, picks())),
        BOOK: lambda: WorkbookLeaf(BOOK, (*listings(), points_listed(deal))),
        LIST: lambda: CsvLeaf(LIST, listings()[0]),
        POINTS: lambda: CsvLeaf(POINTS, points_listed(deal)),
    }
    begin = beginning([mark for panel in deal.panels for mark in panel.cells])
    for n, panel in enumerate(deal.panels[:_MOST_DRAWN], 1):
        for side in _SIDES:
            name = f"panel-{n}-{side}.svg"
            makers[name] = partial(_drawn, design, name, ends(panel.cells, begin), side)
    return makers


def _drawn(design: Design, name: str, cells: tuple[str, ...], side: str) -> Leaf:
    return SvgLeaf(name, seated_drawing(design, cells, _SIDES[side], _LETTER_MM))


_SIDES: Mapping[str, Literal["front", "behind"]] = {"bench": "behind", "front": "front"}


def files(design: Design, deal: Deal, matched: Matched) -> dict[str, bytes]:
    """The papers and the deal itself, by their names."""
    made = {name: render(make()) for name, make in leaves(design, deal, matched).items()}
    return {**made, DEAL: as_text(deal).encode()}


def file(design: Design, deal: Deal, matched: Matched, name: str) -> bytes:
    """One of them; `KeyError` where there is no such paper."""
    if name == DEAL:
        return as_text(deal).encode()
    return render(leaves(design, deal, matched)[name]())
