"""What the command asks: the panel found, its readings, further readings, drawings written."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.bench.fault.place.next import Lies
from panewright.bench.fault.rework import Spare
from panewright.desk.curves.asked import file_bytes, mapping_text
from panewright.desk.fault import drawn, recorded
from panewright.desk.fault.found import PanelFound, Tell, found
from panewright.desk.folder import write_all
from panewright.desk.rating import measured
from panewright.desk.rating.bench_text import BenchText
from panewright.desk.rating.by_command import Asked, bench_of
from panewright.desk.rating.rated import Panel
from panewright.desk.rating.typed import typed
from panewright.errors import BenchError, Problem

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger


Further = tuple[Sequence[Tell], Lies, Sequence[Spare] | None]


def of_order(order: Path, asked: Asked, tells: Sequence[Tell], lies: Lies) -> PanelFound:
    """By the order's design."""
    from panewright import desk

    made = desk.design(desk.read(order), order.name)
    return _found(Panel(made.design, asked.serial), asked, bench_of(asked), (tells, lies, None))


def files_of(asked: Asked) -> dict[str, tuple[str, bytes]]:
    """The curve, and what stood beside it: name and bytes."""
    files = {"curve": asked.curve} | ({"bench": asked.bench} if asked.bench else {})
    return {what: (path.name, file_bytes(path)) for what, path in files.items()}


def of_serial(ledger: Ledger, asked: Asked, tells: Sequence[Tell], lies: Lies, lot: str = "") -> PanelFound:
    """By the serial as it was built, with the shop's instruments, and spares from that lot."""
    from panewright.desk.fault.spares import spares_of
    from panewright.desk.rating.kept import panel_of, shop_instruments

    bench = bench_of(asked)
    both = BenchText(bench.words, {**shop_instruments(ledger), **bench.instruments})
    panel = panel_of(ledger, asked.serial)
    spares = spares_of(ledger, lot, panel.design) if lot else None
    return _found(panel, asked, both, (tells, lies, spares))


def tells_of(texts: Sequence[str], lies: Lies) -> tuple[Tell, ...]:
    """Further readings as they are typed: '1: 3.21 3.55'.

    >>> tells_of(["2: 3,21 3.55"], "closed")
    (Tell(advice=2, readings=(3.21, 3.55), lies='closed', setting=None, how=''),)
    """
    return tuple(_tell(text, lies) for text in texts)


def _tell(text: str, lies: Lies) -> Tell:
    number, _, read = text.partition(":")
    try:
        values = tuple(float(each.replace(",", ".")) for each in read.split())
        return Tell(int(number), values, lies)
    except ValueError as none:
        cure = "Write which measurement, a colon, and its readings: '1: 3.21 3.55'."
        raise BenchError([Problem("These are no readings.", cure, key="read", value=text[:40])]) from none


def write(made: PanelFound, folder: Path) -> tuple[str, ...]:
    """The drawings with the spot on them; their names."""
    files = drawn.drawings(made.design, recorded.of_finding(made))
    write_all(folder, files)
    return tuple(files)


def _found(panel: Panel, asked: Asked, bench: BenchText, more: Further) -> PanelFound:
    told = typed(asked.words_with(bench), str(asked.bench or ""))
    mapping = mapping_text(asked.mapping) if asked.mapping else ""
    read = measured.read(file_bytes(asked.curve), asked.curve.name, mapping, asked.serial)
    return found(panel, read, (told, bench.instruments), *more)
