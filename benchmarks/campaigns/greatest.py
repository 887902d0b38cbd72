"""The greatest power of random panels, held against an exhaustive search: is it ever missed?

Where the two do not agree ngspice sweeps the panel and judges; these panels are counted.

Nine kinds of panels, the worse for a search the better: humps of nearly one height, humps close together,
soft cells that break down one by one, a bypass diode over every cell, cells that have no way back, and all
kinds of damage.
"""

from __future__ import annotations

import math
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from random import Random

from campaigns import spice
from campaigns.damaged import Extent, any_bypass, any_cell, any_network
from campaigns.dense import greatest_power_w
from campaigns.found import Found, Worst
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.trials import Trials, most_power
from panewright.enclosure.bypass import Bypass

ALLOWED = 1e-6
SCHOTTKY = Bypass("Schottky", 5e-6, 0.027, 0.01, 15.0, 45.0)
Panel = Callable[[Random], Network]


def campaign(count: int, seed: int) -> Found:
    """Random panels of all kinds in turn: how far ours lies below the search, and above it."""
    worst = Worst(dict.fromkeys(("below the search", "above the search", "compiled beside it"), ALLOWED))
    kinds: dict[str, int] = {"judged by ngspice": 0}
    failures = []
    for number in range(count):
        kind, panel = KINDS[number % len(KINDS)]
        where = f"{kind}, panel {number} of seed {seed}"
        network = panel(Random(f"{seed} {number}"))
        kinds[kind] = kinds.get(kind, 0) + 1
        try:
            kinds["judged by ngspice"] += _compared(network, worst, where)
        except Exception as fault:  # whatever stops the solver is a finding, not the end of the campaign
            failures.append(f"{where}: {type(fault).__name__}: {fault}")
    what = "greatest power of shaded panels"
    return Found(what, "an exhaustive search", count, kinds, worst.deviations(), tuple(failures))


def _compared(network: Network, worst: Worst, where: str) -> bool:
    """How far ours lies from the search; whether ngspice had to judge between the two."""
    search, ours = greatest_power_w(network), key_points(network)
    lights = [cell.light_a for string in network.strings for part in string.substrings for cell in part.cells]
    share = ours.power_w / search - 1 if search > 1e-6 * max(lights) else ours.power_w - search
    judged = abs(share) > ALLOWED and ours.power_w > 0
    if judged and (swept_w := _swept_w(network, ours)) is not None:
        share = ours.power_w / swept_w - 1
    worst.see("below the search" if share < 0 else "above the search", share, where)
    compiled_w = float(most_power(Trials.once(network)).power_w[0])
    worst.see(
        "compiled beside it", (compiled_w - ours.power_w) / max(ours.power_w, 1e-6 * max(lights)), where
    )
    return judged


def _swept_w(network: Network, ours: KeyPoints) -> float | None:
    """The greatest power of ngspice's sweeps, over the curve and about our voltage; None if it fails. [W]"""
    sweeps = (
        spice.Sweep(ours.voc_v * 1.01, 0.0, 2001),
        spice.Sweep(ours.vmp_v * 1.001, ours.vmp_v * 0.999, 41),
    )
    found = []
    for sweep in sweeps:
        try:
            with tempfile.TemporaryDirectory() as folder:
                (swept,) = spice.solve(network, [sweep], Path(folder))
        except spice.NoAnswer:
            return None
        found.append(float((swept.voltage_v * swept.current_a).max()))
    return max(found)


def _panel(lights: list[list[float]], cell: Diode, bypass: Bypass | None, chance: Random) -> Network:
    """Substrings of cells that all differ a little, in the light given to each."""
    rows = tuple(
        Substring(
            tuple(_own(replace(cell, light_a=light), chance) for light in row), (0.0012,) * len(row), bypass
        )
        for row in lights
    )
    return Network((String(rows),), chance.choice((0.0, 0.02)))


def _own(cell: Diode, chance: Random) -> Diode:
    return replace(
        cell,
        light_a=cell.light_a * chance.gauss(1, 2e-3),
        saturation_a=cell.saturation_a * math.exp(chance.gauss(0, 0.05)),
        shunt_ohm=cell.shunt_ohm * math.exp(chance.gauss(0, 0.3)),
    )


def _whole(light: float, darker: float, count: int, shaded: int) -> list[float]:
    return [darker] * shaded + [light] * (count - shaded)


def _even(chance: Random) -> Network:
    """All cells in one light, 2 to 72 of them."""
    cell, parts = any_cell(chance), chance.randint(1, 4)
    count = chance.randint(2, max(2, 72 // parts))
    return _panel([[cell.light_a] * count] * parts, cell, any_bypass(chance), chance)


def _spots(chance: Random) -> Network:
    """Any cell in any shade."""
    cell, parts = any_cell(chance), chance.randint(1, 4)
    rows = [
        [
            cell.light_a * (chance.random() if chance.random() < 0.2 else 1.0)
            for _ in range(chance.randint(2, 20))
        ]
        for _ in range(parts)
    ]
    return _panel(rows, cell, any_bypass(chance), chance)


def _stairs(chance: Random) -> Network:
    """Every substring in a light of its own: a hump each."""
    cell, parts, count = any_cell(chance), chance.randint(2, 8), chance.randint(2, 9)
    steps = sorted((chance.uniform(0.05, 1.0) for _ in range(parts)), reverse=True)
    return _panel([[cell.light_a * step] * count for step in steps], cell, any_bypass(chance), chance)


def _level_humps(chance: Random) -> Network:
    """Light falls as 1/k along the substrings, so that all humps are nearly of one height."""
    cell, parts, count = _usual(chance), chance.randint(2, 10), chance.randint(3, 7)
    jitter = 10 ** chance.uniform(-7, -2)
    rows = [[cell.light_a / (k + 1) * chance.gauss(1, jitter)] * count for k in range(parts)]
    return _panel(rows, cell, SCHOTTKY, chance)


def _narrow_humps(chance: Random) -> Network:
    """Lights that lie closely together: humps on the shoulders of others."""
    cell, parts, count = _usual(chance), chance.randint(2, 8), chance.randint(2, 9)
    step = 10 ** chance.uniform(-3, -1)
    rows = [[cell.light_a * math.exp(-step * k * chance.random())] * count for k in range(parts)]
    return _panel(rows, cell, SCHOTTKY, chance)


def _soft(chance: Random) -> Network:
    """No bypass diode; shaded cells leak or break down one after the other."""
    cell = replace(
        _usual(chance),
        shunt_ohm=10 ** chance.uniform(0, 1.5),
        breakdown_siemens=10 ** chance.uniform(-3, -1.5),
        breakdown_v=-chance.uniform(3, 12),
    )
    lights = [
        cell.light_a * chance.choice((1.0, 1.0, 1.0, chance.random())) for _ in range(chance.randint(3, 72))
    ]
    return _panel([lights], cell, None, chance)


def _diode_each(chance: Random) -> Network:
    """A bypass diode over every cell or pair."""
    cell, count = _usual(chance), chance.randint(1, 2)
    rows = [[cell.light_a * chance.uniform(0.05, 1)] * count for _ in range(chance.randint(2, 24))]
    return _panel(rows, cell, SCHOTTKY, chance)


def _no_way_back(chance: Random) -> Network:
    """Cells without shunt and without breakdown, some of them dark."""
    cell = replace(_usual(chance), shunt_ohm=math.inf, breakdown_siemens=0.0, series_ohm=0.0)
    rows = [
        _whole(cell.light_a, cell.light_a * chance.choice((0.0, chance.random())), 6, chance.randint(0, 2))
        for _ in range(chance.randint(1, 6))
    ]
    return _panel(rows, cell, chance.choice((SCHOTTKY, SCHOTTKY, any_bypass(chance))), chance)


def _damaged(chance: Random) -> Network:
    """All kinds of damage; one string, and now and then up to twelve."""
    strings = chance.choice((1, 1, 1, 2, 3, 12)) if chance.random() < 0.5 else 1
    cells = 24 if strings == 1 else 6
    return any_network(chance, Extent(most_strings=strings, most_cells=cells))


def _usual(chance: Random) -> Diode:
    return Diode(
        light_a=chance.uniform(1.0, 11.0),
        saturation_a=10 ** chance.uniform(-10, -8.5),
        ideality_v=chance.uniform(0.025, 0.03),
        series_ohm=chance.uniform(0.001, 0.006),
        shunt_ohm=10 ** chance.uniform(1, 3),
        breakdown_siemens=10 ** chance.uniform(-4, -2),
        breakdown_v=-chance.uniform(10, 25),
    )


KINDS: tuple[tuple[str, Panel], ...] = (
    ("even light", _even),
    ("spots of shade", _spots),
    ("stairs of light", _stairs),
    ("humps of one height", _level_humps),
    ("narrow humps", _narrow_humps),
    ("soft cells without bypass", _soft),
    ("a bypass diode each", _diode_each),
    ("no way back", _no_way_back),
    ("damaged", _damaged),
)
