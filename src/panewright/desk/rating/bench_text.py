"""The file beside a curve (TOML): how light and heat were known, by which instruments, what was tested."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime
from typing import Any

from panewright.desk.rating.instruments import Written, mistakes
from panewright.errors import BenchError, Problem

_INSTRUMENT = {each.name for each in fields(Written)} - {"name"}


@dataclass(frozen=True, slots=True)
class BenchText:
    """What such a file says, in words."""

    words: Mapping[str, str]
    instruments: Mapping[str, Written]


def read_bench(data: bytes, file: str) -> BenchText:
    """Words by key, and instruments; `BenchError` with every mistake.

    >>> found = read_bench(b'light.by = "telephone"\\n[instrument.m1]\\nwithin = "0.5 %"', "bench.toml")
    >>> found.words, found.instruments["m1"].within
    ({'light.by': 'telephone'}, '0.5 %')
    """
    try:
        table = tomllib.loads(data.decode("utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as broken:
        reason = f"This is no TOML: {broken}."
        raise BenchError(
            [Problem(reason, "Write it as the handbook's page of rating shows.", file)]
        ) from broken
    problems: list[Problem] = []
    instruments = _instruments(table.pop("instrument", {}), file, problems)
    words = dict(_flat(table, "", file, problems))
    if problems:
        raise BenchError(problems)
    return BenchText(words, instruments)


def _flat(table: Mapping[str, Any], head: str, file: str, problems: list[Problem]) -> list[tuple[str, str]]:
    """Keys with their sections before them."""
    found: list[tuple[str, str]] = []
    for name, value in table.items():
        key = f"{head}{name}"
        if isinstance(value, Mapping):
            found += _flat(value, f"{key}.", file, problems)
        elif isinstance(value, bool | str | date | datetime):
            found.append((key, ("no", "yes")[value] if isinstance(value, bool) else str(value)))
        else:
            cure = 'Write it in " " with its unit.'
            problems.append(
                Problem("A figure without its unit says nothing.", cure, file, key=key, value=str(value)[:40])
            )
    return found


def _instruments(table: Any, file: str, problems: list[Problem]) -> dict[str, Written]:
    if not isinstance(table, Mapping):
        problems.append(
            Problem("An instrument has a name.", "Write [instrument.NAME].", file, key="instrument")
        )
        return {}
    made: dict[str, Written] = {}
    for name, told in table.items():
        key = f"instrument.{name}"
        if not isinstance(told, Mapping) or (strange := sorted(set(told) - _INSTRUMENT)):
            cure = f"An instrument has: {', '.join(sorted(_INSTRUMENT))}."
            value = ", ".join(strange) if isinstance(told, Mapping) else str(told)
            problems.append(Problem("There is no such key.", cure, file, key=key, value=value[:40]))
            continue
        made[name] = _instrument(name, told, file, problems)
        problems += [
            Problem(each.reason, each.cure, file, None, each.key, each.value) for each in mistakes(made[name])
        ]
    return made


def _instrument(name: str, told: Mapping[str, Any], file: str, problems: list[Problem]) -> Written:
    days: dict[str, date | None] = {}
    for field in ("calibrated", "due"):
        value = told.get(field)
        if value is not None and (not isinstance(value, date) or isinstance(value, datetime)):
            cure = "Write it without quotes: 2026-01-05."
            problems.append(
                Problem(
                    "This is no day.", cure, file, key=f"instrument.{name}.{field}", value=str(value)[:40]
                )
            )
            value = None
        days[field] = value
    kind, bound, paper, digit, at_stc = (
        str(told.get(each, "")) for each in ("kind", "within", "certificate", "digit", "at_stc")
    )
    return Written(name, kind, bound, paper, digit, at_stc, days["calibrated"], days["due"])
