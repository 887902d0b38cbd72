"""A shop in which every table holds something."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import numpy as np
from test_lots import CELLS, SILICONE, built
from words import NOON, begun, later

from panewright.intake.cells import BadRow, CellRows, PassedRow
from panewright.ledger.arrays.layings import Laying as ArrayLaying
from panewright.ledger.arrays.layings import Lying, lay_array
from panewright.ledger.arrays.texts import save_array
from panewright.ledger.bench.accuracies import Accuracy, keep_accuracy
from panewright.ledger.bench.ratings import Rating, keep_finding, keep_rating
from panewright.ledger.bench.readings import Reading, add_instrument, calibrate, read
from panewright.ledger.cells.deals import Exchanged, exchange, give, keep_deal
from panewright.ledger.cells.measured import keep_mapping, keep_table
from panewright.ledger.cells.settled import Settlement, settle
from panewright.ledger.files import attach, store
from panewright.ledger.open import Ledger
from panewright.ledger.orders.customers import Person, order_is_for, save_customer
from panewright.ledger.orders.kits import pack
from panewright.ledger.orders.orders import save_order
from panewright.ledger.orders.promises import QuoteSent, keep_quote, promise
from panewright.ledger.serials.built import Deviation, Joint, Substitution, record_built
from panewright.ledger.serials.laid import Laying, lay
from panewright.ledger.serials.repairs import claim, repair
from panewright.ledger.serials.steps import start_timer, tick
from panewright.ledger.stores.actuals import add_minutes
from panewright.ledger.stores.cuts import Cut, PieceCut, cut, keep_plan
from panewright.ledger.stores.lots import Cell, add_cells, save_lot
from panewright.ledger.stores.purchases import Goods, end_line, order_goods, receive
from panewright.ledger.stores.stock import Movement, Remnant, keep_remnant, move, use_remnant

PERSON = Person("Ölaf Plumrow", "7 Tarn Street\nWetherby", "plum@row.example", "+44 7700 900123")
CURVE = b"V,A\n0,9.1\n21.6,0\n"


def shop(ledger: Ledger) -> str:
    """Everything that a shop may write; the serial it is about."""
    panel, _ = begun(ledger)
    save_customer(ledger, "K-1", PERSON, seen=0, by="Ann", at=NOON)
    order_is_for(ledger, "JL-9", "K-1", by="Ann", at=NOON)
    save_order(ledger, "JL-9", 'customer = "Ölaf Plumrow" # =1', seen=1, by="Ann", at=NOON)
    save_lot(ledger, "C1", CELLS, seen=0, by="Ann", at=NOON)
    save_lot(ledger, "G1", SILICONE, seen=0, by="Ann", at=NOON)
    add_cells(ledger, "C1", [Cell("c0"), Cell("c1")], by="Ann", at=NOON)
    parts = {
        "joints": (Joint("1", "2", "remade", "Ben"),),
        "substitutions": (Substitution("ribbon", "1.6", "2.0"),),
        "deviations": (Deviation("chipped corner", "1"),),
    }
    record_built(ledger, panel, built("c0", "c1", **parts), seen=0, by="Ann", at=later(1))
    _measured(ledger, panel)
    tick(ledger, panel, "tab", by="Ann", at=later(2), minutes=Decimal("12.5"), note="=2+3")
    start_timer(ledger, panel, "pour", by="Ann", at=later(3), ends=later(40))
    add_minutes(ledger, "tab", Decimal(3), serial=panel, by="Ann", at=later(4))
    move(ledger, Movement("cell", Decimal(2), "piece", "used", lot="C1", serial=panel), by="Ann", at=later(5))
    keep_remnant(ledger, Remnant("P7", "angle", 640.5), by="Ann", at=later(6))
    use_remnant(ledger, "P7", serial=panel, by="Ben", at=later(7))
    pack(ledger, panel, "kit: rail 900", by="Ben", at=later(7))
    _cut(ledger)
    _cells_measured(ledger)
    _dealt(ledger, panel)
    _rated(ledger, panel)
    words = "Ölaf Plumrow says: fog in the corner. Write to plum@row.example"
    _bought(ledger)
    _arrayed(ledger, panel)
    number = claim(ledger, panel, words, by="Ben", at=later(8))
    repair(ledger, panel, "new bead", claim=number, by="Ben", at=later(9))
    return panel


def _arrayed(ledger: Ledger, panel: str) -> None:
    """An array of which one panel is the shop's, laid twice."""
    name, told = "Tarn roof", {"by": "Ann", "at": NOON}
    save_array(ledger, name, '[array]\nname = "Ölaf Plumrow\'s roof"  # =1\n', seen=0, **told)
    for seen, places in enumerate(([Lying(1, 1, panel)], [Lying(1, 1, "=old", False), Lying(2, 1, panel)])):
        what = ArrayLaying(date(2026, 6, 1 + seen), places, "=as Ölaf Plumrow wished")
        lay_array(ledger, name, what, seen=seen, **told)


def _bought(ledger: Ledger) -> None:
    """Goods on order, of which a part came and the rest never will; a promise and a quote."""
    goods = [
        Goods("ribbon 1.6", "metre", Decimal(50), Decimal("0.14"), "EUR", date(2026, 5, 11)),
        Goods("flux", "pen", Decimal(2)),
    ]
    order_goods(ledger, "P-1", "=Harrow Ribbon", goods, day=NOON.date(), by="Ann", at=NOON)
    receive(ledger, "P-1", 1, Decimal("12.5"), by="Ann", at=later(10))
    end_line(ledger, "P-1", 2, "sold out", by="Ann", at=later(11))
    day = date(2026, 6, 1)
    promise(ledger, "JL-9", "accepted", day, seen=0, by="Ann", at=NOON, note="told Ölaf Plumrow so")
    sent = QuoteSent("JL-9", 1, "ABCDEFGH", NOON.date(), day, Decimal("980.5"), "EUR", "to Ölaf Plumrow")
    keep_quote(ledger, sent, by="Ann", at=NOON)


def _cut(ledger: Ledger) -> None:
    """A plan of which the first bar is cut; its rest lies in the rack."""
    plan = keep_plan(ledger, '{"bars": []}', by="Ann", at=later(7))
    move(ledger, Movement("angle", Decimal(2), "bar", "received"), by="Ann", at=later(7))
    what = Cut(
        (PieceCut("JL-9", "angle", "long rail", 1480.25, None, 2),),
        (Movement("angle", Decimal(1), "bar", "used", order="JL-9"),),
        kept=(Remnant("K1-1", "angle", 900.5),),
    )
    cut(ledger, plan, 1, what, by="Ben", at=later(8))


#: a cell read twice, one of which nothing was read, a bad row
ROWS = CellRows(
    ("c0", "c0", "c1"),
    np.array([2, 2, 5]),
    {"isc_a": np.array([9.1, 9.15, np.nan]), "voc_v": np.array([0.61, 0.615, np.nan])},
    ("", "", "=chip"),
    (BadRow(3, "Isc", "OL", "The meter was overloaded.", "Read it again."),),
    (PassedRow(4, "empty"),),
    ("A", "A", "B"),
    notes=("Columns are parted by semicolons.",),
)
MAPPING = 'decimal_mark = ","\n\n[[column]]\nheader = "Isc"\nquantity = "isc_a"\nunit = "A"\n'


def _cells_measured(ledger: Ledger) -> None:
    """A table of cells, its columns settled, one of its rows put right."""
    raw = store(ledger, CURVE, name="curve.csv", media="text/csv", by="Ann", at=NOON).sha256
    table = keep_table(ledger, "C1", raw, "lot.csv", by="Ann", at=NOON)
    keep_mapping(ledger, table, MAPPING, ROWS, seen=0, kind="156 mm poly", by="Ann", at=NOON)
    right = Settlement("c1", "correct", 5, {"isc_a": 9.05}, reason="=written wrongly")
    settle(ledger, table, right, by="Ann", at=NOON)


def _dealt(ledger: Ledger, panel: str) -> None:
    """A deal of which a cell was exchanged; one of its cells laid, and one that broke."""
    told = {"by": "Ann", "at": NOON}
    text = '{"order": "customer = \\"Ölaf Plumrow\\"", "panels": [["c0", "c1"]]}'
    deal = keep_deal(ledger, "C1", "JL-9", text, said="1 panel", **told)
    give(ledger, deal, 1, panel, **told)
    lay(ledger, panel, Laying(1, "C1", "c0", deal=deal), **told)
    lay(ledger, panel, Laying(1, "C1", "c0", "broken", "=cracked, says Ölaf Plumrow", deal), **told)
    exchange(ledger, deal, Exchanged(1, 1, "c0", "c1", "cracked", '{"power_w": 4.1}'), seen=0, **told)
    lay(ledger, panel, Laying(1, "C1", "c1", deal=deal), **told)


def _rated(ledger: Ledger, panel: str) -> None:
    """A rating with its files, what was found, and how accurate a meter is."""
    told = {"by": "Ann", "at": NOON}
    raw = store(ledger, CURVE, name="curve.csv", media="text/csv", **told).sha256
    report = store(ledger, b"%PDF a report", name="report.pdf", media="application/pdf", **told).sha256
    text = '{"words": {"day": "2026-06-20"}, "said": ["for Ölaf Plumrow"]}'
    rating = Rating(date(2026, 6, 20), "rework", 73.0, 73.5, 60.25, 2.5, raw, report, text)
    kept = keep_rating(ledger, panel, rating, **told)
    keep_rating(ledger, panel, replace(rating, power_w=None, power_off_w=None), **told)
    keep_finding(ledger, panel, "found", "a cold joint, says Ölaf Plumrow", "{}", rating=kept.id, **told)
    keep_accuracy(ledger, "meter 2", Accuracy("0.5 %", "", "0.01 V", ""), **told)


def _measured(ledger: Ledger, panel: str) -> None:
    raw = store(ledger, CURVE, name="curve.csv", media="text/csv", by="Ann", at=NOON).sha256
    picture = store(
        ledger, b"\xff\xd8 light", name="plumrow.jpg", media="image/jpeg", by="Ann", at=NOON
    ).sha256
    attach(ledger, picture, kind="photograph", serial=panel, title="for Ölaf Plumrow", by="Ann", at=NOON)
    add_instrument(ledger, "meter 2", kind="multimeter", by="Ann", at=NOON)
    calibrate(ledger, "meter 2", day=date(2026, 1, 10), due=date(2027, 1, 10), by="Ann", at=NOON)
    told = {"instrument": "meter 2", "light_w_m2": 812.5, "heat_c": -3.25}
    wrong = read(ledger, Reading("Voc", 216.0, "V", serial=panel, **told), by="Ann", at=later(1))
    right = Reading("Voc", 21.6, "V", serial=panel, corrects=wrong.id, file=raw, **told)
    read(ledger, right, by="Ann", at=later(1))
    read(ledger, Reading("Isc", 9.1, "A", lot="C1", cell="c1", **told), by="Ann", at=NOON)
