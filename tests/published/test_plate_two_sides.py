"""Plates on two opposite sides, and under a force: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and
Shells, 2nd ed. 1959, article 48 table 47 and article 34 table 23 (recalled), nu = 0.3; and Levy's series for
two sides held and two free, worked out here from the book's equations (derived)."""

from __future__ import annotations

import numpy as np
import pytest

from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Patch, Pressing, Sides, Supported

THICK_MM, PRESSURE_PA = 10.0, 0.01  # so little that it is a thin plate
GLASS = Elastic(70e9, 0.3)
RIGIDITY = 70e9 * 0.01**3 / (12 * (1 - 0.3**2))
TWO_SIDES = ((0.5, 0.01377, 0.1235), (1.0, 0.01309, 0.1225), (2.0, 0.01289, 0.1235))  # free over span, centre
FORCE = ((1.0, 0.01160), (1.2, 0.01353), (1.4, 0.01484), (1.6, 0.01570), (2.0, 0.01651), (3.0, 0.01690))


def two_sides(ratio: float) -> tuple[Supported, float]:
    """A plate whose free sides are `ratio` times its span of 1 m, or that scaled down."""
    sides: Sides = "two long sides" if ratio > 1 else "two short sides"
    long, short = (1000 * ratio, 1000) if ratio > 1 else (1000, 1000 * ratio)
    return Supported(Plate(long, short, THICK_MM, GLASS), sides), ratio


def across(supported: Supported) -> tuple[np.ndarray, np.ndarray]:
    """Deflection [m] and moment along the span [N] at the middle, and at the middle of a free side."""
    field = bend_supported(supported, Pressing(PRESSURE_PA)).field
    along = np.array([0.0, 1.0])
    long = supported.sides == "two long sides"
    at = field.at(along, np.zeros(1)) if long else field.at(np.zeros(1), along)
    stress = at.bending_mpa[1 if long else 0].ravel() * 1e6
    return at.deflection_mm.ravel() / 1e3, stress * 0.01**2 / 6


def levy(ratio: float, nu: float, y: float) -> tuple[float, float]:
    """w D/(q a^4) and moment/(q a^2) at mid-span, y from the middle over the span; a sine series."""
    w = moment = 0.0
    for m in range(1, 120, 2):
        k, sign = m * np.pi, np.sin(m * np.pi / 2)
        u, even = k * ratio / 2, 4 / (m * np.pi) ** 5
        th = np.tanh(u)
        bent = [1 - nu, 2 + u * th - nu * u * th]  # free side: no moment, no shear
        shear = [(nu - 1) * th, 3 * th + u - (2 - nu) * (th + u)]
        a, b = np.linalg.solve([bent, shear], [nu * even, 0.0])
        ch, sh = _over(u, k * y)
        shape = even + a * ch + b * k * y * sh
        curve = k**2 * (a * ch + b * (2 * ch + k * y * sh))
        w += sign * shape
        moment += sign * (k**2 * shape - nu * curve)
    return float(w), float(moment)


def _over(u: float, z: float) -> tuple[float, float]:
    """cosh z and sinh z over cosh u, with no overflow."""
    grow, fall, whole = np.exp(z - u), np.exp(-z - u), 1 + np.exp(-2 * u)
    return (grow + fall) / whole, (grow - fall) / whole


@pytest.mark.parametrize(("ratio", "alpha", "beta"), TWO_SIDES)
def test_the_middle_on_two_sides_is_the_books(ratio, alpha, beta):
    w, moment = across(two_sides(ratio)[0])
    assert w[0] * RIGIDITY / PRESSURE_PA == pytest.approx(alpha, rel=5e-3)  # the book's 0.01377 is 0.4 % high
    assert moment[0] / PRESSURE_PA == pytest.approx(beta, rel=2e-3)


@pytest.mark.parametrize("ratio", [0.25, 0.5, 1.0, 1.6, 2.0, 4.0])
def test_middle_and_free_side_are_levys_series(ratio):
    w, moment = across(two_sides(ratio)[0])
    exact = [levy(ratio, 0.3, y) for y in (0.0, ratio / 2)]
    assert w * RIGIDITY / PRESSURE_PA == pytest.approx([each[0] for each in exact], rel=1e-5)
    assert moment / PRESSURE_PA == pytest.approx([each[1] for each in exact], rel=5e-4)


@pytest.mark.parametrize(("ratio", "alpha"), FORCE)
def test_a_force_in_the_middle_of_four_sides_is_alpha_p_b2_over_d(ratio, alpha):
    patch = Patch(1.0, long_mm=4.0, short_mm=4.0)
    bent = bend_supported(Supported(Plate(1000 * ratio, 1000, THICK_MM, GLASS)), Pressing(0.0, (patch,)))
    assert bent.deflection.value / 1e3 * RIGIDITY == pytest.approx(alpha, abs=6e-5)


@pytest.mark.parametrize("poisson", [0.0, 0.22, 0.3])
def test_a_wide_plate_on_two_long_sides_is_a_strip(poisson):
    # at its middle it bends as a cylinder: 5/384 q a^4/D and q a^2/8
    plate = Plate(6000, 1000, THICK_MM, Elastic(70e9, poisson))
    field = bend_supported(Supported(plate, "two long sides"), Pressing(PRESSURE_PA)).field
    at = field.at(np.zeros(1), np.zeros(1))
    rigidity = 70e9 * 0.01**3 / (12 * (1 - poisson**2))
    assert at.deflection_mm[0, 0] / 1e3 * rigidity / PRESSURE_PA == pytest.approx(5 / 384, rel=1e-3)
    assert at.bending_mpa[1, 0, 0] * 1e6 * 0.01**2 / 6 / PRESSURE_PA == pytest.approx(1 / 8, rel=1e-3)
