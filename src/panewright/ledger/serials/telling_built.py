"""A panel as it was built, in plain lines: what lies where, what differs, and what that changed.

It reads the records as text, not as today's panel: a page printed in year twelve must not fail because a
figure has another name by then.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from math import inf, nan
from typing import Any

from panewright.check import Check
from panewright.ledger.serials.built import BuiltVersion

_WORDS: dict[Any, float] = {"infinite": inf, "minus infinite": -inf, "not a number": nan}


def title(built: BuiltVersion) -> str:
    """Which version, told when and by whom."""
    told = built.at.strftime("%Y-%m-%d %H:%M")
    return f"As built, version {built.version}, told {told} by {built.by}, Panewright {built.built.program}"


def lines_of(version: BuiltVersion) -> Iterator[str]:
    """All that was told of it."""
    built = version.built
    yield "every check holds" if built.proven else "NOT every check holds"
    figures, checks = _read(built.figures), _read(built.checks)
    yield from (str(check) for check in checks if isinstance(check, str))
    yield from _figures(figures)
    for seat in built.seats:
        yield f"place {seat.place}: cell {seat.cell or 'without a mark'} of lot {seat.lot}"
    for joint in built.joints:
        said = f"joint {joint.start} - {joint.end}: {joint.kind}"
        yield " ".join(filter(None, (said, joint.maker, joint.note)))
    for use in built.uses:
        yield f"lot {use.lot}" + (f": {use.amount} {use.unit}" if use.amount is not None else "")
    for other in built.substitutions:
        yield f"{other.part}: {other.really} in place of {other.planned}. {other.reason}".rstrip()
    for off in built.deviations:
        yield " ".join(filter(None, (f"{off.what}", off.places, off.note)))
    yield from _changes(figures, checks)


def _read(text: str) -> Any:
    """What was kept as JSON; nothing where it is none."""
    try:
        return json.loads(text)
    except ValueError:
        return []


def _figures(figures: Any) -> Iterator[str]:
    """What it should give and weigh."""
    if not isinstance(figures, Mapping):
        return
    points = figures.get("points")
    if isinstance(points, Mapping):
        volts = (f"Voc {_number(points.get('voc_v'))} V", f"Vmp {_number(points.get('vmp_v'))} V")
        amps = (f"Isc {_number(points.get('isc_a'))} A", f"Imp {_number(points.get('imp_a'))} A")
        yield ", ".join(("expected in full sun at 25 °C", *volts, *amps))
    if "mass_kg" in figures:
        yield f"mass {_number(figures['mass_kg'])} kg"
    if "revision" in figures:
        yield f"judged by design {figures['revision']}"


def _changes(figures: Any, checks: Any) -> Iterator[str]:
    """Every check that differs from the design's, then those that fail without having changed."""
    changed = figures.get("changed") if isinstance(figures, Mapping) else None
    pairs = [each for each in changed or () if isinstance(each, Mapping)]
    for each in pairs:
        planned, built = _said(each.get("planned")), _said(each.get("built"))
        yield f"changed: {each.get('rule')}: planned {planned}; as built {built}"
    differ = [each.get("built") for each in pairs]
    for plain in checks if isinstance(checks, list) else ():
        check = _as_kept(plain)
        if check and not check.passed and plain not in differ:
            yield f"as designed: {check}"


def _as_kept(plain: Any) -> Check | None:
    """A check as it was kept; None where it was kept in another way."""
    try:
        rule, demand, limit = (_WORDS.get(plain[name], plain[name]) for name in ("rule", "demand", "limit"))
        figures = float(demand), None if limit is None else float(limit)
        return Check(rule, *figures, plain["unit"], plain["source"])
    except (KeyError, TypeError, ValueError):
        return None


def _said(plain: Any) -> str:
    """Figures and verdict of a check, without its name."""
    check = _as_kept(plain)
    return str(check).removeprefix(f"{check.rule}: ") if check else "not asked"


def _number(value: Any) -> str:
    return f"{value:.4g}" if isinstance(value, int | float) else str(value)
