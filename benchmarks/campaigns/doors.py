"""What is wrong with panels as a shop has them: off what is foretold, with strays, some with strings abreast.

The campaign of `faults` reads panels that are exactly as foretold. Here Isc, Voc, resistance and shunts are
off as far as a panel known by what went in is (`AS_BUILT`), a few readings of the sweep are wild, and every
second panel has two strings side by side, one of which may be open. They are read, sifted and named the way
the commands and pages do (`finding.find`). Circuits are solved exactly (`circuit.trace`), which ngspice's
campaigns hold. No observer stands beside: what is told is named first, the odds, and who is called.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from campaigns.faults import CALIBRATION, COSTLY, FALSE, calibration_of, chance_error_of
from campaigns.faulty import GROUPS, NOISE, READINGS, Case, draw
from campaigns.found import Deviation, Found
from panewright.bench.fault.finding import Finding, find
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.bench.fault.readings import AS_BUILT, Points
from panewright.circuit.damage import Fault, StringOpen, damaged
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.place import StringAt
from panewright.circuit.trace import trace

STRAYS, WILD = 3, (0.2, 0.6)  #: readings of a sweep that are wild, and by which share of the true current
_ABREAST: tuple[Group, ...] = (*GROUPS, "open string")
Side = Callable[[Network, Network], Network]  #: the faulty string's network, and a sound one


@dataclass(frozen=True, slots=True)
class Told:
    """One panel and what was found."""

    number: int
    abreast: bool
    group: Group
    words: str
    lost: float  #: share of Pmp
    first: Group
    odds: float
    healthy: float
    called: bool
    strays: int  #: readings that were left out


def campaign(count: int, seed: int) -> Found:
    """So many panels, half of them of two strings."""
    return told_of([one(nth, seed) for nth in range(count)])


def one(nth: int, seed: int) -> Told:
    """One panel, with a chance of its own by its number."""
    chance, abreast = np.random.default_rng((seed, nth)), nth % 2 == 1
    groups = _ABREAST if abreast else GROUPS
    group = groups[nth // 2 % len(groups)]
    case = draw(chance, "healthy" if group == "open string" else group, AS_BUILT)
    side = _beside if abreast else _alone
    sound = case.true(case.true_w_m2, case.true_c)
    network = side(case.network, sound)
    if group == "open string":
        network = damaged(network, Fault(StringOpen(), StringAt(0)))
    lost = 1 - key_points(network).power_w / key_points(side(sound, sound)).power_w
    points = _swept(network, case, chance)
    foretold = Foretold(_panel(case, side), case.irradiance_w_m2, case.cell_c)
    finding = find(foretold, points)
    return _told(nth, abreast, group, (case.words or group, lost), finding, points)


def _told(
    nth: int, abreast: bool, group: Group, wrong: tuple[str, float], finding: Finding, points: Points
) -> Told:
    left = points.voltage_v.size - finding.points.voltage_v.size
    first = finding.first
    return Told(
        nth, abreast, group, *wrong, first.group, first.odds, finding.healthy_odds, finding.called, left
    )


def _panel(case: Case, side: Side) -> Callable[[float, float], Network]:
    def at(irradiance_w_m2: float, cell_c: float) -> Network:
        foretold = case.panel(irradiance_w_m2, cell_c)
        return side(foretold, foretold)

    return at


def _alone(faulty: Network, _sound: Network) -> Network:
    return faulty


def _beside(faulty: Network, sound: Network) -> Network:
    """A sound string beside it."""
    return Network((*faulty.strings, *sound.strings), faulty.lead_ohm / 2)


def _swept(network: Network, case: Case, chance: np.random.Generator) -> Points:
    """As a sweep, with noise and some wild readings."""
    curve = trace(network, READINGS)
    v, i = (
        np.array(each) * (1 + NOISE * chance.normal(size=READINGS))
        for each in (curve.voltage_v, curve.current_a)
    )
    wild = chance.uniform(*WILD, STRAYS) * chance.choice((-1, 1), STRAYS)
    i[chance.permutation(READINGS)[:STRAYS]] *= 1 + wild
    errors = NOISE * np.abs(v), NOISE * np.abs(i)
    return Points(v, i, *errors, case.irradiance_w_m2, case.cell_c, AS_BUILT)


def told_of(told: Sequence[Told]) -> Found:
    """What they say of each panel."""
    ways = {
        "one string": [each for each in told if not each.abreast],
        "two abreast": [each for each in told if each.abreast],
    }
    deviations = tuple(each for way, mine in ways.items() for each in _deviations(way, mine))
    failures = tuple(_missed(each) for each in told if each.lost >= COSTLY and not each.called)
    notes = tuple(each for way, mine in ways.items() for each in _notes(way, mine))
    return Found("faults by the doors", "what was drawn", len(told), {}, deviations, failures, notes)


def _deviations(way: str, told: Sequence[Told]) -> list[Deviation]:
    healthy = [each.called for each in told if each.group == "healthy"]
    stated, right = np.array([each.odds for each in told]), _right(told)
    return [
        Deviation(
            f"{way}: calibration error", calibration_of(stated, right), CALIBRATION, f"{len(told)} panels"
        ),
        Deviation(f"{way}: healthy ones called", float(np.mean(healthy)), FALSE, f"{len(healthy)} healthy"),
    ]


def _right(told: Sequence[Told]) -> np.ndarray:
    return np.array([each.first == each.group for each in told])


def _missed(told: Told) -> str:
    return (
        f"panel {told.number}: {told.words} costs {told.lost:.1%} of Pmp and is not called; healthy with "
        f"{told.healthy:.3f}"
    )


def _notes(way: str, told: Sequence[Told]) -> list[str]:
    costly = [each for each in told if each.lost >= COSTLY]
    right = _right(costly)
    called = ", ".join(
        f"panel {each.number} with {each.healthy:.3f}"
        for each in told
        if each.group == "healthy" and each.called
    )
    missed, left = sum(not each.called for each in costly), np.mean([each.strays for each in told])
    by_chance = chance_error_of(np.array([each.odds for each in told]))
    return [
        f"{way}: {_right(told).mean():.3f} of {len(told)} named first, of {len(costly)} that cost a "
        f"twentieth of Pmp or more {right.mean():.3f}; {missed} of these not called; healthy ones called: "
        f"{called or 'none'}; {left:.1f} readings of {READINGS} left out as strays, {STRAYS} were wild; odds "
        f"that are wholly true would show a calibration error of {by_chance:.3f} by chance of so few"
    ]
