"""What broke and how long it took, told in the records, changes the next quote."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from pathlib import Path

from words import NOON, begun, later

from panewright import desk
from panewright.desk.actuals import actuals
from panewright.ledger.orders.designs import DesignMade, record_design
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.serials import open_serials
from panewright.ledger.serials.steps import tick
from panewright.ledger.stores.actuals import add_minutes
from panewright.ledger.stores.stock import Movement, move
from panewright.price.actuals import Actuals, Taken

KIOSK = Path(__file__).parents[2] / "examples" / "kiosk.toml"


@cache
def made():
    return desk.design(KIOSK.read_bytes(), KIOSK.name)


def begun_kiosk(ledger):
    design = made().design
    save_order(ledger, "K-1", design.order.text, seen=0, by="Ann", at=NOON)
    figures = desk.as_json(made())
    row = DesignMade("K-1", 1, design.revision, "0.1.0", "{}", figures, "[]", design.label.serials, True)
    record_design(ledger, row, by="Ann", at=NOON)
    return open_serials(ledger, "K-1", by="Ann", at=NOON)


def took(ledger, serial, step, minutes):
    tick(ledger, serial, step, by="Ann", at=later(1), minutes=Decimal(minutes))


def test_records_that_say_nothing_change_nothing(ledger):
    assert actuals(ledger) == Actuals()
    panel, _ = begun(ledger)  # a design whose figures say nothing of work
    took(ledger, panel, "tab-cells", 90)
    assert actuals(ledger) == Actuals()


def test_minutes_and_losses_lead_the_next_quote(ledger):
    one, two = begun_kiosk(ledger)
    for serial in (one, two):
        took(ledger, serial, "tab-cells", 240)
    took(ledger, one, "polarity", 30)  # the other half of that work was not told
    add_minutes(ledger, "tab-cells", Decimal(6), serial=two, by="Ann", at=later(2))
    cell = made().design.order.cell.name
    for amount, reason in ((72, "used"), (18, "broken"), (10, "wasted")):
        move(ledger, Movement(cell, Decimal(amount), "each", reason), by="Ann", at=NOON)
    own = actuals(ledger)
    assert own.taken == (Taken(cell, "each", Decimal(72), Decimal(28)),)
    (pace,) = own.paces
    planned = {work.step: work.minutes for work in made().quote.work}
    assert (pace.panels, pace.took) == (2, Decimal(486))
    assert pace.planned == planned["Cut and bend the ribbon"] + planned["Tab the cells"]
    again = desk.design(KIOSK.read_bytes(), KIOSK.name, own)
    assert again.design == made().design
    assert again.quote.cells_bought > made().quote.cells_bought
    assert again.quote.hours > made().quote.hours
    assert again.quote.notes[-2:] == (
        "Hours are weighed with the minutes told in this shop, of 2 panels.",
        "Breakage and waste are weighed with what was lost in this shop.",
    )
    assert "weighed with" not in desk.verdict(made())


def test_panes_of_all_sizes_tell_what_is_lost_of_their_glass(ledger):
    for size, reason in (("1185 × 500 mm", "used"), ("600.5 × 400 mm", "used"), ("600.5 × 400 mm", "broken")):
        told = Movement(f"4 mm clear tempered, {size}", Decimal("0.5"), "square metre", reason)
        move(ledger, told, by="Ann", at=NOON)
    assert actuals(ledger).taken == (
        Taken("4 mm clear tempered", "square metre", Decimal(1), Decimal("0.5")),
    )


def test_a_quote_at_the_shops_pace_is_no_table_for_the_next(ledger):
    """Else a slow shop would look quick against its own slow quote."""
    one, two = begun_kiosk(ledger)
    for serial in (one, two):
        took(ledger, serial, "tab-cells", 240)
    first = actuals(ledger)
    slow = desk.design(KIOSK.read_bytes(), KIOSK.name, first)
    row = DesignMade("K-1", 1, "R", "0.1.0", "{}", desk.as_json(slow), "[]", (one, two, "K-9"), True)
    record_design(ledger, row, by="Ann", at=NOON)
    third = open_serials(ledger, "K-1", by="Ann", at=NOON)[-1]
    took(ledger, third, "tab-cells", 240)
    (pace,) = actuals(ledger).paces
    assert pace.panels == 3
    assert pace.planned == first.paces[0].planned / 2 * 3
