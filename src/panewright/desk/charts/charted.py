"""The three charts: values, limits by the first panels that passed, and every rule over the panels since."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from panewright.bench.chart.limits import limits
from panewright.bench.chart.run import (
    PULL,
    RATING,
    STRING_VOC,
    Run,
    Watched,
    stop_and_look,
    watch,
    weakest_peel,
)
from panewright.bench.chart.run import watch_groups as watch_samples
from panewright.bench.chart.subgroups import group_limits
from panewright.bench.expected import Law
from panewright.bench.readings import readings_of
from panewright.check import Check
from panewright.desk.charts.kept import STRING, ForCharts
from panewright.desk.designed import designed
from panewright.errors import PanewrightError
from panewright.ledger.bench.charted import Charted

GOOD = 20  #: panels that make the limits, where nothing else is said; of fewer the first half
_LOOSE = "values behind the limits"
_FEWEST = 4  #: panels of which a chart says anything
_NAMED = 6  #: of a list in a sentence


@dataclass(frozen=True, slots=True)
class OneChart:
    """One chart: what each panel gave, the limits, and what the rules say."""

    watched: Watched
    unit: str
    serials: tuple[str, ...]
    values: tuple[float, ...]  #: of a sample of joints its mean
    good: int  #: how many of them made the limits
    low: float | None
    centre: float | None
    high: float | None
    checks: tuple[Check, ...]
    stop: tuple[str, ...]  #: what to look at; nothing where the run is as it should be
    said: str  #: why there is no chart yet, or what was left out


def charts(known: ForCharts, good: int = 0) -> tuple[OneChart, ...]:
    """All three; `good` first panels that passed make the limits, 0: as `GOOD` says."""
    strings, left_out = _strings(known)
    rated = [
        One(each.serial, each.power_w / each.predicted_w, each.passed)
        for each in known.ratings
        if each.predicted_w > 0
    ]
    return _single(RATING, rated, good), _single(STRING_VOC, strings, good, left_out), _pulled(known, good)


@dataclass(frozen=True, slots=True)
class One:
    """One value of a chart, and whether it may stand behind the limits."""

    serial: str
    value: float
    good: bool = True


def _strings(known: ForCharts) -> tuple[list[One], str]:
    """Voc of each string over what it should be there; those read without light and heat are left out."""
    laws = {order: _law(text, order) for order, text in known.texts.items()}
    told: list[One] = []
    left = 0
    for each in known.strings:
        law = laws.get(each.order)
        if law is None or each.light_w_m2 is None or each.heat_c is None:
            left += 1
            continue
        share = each.value / law.at(each.light_w_m2, each.heat_c)
        told.append(One(each.serial, share, each.serial not in known.faulty))
    return told, f"{left} readings bear no light and heat, and are not charted." if left else ""


def _law(text: str, order: str) -> Law | None:
    """What a string of that order should read; None where it cannot be designed any more."""
    try:
        design = designed(text, f"{order}.toml").design
    except PanewrightError:
        return None
    return next((each.law for each in readings_of(design, "join-columns") if each.key == STRING), None)


def _parted(good: Sequence[bool], asked: int) -> tuple[list[int], list[int]]:
    """Places of the values that make the limits, and of those held against them, which are all that follow.

    The first good ones make them, and some are always left. What is not good among them does neither.
    """
    places = [place for place, each in enumerate(good) if each]
    behind = places[: _made_of(len(places), asked)]
    after = behind[-1] + 1 if behind else 0
    return behind, list(range(after, len(good)))


def _made_of(count: int, good: int) -> int:
    """How many of the first good panels make the limits."""
    if 2 <= good < count:
        return good
    return GOOD if count >= GOOD + _FEWEST else max(count // 2, 2)


def _left(serials: Sequence[str], behind: Sequence[int]) -> str:
    """Which panels among the first are not behind the limits, because they did not pass."""
    last = behind[-1] if behind else -1
    names = [serials[place] for place in range(last + 1) if place not in set(behind)]
    shown = ", ".join(names[:_NAMED]) + (f" and {len(names) - _NAMED} more" if len(names) > _NAMED else "")
    return f"Not behind the limits, for they did not pass: {shown}." if names else ""


def _single(watched: Watched, told: list[One], good: int, said: str = "") -> OneChart:
    serials, values = tuple(each.serial for each in told), tuple(each.value for each in told)
    behind, after = _parted([each.good for each in told], good)
    if len(values) < _FEWEST:
        return _empty(watched, "of the prediction", (serials, values), said)
    if len(behind) < 2 or not after:
        few = f"{len(behind)} of {len(values)} passed; limits need two, and a panel after them."
        return _empty(watched, "of the prediction", (serials, values), f"{said} {few}".strip())
    try:
        by = limits([values[place] for place in behind])
        later = tuple(serials[place] for place in after), tuple(values[place] for place in after)
        checks = watch(Run(watched, by, *later))
    except PanewrightError as none:
        return _empty(watched, "of the prediction", (serials, values), str(none))
    left = " ".join(filter(None, (said, _left(serials, behind))))
    return OneChart(
        watched, "of the prediction", serials, values, len(behind), by.low, by.centre, by.high, checks,
        *_said(checks, left),
    )  # fmt: skip


def _pulled(known: ForCharts, good: int) -> OneChart:
    """Samples of peeled joints, one after the other."""
    groups = [(serial, [each.value for each in some]) for (serial, _), some in groupby(known.pulls, _sample)]
    groups = [(serial, some) for serial, some in groups if len(some) > 1]
    serials, samples = tuple(one for one, _ in groups), [some for _, some in groups]
    values = tuple(float(np.mean(some)) for some in samples)
    if len(groups) < _FEWEST:
        return _empty(PULL, "N/mm", (serials, values), "")
    behind, after = _parted([serial not in known.faulty for serial in serials], good)
    if len(behind) < 2 or not after:
        return _empty(PULL, "N/mm", (serials, values), "Too few samples are of panels that passed.")
    try:
        by = group_limits([samples[place] for place in behind])
        later = [serials[place] for place in after], [samples[place] for place in after]
        checks = (*watch_samples(PULL, by, *later), weakest_peel(by))
    except PanewrightError as none:
        return _empty(PULL, "N/mm", (serials, values), str(none))
    low, high = by.mean_limits(min(map(len, samples)))
    return OneChart(
        PULL, "N/mm", serials, values, len(behind), low, by.centre, high, checks, *_said(checks, "")
    )


def _said(checks: tuple[Check, ...], said: str) -> tuple[tuple[str, ...], str]:
    """What stops the bench, and what is only to be known: that limits are loose yet stops nobody."""
    loose = [check for check in checks if check.rule.endswith(_LOOSE) and not check.passed]
    stop = stop_and_look([check for check in checks if not check.rule.endswith(_LOOSE)])
    return stop, " ".join(filter(None, (said, *(check.cure for check in loose))))


def _sample(each: Charted) -> tuple[str, str]:
    return each.serial, each.at.isoformat()


def _empty(watched: Watched, unit: str, told: tuple[Iterable[str], Iterable[float]], said: str) -> OneChart:
    serials, values = (tuple(each) for each in told)
    why = said or f"{len(values)} so far; a chart begins with {_FEWEST}."
    return OneChart(watched, unit, serials, values, 0, None, None, None, (), (), why)  # type: ignore[arg-type]
