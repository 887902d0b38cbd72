"""The shop's own figures lead the price away from common practice, the further the more it has done."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.order.parse import parse_bytes
from panewright.pack.bench import Bench
from panewright.pack.steps.steps import KEYS, bench_steps
from panewright.pack.steps.work import ONCE, WORK
from panewright.panel.choose import design_panel
from panewright.price.actuals import Actuals, Pace, PanelTook, Taken, breakage, notes, pace, rates, waste
from panewright.price.hours import RATES
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

CRATED = ("Build the crate", "Cut the foam", "Put the panels", "Close and mark", "Weigh and measure")
CRATED += ("Cut and fold the carton", "Wrap the kits", "Fill, tape")
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
KIOSK = next(path for path in EXAMPLES if path.stem == "kiosk")
SHELF = load_shelf()
amounts = st.decimals(0, 100_000, places=1)


@cache
def designed(path):
    return design_panel(parse_bytes(path.read_bytes(), path.name, SHELF), SHELF)


def line(made, name):
    return next(each for each in made.lines if each.name == name)


def test_a_shop_that_told_nothing_gets_the_quote_of_the_table():
    assert quote(designed(KIOSK), SHELF, Actuals()) == quote(designed(KIOSK), SHELF)


def test_a_shop_that_breaks_more_buys_more_cells_and_says_why():
    design = designed(KIOSK)
    name = design.order.cell.name
    before = quote(design, SHELF)
    own = Actuals(taken=(Taken(name, "each", Decimal(720), Decimal(80)),))
    after = quote(design, SHELF, own)
    assert line(after, name).waste == Decimal("0.086")
    assert after.cells_bought == line(after, name).buy > before.cells_bought
    assert "Lost in this shop: 80 beside 720 used" in line(after, name).source
    assert after.notes == (*before.notes, "Breakage and waste are weighed with what was lost in this shop.")
    other = Actuals(taken=(replace(own.taken[0], name="another cell"),))
    assert quote(design, SHELF, other).lines == before.lines


def test_waste_of_ribbon_and_silicone_is_the_shops_own():
    design = designed(KIOSK)
    sealant, tab = design.structural.bead.sealant.name, design.electrical.tab.name
    own = Actuals(
        taken=(
            Taken(tab, "metre", Decimal(1000), Decimal(250)),
            Taken(sealant, "cartridge", Decimal(60), Decimal(120)),
        )
    )
    after = quote(design, SHELF, own)
    assert line(after, tab).waste == waste(line(after, tab).one, Decimal("0.03"), own.taken[0])
    assert line(after, tab).buy > line(quote(design, SHELF), tab).buy
    assert line(after, sealant).buy == 6  # 2 panels of 1.125 with 1.48 lost on top


def test_hours_follow_the_shops_own_pace():
    own = Actuals(paces=(Pace(("Tab", "Cut and bend"), 15, Decimal(3000), Decimal(1500)),))
    before, after = quote(designed(KIOSK), SHELF), quote(designed(KIOSK), SHELF, own)
    minutes = {each.step: each for each in before.work}
    for each in after.work:
        ratio = Decimal("1.75") if each.step.startswith(("Tab", "Cut and bend")) else 1
        assert each.each_minutes == (minutes[each.step].each_minutes * ratio).quantize(Decimal("0.001"))
    assert after.labour > before.labour
    tabbing = next(each for each in after.work if each.step == "Tab the cells")
    assert tabbing.source.startswith("1.750 of the table's: 15 panels of this shop")
    assert "Hours are weighed with the minutes told in this shop, of 15 panels." in after.notes


def test_the_note_says_from_how_many_panels():
    tab, bead = (Pace((work,), panels, Decimal(30), Decimal(20)) for work, panels in (("Tab", 5), ("Lay", 1)))
    said = "Hours are weighed with the minutes told in this shop, of"
    assert notes(Actuals(paces=(bead,))) == [f"{said} one panel."]
    assert notes(Actuals(paces=(tab, bead))) == [f"{said} 1 to 5 panels."]
    assert notes(Actuals()) == notes(None) == []


def test_large_and_small_panels_count_by_the_work_in_them():
    """Twice the cells in twice the time is the same pace."""
    small = PanelTook({"string-column": Decimal(40)}, {"Lay out and string": Decimal(36)})
    large = PanelTook({"string-column": Decimal(80)}, {"Lay out and string": Decimal(72)})
    found = pace(("string-column",), ("Lay out",), (small, large))
    assert found == Pace(("Lay out",), 2, Decimal(120), Decimal("75.6"))
    assert pace(("string-column", "label"), ("Lay out",), (small, large)) is None  # not told of both
    assert pace(("string-column",), ("Lay out",), (replace(small, counts={}),)) is None


@given(amounts, amounts, amounts)
def test_more_lost_is_never_less_to_buy(used, lost, more):
    less, larger = Taken("x", "each", used, lost), Taken("x", "each", used, lost + more)
    common = Decimal("0.03")
    assert 0 <= breakage(common, less) <= breakage(common, larger) <= 1
    assert 0 <= waste(Decimal(3), common, less) <= waste(Decimal(3), common, larger)


@given(st.integers(1, 200), st.decimals(1, 1000, places=1), st.decimals(1, 1000, places=1))
def test_a_pace_lies_between_the_table_and_the_shop(panels, took, planned):
    ratio, own = Pace(("Tab",), panels, took, planned).ratio, took / planned
    assert min(own, 1) - Decimal("0.001") <= ratio <= max(own, 1) + Decimal("0.001")


def test_a_table_at_no_pace_is_the_table():
    assert rates(Actuals()) == RATES


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_steps_and_the_work_behind_them_take_the_same_minutes(path):
    bench = Bench(designed(path), quote(designed(path), SHELF))
    minutes = {step.key: step.minutes for step in bench_steps(bench)}
    for keys, work in WORK:
        assert set(keys) <= set(KEYS.values())
        assert abs(sum(minutes.get(key, 0.0) for key in keys) - bench.minutes(*work)) <= 1.5, keys
    named = [rate.step for rate in RATES if not rate.step.startswith(("Set up", "Pick", *CRATED))]
    assert all(sum(name.startswith(work) for _, work in (*WORK, *ONCE)) == 1 for name in named)
