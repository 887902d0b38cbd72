"""Settings of further measurements as they are kept: as JSON, and out of the sentences of older records.

A reading is kept with what was done, never by the number of a proposal: what would be proposed moves with
the instruments, the panel's record and the program.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import inf, isfinite
from typing import Any, get_args

from panewright.bench.fault.numbered import number_of
from panewright.bench.fault.place.setting import Measurement, Setting
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, all_cells
from panewright.errors import BenchError, Problem

_FIGURES = ("depth", "at_v", "load_ohm", "most_v")
_OLDER: dict[Measurement, str] = {
    "strip": r"Read the current at (?P<at>[\d.]+) V, lay .* takes (?P<depth>\d+) % .* "
    r"over (?P<cells>cell.+?), and",
    "cover": r"Read the current at (?P<at>[\d.]+) V, cover (?P<cells>cell.+?) wholly",
    "probe": r"(?:Hold the panel at (?P<at>[\d.]+) V|Short the panel) .* across (?P<cells>cell[^.]+)\.",
    "dull light": r"Read the open voltage in dull light",
    "dark current": r"Cover the whole panel and push (?P<at>[\d.]+) A",
}


def written(setting: Setting) -> dict[str, Any]:
    """As JSON; a panel that is open has no resistor."""
    figures = {name: getattr(setting, name) for name in _FIGURES}
    cells, then = ([[cell.string, cell.number] for cell in each] for each in (setting.cells, setting.then))
    load = None if setting.opened else setting.load_ohm
    return {"measurement": setting.measurement, "cells": cells, "then": then, **figures, "load_ohm": load}


def read(told: Any) -> Setting:
    """The same again; `BenchError` where it is none."""
    try:
        figures = {name: _figure(told.get(name, 0.0)) for name in _FIGURES}
        cells, then = (
            tuple(CellAt(int(string), int(number)) for string, number in each)
            for each in (told["cells"], told.get("then", ()))
        )
        measurement = told["measurement"]
    except (KeyError, TypeError, ValueError, AttributeError) as none:
        raise BenchError([_none(told)]) from none
    if measurement not in get_args(Measurement) or not 0 <= figures["depth"] <= 1:
        raise BenchError([_none(told)])
    if (measurement in ("strip", "cover", "probe") and not cells) or (then and measurement != "strip"):
        raise BenchError([_none(told)])
    return Setting(measurement, cells, **figures, then=then)


def fits(setting: Setting, network: Network) -> bool:
    """Whether the panel has its cells."""
    return set(setting.cells + setting.then) <= set(all_cells(network))


def of_sentence(how: str, network: Network) -> Setting | None:
    """Out of the sentence in which a measurement was proposed, of records that hold nothing else."""
    for measurement, pattern in _OLDER.items():
        if told := re.match(pattern, how):
            return _of_words(measurement, told.groupdict(), network)
    return None


def _of_words(measurement: Measurement, words: Mapping[str, str | None], network: Network) -> Setting:
    spans = re.findall(r"cells? (\d+)(?: to (\d+))?", words.get("cells") or "")
    numbers = {k for low, high in spans for k in range(int(low), int(high or low) + 1)}
    cells = tuple(cell for cell in all_cells(network) if number_of(network, cell) in numbers)
    depth = 1.0 if measurement == "cover" else float(words.get("depth") or 0) / 100
    return Setting(measurement, cells, depth, float(words.get("at") or 0))


def _figure(value: Any) -> float:
    found = inf if value is None else float(value)
    if not (found >= 0 and (isfinite(found) or value is None)):
        raise ValueError(f"a setting holds figures of zero or more, got {value}")
    return found


def _none(told: Any) -> Problem:
    return Problem("This is no measurement.", "Load the page again.", key="setting", value=str(told)[:40])
