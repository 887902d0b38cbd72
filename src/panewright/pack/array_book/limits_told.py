"""Limits by what they judge: strings, their fuses, each run, plugs, battery, pump; what is broken first."""

from __future__ import annotations

from panewright.array.plan.plan import Plan
from panewright.check import Check
from panewright.pack.verdict import by_need

_FUSES, _PLUGS, _BATTERY, _PUMP = "Fuses of the strings", "Plugs and sockets", "The battery", "The pump"
_BY_WORD = {"fuse": _FUSES, "connector": _PLUGS, "motor": _PUMP, "bank": _BATTERY}


def limits_told(plan: Plan) -> tuple[tuple[str, tuple[Check, ...]], ...]:
    """What is judged, and its checks: broken ones first, of what holds the fullest; groups likewise."""
    strings = "Strings at the isolator" if plan.site.box.straight else "Strings at the controller"
    groups: dict[str, list[Check]] = {
        name: [] for name in (strings, _FUSES, *_runs(plan).values(), _PLUGS, _BATTERY, _PUMP)
    }
    for check in plan.checks:
        groups[_judged(plan, check) or strings].append(check)
    told = [(name, by_need(checks)) for name, checks in groups.items() if checks]
    return tuple(sorted(told, key=lambda group: all(check.passed for check in group[1])))


def in_order(plan: Plan) -> tuple[Check, ...]:
    """All of them, group by group."""
    return tuple(check for _, checks in limits_told(plan) for check in checks)


def _runs(plan: Plan) -> dict[str, str]:
    """Name of each run, and of its group."""
    return {leg.title: f"Run {leg.title}" for leg in plan.legs}


def _judged(plan: Plan, check: Check) -> str | None:
    """The group of what a rule names; None for strings and their input."""
    runs = _runs(plan)
    run = next((group for name, group in runs.items() if check.rule.startswith(f"{name}: ")), None)
    if run or check.room == "battery":
        return run or _BATTERY
    return next((group for word, group in _BY_WORD.items() if word in check.rule), None)
