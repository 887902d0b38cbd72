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

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Literal

import numpy as np

from campaigns import observer
from campaigns.faulty import GROUPS, Case, Readings, draw, read
from campaigns.found import Deviation, Found
from campaigns.kept import Form
from campaigns.strung import Strung
from panewright.bench.fault.evidence import weigh
from panewright.bench.fault.finding import CALLED_UNDER, of_groups, ready
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.circuit.maxima import key_points

BEHIND, CALIBRATION, FALSE = 0.02, 0.05, 0.02  #: asked of the bench
COSTLY = 0.05  #: share of Pmp from which on every fault is called
_BINS = 10

How = Literal["curve", "meter"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one says of a panel."""

    first: Group  #: ranked first
    odds: float  #: of that
    healthy: float  #: odds of it


@dataclass(frozen=True, slots=True)
class Answer:
    """One panel, read one way: what it is, what we say, what the observer says."""

    number: int  #: of the panel, which its chance hangs on
    how: How
    group: Group
    words: str
    lost: float  #: share of Pmp
    ours: Verdict
    observer: Verdict
    plain: Group  #: what the observer ranks first in readings without error

    @property
    def shows(self) -> bool:
        """Whether it is above the noise."""
        return self.plain == self.group

    @property
    def called(self) -> bool:
        """Whether we call it faulty."""
        return self.ours.healthy < CALLED_UNDER


def first(odds: observer.Odds) -> Group:
    """The group ranked first."""
    return max(odds, key=odds.__getitem__)


def campaign(count: int, seed: int) -> Found:
    """So many panels, every group as often, each read as a curve and with a meter alone."""
    return told_of([each for both in answers(count, seed) for each in both])


def told_of(told: Sequence[Answer]) -> Found:
    """What they say of each panel."""
    ways = [[each for each in told if each.how == how] for how in ("curve", "meter")]
    return Found(
        "faults named",
        "an observer who knows how they were drawn; circuits by ngspice",
        len(ways[0]),
        {},
        tuple(each for way in ways for each in _deviations(way)),
        tuple(each for way in ways for each in _missed(way)),
        tuple(each for way in ways for each in _notes(way)),
    )


def answers(count: int, seed: int, first_one: int = 0) -> Iterator[tuple[Answer, Answer]]:
    """Of so many panels: by curve, and by meter alone. Each panel has a chance of its own, by its number."""
    with TemporaryDirectory() as folder:
        for nth in range(first_one, first_one + count):
            chance = np.random.default_rng((seed, nth))
            case = draw(chance, GROUPS[nth % len(GROUPS)])
            curve, meter = read(case, chance, Path(folder))
            by = ready(Foretold(case.panel, case.irradiance_w_m2, case.cell_c))
            known = _observed(case, (curve, meter))
            ours = [of_groups(weigh(by, readings.seen)) for readings in (curve, meter)]
            yield (
                _answer(nth, case, "curve", ours[0], known[0]),
                _answer(nth, case, "meter", ours[1], known[1]),
            )


def _answer(
    nth: int, case: Case, how: How, ours: observer.Odds, known: tuple[observer.Odds, observer.Odds]
) -> Answer:
    seen, plain = known
    return Answer(nth, how, case.group, case.words, case.lost, _verdict(ours), _verdict(seen), first(plain))


def _verdict(odds: observer.Odds) -> Verdict:
    likeliest = first(odds)
    return Verdict(likeliest, odds[likeliest], odds["healthy"])


def observed(case: Case) -> observer.Panel:
    """What the observer knows of the panel."""
    rows, each, bypass, amps = case.wiring
    sound = key_points(case.panel(case.irradiance_w_m2, case.cell_c))
    strung = Strung(case.model, rows, each, bypass, 0.01 / amps, 0.1 / amps)
    return observer.Panel(strung, case.irradiance_w_m2, case.cell_c, sound.voc_v / sound.isc_a)


def _observed(case: Case, ways: Sequence[Readings]) -> list[tuple[observer.Odds, observer.Odds]]:
    """What the observer says of each way of reading, and of the same without error."""
    seen = [
        observer.Seen(points.voltage_v, points.current_a, way.loads_ohm)
        for way in ways
        for points in (way.seen, way.plain)
    ]
    odds = observer.odds_of(observed(case), seen)
    return list(zip(odds[::2], odds[1::2], strict=True))


def _right(told: Sequence[Answer], observer: bool) -> np.ndarray:
    return np.array([(each.observer if observer else each.ours).first == each.group for each in told])


def _deviations(told: Sequence[Answer]) -> list[Deviation]:
    how, shown = told[0].how, [each for each in told if each.shows]
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
    return calibration_of(_stated(told), _right(told, False))


def _stated(told: Sequence[Answer]) -> np.ndarray:
    return np.array([each.ours.odds for each in told])


def calibration_of(stated: np.ndarray, right: np.ndarray) -> float:
    """The same of any odds, and whether each came true."""
    bins = np.minimum((stated * _BINS).astype(int), _BINS - 1)
    return float(
        sum(abs(right[bins == k].mean() - stated[bins == k].mean()) * np.mean(bins == k) for k in set(bins))
    )


def chance_error(told: Sequence[Answer]) -> float:
    """The error that odds which are wholly true would show of so few panels, by chance alone."""
    return chance_error_of(_stated(told))


def chance_error_of(stated: np.ndarray) -> float:
    """The same of any odds."""
    chance = np.random.default_rng(1)
    return float(np.mean([calibration_of(stated, chance.random(stated.size) < stated) for _ in range(200)]))


def _unsure(ours: np.ndarray, best: np.ndarray) -> float:
    """Standard deviation of the mean difference between two that answered the same cases."""
    return float(np.std(best.astype(float) - ours.astype(float)) / np.sqrt(max(ours.size, 1)))


def _missed(told: Sequence[Answer]) -> list[str]:
    """Costly faults that are not called."""
    return [
        f"by {each.how}, panel {each.number}: {each.words} costs {each.lost:.1%} of Pmp and is not called; "
        f"healthy with {each.ours.healthy:.3f}, by the observer {each.observer.healthy:.3f}"
        for each in told
        if each.lost >= COSTLY and not each.called
    ]


def _notes(told: Sequence[Answer]) -> list[str]:
    how, shown = told[0].how, [each for each in told if each.shows]
    ours, best = _right(shown, False), _right(shown, True)
    by_group = ", ".join(
        f"{group} {ours[[each.group == group for each in shown]].mean():.2f}"
        for group in GROUPS
        if any(each.group == group for each in shown)
    )
    return [
        f"By {how}, above the noise: {ours.mean():.3f} named first, the observer {best.mean():.3f}; of each "
        f"group {by_group}",
        f"By {how}, all: {_right(told, False).mean():.3f} named first, the observer "
        f"{_right(told, True).mean():.3f}; odds that are wholly true would show a calibration error of "
        f"{chance_error(told):.3f} by chance",
        f"By {how}, the share behind the observer is known to {_unsure(ours, best):.3f} (one deviation)",
        *_of_calling(told),
    ]


def _of_calling(told: Sequence[Answer]) -> Iterator[str]:
    """Costly ones missed, by group and beside what the observer could do; healthy ones called."""
    how, costly = told[0].how, [each for each in told if each.lost >= COSTLY]
    missed = ", ".join(
        f"{group} {sum(not each.called for each in mine)} of {len(mine)}"
        for group in GROUPS
        if (mine := [each for each in costly if each.group == group])
    )
    yield f"By {how}: {len(costly)} cost a twentieth of Pmp or more; not called of each group: {missed}"
    called = [each for each in told if each.group == "healthy" and each.called]
    words = ", ".join(f"panel {each.number} with {each.ours.healthy:.3f}" for each in called)
    yield f"By {how}, healthy ones called: {words or 'none'}"
    ours, best = (_missed_alike(told, observer) for observer in (False, True))
    yield (
        f"By {how}, from the odds on at which {FALSE:.0%} of the healthy ones at most are called: {ours[1]} "
        f"costly ones not called by us (under {ours[0]:.3f}), {best[1]} by the observer (under {best[0]:.3f})"
    )


def _missed_alike(told: Sequence[Answer], observer: bool) -> tuple[float, int]:
    """The level under which the allowed share of healthy ones is called, and how many costly ones are not."""
    odds = [((each.observer if observer else each.ours).healthy, each) for each in told]
    healthy = sorted(healthy for healthy, each in odds if each.group == "healthy")
    level = healthy[int(FALSE * len(healthy))] if healthy else 0.0
    return level, sum(healthy >= level for healthy, each in odds if each.lost >= COSTLY)


def _cells(told: Answer) -> tuple[object, ...]:
    ours, known = told.ours, told.observer
    return (
        told.number, told.how, told.group, told.words, f"{told.lost:.5f}",
        ours.first, f"{ours.odds:.6f}", f"{ours.healthy:.6f}", "yes" if told.called else "no",
        known.first, f"{known.odds:.6f}", f"{known.healthy:.6f}", told.plain,
    )  # fmt: skip


def _read(line: Mapping[str, Any]) -> Answer:
    ours, known = (
        Verdict(line[who], float(line[f"{who}_odds"]), float(line[f"{who}_healthy"]))
        for who in ("ours", "observer")
    )
    return Answer(
        int(line["panel"]), line["by"], line["group"], line["fault"], float(line["lost_share"]),
        ours, known, line["observer_without_errors"],
    )  # fmt: skip


_COLUMNS = (
    "panel", "by", "group", "fault", "lost_share", "ours", "ours_odds", "ours_healthy", "called",
    "observer", "observer_odds", "observer_healthy", "observer_without_errors",
)  # fmt: skip
FORM = Form("panels", _COLUMNS, _cells, _read)
