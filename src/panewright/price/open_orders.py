"""An open order as the buyer sees it: what its panels still take, and the bars that all orders share."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from panewright.cutting.bars import cut_bars
from panewright.cutting.piece import Piece, PieceTooLong, Saw, room_mm, taken_mm
from panewright.panel.design import Design
from panewright.price.actuals import Actuals
from panewright.price.bill import Need
from panewright.price.buying import Asked, Item, Source
from panewright.price.cuts import Job, Known, rails_to_cut
from panewright.price.kit import left
from panewright.price.money import exact
from panewright.price.needs import needs
from panewright.price.packing import Packing
from panewright.shelf.shelf import Row, Shelf

_SAW = Saw(trim_mm=0.0)  #: a remnant's length is what can be used of it, its ends sawn already


def asked_of(
    design: Design,
    shelf: Shelf,
    *,
    panels: int,
    promised: date | None = None,
    taken: Mapping[Item, Decimal] | None = None,
    actuals: Actuals | None = None,
    packed: Packing | None = None,
) -> Asked:
    """A designed order with so many panels still to build; what the customer brings is not asked for.

    `packed` is what its crates take: each panel that is left takes its share.
    """
    ours, _ = left(needs(design, shelf, None, actuals), design.order.kit)
    plain = tuple(replace(need, buy=None) for need in (*ours, *(packed or Packing()).needs))
    return Asked(design.order.job.number, promised, panels, plain, taken or {})


def bars_of(
    jobs: Iterable[Job],
    remnants: Mapping[str, tuple[float, ...]] | None = None,
    cut: Mapping[Known, int] | None = None,
) -> dict[str, int]:
    """Bars of each rail that all orders still need together.

    Not counted is what lies cut already, and what fits into remnants.
    """
    ours = [job for job in jobs if "frame" not in job.design.order.kit.brings]
    bar_mm = {job.design.structural.rail.name: job.design.structural.rail.bar_mm for job in ours}
    pieces = rails_to_cut(ours, cut)
    return {
        name: _bars(without_remnants(pieces.get(name, ()), (remnants or {}).get(name, ())), length_mm)
        for name, length_mm in bar_mm.items()
    }


def sawn(panels: int, left: int, ticked: int) -> int:
    """Panels whose rails are sawn: those that are finished, or as many as were ticked.

    >>> sawn(4, left=3, ticked=0), sawn(4, left=3, ticked=2)
    (1, 2)
    """
    return max(panels - left, ticked)


def lying_cut(asked: Asked, cut: Mapping[Known, int], finished: int) -> Asked:
    """The order with the ribbon and the fronts that lie cut for it counted as taken.

    What was cut for the panels that are finished is in them.
    """
    taken = dict(asked.taken)
    for need in asked.needs:
        there = _cut_of(need, asked.order, cut) - finished * need.one
        if there > 0:
            item = need.name, need.sold_by
            taken[item] = taken.get(item, Decimal(0)) + there
    return replace(asked, taken=taken)


def _cut_of(need: Need, order: str, cut: Mapping[Known, int]) -> Decimal:
    """How much of a need lies cut for an order: metres of ribbon, or fronts."""
    mine = [(known, count) for known, count in cut.items() if known[:2] == (order, need.name)]
    if need.use in ("tab", "bus"):
        long_mm = sum((exact(known[3]) * count for known, count in mine), Decimal(0))
        return long_mm / 1000
    return need.one * sum(count for _, count in mine) if need.use == "sheet" else Decimal(0)


def _bars(pieces: tuple[Piece, ...], bar_mm: float) -> int:
    """Bars of one length; a piece longer than the bar takes one each, as the design has told already."""
    try:
        return len(cut_bars(pieces, bar_mm).bars) if pieces else 0
    except PieceTooLong:
        return sum(piece.quantity for piece in pieces)


def without_remnants(pieces: Iterable[Piece], remnants_mm: Iterable[float]) -> tuple[Piece, ...]:
    """The pieces that are left when the longest that fit have been cut from the remnants.

    >>> [piece.quantity for piece in without_remnants([Piece("rail", 600.0, 3)], [1300.0])]
    [1]
    """
    counts = Counter({piece: piece.quantity for piece in pieces})
    by_length = sorted(counts, key=lambda piece: (-piece.length_mm, piece.name))
    for remnant_mm in sorted(remnants_mm):
        room = room_mm(remnant_mm, _SAW)
        for piece in by_length:
            while counts[piece] and taken_mm(piece, _SAW) <= room + 1e-6:
                counts[piece] -= 1
                room -= taken_mm(piece, _SAW)
    return tuple(replace(piece, quantity=counts[piece]) for piece in by_length if counts[piece])


def sources_of(asked: Iterable[Asked], shelf: Shelf) -> dict[str, Source]:
    """Who sells each part that the orders take."""
    names = {need.name for order in asked for need in order.needs}
    rows = ((name, shelf.row(name)) for name in sorted(names))
    return {name: _source(row, shelf) for name, row in rows if row}


def _source(row: Row[Any], shelf: Shelf) -> Source:
    """A part's supplier, and its lead time: its own, or that of the supplier."""
    known = shelf.supplier(row.supplier)
    days = known.lead_days if row.lead_days is None and known else row.lead_days
    return Source(row.supplier, days, row.pack, row.least, row.price)
