"""One plan over all orders: every rail, front and ribbon of every order, once, and said whose it is."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from panewright.cutting.bars.stock import Bar
from panewright.cutting.sheets.sheet import Sheet
from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.price.buying.cuts_together import Begun, Job, Racks, cut_together, front_panels, ribbon_pieces
from panewright.price.buying.open_orders import bars_of
from panewright.price.cuts import rail_pieces
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def design(name: str) -> Design:
    shelf = load_shelf()
    path = EXAMPLES / f"{name}.toml"
    return design_panel(parse_bytes(path.read_bytes(), path.name, shelf), shelf)


def annealed(made: Design) -> Design:
    """The same design with a front that may be cut."""
    structural = made.structural
    sheet = replace(structural.pane.sheet, name="annealed 4 mm", treatment="annealed")
    return replace(made, structural=replace(structural, pane=replace(structural.pane, sheet=sheet)))


def jobs() -> list[Job]:
    return [Job("A-1", design("jetty"), 2), Job("A-2", annealed(design("jetty")), 3)]


def test_every_rail_is_cut_once_and_says_whose_it_is():
    both = jobs()
    plans = dict(cut_together(both, Racks()).bars)
    wanted = Counter()
    for job in both:
        for piece in rail_pieces(job.design, job.panels, job.order):
            wanted[job.design.structural.rail.name, piece.name, piece.length_mm, job.order] += piece.quantity
    cut = Counter(
        (name, p.name, p.length_mm, p.order)
        for name, plan in plans.items()
        for bar in plan.bars
        for p in bar.pieces
    )
    assert cut == wanted
    assert all(plan.proven for plan in plans.values())


def test_together_takes_no_more_bars_than_each_order_alone():
    both = jobs()
    together = sum(len(plan.bars) for _, plan in cut_together(both, Racks()).bars)
    alone = sum(len(plan.bars) for job in both for _, plan in cut_together([job], Racks()).bars)
    assert together <= alone


def test_fronts_that_may_be_cut_come_from_sheets_and_heated_ones_are_ordered():
    both = jobs()
    made = cut_together(both, Racks(sheets={"annealed 4 mm": [Sheet(3210.0, 2250.0, Decimal(80))]}))
    fronts = [placed.panel for _, plan in made.sheets for sheet in plan.sheets for placed in sheet.panels]
    assert [(front.name, front.order) for front in fronts] == [("front", "A-2")] * 3
    assert front_panels(both[0]) == ()
    heated = both[0].design.structural.pane.sheet
    assert any(u.part == heated.name and "never cut" in u.why for u in made.uncut)


def test_ribbon_comes_from_spools_whole():
    both = jobs()
    names = {name for job in both for name, _ in ribbon_pieces(job)}
    made = cut_together(both, Racks(spools={name: [Bar(400_000.0, Decimal(30))] for name in names}))
    cut = Counter()
    for name, plan in made.spools:
        for spool in plan.spools:
            for piece, number in spool.pieces:
                cut[name, piece.name, piece.length_mm, piece.order] += number
    wanted = Counter()
    for job in both:
        for name, piece in ribbon_pieces(job):
            wanted[name, piece.name, piece.length_mm, job.order] += piece.quantity
    assert cut == wanted


def test_what_is_short_is_told_and_stops_nothing_else():
    both = jobs()
    rail = both[0].design.structural.rail.name
    made = cut_together(both, Racks(bars={rail: [Bar(500.0)]}))
    assert any(u.part == rail and "buy longer bars" in u.why for u in made.uncut)
    assert any("No spool of" in u.why for u in made.uncut)


def test_a_job_without_a_panel_is_refused():
    with pytest.raises(ValueError, match="at least one panel, got 0 of A-1"):
        Job("A-1", design("jetty"), 0)


def pieces_of(plans):
    return Counter(
        (p.order, name, p.name, p.length_mm, 0.0)
        for name, plan in plans.bars
        for bar in plan.bars
        for p in bar.pieces
    )


def test_what_lies_cut_is_not_cut_again_and_the_rest_is():
    both = jobs()
    whole = pieces_of(cut_together(both, Racks()))
    one = next(iter(whole))
    for cut in ({one: 1}, {one: whole[one]}, {one: whole[one] + 5}, dict(whole)):
        left = pieces_of(cut_together(both, Racks(), cut=cut))
        assert left == whole - Counter(cut)


def test_panels_whose_rails_are_sawn_at_the_bench_ask_for_none():
    made = design("jetty")
    whole = pieces_of(cut_together([Job("A", made, 4)], Racks()))
    half = pieces_of(cut_together([Job("A", made, 4, Begun(rails=2))], Racks()))
    assert half == Counter({known: count // 2 for known, count in whole.items()})
    assert not pieces_of(cut_together([Job("A", made, 4, Begun(rails=4))], Racks()))
    one = next(iter(whole))  # the same piece is not left out twice
    assert pieces_of(cut_together([Job("A", made, 4, Begun(rails=2))], Racks(), cut={one: 1})) == half


def test_a_rail_named_without_any_bar_is_told():
    made = design("jetty")
    found = cut_together([Job("A", made, 1)], Racks(bars={made.structural.rail.name: []}))
    assert not found.bars
    assert "Buy bars" in found.uncut[-1].why or any("Buy bars" in each.why for each in found.uncut)


def test_the_buyer_is_told_the_bars_of_one_plan_over_all_orders():
    both = jobs()
    plans = dict(cut_together(both, Racks()).bars)
    told = bars_of(both)
    assert told == {name: len(plan.bars) for name, plan in plans.items()}
    for name, bars in told.items():
        assert bars <= sum(bars_of([job]).get(name, 0) for job in both)


def test_bars_that_lie_there_are_not_bought_and_a_piece_too_short_helps_nothing():
    both = jobs()
    (rail, *_) = bars_of(both)
    bar_mm = next(j.design.structural.rail.bar_mm for j in both if j.design.structural.rail.name == rail)
    enough = {rail: (bar_mm,) * bars_of(both)[rail]}
    assert bars_of(both, enough)[rail] == 0
    assert bars_of(both, {rail: (30.0,)}) == bars_of(both)
