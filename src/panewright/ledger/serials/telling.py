"""A panel's whole life in plain lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime

from panewright.array.sign import sign_of
from panewright.ledger.arrays.stays import Stay
from panewright.ledger.bench.ratings import RatingKept
from panewright.ledger.bench.readings import ReadingKept
from panewright.ledger.orders.kits import Packed
from panewright.ledger.serials.hours import Spent
from panewright.ledger.serials.laid import Laid
from panewright.ledger.serials.life import Life
from panewright.ledger.serials.steps import Tick
from panewright.ledger.serials.telling_built import lines_of, title
from panewright.ledger.stores.lots import LotVersion
from panewright.ledger.stores.stock import Moved


def told(life: Life) -> str:
    """Everything that happened to a panel, as a page of text."""
    return "\n".join(map(_harmless, _lines(life))) + "\n"


def _harmless(line: str) -> str:
    """One line, without what a terminal would obey instead of showing."""
    plain = " / ".join(line.splitlines())
    return "".join(each if each.isprintable() else f"\\u{ord(each):04x}" for each in plain)


def _lines(life: Life) -> Iterator[str]:
    panel, design = life.serial, life.design
    yield f"Serial {panel.serial}: panel {panel.number} of order {panel.order}"
    yield f"  begun {_when(panel.at)} by {panel.by}"
    yield f"  customer {life.customer or 'not told'}"
    proven = "every check held" if design.proven else "NOT every check held"
    yield f"  design {design.revision} of version {design.version}, Panewright {design.program}: {proven}"
    for built in life.builts:
        yield from _section(title(built), lines_of(built))
    yield from _section("Cells as they were laid", (_laid(each) for each in life.laid))
    yield from _section("Lots", (_lot(each) for each in life.lots))
    yield from _section("Past their day", map(str, life.past))
    yield from _section("Steps", (_tick(each) for each in life.ticks))
    yield from _section("In its box", (_packed(each) for each in life.packed))
    yield from _section("Minutes beside the ticks", (_spent(each) for each in life.hours))
    yield from _section("Readings", (_reading(each) for each in life.readings))
    yield from _section("Readings of its cells", (_reading(each) for each in life.cell_readings))
    yield from _section("Ratings", (_rating(each) for each in life.ratings))
    yield from _section(
        "Found", (f"{_when(each.at)}  {each.what}: {each.said} ({each.by})" for each in life.findings)
    )
    yield from _section("Material", (_moved(each) for each in life.movements))
    yield from _section(
        "Papers",
        (
            f"{_when(each.at)}  {each.kind} {each.name} {each.title} ({each.sha256[:12]})"
            for each in life.papers
        ),
    )
    yield from _section(
        "Claims", (f"{_when(each.at)}  number {each.id}: {each.words}" for each in life.claims)
    )
    yield from _section("Repairs", (f"{_when(each.at)}  {each.words} ({each.by})" for each in life.repairs))
    yield from _section("In arrays", (_stay(each) for each in life.stays))


def _stay(each: Stay) -> str:
    why = f": {each.why}" if each.why else ""
    until = f"lies there since {_day(each.since)}"
    if each.until:
        until = f"lay there from {_day(each.since)} to {_day(each.until)}{why}"
    return f"{each.array}, string {sign_of(each.string - 1)}, place {each.place}: {until} ({each.by})"


def _laid(each: Laid) -> str:
    told = {"laid": "laid", "lifted": "LIFTED again", "broken": "BROKE"}[each.what]
    why = f": {each.reason}" if each.reason else ""
    return f"{_when(each.at)}  place {each.place}: {each.cell} of lot {each.lot} {told}{why} ({each.by})"


def _packed(each: Packed) -> str:
    out = "" if each.done else "  taken out"
    return f"{_when(each.at)}  {each.line.partition(': ')[2] or each.line}{out} ({each.by})"


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    found = list(lines)
    if found:
        yield ""
        yield title
        yield from (f"  {line}" for line in found)


def _lot(each: LotVersion) -> str:
    lot = each.lot
    expiry = f", good until {_day(lot.expires)}" if lot.expires else ""
    source = f"batch {lot.batch or 'not told'}, {lot.supplier or 'no supplier'}"
    return f"{each.mark}: {lot.kind} {lot.name}, {source}{expiry}"


def _tick(tick: Tick) -> str:
    minutes = f", {tick.minutes} min" if tick.minutes is not None else ""
    undone = "" if tick.done else " TAKEN BACK"
    return f"{_when(tick.at)}  {tick.step}{undone}, {tick.by}{minutes} {tick.note}".rstrip()


def _spent(each: Spent) -> str:
    return f"{_when(each.at)}  {each.step}, {each.by}, {each.minutes} min {each.note}".rstrip()


def _reading(kept: ReadingKept) -> str:
    reading = kept.reading
    about = f"cell {reading.cell} " if reading.cell else ""
    parts = [f"{_when(kept.at)}  {about}{reading.quantity} {reading.value:g} {reading.unit}"]
    parts += [f"{reading.light_w_m2:g} W/m²"] if reading.light_w_m2 is not None else []
    parts += [f"{reading.heat_c:g} °C"] if reading.heat_c is not None else []
    parts += [f"{reading.instrument}, calibrated {_day(kept.calibrated)}"] if reading.instrument else []
    parts += ["OVERDUE"] if kept.overdue else []
    parts += ["corrected later"] if kept.corrected else []
    parts += [f"raw file {reading.file[:12]}"] if reading.file else []
    return ", ".join([*parts, kept.by, *filter(None, [reading.note])])


def _rating(kept: RatingKept) -> str:
    told = kept.rating
    power = "power not rated"
    if told.power_w is not None and told.power_off_w is not None:
        power = f"{told.power_w:.4g} W ± {told.power_off_w:.2g} W (k = 2)"
    against = f"label {told.label_w:g} W, predicted {told.predicted_w:.4g} W"
    files = f"raw file {told.curve[:12]}, report {told.report[:12]}"
    aside = f", SET ASIDE: {kept.aside}" if kept.aside else ""
    measured = f"measured {_day(told.day)}, {files}, {kept.by}{aside}"
    return f"{_when(kept.at)}  {told.verdict}, {power}, {against}, {measured}"


def _moved(moved: Moved) -> str:
    what = moved.movement
    return f"{_when(moved.at)}  {what.reason} {abs(what.amount)} {what.unit} {what.item} {what.lot}".rstrip()


def _when(at: datetime) -> str:
    return at.strftime("%Y-%m-%d %H:%M")


def _day(day: date | None) -> str:
    return day.isoformat() if day else "never"
