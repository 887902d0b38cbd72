"""What is wrong with panels that ngspice simulated, beside an observer who knows how they were drawn.

Both know the panel as it should be and the scatter of the readings. The observer also knows the strengths'
true ranges, which pairs are drawn, and that all groups are alike likely; we have the ranges and pairs of the
bench. A fault below the noise can be named by nobody: a case is set aside where the observer names another
group first even in readings without any error. That rule asks the observer alone and not our answer. Kinds
that no curve parts are one group from the start.

Counted: how often the group ranked first is the true one, ours and the observer's; whether stated odds come
true; how many healthy panels are called faulty; whether every fault that costs a twentieth of Pmp is called.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from campaigns.faulty import GROUPS, RANGES, Case, Readings, draw, read
from campaigns.found import Deviation, Found
from panewright.bench.fault.evidence import Prepared, Supposition, look, weighed
from panewright.bench.fault.finding import CALLED_UNDER, of_groups, ready
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group

BEHIND, CALIBRATION, FALSE = 0.02, 0.05, 0.02  #: asked of the bench
COSTLY = 0.05  #: share of Pmp from which on every fault is called
_BINS = 10

Odds = Mapping[Group, float]


@dataclass(frozen=True, slots=True)
class Answer:
    """One panel, read one way: what it is, what we say, what the observer says."""

    group: Group
    words: str
    lost: float  #: share of Pmp
    ours: Odds
    observer: Odds
    plain: Odds  #: the observer's, of readings without error

    @property
    def shows(self) -> bool:
        """Whether it is above the noise."""
        return first(self.plain) == self.group

    @property
    def called(self) -> bool:
        """Whether we call it faulty."""
        return self.ours["healthy"] < CALLED_UNDER


def first(odds: Odds) -> Group:
    """The group ranked first."""
    return max(odds, key=odds.__getitem__)


def campaign(count: int, seed: int) -> Found:
    """So many panels, every group as often, each read as a curve and with a meter alone."""
    return told_of(*answers(count, seed))


def told_of(curves: Sequence[Answer], meters: Sequence[Answer]) -> Found:
    """What they say of each panel."""
    told = [*_deviations("curve", curves), *_deviations("meter", meters)]
    notes = (*_notes("curve", curves), *_notes("meter", meters))
    failures = (*_missed("curve", curves), *_missed("meter", meters))
    against = "an observer who knows how they were drawn; circuits by ngspice"
    return Found("faults named", against, len(curves), {}, tuple(told), failures, notes)


def answers(count: int, seed: int, first_one: int = 0) -> tuple[list[Answer], list[Answer]]:
    """Of so many panels: by curve, and by meter alone. Each panel has a chance of its own, by its number."""
    curves, meters = [], []
    with TemporaryDirectory() as folder:
        for nth in range(first_one, first_one + count):
            chance = np.random.default_rng((seed, nth))
            case = draw(chance, GROUPS[nth % len(GROUPS)])
            curve, meter = read(case, chance, Path(folder))
            by = ready(Foretold(case.panel, case.irradiance_w_m2, case.cell_c))
            curves.append(_answer(case, by, curve))
            meters.append(_answer(case, by, meter))
    return curves, meters


def _answer(case: Case, by: Prepared, readings: Readings) -> Answer:
    looked, known = look(by, readings.seen), _known(by.supposed)
    ours, observer = (of_groups(weighed(looked, supposed)) for supposed in (by.supposed, known))
    plain = of_groups(weighed(look(by, readings.plain), known))
    return Answer(case.group, case.words, case.lost, ours, observer, plain)


def _known(supposed: Sequence[Supposition]) -> list[Supposition]:
    """The same suppositions as an observer has them: true ranges, and no pair of one group."""
    known = [_ranged(each) for each in supposed]
    pairs = sum(each.share for each in known if each.group == "two faults")
    whole = sum(each.share for each in supposed if each.group == "two faults")
    return [
        replace(each, share=each.share * whole / pairs) if each.group == "two faults" else each
        for each in known
    ]


def _ranged(supposed: Supposition) -> Supposition:
    kinds = tuple(
        replace(kind, least=RANGES[kind.group][0], most=RANGES[kind.group][1]) if kind.graded else kind
        for kind in supposed.wrong.kinds
    )
    alike = len(kinds) == 2 and kinds[0].group == kinds[1].group
    return replace(
        supposed, wrong=replace(supposed.wrong, kinds=kinds), share=0.0 if alike else supposed.share
    )


def _right(told: Sequence[Answer], observer: bool) -> np.ndarray:
    return np.array([first(each.observer if observer else each.ours) == each.group for each in told])


def _deviations(how: str, told: Sequence[Answer]) -> list[Deviation]:
    shown = [each for each in told if each.shows]
    ours, best = _right(shown, False), _right(shown, True)
    healthy = [each.called for each in told if each.group == "healthy"]
    where = f"{len(shown)} of {len(told)} {how}s above the noise"
    return [
        Deviation(f"{how}: behind the observer", float(best.mean() - ours.mean()), BEHIND, where),
        Deviation(f"{how}: calibration error", calibration(told), CALIBRATION, f"{len(told)} {how}s"),
        Deviation(f"{how}: healthy ones called", float(np.mean(healthy)), FALSE, f"{len(healthy)} healthy"),
    ]


def calibration(told: Sequence[Answer]) -> float:
    """Expected calibration error: by how much stated odds miss what came true, in bins of a tenth."""
    stated = np.array([max(each.ours.values()) for each in told])
    return _error(stated, _right(told, False))


def _error(stated: np.ndarray, right: np.ndarray) -> float:
    bins = np.minimum((stated * _BINS).astype(int), _BINS - 1)
    return float(
        sum(abs(right[bins == k].mean() - stated[bins == k].mean()) * np.mean(bins == k) for k in set(bins))
    )


def chance_error(told: Sequence[Answer]) -> float:
    """The error that odds which are wholly true would show of so few panels, by chance alone."""
    chance, stated = np.random.default_rng(1), np.array([max(each.ours.values()) for each in told])
    return float(np.mean([_error(stated, chance.random(stated.size) < stated) for _ in range(200)]))


def _missed(how: str, told: Sequence[Answer]) -> list[str]:
    """Costly faults that are not called."""
    return [
        f"by {how}: {each.words} costs {each.lost:.1%} of Pmp and is not called; healthy with "
        f"{each.ours['healthy']:.3f}, by the observer {each.observer['healthy']:.3f}"
        for each in told
        if each.lost >= COSTLY and not each.called
    ]


def _notes(how: str, told: Sequence[Answer]) -> tuple[str, ...]:
    shown = [each for each in told if each.shows]
    ours, best = _right(shown, False), _right(shown, True)
    costly = [each for each in told if each.lost >= COSTLY]
    by_group = ", ".join(
        f"{group} {ours[[each.group == group for each in shown]].mean():.2f}"
        for group in GROUPS
        if any(each.group == group for each in shown)
    )
    return (
        f"By {how}, above the noise: {ours.mean():.3f} named first, the observer {best.mean():.3f}; of each "
        f"group {by_group}",
        f"By {how}, all: {_right(told, False).mean():.3f} named first, the observer "
        f"{_right(told, True).mean():.3f}; odds that are wholly true would show a calibration error of "
        f"{chance_error(told):.3f} by chance",
        f"By {how}: {len(costly)} cost a twentieth of Pmp or more",
    )
