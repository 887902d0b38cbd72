"""Members in space against closed forms.

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain: tables 8.1 (fixed and continuous beams) and
    10.2 (torsion of bars), recalled; unsymmetrical bending: 5 q L^4 / (384 E I) with I = Ix held sideways,
    I = Ix - Ixy^2 / Iy free, derived with L 1500 mm, q 1 N/mm, E 69.6 GPa to the printed digits.
[T] Three moments: two equal spans share q L as 3/16, 10/16, 3/16 (of both), three as 4, 11, 11, 4 of 30.
"""

from dataclasses import replace

import numpy as np
import pytest

from panewright.frame.rail import Rail
from panewright.structure.space.conditions import HELD_MPA
from panewright.structure.space.element import members
from panewright.structure.space.member import member

U, V, W, TWIST, TILT, TURN = range(6)
ANGLES = {
    "1.5x1/8": (38.1, 3.175, 29.26, 45.262, 26.912),
    "1.5x3/16": (38.1, 4.7625, 20.689, 31.587, 18.554),
    "2x1/8": (50.8, 3.175, 11.979, 18.612, 11.112),
}


def angle(leg, wall):
    """An angle that shear does not bend, as the closed forms have it."""
    rail = Rail("angle", "angle", leg, leg, wall, "6063-T6", 6000)
    return replace(member(rail, 69_600.0), shear_area_mm2=(1e12, 1e12))


def bar(what, places, held, line, bead=(0.0, 0.0), spring=0.0):
    """Movements and what holds them, of a bar with nodes at these places; line is the load at each node."""
    lengths, line = np.diff(np.array(places))[None], np.array(line)
    parts = members(
        what,
        lengths,
        (line[None, :-1], line[None, 1:]),
        seat=np.ones_like(lengths),
        spring=np.array([spring]),
        bead=bead,
    )
    size = 6 * len(places)
    matrix, push = np.zeros((size, size)), np.zeros(size)
    for number in range(len(places) - 1):
        at = slice(6 * number, 6 * number + 12)
        matrix[at, at] += parts.stiffness[0, 0, number]
        push[at] += parts.push[0, 0, number]
    free = np.setdiff1d(np.arange(size), [6 * node + way for node, ways in held.items() for way in ways])
    moved = np.zeros(size)
    moved[free] = np.linalg.solve(matrix[np.ix_(free, free)], push[free])
    return moved.reshape(-1, 6), (matrix @ moved - push).reshape(-1, 6)


@pytest.mark.parametrize("name", ANGLES)
def test_unsymmetrical_bending_free_to_move_sideways(name):
    leg, wall, _, free_mm, sideways_mm = ANGLES[name]
    ends = {0: (U, V, W, TWIST), 2: (V, W, TWIST)}
    moved, _ = bar(angle(leg, wall), (0, 750, 1500), ends, (1, 1, 1))
    assert -moved[1, W] == pytest.approx(free_mm, abs=6e-4)
    assert abs(moved[1, V]) == pytest.approx(sideways_mm, abs=6e-4)


@pytest.mark.parametrize("name", ANGLES)
def test_unsymmetrical_bending_held_sideways(name):
    leg, wall, held_mm, *_ = ANGLES[name]
    ends = {0: (U, V, W, TWIST), 6: (V, W, TWIST)}
    moved, _ = bar(angle(leg, wall), np.linspace(0, 1500, 7), ends, np.ones(7), spring=HELD_MPA)
    assert -moved[3, W] == pytest.approx(held_mm, abs=2e-3)


@pytest.mark.parametrize(("spans", "shares"), [(2, (3 / 16, 10 / 16)), (3, (4 / 30, 11 / 30))])
def test_three_moments(spans, shares):
    held = {0: (U, V, W, TWIST)} | dict.fromkeys(range(1, spans + 1), (V, W, TWIST))
    _, forces = bar(angle(38.1, 3.175), np.arange(spans + 1) * 500.0, held, np.ones(spans + 1))
    assert forces[:2, W] / (500 * spans) == pytest.approx(shares, rel=1e-6)


def test_a_ramp_on_a_beam_fixed_at_both_ends():
    """q L^2 / 30 where the load is nothing, q L^2 / 20 where it is q; ends 3 and 7 of 20. [R] 8.1.2d"""
    rail = Rail("tube", "tube", 40, 40, 2, "6063-T6", 6000)
    every = (U, V, W, TWIST, TILT, TURN)
    tube = replace(member(rail, 69_600.0), shear_area_mm2=(1e12, 1e12))
    _, forces = bar(tube, (0, 1000), {0: every, 1: every}, (0, 1))
    assert forces[:, W] == pytest.approx([150, 350])
    assert np.abs(forces[:, TILT]) == pytest.approx([1e6 / 30, 1e6 / 20])


def test_an_even_torque_between_fixed_ends():
    """m L^2 / (8 G J) in the middle, m L / 2 at each end. [R] 10.2, 1c and 1d joined"""
    what, lever = angle(38.1, 3.175), 10.0
    ends = {0: (U, V, W, TWIST), 2: (V, W, TWIST)}
    moved, forces = bar(what, (0, 400, 800), ends, (1, 1, 1), bead=(lever, 0.0))
    assert -moved[1, TWIST] == pytest.approx(lever * 800**2 / (8 * what.shear_mpa * what.j_mm4))
    assert forces[(0, 2), TWIST] == pytest.approx([lever * 400, lever * 400])


def test_shear_adds_q_l2_over_8_g_a_on_two_supports():
    rail = Rail("tube", "tube", 60, 60, 2, "6063-T6", 6000)
    tube = member(rail, 69_600.0)
    ends = {0: (U, V, W, TWIST), 2: (V, W, TWIST)}
    bent, _ = bar(replace(tube, shear_area_mm2=(1e12, 1e12)), (0, 200, 400), ends, (1, 1, 1))
    both, _ = bar(tube, (0, 200, 400), ends, (1, 1, 1))
    more = 400**2 / (8 * tube.shear_mpa * tube.shear_area_mm2[1])
    assert bent[1, W] - both[1, W] == pytest.approx(more, rel=1e-6)
