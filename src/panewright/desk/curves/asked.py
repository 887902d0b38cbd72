"""What the command asks of a curve's file: files read and written, typed figures, lines, JSON, charts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from panewright.desk.curves import drawn, recorded
from panewright.desk.curves import told as words
from panewright.desk.curves.metered import MeterStood, lines
from panewright.desk.curves.stood import CurvesStood, Told
from panewright.desk.curves.table import CurveTable
from panewright.desk.folder import write_all, write_new
from panewright.desk.lots.table import file_bytes, mapping_text
from panewright.errors import CurveError, Problem
from panewright.intake.curves.quantity import QUANTITIES
from panewright.intake.measure import UNITS
from panewright.intake.written import figures
from panewright.paper.record import json_bytes

__all__ = ["file_bytes", "mapping_text"]  # read alike for a lot and for a curve


def told(irradiance: str, cell_temp: str, cells: int | None) -> Told:
    """What a person typed beside the file, in SI, or every mistake in it at once."""
    problems: list[Problem] = []
    light = _typed("irradiance", irradiance, "irradiance_w_m2", problems)
    heat = _typed("cell-temp", cell_temp, "cell_c", problems)
    if problems:
        raise CurveError(problems)
    return Told(light, heat, cells)


def _typed(key: str, text: str, name: str, problems: list[Problem]) -> float | None:
    """A figure typed with its unit; None where nothing was typed."""
    if not text.strip():
        return None
    kind = QUANTITIES[name].kind
    value = float(figures([text], QUANTITIES[name], UNITS[kind][0], ".").values[0])
    if not any(letter.isalpha() or letter in "%°" for letter in text) or not np.isfinite(value):
        cure = f"Write a number with one of: {', '.join(unit.name for unit in UNITS[kind])}."
        problems.append(Problem("This is no figure with its unit.", cure, key=key, value=text[:60]))
    elif not -1 <= value <= 2000:
        reason = f"{value:.4g} is not likely of {QUANTITIES[name].said}."
        problems.append(Problem(reason, "Look at its unit.", key=key, value=text[:60]))
    return value


def keep(path: Path, table: CurveTable) -> None:
    """Keep what the columns are taken for in a new file."""
    write_new(path, table.text.encode())


def table_lines(table: CurveTable) -> Iterator[str]:
    """The columns, each with its reason."""
    return words.of_table(table)


def sweeps_lines(found: CurvesStood) -> Iterator[str]:
    """What was read, and what it comes to."""
    yield from words.of_read(found.read)
    yield from words.of_curves(found)


def meter_lines(found: MeterStood) -> Iterator[str]:
    """What a meter's readings come to."""
    yield from lines(found)
    yield from words.of_fit(found.fit, found.no_fit)


def sweeps_json(table: CurveTable, found: CurvesStood) -> str:
    """Everything of a file of sweeps."""
    return json_bytes(recorded.of_file(table, found)).decode().rstrip("\n")


def meter_json(found: MeterStood) -> str:
    """Everything of a meter's readings."""
    return json_bytes(recorded.of_meter(found)).decode().rstrip("\n")


def write_charts(found: CurvesStood, to: Path) -> tuple[str, ...]:
    """A chart for each thing in the file; of several each bears its number."""
    several = len(found.curves) > 1
    files = {
        f"{to.stem}-{place}{to.suffix}" if several else to.name: drawn.chart_bytes(each)
        for place, each in enumerate(found.curves, start=1)
    }
    write_all(to.parent, files)
    return tuple(files)
