"""A panel as it was really built goes from the bench into the records and comes back the very same."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from math import inf
from pathlib import Path

import pytest
from test_lots import CELLS, SILICONE
from words import NOON, later

from panewright import desk
from panewright.desk.built import noted as bench
from panewright.errors import BuiltError, RecordError, StaleError
from panewright.ledger.orders.designs import DesignMade, record_design
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.affected import Affected, serials_of_batch, serials_of_lot
from panewright.ledger.serials.built import Joint, Seat, Substitution, Use, find_built
from panewright.ledger.serials.expiry import past_their_day
from panewright.ledger.serials.life import life
from panewright.ledger.serials.serials import open_serials
from panewright.ledger.serials.telling import told
from panewright.ledger.stores.lots import Cell, Lot, add_cells, save_lot
from panewright.ledger.stores.stock import Movement, move
from panewright.panel.built import planned_part
from panewright.panel.electric.own import Rated
from panewright.panel.happened import Batch, Deviation, Happened, PlacedFrom, Redone
from panewright.panel.happened import Substitution as Swap

KIOSK = Path(__file__).parents[2] / "examples" / "kiosk.toml"


@cache
def made():
    return desk.design(KIOSK.read_bytes(), KIOSK.name)


@pytest.fixture
def shop(ledger):
    """The kiosk's order with its panels begun, a lot of cells, a cartridge; the first serial."""
    design = made().design
    save_order(ledger, "K-1", design.order.text, seen=0, by="Ann", at=NOON)
    planned = design.label.serials
    kept = DesignMade("K-1", 1, design.revision, "0.1.0", "{}", "{}", "[]", planned, design.proven)
    record_design(ledger, kept, by="Ann", at=NOON)
    serial, *_ = open_serials(ledger, "K-1", by="Ann", at=NOON)
    save_lot(ledger, "C1", CELLS, seen=0, by="Ann", at=NOON)
    save_lot(ledger, "S1", SILICONE, seen=0, by="Ann", at=NOON)
    add_cells(ledger, "C1", [Cell("c1"), Cell("c2")], by="Ann", at=NOON)
    return serial


def happened(serial: str, **more) -> Happened:
    count = len(made().design.layup.cells)
    marked = (PlacedFrom(1, "C1", "c1"), PlacedFrom(2, "C1", "c2", Rated(0.97, 0.96)))
    cells = (*marked, *(PlacedFrom(place, "C1") for place in range(3, count + 1)))
    swaps = (Swap("parts.sealant", planned_part(made().design, "parts.sealant"), "the tin was open"),)
    deviations = (
        Deviation("crack", 5, 0.2, "corner, from the tabbing"),
        Deviation("cold joint", 7, inf),
        Deviation("gap", amount=6.5),
        Deviation("other", note="a hair under the glass"),
    )
    told = Happened(
        serial,
        cells,
        (Redone("tab", 3, 2, "iron too cold"), Redone("lead", 0)),
        swaps,
        deviations,
        (Batch("silicone", "S1", 1.5, "cartridge"), Batch("flux", "S1")),
    )
    return replace(told, **more)


def test_the_very_same_panel_comes_back(ledger, shop):
    noted = bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=NOON, tap="t1")
    assert noted.built == desk.build(made(), happened(shop))
    assert bench.happened(ledger, shop) == noted
    assert (noted.version, noted.by, noted.at, noted.warnings) == (1, "Ann", NOON, ())
    again = bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=NOON, tap="t1")
    assert again == noted  # a tap sent twice
    assert len(bench.versions(ledger, shop)) == 1


def test_rows_say_the_same_as_the_panel_kept_whole(ledger, shop):
    bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=NOON)
    row = find_built(ledger, shop).built
    assert row.seats[:3] == (Seat("1", "C1", "c1"), Seat("2", "C1", "c2"), Seat("3", "C1"))
    assert row.joints == (
        Joint("cell 3", "the next", "tab soldered again 2 times", note="iron too cold"),
        Joint("minus end", "the next", "lead soldered again"),
    )
    assert row.uses == (Use("S1", Decimal("1.5"), "cartridge"), Use("S1"))
    sealant = planned_part(made().design, "parts.sealant")
    assert row.substitutions == (Substitution("parts.sealant", sealant, sealant, "the tin was open"),)
    assert [each.places for each in row.deviations] == [
        "cell 5: 0.2 of it cut off",
        "cell 7: inf ohm too many",
        "6.5 mm",
        "",
    ]
    count = len(made().design.layup.cells)
    assert serials_of_lot(ledger, "C1") == (Affected(shop, count, False, True),)


def test_two_who_tell_of_one_panel_do_not_overwrite_each_other(ledger, shop):
    assert bench.happened(ledger, shop) is None
    bench.note(ledger, made(), Happened(shop), seen=0, by="Ann", at=NOON)
    with pytest.raises(StaleError, match="Ann saved version 1"):
        bench.note(ledger, made(), happened(shop), seen=0, by="Ben", at=later(1))
    second = bench.note(ledger, made(), happened(shop), seen=1, by="Ben", at=later(1))
    assert bench.happened(ledger, shop) == second
    assert [each.by for each in bench.versions(ledger, shop)] == ["Ann", "Ben"]


def test_what_cannot_be_is_told_and_nothing_is_kept(ledger, shop):
    with pytest.raises(BuiltError, match="no such place"):
        bench.note(ledger, made(), Happened(shop, (PlacedFrom(999, "C1"),)), seen=0, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="lot = C9"):
        bench.note(ledger, made(), Happened(shop, (PlacedFrom(1, "C9"),)), seen=0, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="cell = zz of lot C1"):
        bench.note(ledger, made(), Happened(shop, (PlacedFrom(1, "C1", "zz"),)), seen=0, by="Ann", at=NOON)
    assert bench.happened(ledger, shop) is None


def test_the_life_tells_where_each_cell_lies_and_which_checks_changed(ledger, shop):
    noted = bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=NOON)
    page = told(life(ledger, shop))
    for words in (
        "place 2: cell c2 of lot C1",
        "joint cell 3 - the next: tab soldered again 2 times iron too cold",
        "The tin was open".lower(),
        "crack cell 5: 0.2 of it cut off corner, from the tabbing",
        "gap 6.5 mm",
        "other a hair under the glass",
        f"mass {noted.built.mass_kg:.4g} kg",
        f"Isc {noted.built.points.isc_a:.4g} A",
        f"judged by design {made().design.revision}",
    ):
        assert words in page, page
    assert noted.built.changed
    for each in noted.built.changed:
        now = str(each.built).removeprefix(f"{each.rule}: ") if each.built else "not asked"
        assert f"changed: {each.rule}: planned " in page
        assert f"; as built {now}" in page


def test_a_panel_kept_by_another_program_is_still_told(ledger, shop):
    """Years later a figure may have another name."""
    from panewright.ledger.serials.built import Built, record_built

    figures = json.dumps({"points": {"isc_a": 5.1}, "changed": [{"rule": "sag", "planned": {"odd": 1}}]})
    row = Built("0.0.9", figures, '["sag: 3 of 2 mm, TOO MUCH", {"rule": 7}]', False, (Seat("1", "C1"),))
    record_built(ledger, shop, row, seen=0, by="Ann", at=NOON)
    page = told(life(ledger, shop))
    assert "Isc 5.1 A" in page
    assert "changed: sag: planned not asked; as built not asked" in page
    assert "sag: 3 of 2 mm, TOO MUCH" in page
    with pytest.raises(RecordError, match=r"Panewright 0\.0\.9 wrote this panel in another way"):
        bench.happened(ledger, shop)


def test_a_lot_past_its_day_is_told_at_once_and_in_the_life(ledger, shop):
    day = SILICONE.expires
    assert day is not None
    on_the_day = NOON.replace(year=day.year, month=day.month, day=day.day)
    noted = bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=on_the_day)
    assert noted.warnings == ()
    after = on_the_day.replace(day=day.day + 1)
    other = made().design.label.serials[1]
    used = Happened(other, batches=(Batch("silicone", "S1"),))
    noted = bench.note(ledger, made(), used, seen=0, by="Ann", at=after)
    words = "lot S1, silicone: good until 2026-06-01, used 2026-06-02: PAST ITS DAY"
    assert noted.warnings == (words,)
    assert words in told(life(ledger, other))
    assert "PAST ITS DAY" not in told(life(ledger, shop))
    later_told = bench.note(ledger, made(), happened(shop), seen=1, by="Ann", at=after)
    assert later_told.warnings == ()  # it went in while it was good


def test_material_taken_for_a_panel_counts_as_in_it(ledger, shop):
    """Whoever only says what was taken from the shelf is found by the batch as well."""
    flux = Lot("flux", "no-clean", "pen", batch="F-7", expires=date(2026, 1, 1))
    save_lot(ledger, "F1", flux, seen=0, by="Ann", at=NOON)
    taken = Movement("flux", Decimal(1), "pen", "used", lot="F1", serial=shop)
    move(ledger, taken, by="Ann", at=NOON)
    assert [each.mark for each in past_their_day(ledger, shop)] == ["F1"]
    assert serials_of_batch(ledger, "F-7") == (Affected(shop, 0, True, True),)
    assert "F1: flux no-clean, batch F-7" in told(life(ledger, shop))
    bench.note(ledger, made(), happened(shop), seen=0, by="Ann", at=NOON)
    assert serials_of_batch(ledger, "F-7") == (Affected(shop, 0, True, True),)


def test_another_design_than_the_panel_was_begun_by_is_told(ledger, shop):
    other = desk.Made(replace(made().design, revision="OTHERONE"), made().quote)
    noted = bench.note(ledger, other, Happened(shop), seen=0, by="Ann", at=NOON)
    assert noted.warnings == (
        f"It was begun by design {made().design.revision} and is judged by design OTHERONE.",
    )
