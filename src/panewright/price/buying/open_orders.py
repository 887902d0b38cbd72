"""An open order as the buyer sees it: what its panels still take, and the bars that all orders share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece
from panewright.cutting.plan import CutPlan
from panewright.panel.design import Design
from panewright.price.actuals import Actuals
from panewright.price.bill import Need
from panewright.price.buying.buying import Asked, Item, Source
from panewright.price.buying.cuts_together import Job, Known, Racks, cut_together, rails_to_cut
from panewright.price.buying.panes import by_size, on_the_shelf
from panewright.price.kit import amount_in_box, left
from panewright.price.money import exact
from panewright.price.needs import needs
from panewright.price.packing import Packing
from panewright.shelf.shelf import Row, Shelf


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

    `packed` is what its crates take: each panel that is left takes its share. A kit asks what its box holds.
    """
    kit = design.order.kit
    ours, _ = left(needs(design, shelf, None, actuals), kit)
    begun = panels < design.order.job.panels  # then the trial patch is poured already
    plain = tuple(
        replace(by_size(need, design.structural.pane), buy=None, once=Decimal(0) if begun else need.once)
        for need in (*ours, *(packed or Packing()).needs)
    )
    asked = Asked(design.order.job.number, promised, panels, plain, taken or {})
    return _boxed(asked) if kit.is_kit else asked


def _boxed(asked: Asked) -> Asked:
    """Each box with its own allowance, whole pieces, nothing lost beyond; bars are cut for all together."""
    bare = {(need.name, need.sold_by): need.one for need in asked.needs}
    boxed = tuple(
        need if _for_all(need) else replace(need, one=amount_in_box(need), waste=Decimal(0), once=Decimal(0))
        for need in asked.needs
        if need.one > 0
    )
    return replace(asked, needs=boxed, bare=bare)


def _for_all(need: Need) -> bool:
    """What is cut for all boxes together, or goes round several: rails, and the crate."""
    return need.use == "rail" or need.group == "crate"


def bars_of(
    jobs: Iterable[Job],
    remnants: Mapping[str, tuple[float, ...]] | None = None,
    cut: Mapping[Known, int] | None = None,
) -> dict[str, int]:
    """Bars of each rail that one plan over all orders still has to buy.

    Not counted is what lies cut already, and what the plan cuts from remnants.
    """
    ours = [job for job in jobs if "frame" not in job.design.order.kit.brings]
    bar_mm = {job.design.structural.rail.name: job.design.structural.rail.bar_mm for job in ours}
    racks = Racks({name: _rack(long_mm, (remnants or {}).get(name, ())) for name, long_mm in bar_mm.items()})
    plans = dict(cut_together(ours, racks, cut=cut).bars)
    pieces = rails_to_cut(ours, cut)
    return {name: _new(plans.get(name), pieces.get(name, ())) for name in bar_mm}


def _rack(bar_mm: float, remnants_mm: Iterable[float]) -> list[Bar]:
    """Remnants for nothing, and new bars without end."""
    lying = [Bar(long_mm, Decimal(0), 1, remnant=True) for long_mm in remnants_mm if long_mm > 0]
    return [*lying, Bar(bar_mm, Decimal(1))]


def _new(plan: CutPlan | None, pieces: Iterable[Piece]) -> int:
    """New bars of a plan; where a piece is longer than any, one each, as the design has told already."""
    if plan is None:
        return sum(piece.quantity for piece in pieces)
    return sum(not bar.from_remnant for bar in plan.bars)


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
        item = need.name, need.sold_by
        there = _cut_of(need, asked.order, cut) - finished * _cut_for_one(need, asked)
        if there > 0:
            taken[item] = taken.get(item, Decimal(0)) + there
    return replace(asked, taken=taken)


def _cut_for_one(need: Need, asked: Asked) -> Decimal:
    """What is cut for one panel: ribbon as drawn, without what a kit's box holds beyond; a front whole."""
    return need.one if need.use == "sheet" else asked.bare.get((need.name, need.sold_by), need.one)


def _cut_of(need: Need, order: str, cut: Mapping[Known, int]) -> Decimal:
    """How much of a need lies cut for an order: metres of ribbon, or fronts."""
    mine = [(known, count) for known, count in cut.items() if known[:2] == (order, need.name)]
    if need.use in ("tab", "bus"):
        long_mm = sum((exact(known[3]) * count for known, count in mine), Decimal(0))
        return long_mm / 1000
    return need.one * sum(count for _, count in mine) if need.use == "sheet" else Decimal(0)


def sources_of(asked: Iterable[Asked], shelf: Shelf) -> dict[str, Source]:
    """Who sells each part that the orders take."""
    needs_ = {need.name: need for order in asked for need in order.needs}
    rows = ((need, shelf.row(on_the_shelf(need))) for _, need in sorted(needs_.items()))
    return {need.name: _source(row, need, shelf) for need, row in rows if row}


def _source(row: Row[Any], need: Need, shelf: Shelf) -> Source:
    """A part's supplier, and its lead time: its own, or that of the supplier; foam costs by its thickness."""
    price = need.price if need.use == "foam" else row.price
    known = shelf.supplier(row.supplier)
    days = known.lead_days if row.lead_days is None and known else row.lead_days
    return Source(row.supplier, days, row.pack, row.least, price)
