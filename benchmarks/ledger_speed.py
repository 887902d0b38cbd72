"""Every question that a page asks of the records of 10,000 panels with 36 cells each: under 50 ms."""

from __future__ import annotations

import hashlib
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import postgres_server
from clock import best_s
from row import Row
from sqlalchemy import insert

from panewright.ledger import changes, files
from panewright.ledger.bench import readings
from panewright.ledger.open import Ledger, open_ledger
from panewright.ledger.orders import customers, designs, orders
from panewright.ledger.serials import affected, built, expiry, life, repairs, serials, steps
from panewright.ledger.stores import actuals, lots, stock
from panewright.ledger.tables import METADATA

PANELS, CELLS, EACH = 10_000, 36, 4  #: panels, cells in a panel, panels in an order
STEPS = [f"step {number}" for number in range(17)]
LOT = 1_000  #: cells in a lot
MOST_S = 0.05
BEGIN = datetime(2016, 1, 1, tzinfo=UTC)
DAY = timedelta(days=1)


def rows() -> list[Row]:
    """Both databases; PostgreSQL where it is installed, with all that keeps its data safe switched on."""
    with tempfile.TemporaryDirectory() as folder:
        found = asked(open_ledger(Path(folder) / "shop.db"), "records")
    if not postgres_server.installed():
        return [*found, Row("records on PostgreSQL: not run, it is not installed", 0.0)]
    with postgres_server.started() as url:
        return [*found, *asked(open_ledger(url.format(name="postgres")), "records on PostgreSQL")]


def asked(ledger: Ledger, where: str) -> list[Row]:
    """A shop of ten years, then each question; its first time counts as much as the best."""
    begin = time.perf_counter()
    fill(ledger)
    took = time.perf_counter() - begin
    found = [Row(f"{where}: {what}", best_s(ask, 3), most_s=MOST_S) for what, ask in questions(ledger)]
    ledger.close()
    return [Row(f"{where}: {PANELS} panels with {CELLS} cells each written", took), *found]


def questions(ledger: Ledger) -> Iterator[tuple[str, Callable[[], object]]]:
    """What pages ask, of things in the middle of the shop's time."""
    middle, order = serial(PANELS // 2), f"A-{PANELS // EACH // 2}"
    yield "list of orders", lambda: orders.orders(ledger, most=40)
    yield "list of orders, the 50th page", lambda: orders.orders(ledger, most=40, skip=2_000)
    yield "an order", lambda: orders.find_order(ledger, order)
    yield "an order's versions", lambda: orders.versions(ledger, order)
    yield "an order's designs", lambda: designs.designs(ledger, order)
    yield "an order's panels", lambda: serials.serials(ledger, order=order)
    yield "panels whose serial begins so", lambda: serials.serials(ledger, begins="S-04")
    yield "newest panels", lambda: serials.serials(ledger)
    yield "a panel as built", lambda: built.find_built(ledger, middle)
    yield "a panel's steps", lambda: steps.ticks(ledger, middle)
    yield "all clocks that run", lambda: steps.timers(ledger)
    yield "a panel's readings", lambda: readings.readings(ledger, serial=middle)
    yield "a panel's papers", lambda: files.attached(ledger, serial=middle)
    yield "a panel's claims", lambda: repairs.claims(ledger, middle)
    yield "a panel's whole life", lambda: life.life(ledger, middle)
    yield "lots of cells", lambda: lots.lots(ledger, kind="cells")
    yield "a lot's 1000 cells", lambda: lots.cells_of(ledger, "C-100")
    yield "lots of a panel past their day", lambda: expiry.past_their_day(ledger, middle)
    yield "lots past their day", lambda: lots.expiring(ledger, date(2017, 1, 1))
    yield "panels of a bad lot of cells", lambda: affected.serials_of_lot(ledger, "C-100")
    yield "panels of a bad lot of silicone", lambda: affected.serials_of_lot(ledger, "G-10")
    yield "panels of a bad batch of silicone", lambda: affected.serials_of_batch(ledger, "B-10")
    yield "panels of a bad batch or lot", lambda: affected.serials_of(ledger, "B-10")
    month = {"since": date(2020, 1, 1), "until": date(2020, 1, 31)}
    yield (
        "panels of a faulty meter, a month",
        lambda: affected.serials_of_instrument(ledger, "meter 1", **month),
    )
    yield "stock", lambda: stock.stock(ledger)
    yield "movements of an item", lambda: stock.movements(ledger, item="item 3")
    yield "pieces left over", lambda: stock.remnants(ledger)
    yield "customers", lambda: customers.customers(ledger)
    yield "a customer, all that is known", lambda: customers.all_of_customer(ledger, "K-100")
    yield "instruments", lambda: readings.instruments(ledger)
    yield "minutes a step, of late", lambda: actuals.minutes_by_step(ledger)
    yield "breakage and waste, of late", lambda: actuals.losses(ledger)
    yield "what changed", lambda: changes.since(ledger, changes.newest(ledger) - 20)
    count = iter(range(10**9))
    at = BEGIN + 4_000 * DAY
    yield "a tick written", lambda: steps.tick(ledger, middle, "tab", by="Ann", at=at, note=str(next(count)))


def serial(number: int) -> str:
    """The serial of a panel, counted from 0."""
    return f"S-{number:05d}"


def fill(ledger: Ledger) -> None:
    """Ten years of a shop, table by table, as its pages would have written them."""
    with ledger.writing() as db:
        for name, told in _tables():
            table, at_once = METADATA.tables[name], list[dict[str, Any]]()
            for values in told:
                at_once.append(values)
                if len(at_once) == 20_000:
                    db.execute(insert(table), at_once)
                    at_once = []
            if at_once:
                db.execute(insert(table), at_once)
        db.exec_driver_sql("ANALYZE")


def _told(number: int, share: float = 1.0) -> dict[str, Any]:
    """Who and when: the shop's days go by evenly."""
    return {"who": ("Ann", "Ben", "Cy")[number % 3], "at": BEGIN + 3_650 * DAY * share}


def _tables() -> Iterator[tuple[str, Iterator[dict[str, Any]]]]:
    yield "customer", ({"mark": f"K-{n}", **_told(n)} for n in range(500))
    yield "customer_detail", _details()
    yield "orders", ({"number": f"A-{n}", **_told(n, n * EACH / PANELS)} for n in range(PANELS // EACH))
    yield (
        "order_customer",
        ({"order_id": n + 1, "customer_id": n % 500 + 1, **_told(n)} for n in range(PANELS // EACH)),
    )
    yield "order_version", _versions()
    shelf = "x" * 40_000
    yield "document", iter([{"digest": hashlib.sha256(shelf.encode()).hexdigest(), "text": shelf}])
    yield "design_made", _designs()
    yield "serial", _serials()
    yield "lot", _lots()
    yield "lot_detail", _lot_details()
    yield (
        "cell",
        (
            {"lot_id": n // LOT + 1, "mark": f"c{n % LOT}", "figures": "{}", **_told(n)}
            for n in range(PANELS * CELLS)
        ),
    )
    yield "built", _builts()
    yield "seat", _seats()
    yield "joint", _joints()
    yield "used", _uses()
    yield "step_done", _steps()
    yield "timer", _timers()
    yield "file", _files()
    yield (
        "attached",
        (
            {
                "kind": "photograph",
                "title": "",
                "revision": "",
                "file_id": n + 1,
                "serial_id": n // 2 + 1,
                **_told(n),
            }
            for n in range(PANELS * 2)
        ),
    )
    yield "instrument", ({"name": f"meter {n}", "kind": "meter", "number": "", **_told(n)} for n in range(4))
    yield (
        "calibration",
        (
            {"instrument_id": n % 4 + 1, "day": date(2016 + n // 4, 1, 1), "note": "", **_told(n)}
            for n in range(40)
        ),
    )
    yield "reading", _readings()
    yield "stock_movement", _movements()
    yield (
        "remnant",
        ({"mark": f"P-{n}", "item": "rail", "length_mm": 300.0 + n % 700, **_told(n)} for n in range(5_000)),
    )
    yield (
        "remnant_state",
        ({"remnant_id": n + 1, "version": 1, "state": "used", **_told(n)} for n in range(4_900)),
    )
    yield "claim", ({"serial_id": n * 50 + 1, "words": "fog", **_told(n)} for n in range(PANELS // 50))
    yield "change", _changes()


def _details() -> Iterator[dict[str, Any]]:
    blank = {"address": "7 Tarn Street", "mail": "a@b.example", "phone": "1"}
    for n in range(1_000):
        yield {
            "customer_id": n % 500 + 1,
            "version": n // 500 + 1,
            "name": f"Maker {n % 500}",
            **blank,
            **_told(n),
        }


def _versions() -> Iterator[dict[str, Any]]:
    for n in range(PANELS // EACH * 3):
        yield {"order_id": n // 3 + 1, "version": n % 3 + 1, "text": "key = 1\n" * 150, **_told(n)}


def _designs() -> Iterator[dict[str, Any]]:
    told = {"program": "0.1", "shelf_id": 1, "figures": "{}" * 4_000, "checks": "[]" * 2_000, "serials": "[]"}
    for n in range(PANELS // EACH):
        yield {"order_version_id": n * 3 + 3, "revision": f"R{n:07d}", "proven": True, **told, **_told(n)}


def _serials() -> Iterator[dict[str, Any]]:
    for n in range(PANELS):
        key = n // EACH + 1
        yield {
            "serial": serial(n),
            "order_id": key,
            "design_id": key,
            "number": n % EACH + 1,
            **_told(n, n / PANELS),
        }


def _lots() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * CELLS // LOT):
        yield {"mark": f"C-{n}", **_told(n)}
    for n in range(PANELS // 50):
        yield {"mark": f"G-{n}", **_told(n)}


def _lot_details() -> Iterator[dict[str, Any]]:
    blank = {"supplier": "", "currency": "", "note": "", "unit": "piece"}
    cells = PANELS * CELLS // LOT
    for n in range(cells + PANELS // 50):
        kind, batch = ("cells", f"W-{n}") if n < cells else ("silicone", f"B-{(n - cells) // 5}")
        expires = BEGIN.date() + timedelta(days=18 * max(0, n - cells))
        yield {
            "lot_id": n + 1,
            "version": 1,
            "kind": kind,
            "name": kind,
            "batch": batch,
            "expires": expires,
            **blank,
            **_told(n),
        }


def _builts() -> Iterator[dict[str, Any]]:
    told = {"version": 1, "program": "0.1", "figures": "{}" * 2_000, "checks": "[]" * 2_000, "proven": True}
    for n in range(PANELS):
        yield {"serial_id": n + 1, **told, **_told(n, n / PANELS)}


def _seats() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * CELLS):
        yield {"built_id": n // CELLS + 1, "place": str(n % CELLS), "lot_id": n // LOT + 1, "cell_id": n + 1}


def _joints() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * CELLS):
        yield {
            "built_id": n // CELLS + 1,
            "start": str(n % CELLS),
            "end": str(n % CELLS + 1),
            "kind": "sound",
            "maker": "Ann",
            "note": "",
        }


def _uses() -> Iterator[dict[str, Any]]:
    first = PANELS * CELLS // LOT + 1
    for n in range(PANELS * 8):
        yield {
            "built_id": n // 8 + 1,
            "lot_id": first + n // 8 // 50,
            "amount": Decimal("0.5"),
            "unit": "metre",
        }


def _steps() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * len(STEPS)):
        panel, step = divmod(n, len(STEPS))
        yield {
            "serial_id": panel + 1,
            "step": STEPS[step],
            "done": True,
            "minutes": Decimal(12),
            "note": "",
            **_told(n, panel / PANELS),
        }


def _timers() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * 4):
        panel, turn = divmod(n, 4)
        told = _told(n, panel / PANELS)
        stopped = turn % 2 == 1 and panel < PANELS - 10
        yield {
            "serial_id": panel + 1,
            "step": ("bead", "pour")[turn // 2],
            "starts": told["at"],
            "stopped": stopped,
            **told,
        }


def _files() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * 2):
        digest = hashlib.sha256(str(n).encode()).hexdigest()
        yield {"sha256": digest, "name": "a.jpg", "media": "image/jpeg", "size": 5, **_told(n)}


def _readings() -> Iterator[dict[str, Any]]:
    """One of each cell, ten of each panel."""
    blank = {"step": "", "note": "", "unit": "A", "light_w_m2": 812.0, "heat_c": 31.0}
    for panel in range(PANELS):
        told = {**_told(panel, panel / PANELS), "calibration_id": panel * 40 // PANELS + 1}
        for place in range(CELLS):
            about = {"cell_id": panel * CELLS + place + 1, "lot_id": (panel * CELLS + place) // LOT + 1}
            yield {
                "serial_id": None,
                **about,
                "quantity": "Isc",
                "value": 9.1,
                "instrument_id": 1,
                **blank,
                **told,
            }
        for _ in range(10):
            about = {"cell_id": None, "lot_id": None}
            yield {
                "serial_id": panel + 1,
                **about,
                "quantity": "Voc",
                "value": 21.6,
                "instrument_id": 2,
                **blank,
                **told,
            }


def _movements() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * 6):
        reason = ("received", "used", "used", "used", "broken", "wasted")[n % 6]
        amount = Decimal(6) if reason == "received" else Decimal("-1.2")
        told = {"item": f"item {n % 40}", "unit": "piece", "reason": reason, "note": "", "amount": amount}
        told["lot_id"] = 1 + n % 40 + 40 * (n // (PANELS * 6 // 8))  # a new lot of each item now and then
        yield {**told, "serial_id": n // 6 + 1, **_told(n, n / PANELS / 6)}


def _changes() -> Iterator[dict[str, Any]]:
    for n in range(PANELS * 40):
        yield {"kind": "step", "key": serial(n // 40), "row": n + 1, "at": _told(n)["at"], "tap": f"tap-{n}"}
