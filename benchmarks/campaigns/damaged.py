"""Random networks of cells that all differ, with all that goes wrong in a workshop and on a roof.

Shade, dirt, a cracked-off part, an open ribbon, a cold joint, a shunt, a cell the wrong way round; bypass
diodes missing, failed short or turned; unlike strings with and without blocking diodes, a poor or a broken
tail.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from panewright.cell.diode import Diode
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

Beside = Bypass | Turned | Bridge | None
BUSBARS = (2, 3, 5)


@dataclass(frozen=True, slots=True)
class Extent:
    """How large a random network gets, and how much is wrong with it."""

    most_strings: int = 3
    most_substrings: int = 3
    most_cells: int = 16  #: of a substring
    hurt_share: float = 0.15  #: of the cells


def any_network(chance: Random, extent: Extent = Extent()) -> Network:
    """One to a few strings; sometimes all alike in make-up, sometimes not."""
    sound, bypass, blocking = any_cell(chance), any_bypass(chance), any_blocking(chance)
    count, parts = chance.randint(1, extent.most_strings), chance.randint(1, extent.most_substrings)
    cells = chance.randint(1, extent.most_cells)
    unlike = chance.random() < 0.3
    strings = []
    for _ in range(count):
        if unlike:
            parts = chance.randint(1, extent.most_substrings)
        share = chance.choice((0.0, extent.hurt_share, 3 * extent.hurt_share))
        rows = tuple(_substring(sound, cells, _beside(bypass, chance), share, chance) for _ in range(parts))
        strings.append(String(rows, _tail_ohm(chance), blocking))
    if all(math.isinf(string.tail_ohm) for string in strings):
        strings[0] = replace(strings[0], tail_ohm=0.0)
    return Network(tuple(strings), chance.choice((0.0, chance.uniform(0.0, 0.1))))


def any_cell(chance: Random) -> Diode:
    """A sound cell, hard or soft, small or large, perhaps without any shunt or series resistance."""
    return Diode(
        light_a=chance.uniform(0.3, 12.0),
        saturation_a=10 ** chance.uniform(-11, -8),
        ideality_v=chance.uniform(0.024, 0.036),
        series_ohm=chance.choice((0.0, chance.uniform(0.001, 0.01), chance.uniform(0.001, 0.01))),
        shunt_ohm=chance.choice((math.inf, 10 ** chance.uniform(0.5, 3), 10 ** chance.uniform(0.5, 3))),
        breakdown_siemens=chance.choice((0.0, 10 ** chance.uniform(-5, -2), 10 ** chance.uniform(-4, -2))),
        breakdown_v=-chance.uniform(8, 30),
        breakdown_exponent=chance.uniform(2.0, 5.0),
    )


def any_bypass(chance: Random) -> Bypass | None:
    """A Schottky or a PN diode, or none."""
    schottky = Bypass(
        "Schottky", 10 ** chance.uniform(-6, -4), chance.uniform(0.026, 0.032), 0.01, 15.0, 45.0
    )
    pn = Bypass("PN", 10 ** chance.uniform(-10, -7), chance.uniform(0.03, 0.05), 0.004, 15.0, 600.0)
    kinds = (None, schottky, schottky, pn, replace(schottky, series_ohm=0.0))
    return chance.choice(kinds)


def any_blocking(chance: Random) -> Bypass | None:
    """A diode at the end of every string, or none."""
    return any_bypass(chance) if chance.random() < 0.4 else None


def _tail_ohm(chance: Random) -> float:
    usual = (0.0, chance.uniform(0.001, 0.05), chance.uniform(0.001, 0.05))
    return (
        chance.choice((10 ** chance.uniform(0, 3), math.inf))
        if chance.random() < 0.1
        else chance.choice(usual)
    )


def _beside(bypass: Bypass | None, chance: Random) -> Beside:
    """The bypass diode as it should be, or what became of it."""
    if bypass is None or chance.random() < 0.8:
        return bypass
    return chance.choice((None, Turned(bypass), Bridge(10 ** chance.uniform(-3, 0))))


def _substring(sound: Diode, count: int, beside: Beside, share: float, chance: Random) -> Substring:
    cells = tuple(_hurt(_own(sound, chance), share, chance) for _ in range(count))
    joints = tuple(_joint_ohm(share, chance) for _ in range(count))
    turned = tuple(k for k in range(count) if chance.random() < share / 10)
    return Substring(cells, joints, beside, turned)


def _joint_ohm(share: float, chance: Random) -> float:
    if chance.random() < share / 3:
        return 10 ** chance.uniform(-2, 0)
    return chance.choice((0.0, 0.0012, 0.0012 * chance.uniform(0.5, 2)))


def _own(cell: Diode, chance: Random) -> Diode:
    """One cell of a lot: no two are alike."""
    return replace(
        cell,
        light_a=cell.light_a * chance.gauss(1, 0.01),
        saturation_a=cell.saturation_a * math.exp(chance.gauss(0, 0.1)),
        ideality_v=cell.ideality_v * chance.gauss(1, 0.005),
        series_ohm=cell.series_ohm * chance.uniform(0.9, 1.1),
        shunt_ohm=cell.shunt_ohm * math.exp(chance.gauss(0, 0.4)),
        breakdown_v=cell.breakdown_v * chance.gauss(1, 0.04),
    )


def _hurt(cell: Diode, share: float, chance: Random) -> Diode:
    while chance.random() < share:
        cell = chance.choice(_HARMS)(cell, chance)
    return cell


def _shaded(cell: Diode, chance: Random) -> Diode:
    return replace(cell, light_a=cell.light_a * chance.choice((0.0, 0.1, chance.random(), chance.random())))


def _soiled(cell: Diode, chance: Random) -> Diode:
    return replace(cell, light_a=cell.light_a * chance.uniform(0.85, 0.99))


def _cracked(cell: Diode, chance: Random) -> Diode:
    """Part of the area cut off: every current scales with what is left."""
    return cell.part(chance.uniform(0.3, 0.98))


def _ribbon_open(cell: Diode, chance: Random) -> Diode:
    """Fingers run to the next busbar: a resistance that grows with the square of their length."""
    busbars = chance.choice(BUSBARS)
    return replace(cell, series_ohm=cell.series_ohm * (busbars / (busbars - 1)) ** 2 + 0.005 / busbars)


def _shunted(cell: Diode, chance: Random) -> Diode:
    return replace(cell, shunt_ohm=10 ** chance.uniform(-1, 1))


_HARMS: tuple[Callable[[Diode, Random], Diode], ...] = (
    _shaded,
    _shaded,
    _soiled,
    _cracked,
    _ribbon_open,
    _shunted,
)
