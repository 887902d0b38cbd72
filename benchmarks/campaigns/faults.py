"""What is wrong with panels that ngspice simulated, beside an observer who knows how they were drawn.

Both know the panel as it should be and the scatter of the readings. The observer (`observer`) has a circuit
and integrals of its own, and also knows which kinds are drawn and how strong, which pairs, and a meter's
loads; we have the kinds, ranges and pairs of the bench. A fault below the noise can be named by nobody: a
case is set aside where the observer names another group first even in readings without any error. That rule
asks the observer alone and not our answer. Kinds that no curve parts are one group from the start.

Counted: how often the group ranked first is the true one, ours and the observer's; whether stated odds come
true; how many healthy panels are called faulty; whether every fault that costs a twentieth of Pmp is called.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from campaigns import observer
from campaigns.faulty import GROUPS, Case, Readings, draw, read
from campaigns.found import Deviation, Found
from campaigns.strung import Strung
from panewright.bench.fault.evidence import weigh
from panewright.bench.fault.finding import CALLED_UNDER, of_groups, ready
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.circuit.maxima import key_points

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
    curves: list[Answer] = []
    meters: list[Answer] = []
    with TemporaryDirectory() as folder:
        for nth in range(first_one, first_one + count):
            chance = np.random.default_rng((seed, nth))
            case = draw(chance, GROUPS[nth % len(GROUPS)])
            curve, meter = read(case, chance, Path(folder))
            by = ready(Foretold(case.panel, case.irradiance_w_m2, case.cell_c))
            known = _observed(case, (curve, meter))
            for told, readings, (observer, plain) in zip(
                (curves, meters), (curve, meter), known, strict=True
            ):
                ours = of_groups(weigh(by, readings.seen))
                told.append(Answer(case.group, case.words, case.lost, ours, observer, plain))
    return curves, meters


def observed(case: Case) -> observer.Panel:
    """What the observer knows of the panel."""
    rows, each, bypass, amps = case.wiring
    sound = key_points(case.panel(case.irradiance_w_m2, case.cell_c))
    strung = Strung(case.model, rows, each, bypass, 0.01 / amps, 0.1 / amps)
    return observer.Panel(strung, case.irradiance_w_m2, case.cell_c, sound.voc_v / sound.isc_a)


def _observed(case: Case, ways: Sequence[Readings]) -> list[tuple[Odds, Odds]]:
    """What the observer says of each way of reading, and of the same without error."""
    seen = [
        observer.Seen(points.voltage_v, points.current_a, way.loads_ohm)
        for way in ways
        for points in (way.seen, way.plain)
    ]
    odds = observer.odds_of(observed(case), seen)
    return list(zip(odds[::2], odds[1::2], strict=True))


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


def _unsure(ours: np.ndarray, best: np.ndarray) -> float:
    """Standard deviation of the mean difference between two that answered the same cases."""
    return float(np.std(best.astype(float) - ours.astype(float)) / np.sqrt(max(ours.size, 1)))


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
    missed = ", ".join(
        f"{group} {sum(not each.called for each in mine)} of {len(mine)}"
        for group in GROUPS
        if (mine := [each for each in costly if each.group == group])
    )
    return (
        f"By {how}, above the noise: {ours.mean():.3f} named first, the observer {best.mean():.3f}; of each "
        f"group {by_group}",
        f"By {how}, all: {_right(told, False).mean():.3f} named first, the observer "
        f"{_right(told, True).mean():.3f}; odds that are wholly true would show a calibration error of "
        f"{chance_error(told):.3f} by chance",
        f"By {how}: {len(costly)} cost a twentieth of Pmp or more; not called of each group: {missed}",
        f"By {how}, the share behind the observer is known to {_unsure(ours, best):.3f} (one deviation)",
    )
