"""One serial as built, ready for a page: what it should give, what changed, and what was told of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from itertools import groupby
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.built.noted import Noted
    from panewright.desk.orders.shown import Bar
    from panewright.ledger.stores.lots import LotVersion
    from panewright.panel.built import Built, Changed
    from panewright.panel.happened import Deviation, Happened, PlacedFrom

_WIDE, _HIGH, _LETTER = 128.0, 78.0, 5.0
_OF_EACH = 2  #: lots of a kind that are proposed
_LIKELY = ("cells", "ribbon", "solder", "flux", "silicone", "glass")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that was told, and how it is taken out again."""

    what: str
    at: str
    words: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """A rule as it was planned and as it is."""

    rule: str
    planned: str
    built: str
    broken: bool
    holds: bool
    cure: str


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """A serial as somebody told that it is."""

    version: int
    by: str
    at: datetime
    proven: bool
    sentence: str
    power: str
    planned: str
    figures: tuple[tuple[str, str], ...]
    mass: str
    chart: str  #: svg
    warnings: tuple[str, ...]
    changes: tuple[Change, ...]
    failing: tuple[Bar, ...]
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Proposed:
    """A lot that may go in next."""

    mark: str
    kind: str
    words: str
    past: str  #: its last day, where that is gone


@dataclass(frozen=True, slots=True)
class Parts:
    """What may have been used in place of one part."""

    key: str
    title: str
    planned: str
    names: tuple[str, ...]


def as_built(made: Made, noted: Noted) -> AsBuilt:
    """It as a page shows it."""
    from panewright.desk.orders.shown import bar
    from panewright.pack.verdict import by_need, sentence
    from panewright.units import show

    built, units = noted.built, made.design.order.job.units
    points, label = built.points, made.design.label
    return AsBuilt(
        noted.version,
        noted.by,
        noted.at,
        built.proven,
        sentence(built.checks),
        show(points.power_w, "W", units),
        show(label.pmp_w, "W", units),
        tuple(
            (name, show(value, unit, units))
            for name, value, unit in (("Voc", points.voc_v, "V"), ("Isc", points.isc_a, "A"))
        ),
        show(built.mass_kg, "kg", units),
        _chart(made, built),
        noted.warnings,
        tuple(_change(each, units) for each in sorted(built.changed, key=lambda each: not each.broken)),
        tuple(bar(each, units) for each in by_need(built.checks) if not each.passed),
        tuple(_entries(built.happened, units)),
    )


def verdict_of(noted: Noted) -> str:
    """The one sentence that matters, of the panel as it was told."""
    from panewright.pack.verdict import sentence

    return sentence(noted.built.checks)


def _change(each: Changed, units: str) -> Change:
    from panewright.pack.verdict import told

    planned = told(each.planned, units) if each.planned else "not asked"
    now = told(each.built, units) if each.built else "not asked any more"
    holds = each.built is None or each.built.passed
    return Change(
        each.rule, planned, now, each.broken, holds, "" if holds or not each.built else each.built.cure
    )


def _entries(told: Happened, units: str) -> Iterator[Entry]:
    from panewright.panel.electric.own import Rated

    yield from _cells([each for each in told.cells if not each.mark and each.own is None])
    for cell in told.cells:
        if cell.mark or cell.own:
            mark = f" {cell.mark}" if cell.mark else ""
            share = f", {100 * cell.own.power:g} % of its power" if isinstance(cell.own, Rated) else ""
            yield Entry("cell", str(cell.place), f"Place {cell.place}: cell{mark} of lot {cell.lot}{share}")
    for n, batch in enumerate(told.batches):
        amount = f", {batch.amount:g} {batch.unit}" if batch.amount else ""
        yield Entry("batches", str(n), f"{_capital(batch.kind)}, lot {batch.lot}{amount}")
    for n, swap in enumerate(told.substitutions):
        words = f"{part_title(swap.key)}: {swap.really}, not {swap.planned}"
        yield Entry("substitutions", str(n), words, swap.reason)
    for n, off in enumerate(told.deviations):
        yield Entry("deviations", str(n), _deviation(off, units), off.note)
    for n, joint in enumerate(told.joints):
        place = f"after cell {joint.after_cell}" if joint.after_cell else "at the minus end"
        times = "" if joint.times == 1 else f" {joint.times} times"
        yield Entry("joints", str(n), f"{_capital(joint.kind)} {place} soldered again{times}", joint.note)


def _cells(cells: Sequence[PlacedFrom]) -> Iterator[Entry]:
    """Lot by lot, with the places in runs."""
    for lot in dict.fromkeys(each.lot for each in cells):
        places = [each.place for each in cells if each.lot == lot]
        yield Entry("cells", lot, f"Cells of lot {lot}: {runs(places)}")


def runs(places: Sequence[int]) -> str:
    """Numbers in runs.

    >>> runs([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9 to 10'
    """
    found = []
    for _, run in groupby(enumerate(sorted(places)), lambda each: each[1] - each[0]):
        numbers = [number for _, number in run]
        found.append(f"{numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"{numbers[0]}")
    return ", ".join(found)


def _deviation(off: Deviation, units: str) -> str:
    from panewright.units import show

    match off.what:
        case "crack":
            return f"Cell {off.place}: a crack cuts off {100 * off.amount:g} %"
        case "cold joint":
            ohms = "open" if off.amount > 1e9 else f"{off.amount:g} Ω too many"
            return f"Cold joint at cell {off.place}: {ohms}"
        case "bracket":
            return f"Bracket {off.place}: {show(off.amount, 'mm', units)} from the left end"
        case "other":
            return "Something else"
    return f"{_capital(off.what)} measured: {show(off.amount, 'mm', units)}"


def proposed(lots: Sequence[LotVersion], inside: set[str], today: date) -> tuple[Proposed, ...]:
    """The newest lots of each kind that are not in yet: cells first, then as they are used."""
    known = {kind: n for n, kind in enumerate(_LIKELY)}
    kinds: dict[str, list[LotVersion]] = {}
    for each in lots:
        kinds.setdefault(each.lot.kind, []).append(each)
    return tuple(
        lot_words(each, today)
        for kind in sorted(kinds, key=lambda kind: (known.get(kind, len(known)), kind))
        for each in kinds[kind][:_OF_EACH]
        if each.mark not in inside
    )


def lot_words(each: LotVersion, today: date | None = None) -> Proposed:
    """A lot in words, with the day that is gone."""
    lot, day = each.lot, today or datetime.now(UTC).date()
    past = lot.expires.isoformat() if lot.expires and lot.expires < day else ""
    batch = f", batch {lot.batch}" if lot.batch else ""
    return Proposed(each.mark, lot.kind, f"{lot.name}{batch}", past)


def inside(told: Happened | None) -> set[str]:
    """The lots that are in."""
    if told is None:
        return set()
    return {each.lot for each in told.cells} | {each.lot for each in told.batches}


def may_be(made: Made) -> tuple[Parts, ...]:
    """Part by part, what the shelf has in place of it."""
    from panewright.panel.built import KEYS, part_names, planned_part

    shelf = own_shelf()
    every = (
        Parts(key, part_title(key), planned_part(made.design, key), tuple(part_names(shelf, key)))
        for key in KEYS
    )
    return tuple(each for each in every if each.planned not in ("none", "welded"))


def part_title(key: str) -> str:
    """A key of a part in words.

    >>> part_title("parts.corner_fastener")
    'Corner fastener'
    """
    return _capital(key.removeprefix("parts.").replace("_", " "))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _chart(made: Made, built: Built) -> str:
    """The curve that it should show beside the design's."""
    from panewright.drawing.chart import Chart, Mark, Series
    from panewright.paper.screen_chart import chart_svg
    from panewright.units import show

    units = made.design.order.job.units
    planned, points = made.design.electrical.curves[0].curve, built.points
    series = [Series(planned.voltage_v, planned.current_a, "as designed")]
    forward = [(v, i) for v, i in zip(built.curve.voltage_v, built.curve.current_a, strict=True) if v >= 0]
    if abs(points.power_w - made.design.electrical.curves[0].points.power_w) > 1e-6 and len(forward) > 1:
        series.append(
            Series(tuple(v for v, _ in forward), tuple(i for _, i in forward), "as built", "measured")
        )
    watts = show(points.power_w, "W", units)
    marks = (Mark(points.vmp_v, points.imp_a, watts),) if points.power_w > 0 else ()
    chart = Chart("", "voltage, V", "current, A", tuple(series), marks)
    said = f"Current over voltage as built: {watts} at {show(points.vmp_v, 'V', units)}"
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)
