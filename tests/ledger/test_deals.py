"""Deals and cells as they are laid: what holds now, and everything that was."""

from __future__ import annotations

import pytest
from test_lots import CELLS, SILICONE, built
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.cells.deals import (
    DealHead,
    Exchanged,
    deals,
    exchange,
    exchanges,
    find_deal,
    give,
    given,
    keep_deal,
)
from panewright.ledger.kept.check import check
from panewright.ledger.orders.erasing import erase_customer
from panewright.ledger.serials.built import record_built
from panewright.ledger.serials.laid import Laying, all_laid, broken, laid, lay, lying, taken
from panewright.ledger.serials.life import life
from panewright.ledger.serials.telling import told
from panewright.ledger.stores.lots import Cell, add_cells, save_lot

ANN = {"by": "Ann", "at": NOON}


@pytest.fixture
def shop(ledger):
    """Two panels of an order, and a lot of cells."""
    panels = begun(ledger)
    save_lot(ledger, "C1", CELLS, seen=0, **ANN)
    return ledger, panels


def dealt(ledger, said="2 panels", tap=""):
    return keep_deal(ledger, "C1", "JL-9", "{}", said=said, tap=tap, **ANN)


def test_a_deal_is_kept_once_and_found_by_its_lot_and_its_order(shop):
    ledger, _ = shop
    first, again = dealt(ledger, tap="t" * 24), dealt(ledger, tap="t" * 24)
    second = dealt(ledger, "3 panels")
    assert (first, second) == (again, first + 1)
    head = DealHead(first, "C1", "JL-9", "2 panels", "Ann", NOON)
    assert find_deal(ledger, first) == (head, "{}")
    assert [each.number for each in deals(ledger, lot="C1")] == [second, first]
    assert deals(ledger, order="JL-9") == deals(ledger)
    assert deals(ledger, lot="C2") == ()
    with pytest.raises(RecordError, match="do not know it"):
        find_deal(ledger, 99)


def test_two_hands_that_change_one_deal_do_not_undo_each_other(shop):
    ledger, _ = shop
    deal, what = dealt(ledger), Exchanged(1, 4, "c4", "c9", "cracked", '{"power_w": 90.0}')
    assert exchange(ledger, deal, what, seen=0, **ANN) == 1
    with pytest.raises(StaleError, match="saved version 1"):
        exchange(ledger, deal, Exchanged(1, 4, "c4", "c8"), seen=0, **ANN)
    assert exchange(ledger, deal, Exchanged(2, 1, "c5", "c8"), seen=1, **ANN) == 2
    kept = exchanges(ledger, deal)
    assert [each.version for each in kept] == [1, 2]
    assert kept[0].exchanged == what
    assert check(ledger).faults == ()


def test_a_panel_of_a_deal_is_the_serial_that_was_told_last(shop):
    ledger, (one, other) = shop
    deal = dealt(ledger)
    for serial in (one, other):
        give(ledger, deal, 1, serial, **ANN)
    assert given(ledger, deal) == {1: other}
    with pytest.raises(RecordError, match="do not know it"):
        give(ledger, deal, 2, "JL-999", **ANN)


def test_a_cell_laid_and_lifted_lies_nowhere_and_the_record_tells_both(shop):
    ledger, (one, _) = shop
    lay(ledger, one, Laying(3, "C1", "c7"), **ANN)
    assert [(each.place, each.cell) for each in laid(ledger, one)] == [(3, "c7")]
    lay(ledger, one, Laying(3, "C1", "c7", "lifted"), by="Ben", at=later(1))
    assert laid(ledger, one) == ()
    assert [each.what for each in all_laid(ledger, one)] == ["laid", "lifted"]
    lines = told(life(ledger, one))
    assert "place 3: c7 of lot C1 laid (Ann)" in lines
    assert "place 3: c7 of lot C1 LIFTED again (Ben)" in lines


def test_a_cell_lies_in_one_place_at_a_time(shop):
    ledger, (one, other) = shop
    lay(ledger, one, Laying(3, "C1", "c7"), **ANN)
    for serial, place in ((one, 4), (other, 3)):
        with pytest.raises(RecordError, match=f"it lies in {one}, place 3"):
            lay(ledger, serial, Laying(place, "C1", "c7"), **ANN)
    lay(ledger, one, Laying(3, "C1", "c7", "lifted"), **ANN)
    lay(ledger, other, Laying(3, "C1", "c7"), **ANN)
    assert [(each.serial, each.place) for each in lying(ledger, "C1")] == [(other, 3)]


def test_a_broken_cell_is_never_lost_though_another_lies_in_its_place(shop):
    ledger, (one, _) = shop
    lay(ledger, one, Laying(1, "C1", "c0"), **ANN)
    lay(ledger, one, Laying(1, "C1", "c0", "broken", "cracked at a busbar"), **ANN)
    assert laid(ledger, one) == ()
    lay(ledger, one, Laying(1, "C1", "c5"), **ANN)
    assert [each.cell for each in laid(ledger, one)] == ["c5"]
    assert [(each.cell, each.reason) for each in broken(ledger, "C1")] == [("c0", "cracked at a busbar")]
    assert "c0 of lot C1 BROKE: cracked at a busbar" in told(life(ledger, one))


def test_a_cell_that_lies_was_told_as_built_or_broke_is_taken(shop):
    ledger, (one, other) = shop
    add_cells(ledger, "C1", [Cell(f"c{n}") for n in range(3)], **ANN)
    save_lot(ledger, "G1", SILICONE, seen=0, **ANN)
    record_built(ledger, other, built("c1", "c2"), seen=0, **ANN)
    lay(ledger, one, Laying(1, "C1", "c7"), **ANN)
    lay(ledger, one, Laying(2, "C1", "c8"), **ANN)
    lay(ledger, one, Laying(2, "C1", "c8", "lifted"), **ANN)
    lay(ledger, one, Laying(3, "C1", "c9", "broken"), **ANN)
    assert taken(ledger, "C1") == ("c1", "c2", "c7", "c9")
    assert taken(ledger, "C2") == ()


def test_what_tells_nothing_and_what_is_not_known_is_refused(shop):
    ledger, (one, _) = shop
    for what in (Laying(1, "C1", "c1", "burnt"), Laying(0, "C1", "c1"), Laying(1, "C1", "")):
        with pytest.raises(RecordError, match="tells nothing"):
            lay(ledger, one, what, **ANN)
    with pytest.raises(RecordError, match="do not know it"):
        lay(ledger, one, Laying(1, "C9", "c1"), **ANN)


@pytest.mark.erases
@pytest.mark.full
def test_a_customer_who_is_erased_is_in_no_deal_either(ledger, panel):
    erase_customer(ledger, "K-1", reason="asked", **ANN)
    _, text = find_deal(ledger, deals(ledger)[0].number)
    assert "Plumrow" not in text
    assert '"c0"' in text
    assert "Plumrow" not in told(life(ledger, panel))
