"""What is wrong with panels that ngspice simulated, beside an observer who knows how they were drawn.

The observer is given the strengths' true ranges; we have those of the bench. Both know the panel as it
should be, the scatter of the readings and that all groups are alike likely. A fault too small to see cannot
be named by anybody: what counts is how far we stay behind the observer, how often a confidence comes true,
and how many healthy panels are called faulty.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from campaigns.faulty import GROUPS, RANGES, Case, draw, read
from campaigns.found import Deviation, Found
from panewright.bench.fault.evidence import Weighed, prepared, suppositions, weigh
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import KINDS, Group, Kind
from panewright.bench.fault.readings import Points

BEHIND, CALIBRATION, FALSE = 0.02, 0.05, 0.02  #: asked of the bench
CALLED_UNDER = 0.04  #: a panel is called faulty where it is healthy with less than this
_SHARES: dict[Group, float] = {**dict.fromkeys(GROUPS, 1 / len(GROUPS)), "open string": 0.0}
_KNOWN = tuple(
    replace(kind, least=RANGES[kind.group][0], most=RANGES[kind.group][1]) if kind.graded else kind
    for kind in KINDS
)
_BINS = 10

Odds = Mapping[Group, float]


@dataclass(frozen=True, slots=True)
class Answer:
    """One panel, read one way: what it is, what we say, what the observer says."""

    case: Case
    ours: Odds
    observer: Odds

    @property
    def called(self) -> bool:
        """Whether we call it faulty."""
        return self.ours["healthy"] < CALLED_UNDER


def campaign(count: int, seed: int) -> Found:
    """So many panels, every group as often, each read as a curve and with a meter alone."""
    chance = np.random.default_rng(seed)
    curves, meters = [], []
    with TemporaryDirectory() as folder:
        for nth in range(count):
            case = draw(chance, GROUPS[nth % len(GROUPS)])
            by_curve, by_meter = _answers(case, read(case, chance, Path(folder)))
            curves.append(by_curve)
            meters.append(by_meter)
    told = [*_deviations("curve", curves), *_deviations("meter", meters)]
    notes = (*_notes("curve", curves), *_notes("meter", meters))
    against = "an observer who knows how they were drawn; circuits by ngspice"
    return Found("faults named", against, count, {}, tuple(told), (), notes)


def _answers(case: Case, readings: Sequence[Points]) -> list[Answer]:
    foretold = Foretold(case.panel, case.irradiance_w_m2, case.cell_c)
    ours, observer = (_odds(foretold, readings, kinds) for kinds in (KINDS, _KNOWN))
    return [Answer(case, a, b) for a, b in zip(ours, observer, strict=True)]


def _odds(foretold: Foretold, readings: Sequence[Points], kinds: Sequence[Kind]) -> list[Odds]:
    ready = prepared(foretold, suppositions(foretold.network, _SHARES, kinds))
    return [_of_groups(weigh(ready, points)) for points in readings]


def _of_groups(weighed: Sequence[Weighed]) -> Odds:
    parts = np.exp([each.log - weighed[0].log for each in weighed])
    found = dict.fromkeys(_SHARES, 0.0)
    for each, part in zip(weighed, parts / parts.sum(), strict=True):
        found[each.supposition.group] += float(part)
    return found


def _right(answers: Sequence[Answer], observer: bool) -> np.ndarray:
    odds = [each.observer if observer else each.ours for each in answers]
    return np.array([max(o, key=o.__getitem__) == a.case.group for o, a in zip(odds, answers, strict=True)])


def _deviations(how: str, answers: Sequence[Answer]) -> list[Deviation]:
    ours, best = _right(answers, False), _right(answers, True)
    healthy = [each.called for each in answers if each.case.group == "healthy"]
    return [
        Deviation(f"{how}: behind the observer", float(best.mean() - ours.mean()), BEHIND, f"{how}s"),
        Deviation(f"{how}: calibration error", _calibration(answers, ours), CALIBRATION, f"{how}s"),
        Deviation(f"{how}: healthy ones called", float(np.mean(healthy)), FALSE, "healthy panels"),
    ]


def _calibration(answers: Sequence[Answer], right: np.ndarray) -> float:
    """Expected calibration error: by how much stated odds miss what came true, in bins of a tenth."""
    stated = np.array([max(each.ours.values()) for each in answers])
    bins = np.minimum((stated * _BINS).astype(int), _BINS - 1)
    return float(
        sum(abs(right[bins == k].mean() - stated[bins == k].mean()) * np.mean(bins == k) for k in set(bins))
    )


def _notes(how: str, answers: Sequence[Answer]) -> tuple[str, ...]:
    ours, best = _right(answers, False), _right(answers, True)
    big = [each for each in answers if each.case.lost >= 0.05]
    missed = [each.case.words for each in big if not each.called]
    by_group = ", ".join(
        f"{group} {ours[[a.case.group == group for a in answers]].mean():.2f}" for group in GROUPS
    )
    return (
        f"By {how}: {ours.mean():.3f} named first, the observer {best.mean():.3f}; of each group {by_group}.",
        f"By {how}: of {len(big)} that cost a twentieth of Pmp or more, {len(missed)} are not called.",
    )
