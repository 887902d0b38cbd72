"""Readings of a multimeter as a person writes them down, in TOML, every figure with its unit.

cells = 36
voc = "20.8 V"
isc = "4.6 A"
meter.volts = "0.5 % + 2 of 0.01 V"      as the meter's leaflet says: share, steps of the last digit
meter.amps = "1.5 % + 3 of 0.01 A"
meter.shunt = "12 mohm"                  of the ammeter and its leads

[[load]]
resistor = "4.7 ohm, 5 %"
volts = "17.2 V"
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from panewright.errors import Problem, SheetError
from panewright.intake.measure import UNITS
from panewright.intake.quantity import Quantity
from panewright.intake.written import figures

_KINDS = {
    "voc": ("voc_v", "voltage"), "isc": ("isc_a", "current"), "irradiance": ("irradiance_w_m2", "light"),
    "cell_temp": ("cell_c", "heat"), "back_temp": ("back_c", "heat"),
}  # fmt: skip
_METER = ("volts", "amps", "shunt", "leads", "volts_at")
_LOAD = ("name", "resistor", "volts", "amps")
_TOP = (*_KINDS, "serial", "cells", "meter", "before", "after", "load", "remark")
_CLASS = re.compile(
    r"\s*(\d+(?:[.,]\d+)?)\s*%\s*\+\s*(\d+(?:[.,]\d+)?)\s*(?:of|x|\*|digits? of|dgts? of)\s*(.+)",
    re.IGNORECASE,
)
_RESISTOR = re.compile(r"\s*([^,;]+?)\s*(?:[,;]\s*(?:\+-|\u00b1)?\s*(\d+(?:[.,]\d+)?)\s*%)?\s*")

Figures = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class ClassRead:
    """What a meter's leaflet promises."""

    share: float
    digits: float
    step: float  #: in SI


@dataclass(frozen=True, slots=True)
class LoadRead:
    """One load as it was written down, in SI."""

    name: str
    ohm: float | None = None
    tolerance: float = 0.0
    voltage_v: float | None = None
    current_a: float | None = None


@dataclass(frozen=True, slots=True)
class MeterRead:
    """A file of a meter's readings, in SI."""

    figures: Figures  #: voc_v, isc_a, irradiance_w_m2, cell_c, back_c
    volts: ClassRead
    amperes: ClassRead
    loads: tuple[LoadRead, ...] = ()
    ammeter_ohm: float = 0.0
    leads_ohm: float = 0.0
    volts_at: str = "panel"
    before: Figures = field(default_factory=dict)
    after: Figures = field(default_factory=dict)
    cells: int | None = None
    serial: str = ""


def read_meter(data: bytes, file: str) -> MeterRead:
    """The readings in a file, or every mistake in it at once.

    >>> text = b'voc = "20.8 V"\\nmeter.volts = "0.5 % + 2 of 0.01 V"\\nmeter.amps = "1.5 % + 3 of 10 mA"'
    >>> found = read_meter(text, "meter.toml")
    >>> found.figures, found.amperes
    ({'voc_v': 20.8}, ClassRead(share=0.015, digits=3.0, step=0.01))
    """
    try:
        table = tomllib.loads(data.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as broken:
        reason = f"The readings are no TOML: {broken}."
        raise SheetError(
            [Problem(reason, "Write them as the handbook's page of curves shows.", file=file)]
        ) from broken
    reader = _Reader(file)
    found = reader.whole(table)
    if reader.problems:
        raise SheetError(reader.problems)
    return found


class _Reader:
    """Reads one file and gathers what is wrong in it."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def whole(self, table: dict[str, Any]) -> MeterRead:
        self._keys("", table, _TOP)
        meter = self._table("meter", table.get("meter", {}))
        self._keys("meter", meter, _METER)
        loads = table.get("load", [])
        if not isinstance(loads, list):
            self._wrong("load", loads, "Loads are several.", "Write each as [[load]].")
            loads = []
        at = meter.get("volts_at", "panel")
        if at not in ("panel", "load"):
            self._wrong(
                "meter.volts_at", at, "Volts are read at one of two places.", 'Write "panel" or "load".'
            )
        own = {key: value for key, value in table.items() if key in _KINDS}
        return MeterRead(
            self._figures("", own),
            self._class("meter.volts", meter.get("volts"), "voltage"),
            self._class("meter.amps", meter.get("amps"), "current"),
            tuple(self._load(place, each) for place, each in enumerate(loads, start=1)),
            self._number("meter.shunt", meter.get("shunt", "0 ohm"), "resistance"),
            self._number("meter.leads", meter.get("leads", "0 ohm"), "resistance"),
            str(at),
            self._figures("before", self._table("before", table.get("before", {}))),
            self._figures("after", self._table("after", table.get("after", {}))),
            self._cells(table.get("cells")),
            str(table.get("serial", "")),
        )

    def _wrong(self, key: str, value: object, reason: str, cure: str) -> None:
        self.problems.append(Problem(reason, cure, file=self.file, key=key, value=str(value)[:80]))

    def _keys(self, where: str, table: dict[str, Any], known: tuple[str, ...]) -> None:
        for key in table:
            if key not in known:
                cure = f"Write one of: {', '.join(known)}."
                self._wrong(
                    f"{where}.{key}".strip("."), table[key], "No such key of a meter's readings.", cure
                )

    def _table(self, key: str, value: object) -> dict[str, Any]:
        if isinstance(value, dict):
            return value
        self._wrong(key, value, "This is a table.", f"Write its parts under [{key}].")
        return {}

    def _figures(self, where: str, table: dict[str, Any]) -> Figures:
        self._keys(where, table, tuple(_KINDS))
        return {
            _KINDS[key][0]: self._number(f"{where}.{key}".strip("."), value, _KINDS[key][1])
            for key, value in table.items()
            if key in _KINDS
        }

    def _number(self, key: str, value: object, kind: str) -> float:
        """A figure with its unit, in SI."""
        units = ", ".join(unit.name for unit in UNITS[kind])
        quantity = Quantity(key, key, kind, -1e6, 1e6)
        if isinstance(value, str) and any(letter.isalpha() or letter in "%°Ω" for letter in value):
            read = figures([value], quantity, UNITS[kind][0], ".")
            if np.isfinite(read.values[0]):
                return float(read.values[0])
            fault = read.faults.get(0)
            self._wrong(
                key, value, fault.reason if fault else "This is no number.", fault.cure if fault else ""
            )
        else:
            self._wrong(
                key, value, "A figure has its unit beside it.", f"Write it as text with one of: {units}."
            )
        return 0.0

    def _class(self, key: str, value: object, kind: str) -> ClassRead:
        found = _CLASS.fullmatch(value) if isinstance(value, str) else None
        if found is None:
            cure = 'Write it as the leaflet says, with the last digit: "0.5 % + 2 of 0.01 V".'
            self._wrong(
                key, "" if value is None else value, "The meter's limits of error are not said.", cure
            )
            return ClassRead(0.0, 0.0, 0.0)
        share, digits = (float(text.replace(",", ".")) for text in found.groups()[:2])
        return ClassRead(share / 100, digits, self._number(key, found.group(3), kind))

    def _cells(self, value: object) -> int | None:
        if value is None or (isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 200):
            return value
        self._wrong("cells", value, "Cells in series are counted.", "Write a whole number from 1 to 200.")
        return None

    def _load(self, place: int, value: object) -> LoadRead:
        where = f"load {place}"
        table = self._table(where, value)
        self._keys(where, table, _LOAD)
        ohm, tolerance = self._resistor(f"{where}.resistor", table.get("resistor"))
        marked = str(table["resistor"]).partition(",")[0] if "resistor" in table else f"lamp {place}"
        said = table.get("name") or marked
        readings = [
            self._number(f"{where}.{key}", table[key], kind) if key in table else None
            for key, kind in (("volts", "voltage"), ("amps", "current"))
        ]
        return LoadRead(str(said)[:60], ohm, tolerance, readings[0], readings[1])

    def _resistor(self, key: str, value: object) -> tuple[float | None, float]:
        if value is None:
            return None, 0.0
        found = _RESISTOR.fullmatch(value) if isinstance(value, str) else None
        if found is None:
            self._wrong(key, value, "This is no resistor.", 'Write it with its tolerance: "4.7 ohm, 5 %".')
            return None, 0.0
        share = float((found.group(2) or "0").replace(",", ".")) / 100
        return self._number(key, found.group(1), "resistance"), share
