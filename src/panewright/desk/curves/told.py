"""What is said of a curve at the command: columns, sweeps, quality, key points, fit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from panewright.curve.fitted import Fit
from panewright.curve.points import PointsRead, Read
from panewright.curve.swept.quality import Quality
from panewright.curve.swept.swept import RunRead, Swept
from panewright.desk.curves.stood import CurvesStood, CurveStood
from panewright.desk.curves.table import CurveTable
from panewright.intake.curves.sweeps import SweepRead, SweepsRead
from panewright.units.showing import figure

_MOST = 40  #: lines of one list; all of them stand in what --json prints
_POINTS = (
    ("isc_a", "Isc", "A"),
    ("voc_v", "Voc", "V"),
    ("imp_a", "Imp", "A"),
    ("vmp_v", "Vmp", "V"),
    ("power_w", "Pmp", "W"),
)


def of_table(table: CurveTable) -> Iterator[str]:
    """The columns of every shape of table, each with its reason."""
    for nth, columns in enumerate(table.mapping.tables, start=1):
        which = f", table {nth}" if len(table.mapping.tables) > 1 else ""
        yield f"Columns of {table.blocks.name}{which}, decimals with {table.mapping.decimal_mark!r}:"
        yield from (f"  {each}" for each in columns)
    for name, value in table.mapping.given.items():
        yield f"  for all points: {name} {value:g}"


def of_read(read: SweepsRead) -> Iterator[str]:
    """How many points were read, and every row that is none."""
    points = sum(map(len, read.sweeps))
    yield f"Points read: {points}, in {_count(len(read.sweeps), 'sweep')}; bad fields: {len(read.bad)}."
    yield from _first([f"  {_of_sweep(each)}" for each in read.sweeps])
    yield from (f"  {each}" for each in read.notes)
    yield from _first([f"  bad, {each}" for each in read.bad])
    yield from _first([f"  {each}" for each in read.passed])


def _of_sweep(sweep: SweepRead) -> str:
    """One sweep and what the file says of it."""
    said = sweep.said
    parts = [f"{sweep.name}: {_count(len(sweep), 'point')}"]
    parts += [f"serial {said.serial}"] * bool(said.serial)
    parts += [f"begun {said.moment:%Y-%m-%d %H:%M:%S}"] if said.moment else []
    parts += [f"{name} {value:g}" for name, value in said.during.items()]
    parts += [f"before: {name} {value:g}" for name, value in said.before.items()]
    parts += [f"after: {name} {value:g}" for name, value in said.after.items()]
    return ", ".join((*parts, *said.remarks))


def of_curves(stood: CurvesStood) -> Iterator[str]:
    """Each thing of the file."""
    for each in stood.curves:
        yield from _of_curve(each)
    yield from (f"No curve came of {each}" for each in stood.lost)


def _of_curve(stood: CurveStood) -> Iterator[str]:
    swept = stood.swept
    yield f"{f'Serial {stood.serial}' if stood.serial else 'The curve'}{_where(stood)}:"
    yield from (f"  {each}" for each in (*stood.said, *swept.said, *swept.curve.said))
    if len(swept.runs) > 1:
        yield from _first([f"  {_of_run(each)}" for each in swept.runs])
    yield from of_quality(swept.quality)
    yield f"  Key points of {_which(swept)}, in that light and heat:"
    yield from (f"    {line}" for line in of_points(swept.points))
    yield from (f"  {line}" for line in of_fit(stood.fit, stood.no_fit))


def _which(swept: Swept) -> str:
    if swept.how == "joined":
        return f"{_count(len(swept.used), 'run')} joined"
    return f"the middle of {_count(len(swept.used), 'run')}" if swept.how == "middle" else swept.used[0]


def _where(stood: CurveStood) -> str:
    parts = [f"{stood.irradiance_w_m2:.0f} W/m2"] if stood.irradiance_w_m2 is not None else []
    parts += [f"{stood.cell_c:.1f} degC"] if stood.cell_c is not None else []
    parts += [_count(stood.cells, "cell")] if stood.cells else []
    return f" ({', '.join(parts)})" if parts else ""


def _of_run(run: RunRead) -> str:
    power = _read(run.points.power_w, "W") if run.points.power_w else "no power maximum in it"
    parts = [_count(len(run.cleaned.curve.voltage_v), "point"), power]
    parts += [f"{run.seconds:.3g} s"] if run.seconds is not None else []
    parts += [f"{run.irradiance_w_m2:.0f} W/m2"] if run.irradiance_w_m2 is not None else []
    return f"{run.name}: {', '.join(parts)}"


def of_quality(facts: Sequence[Quality]) -> Iterator[str]:
    """Every fact that does not keep to its limit, and how many do."""
    wrong = [each for each in facts if not each.held]
    yield f"  Quality: {len(facts) - len(wrong)} of {len(facts)} facts hold."
    yield from _first([f"    {each}" for each in wrong])


def of_points(points: PointsRead) -> Iterator[str]:
    """The key points, each with one standard error."""
    for name, said, unit in _POINTS:
        read = getattr(points, name)
        yield f"{said} {_read(read, unit)}" if read else f"{said}: the points do not reach near enough"
    if points.fill_factor is not None:
        yield f"FF {points.fill_factor:.3f}"


def _read(read: Read, unit: str) -> str:
    beyond = ", prolonged past the points" if read.extrapolated else ""
    return f"{figure(read.value, 5)} +- {figure(read.sigma, 2)} {unit}{beyond}"


def of_fit(found: Fit | None, why: str) -> Iterator[str]:
    """The diode of the curve, or why there is none."""
    if found is None:
        yield f"No fit. {why}"
        return
    off = f"{figure(found.rmse_exact_a, 3)} A off in root mean square"
    yield f"Fit of {_count(found.cells, 'cell')}, {off}, each figure of one cell:"
    for each in (*found.figures, *found.ends):
        yield f"  {each.name} {each.value:.5g} +- {each.sigma:.2g}{' (of the whole)' * (each in found.ends)}"
    yield from (f"  {each}" for each in found.said)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _first(lines: list[str]) -> Iterator[str]:
    yield from lines[:_MOST]
    if len(lines) > _MOST:
        yield f"  and {len(lines) - _MOST} more"
