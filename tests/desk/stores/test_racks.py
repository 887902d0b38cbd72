"""What is sold stands beside what lies in the racks, and is taken only where that does not do."""

from __future__ import annotations

from decimal import Decimal

from panewright.cutting.sheets.sheet import Cutter, Panel
from panewright.cutting.sheets.sheets import cut_sheets
from panewright.desk.stores.racks import BOUGHT, Source, racks
from panewright.shelf.load import load_shelf

ANNEALED, TEMPERED = "4 mm clear annealed", "4 mm clear tempered"
SCORER = Cutter(0.0, 10.0, 15.0)


def test_whole_sheets_are_sold_in_the_sizes_shops_keep_by_their_area():
    made = racks((), load_shelf(), buys=True, whole={ANNEALED, TEMPERED})
    prices = {(each.width_mm, each.height_mm): each.price for each in made.sheets[ANNEALED]}
    assert prices[2000.0, 1000.0] == Decimal("19.00")
    assert TEMPERED not in made.sheets
    assert not racks((), load_shelf(), buys=False, whole={ANNEALED}).sheets


def test_a_sheet_is_bought_only_where_the_rack_does_not_do_and_of_the_size_that_costs_least():
    lies = Source("piece C1-1", "sheet", ANNEALED, 1500.0, 800.0, mark="C1-1")
    made = racks((lies,), load_shelf(), buys=True)
    fronts = [Panel("front", 1200.0, 540.0, 1)]
    one = cut_sheets(fronts, made.sheets[ANNEALED], SCORER)
    assert [cut.sheet.name for cut in one.sheets] == ["piece C1-1"]
    two = cut_sheets([Panel("front", 1200.0, 540.0, 2)], made.sheets[ANNEALED], SCORER)
    bought = [cut.sheet for cut in two.sheets if cut.sheet.name == BOUGHT]
    assert [(sheet.width_mm, sheet.height_mm, sheet.price) for sheet in bought] == [
        (1470.0, 680.0, Decimal("9.50"))
    ]
    assert two.cost == Decimal("9.50")


def test_ribbon_is_sold_by_the_spool_as_it_is_packed():
    shelf = load_shelf()
    made = racks((), shelf, buys=True)
    tab = shelf.tabs[0]
    (spool,) = made.spools[tab.name]
    assert (spool.length_mm, spool.price, spool.name) == (25_000.0, tab.price * 25, BOUGHT)
