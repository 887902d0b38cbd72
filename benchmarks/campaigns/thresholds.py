"""From which odds on a panel is to be called faulty: both errors over many readings of a few panels.

A panel is prepared once and read many times: sound, and with every kind of fault that costs a twentieth of
Pmp or more, each drawn as `faulty` draws them, with its scatter and its errors of light and heat. The true
curves are those of `strung`. For each threshold stands how many sound readings it calls, and how many costly
faults it passes by, group by group. Readings are weighed against single faults, as for what is too small to
be called: pairs would lower the odds of healthy by a tenth or so of themselves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from campaigns.faulty import GROUPS, HEAT_K, LIGHT, NOISE, READINGS, draw
from campaigns.found import Deviation, Found
from campaigns.observer import RANGE, Panel, Supposed, supposed_of
from campaigns.strung import Array, Branch, Strung
from panewright.bench.fault.evidence import prepared, suppositions, weigh
from panewright.bench.fault.finding import CALLED_UNDER, SHARES, of_groups
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.bench.fault.readings import Common, Points
from panewright.circuit.maxima import key_points

LEVELS = (0.02, 0.04, 0.06, 0.08, 0.10, 0.12, 0.15, 0.20, 0.25)
FALSE = 0.02  #: of sound panels, by the light alone
COSTLY = 0.05
SOUND, EACH = 40, 8  #: readings of one panel: sound, and of every group
_TRIES = 60


@dataclass(frozen=True, slots=True)
class Told:
    """One reading: what it is, and how likely healthy we say it is."""

    how: str
    group: Group
    words: str
    lost: float
    healthy: float


def campaign(count: int, seed: int) -> Found:
    """So many panels, each read many times."""
    return told_of([each for nth in range(count) for each in readings(nth, seed)], count)


def told_of(told: list[Told], count: int) -> Found:
    """Both errors at the threshold in use, and at others."""
    deviations = tuple(
        Deviation(
            f"{how}: sound ones called", _called(told, how, CALLED_UNDER), FALSE, f"{_many(told, how)} sound"
        )
        for how in ("curve", "meter")
    )
    notes = tuple(_note(told, how, level) for how in ("curve", "meter") for level in LEVELS)
    against = "what was drawn; circuits by laws of their own"
    return Found("thresholds of being called", against, count, {}, deviations, (), notes)


def readings(nth: int, seed: int) -> list[Told]:
    """Of one panel."""
    chance = np.random.default_rng((seed, nth))
    case = draw(chance, "healthy")
    rows, each, bypass, amps = case.wiring
    sound = key_points(case.panel(case.irradiance_w_m2, case.cell_c))
    strung = Strung(case.model, rows, each, bypass, 0.01 / amps, 0.1 / amps)
    panel = Panel(strung, case.irradiance_w_m2, case.cell_c, sound.voc_v / sound.isc_a)
    foretold = Foretold(case.panel, case.irradiance_w_m2, case.cell_c)
    supposed = suppositions(foretold.network, SHARES)
    alone = prepared(foretold, tuple(each for each in supposed if each.group != "two faults"))
    loads = tuple(factor * sound.vmp_v / sound.imp_a for factor in (0.8, 1.8))
    told: list[Told] = []
    for group in GROUPS:
        for _ in range(SOUND if group == "healthy" else EACH):
            drawn = _drawn(panel, group, chance)
            if drawn is None:
                break
            supposed, at, lost = drawn
            branch = panel.branch(supposed, at)
            words = f"{' and '.join(supposed.kinds)} {np.exp(at[2:]).round(3)}"
            for how, points in _read(case.irradiance_w_m2, case.cell_c, branch, loads, chance):
                told.append(Told(how, group, words, lost, of_groups(weigh(alone, points))["healthy"]))
    return told


def _drawn(panel: Panel, group: Group, chance: np.random.Generator) -> tuple[Supposed, Array, float] | None:
    """What is wrong, with light and heat off by chance; it costs a twentieth or more.

    None where nothing of that group does: one dead cell of sixty does not cost that much.
    """
    among = [each for each in supposed_of(panel.strung) if each.group == group]
    shares = np.array([each.share for each in among])
    healthy = next(supposed_of(panel.strung))
    for _ in range(_TRIES):
        supposed = among[int(chance.choice(len(among), p=shares / shares.sum()))]
        ranges = [RANGE[kind] for kind in supposed.kinds if kind in RANGE]
        strengths = [chance.uniform(*np.log(ends)) for ends in ranges]
        at = np.array([*chance.normal(size=2), *strengths])
        lost = 1 - _power(panel.branch(supposed, at)) / _power(panel.branch(healthy, at[:2]))
        if group == "healthy" or lost >= COSTLY:
            return supposed, at, lost
    return None


def _power(branch: Branch) -> float:
    return float((branch[0] * branch[1]).max())


def _read(
    light: float, heat: float, branch: Branch, loads: tuple[float, ...], chance: np.random.Generator
) -> list[tuple[str, Points]]:
    """As a sweep and with a meter."""
    i, v = branch
    swept = np.linspace(0.0, np.interp(0.0, i, v), READINGS)
    through = np.array([np.interp(0.0, i * ohm - v, i) for ohm in loads])
    isc = float(np.interp(0.0, -v, i))
    ways = {
        "curve": (swept, np.maximum(np.interp(-swept, -v, i), 0.0)),
        "meter": (np.array([swept[-1], 0.0, *(through * loads)]), np.array([0.0, isc, *through])),
    }
    found = []
    for how, (volts, amps) in ways.items():
        volts = volts * (1 + NOISE * chance.normal(size=volts.size))
        amps = amps * (1 + NOISE * chance.normal(size=amps.size))
        common = Common(light=LIGHT, heat_k=HEAT_K)
        found.append((how, Points(volts, amps, NOISE * volts, NOISE * amps, light, heat, common)))
    return found


def _many(told: list[Told], how: str) -> int:
    return sum(each.how == how and each.group == "healthy" for each in told)


def _called(told: list[Told], how: str, level: float) -> float:
    mine = [each.healthy < level for each in told if each.how == how and each.group == "healthy"]
    return float(np.mean(mine)) if mine else float("nan")


def _note(told: list[Told], how: str, level: float) -> str:
    """Both errors at one level."""
    passed = []
    for group in GROUPS[1:]:
        mine = [each.healthy >= level for each in told if each.how == how and each.group == group]
        passed.append(f"{group} {sum(mine)} of {len(mine)}")
    return (
        f"By {how}, called under {level:.2f}: {_called(told, how, level):.3f} of {_many(told, how)} sound "
        f"readings called; costly ones not called: {', '.join(passed)}"
    )
