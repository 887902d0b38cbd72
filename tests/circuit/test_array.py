"""A hundred panels at once give what their strings give one by one at the same voltage."""

from random import Random

import numpy as np
import pytest

from panewright.cell.diode import Diode
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.trials import Trials, currents_a
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky 15 A 45 V", 5e-6, 0.02698, 0.01, 15.0, 45.0)
LEAD_OHM = 0.02


def cells(chance, shaded):
    """Eighteen cells of one lot; one in shade where asked."""
    dim = chance.randrange(18) if shaded else -1
    return tuple(
        Diode(
            8.55 * chance.gauss(1, 0.01) * (chance.uniform(0.1, 0.9) if k == dim else 1.0),
            2.3e-9,
            0.02826,
            0.003,
            20.0,
            0.005,
            -18.0,
            3.4,
        )
        for k in range(18)
    )


def test_a_hundred_panels_give_what_their_strings_give():
    """Kirchhoff at the bus: at the voltage found the strings' currents add up, and no voltage gives more."""
    chance = Random(2)
    strings = [
        String(
            tuple(
                Substring(cells(chance, chance.random() < 0.1), (0.0012,) * 18, SCHOTTKY) for _ in range(20)
            )
        )
        for _ in range(10)
    ]
    whole = Network(tuple(strings), LEAD_OHM)
    assert sum(len(part.cells) for string in strings for part in string.substrings) == 3600
    best = key_points(whole)
    bus = np.linspace(0.0, best.voc_v, 4001)
    alone = sum(currents_a(Trials.once(Network((string,))), bus)[0] for string in strings)
    watts = alone * (bus - LEAD_OHM * alone)
    assert best.power_w == pytest.approx(watts.max(), rel=1e-5)
    assert best.power_w >= watts.max() * (1 - 1e-9)
    at_best = best.vmp_v + LEAD_OHM * best.imp_a
    there = sum(currents_a(Trials.once(Network((string,))), np.array([at_best]))[0, 0] for string in strings)
    assert there == pytest.approx(best.imp_a, rel=1e-8)
