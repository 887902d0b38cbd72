"""Lots, cells, and the panels that a bad batch is in."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.serials.affected import Affected, serials_of_batch, serials_of_lot
from panewright.ledger.serials.built import (
    Built,
    Deviation,
    Joint,
    Seat,
    Substitution,
    Use,
    builts,
    find_built,
    record_built,
)
from panewright.ledger.stores.lots import Cell, Lot, add_cells, cells_of, expiring, find_lot, lots, save_lot

CELLS = Lot("cells", "156 mm whole", "piece", batch="B7", price=Decimal("0.85"), currency="EUR")
SILICONE = Lot("silicone", "neutral", "cartridge", batch="S-31", expires=date(2026, 6, 1))


def shop(ledger):
    """Two panels, a lot of six marked cells, and a cartridge."""
    panels = begun(ledger)
    save_lot(ledger, "C1", CELLS, seen=0, by="Ann", at=NOON)
    save_lot(ledger, "G1", SILICONE, seen=0, by="Ann", at=NOON)
    add_cells(ledger, "C1", [Cell(f"c{n}", f'{{"isc_a": {n}}}') for n in range(6)], by="Ann", at=NOON)
    return panels


def built(*cells: str, uses=("G1",), **parts) -> Built:
    seats = tuple(Seat(str(place), "C1", cell) for place, cell in enumerate(cells))
    return Built("0.1", "{}", "[]", True, seats, uses=tuple(Use(lot) for lot in uses), **parts)


def test_a_lot_described_better_is_a_new_version(ledger):
    save_lot(ledger, "C1", CELLS, seen=0, by="Ann", at=NOON)
    better = Lot(
        "cells", "156 mm whole", "piece", batch="B8", amount=Decimal("100"), received=date(2026, 4, 1)
    )
    save_lot(ledger, "C1", better, seen=1, by="Ben", at=later(1))
    assert find_lot(ledger, "C1").lot == better
    with pytest.raises(StaleError, match="Ben saved version 2"):
        save_lot(ledger, "C1", CELLS, seen=1, by="Ann", at=later(2))


def test_lots_past_their_day_are_told_by_what_holds_now(ledger):
    shop(ledger)
    assert [each.mark for each in expiring(ledger, date(2026, 6, 1))] == ["G1"]
    assert expiring(ledger, date(2026, 5, 31)) == ()
    fresh = Lot("silicone", "neutral", "cartridge", batch="S-31", expires=date(2027, 6, 1))
    save_lot(ledger, "G1", fresh, seen=1, by="Ann", at=later(1))
    assert expiring(ledger, date(2026, 12, 1)) == ()
    assert [each.mark for each in lots(ledger, kind="cells")] == ["C1"]
    assert [each.mark for each in lots(ledger)] == ["G1", "C1"]
    assert len(cells_of(ledger, "C1")) == 6


def test_a_panel_comes_back_with_all_its_parts(ledger):
    panel, _ = shop(ledger)
    parts = {
        "joints": (Joint("1 front", "2 back", "remade", "Ben", "iron too cold"),),
        "substitutions": (Substitution("ribbon", "1.6 x 0.2 mm", "2.0 x 0.2 mm", "sold out"),),
        "deviations": (Deviation("chipped corner", "1", "2 mm"),),
    }
    first = built("c0", "c1", **parts)
    kept = record_built(ledger, panel, first, seen=0, by="Ann", at=NOON)
    assert kept.built == first
    assert find_built(ledger, panel) == kept
    record_built(ledger, panel, built("c0", "c2"), seen=1, by="Ben", at=later(9))
    assert [each.version for each in builts(ledger, panel)] == [1, 2]
    assert builts(ledger, panel)[0] == kept


def test_a_cell_lies_in_one_panel_at_a_time(ledger):
    panel, other = shop(ledger)
    record_built(ledger, panel, built("c0", "c1"), seen=0, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="cell = c1: it sits in JL-0001, place 1"):
        record_built(ledger, other, built("c1"), seen=0, by="Ann", at=NOON)
    record_built(ledger, panel, built("c0", "c2"), seen=1, by="Ann", at=NOON)  # c1 comes free
    record_built(ledger, other, built("c1"), seen=0, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="two places"):
        record_built(ledger, other, built("c3", "c3"), seen=1, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="cell = c9 of lot C1: the records do not know it"):
        record_built(ledger, other, built("c9"), seen=1, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="lot = G9"):
        record_built(ledger, other, built("c3", uses=("G9",)), seen=1, by="Ann", at=NOON)
    with pytest.raises(StaleError):
        record_built(ledger, other, built("c3"), seen=0, by="Ann", at=NOON)


def test_every_panel_of_a_bad_batch_is_found(ledger):
    panel, other = shop(ledger)
    record_built(ledger, panel, built("c0", "c1"), seen=0, by="Ann", at=NOON)
    record_built(ledger, other, built("c2", uses=()), seen=0, by="Ann", at=NOON)
    assert serials_of_lot(ledger, "C1") == (Affected(panel, 2, False, True), Affected(other, 1, False, True))
    assert serials_of_batch(ledger, "S-31") == (Affected(panel, 0, True, True),)
    assert serials_of_batch(ledger, "S-31", kind="glass") == ()
    save_lot(ledger, "G2", SILICONE, seen=0, by="Ann", at=NOON)  # the same batch came twice
    record_built(ledger, other, built("c2", uses=("G2",)), seen=1, by="Ann", at=NOON)
    assert [each.serial for each in serials_of_batch(ledger, "S-31")] == [panel, other]
    assert [each.serial for each in serials_of_lot(ledger, "G2")] == [other]


def test_a_panel_repaired_since_is_still_named_and_told_apart(ledger):
    panel, _ = shop(ledger)
    record_built(ledger, panel, built("c0", "c1"), seen=0, by="Ann", at=NOON)
    record_built(ledger, panel, built(uses=()), seen=1, by="Ann", at=NOON)
    assert serials_of_lot(ledger, "C1") == (Affected(panel, 2, False, False),)
