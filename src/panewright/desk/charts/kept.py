"""What the records hold for a chart, and peel samples written down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.desk.rating.figure import NoFigure, figure_of, within
from panewright.errors import BenchError, Problem

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.charted import Charted
    from panewright.ledger.open import Ledger

PULL, STRING = "tab-cells.pull", "join-columns.voc"
_MOST_N_MM, _MOST_SAMPLES = 50.0, 40
_FAULTY = ("rework", "reject")


@dataclass(frozen=True, slots=True)
class Rated:
    """A panel's power rated, what was predicted, and whether it passed."""

    serial: str
    power_w: float
    predicted_w: float
    passed: bool = True


@dataclass(frozen=True, slots=True)
class ForCharts:
    """All that the charts ask of the records; plain, so that another process can be told it."""

    strings: tuple[Charted, ...]
    pulls: tuple[Charted, ...]
    ratings: tuple[Rated, ...]
    texts: Mapping[str, str]  #: of each order whose strings are charted
    faulty: frozenset[str] = frozenset()  #: serials whose rating that holds says rework or reject


def for_charts(ledger: Ledger, order: str = "") -> ForCharts:
    """Of one order, or of all."""
    from panewright.ledger.bench.charted import panels_rated, readings_of_kind
    from panewright.ledger.orders.orders import versions

    strings = readings_of_kind(ledger, STRING, order)
    panels = panels_rated(ledger, order)
    rated = tuple(
        Rated(each.serial, each.power_w, each.predicted_w, each.verdict == "pass")
        for each in panels
        if each.power_w is not None
    )
    faulty = frozenset(each.serial for each in panels if each.verdict in _FAULTY)
    orders = dict.fromkeys(each.order for each in strings)
    texts = {number: versions(ledger, number)[-1].text for number in orders}
    return ForCharts(strings, readings_of_kind(ledger, PULL, order), rated, texts, faulty)


def keep_pulls(ledger: Ledger, typed: Mapping[str, str], who: Who) -> None:
    """Joints peeled from one sample, in newtons a millimetre of ribbon; `BenchError` where they are none."""
    from panewright.ledger.bench.readings import Reading, read

    serial, meter = typed.get("serial", "").strip(), typed.get("meter", "").strip()
    values = _pulls(typed.get("pulls", ""))
    for place, value in enumerate(values, start=1):
        reading = Reading(f"{PULL}-{place}", value, "N/mm", serial=serial, step="tab-cells", instrument=meter)
        tap = f"{who.tap}{place}" if who.tap else ""
        read(ledger, reading, by=who.by, at=who.at, tap=tap)


def _pulls(text: str) -> tuple[float, ...]:
    """Several with blanks or semicolons between; bare numbers are newtons a millimetre."""
    parts = text.replace(";", " ").replace("N/mm", " ").split()
    if not 2 <= len(parts) <= _MOST_SAMPLES:
        cure = "Peel two joints or more of one sample and write them with blanks between: 2.1 1.9 2.4."
        raise BenchError([Problem("A sample is of several joints.", cure, key="pulls", value=text[:40])])
    try:
        return tuple(within(figure_of(f"{each} N/mm", "pull")[0], 0, _MOST_N_MM, "N/mm") for each in parts)
    except NoFigure as none:
        raise BenchError([none.problem("pulls", text)]) from none
