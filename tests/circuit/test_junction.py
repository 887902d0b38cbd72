"""A junction's law solved for its voltage: anywhere a diode can be, against halving in exact steps."""

from math import expm1, inf
from random import Random

import pytest

from panewright.cell.diode import Diode
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solver import junction

#: current, I0, nVth, 1/Rsh, G, Vbr, m: cells whose breakdown term tops below their own voltage
STEEP = (
    (1.455e-5, 2.325e-9, 0.0731, 0.0, 3.687e-3, -3.854, 7.276),
    (1e-3, 7.468e-12, 0.05644, 0.0, 0.06862, -4.4209, 5.431),
    (0.5, 1e-13, 0.06, 0.0, 0.1, -4.0, 6.0),
)


def swallowed_a(volt, i0, n, gsh, g, vbr, m):
    """The law as it is stated, its last term held from its top on."""
    held = min(volt, -vbr / (m - 1)) if m > 1 else volt
    return i0 * expm1(volt / n) + gsh * volt + g * held * (1 - held / vbr) ** -m


def solved(c, i0, n, gsh, g, vbr, m):
    if c >= 0:
        return junction.forward(c, i0, 1 / i0, n, 1 / n, gsh, g, vbr, 1 / vbr, m)
    return junction.reverse(-c, i0, n, 1 / n, gsh, g, vbr, m)


@pytest.mark.parametrize("figures", STEEP)
def test_a_term_that_tops_early_is_held_there(figures):
    c, *law = figures
    volt, slope, _ = solved(*figures)
    assert swallowed_a(volt, *law) == pytest.approx(c, rel=1e-9)
    assert slope > 0


def drawn(chance):
    i0, n = 10 ** chance.uniform(-15, -4), chance.uniform(0.02, 0.2)
    gsh, g = (chance.choice((0.0, 10 ** chance.uniform(*powers))) for powers in ((-4, 1), (-7, 0)))
    vbr, m = -(10 ** chance.uniform(-0.3, 2)), chance.uniform(0.5, 10)
    c = 10 ** chance.uniform(-12, 1.3) * chance.choice((1, 1, -1))
    return c, i0, n, gsh, g, vbr, m


@pytest.mark.parametrize("seed", range(8))
def test_anywhere_a_diode_can_be_the_law_holds(seed):
    chance = Random(seed)
    for _ in range(1500):
        c, *law = drawn(chance)
        volt, slope, _ = solved(c, *law)
        if volt == -inf:
            assert c <= -law[0]
            assert law[2] == law[3] == 0
            continue
        near = max(abs(c), 1e-3 * law[0])
        moved = 1e-12 * (abs(volt) + law[1]) * slope  # what the last digits of the voltage carry
        assert abs(swallowed_a(volt, *law) - c) <= 3e-8 * near + moved


def test_a_panel_of_such_a_cell_gives_what_a_dense_scan_finds():
    cell = Diode(1e-3, 7.468e-12, 0.05644, 0.0, inf, 0.06862, -4.4209, 5.431)
    best = key_points(Network((String((Substring((cell,), (0.0,), None),)),)))
    volts = [k * 1e-6 for k in range(20_000)]
    law = (7.468e-12, 0.05644, 0.0, 0.06862, -4.4209, 5.431)
    assert best.power_w == pytest.approx(max(v * (1e-3 - swallowed_a(v, *law)) for v in volts), rel=1e-6)
