"""Torsion of angles, channels and tubes: walls of one thickness, sharp corners, in closed form.

Away from corners and ends the shear in a wall is known exactly. A corner and an end disturb it over a length
of about the thickness t; that costs or gives a fixed amount in units of t, the same for every rail:

    J of an open one = t^3 / 3 (middle lines) + corners 0.0725 t^4 - ends 0.1050 t^4

An end's figures are sums of series. A corner's were taken from `frame/shape/torsion.py` on 24 000 triangles
[C] and are held against it by tests. What is left out fades as exp(-2 pi clear / t), clear being the inner
length of a wall: at twice the thickness J is good to 0.02 %, slimmer ones far better. Stouter rails are
solved there.

    O, where the middle lines of a corner cross, is the origin; legs reach p along x and q along y. Twisted
    about O a leg warps by -x y + a (along x) and x y - a (along y).

A tube's walls also carry a shear that flows round, g all the way; a corner shortens its way by 2 d. Where
walls are thin that is R. Bredt's closed cell (textbooks, recalled).

[C] derived: our own solver.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.rail import Rail
from panewright.frame.shape.outline import Moments

# an end: 31 zeta(5) / pi^5, 1 / 60 exactly, 48 (127 / 128) zeta(7) / pi^7
_END_J = 31 * 1.0369277551433699 / math.pi**5  #: of J, in t^4
_END_MOMENT = 1 / 60  #: integral of warping times the way across, in t^5
_END_SQUARE = 48 * (127 / 128) * 1.0083492773819228 / math.pi**7  #: of warping squared, in t^6
# a corner [C]
CORNER_J = 0.072491  #: of J, in t^4
_CORNER_A = 0.105166  # warping of a leg, in t^2
_CORNER_MOMENT = -0.006897  # integral of x times warping, in t^5
_CORNER_SQUARE = -0.017243  # of warping squared, in t^6
_CORNER_WAY = 0.220636  # the flow round a corner is shorter than the middle lines by twice this, in t
_FLOW_MOMENT, _FLOW_SQUARE, _FLOW_WARPING = 0.027580, 0.009693, 0.025481  # the same integrals of the flow
OUTER_PEAK = 1.0550  #: shear at the outer face opposite a corner over that of the wall
LEAST_CLEAR = 2.0  #: inner length of every wall over its thickness


@dataclass(frozen=True, slots=True)
class Twist:
    """How a rail twists, from its heel."""

    j_mm4: float
    x_mm: float  #: shear centre
    y_mm: float
    warping_mm6: float  #: about the shear centre
    modulus_mm3: float  #: torque over the largest shear stress at a face


def slender(rail: Rail) -> bool:
    """Whether all walls are long enough for these figures."""
    seat, upright = rail.seat_mm / rail.wall_mm, rail.upright_mm / rail.wall_mm
    if rail.profile == "angle":
        return min(seat, upright) - 1 >= LEAST_CLEAR
    if rail.profile == "channel":
        return min(seat - 1, upright - 2) >= LEAST_CLEAR
    return rail.profile == "tube" and min(seat, upright) - 2 >= LEAST_CLEAR


def twist(rail: Rail, shape: Moments) -> Twist:
    """Torsion of an angle, a channel or a tube.

    >>> from panewright.frame.shape.outline import moments
    >>> from panewright.frame.shape.profile import outlines
    >>> rail = Rail("L40", "angle", 40, 40, 3, "6063-T6", 6000)
    >>> found = twist(rail, moments(outlines(rail)))
    >>> round(found.j_mm4, 1), round(found.x_mm, 2), round(found.y_mm, 2)
    (681.9, 1.57, 1.57)
    """
    if rail.profile == "tube":
        return _tube(rail)
    return _channel(rail, shape) if rail.profile == "channel" else _angle(rail, shape)


def _angle(rail: Rail, shape: Moments) -> Twist:
    t = rail.wall_mm
    p, q = rail.seat_mm / t - 0.5, rail.upright_mm / t - 0.5
    x, y = shape.x_mm / t - 0.5, shape.y_mm / t - 0.5  # centroid from O
    area, ix, iy, ixy = p + q, shape.ix_mm4 / t**4, shape.iy_mm4 / t**4, shape.ixy_mm4 / t**4
    whole, with_x, with_y = _CORNER_A * (p - q), _first(p, q) - _END_MOMENT, -_first(q, p) + _END_MOMENT
    xw, yw = with_x - x * whole, with_y - y * whole  # about the centroid
    det = ix * iy - ixy**2
    px, py = (ixy * xw - iy * yw) / det, (ix * xw - ixy * yw) / det
    square = _square(p, q) + 2 * _END_SQUARE - 2 * _END_MOMENT * (p + q)
    warping = square - whole**2 / area - py * xw + px * yw
    j = (p + q) / 3 + CORNER_J - 2 * _END_J
    return _twist(t, j, (0.5 + px, 0.5 + py), warping, OUTER_PEAK)


def _channel(rail: Rail, shape: Moments) -> Twist:
    """Half of it is an angle whose upright ends at mid-depth, where the other half mirrors it.

    Twisted about the middle of the web it warps by -w + q x - a, w being that of the angle.
    """
    t, a = rail.wall_mm, _CORNER_A
    p, q = rail.seat_mm / t - 0.5, (rail.upright_mm / t - 1) / 2
    area, sx, sy, xx = _legs(p, q)
    xw, yw, w = _first(p, q), -_first(q, p) + _END_MOMENT, a * (p - q)
    square = _square(p, q) + _END_SQUARE - 2 * _END_MOMENT * p
    along = 2 * (q * (-w + q * sx - a * area) + yw + a * sy)
    squared = 2 * (square + q * q * xx - 2 * q * a * sx + a * a * area - 2 * q * xw + 2 * a * w)
    ix = shape.ix_mm4 / t**4
    j = 2 * ((p + q) / 3 + CORNER_J - _END_J)
    warping = squared - along**2 / ix
    return _twist(t, j, (0.5 - along / ix, rail.upright_mm / t / 2), warping, OUTER_PEAK)


def _tube(rail: Rail) -> Twist:
    """A quarter of it is an angle between two middles of sides, where nothing warps.

    Twisted about the middle it warps by w + g f - q x + p y + c: w of the angle, f the flow round its corner,
    x and y from O inwards.
    """
    t, a, d = rail.wall_mm, _CORNER_A, _CORNER_WAY
    p, q = (rail.seat_mm / t - 1) / 2, (rail.upright_mm / t - 1) / 2
    g = 2 * (p * q - a) / (p + q - 2 * d)
    c = -g * (p - q) / 2
    warping = 4 * _quarter(p, q, g, c)
    j = 4 * ((p + q) / 3 + CORNER_J) + 16 * (p * q - a) ** 2 / (p + q - 2 * d)
    return _twist(t, j, (rail.seat_mm / t / 2, rail.upright_mm / t / 2), warping, max(OUTER_PEAK, g + 1))


def _quarter(p: float, q: float, g: float, c: float) -> float:
    """Integral of warping squared over a quarter of a tube. [t6]"""
    a, d = _CORNER_A, _CORNER_WAY
    area, sx, sy, xx = _legs(p, q)
    yy = _legs(q, p)[3]
    linear = q * q * xx + p * p * yy + c * c * area - 2 * q * c * sx + 2 * p * c * sy
    with_w = -q * _first(p, q) - p * _first(q, p) + c * a * (p - q)
    fx, fy = p**3 / 3 - d * p * p / 2 + _FLOW_MOMENT, q**3 / 3 - d * q * q / 2 + _FLOW_MOMENT
    with_f = -q * fx - p * fy + c * ((p * p - q * q) / 2 - d * (p - q))
    ff = (p**3 + q**3) / 3 - d * (p * p + q * q) + d * d * (p + q) + _FLOW_SQUARE
    wf = a * ((p * p + q * q) / 2 - d * (p + q)) + _FLOW_WARPING
    return _square(p, q) + g * g * ff + linear + 2 * (g * wf + with_w + g * with_f)


def _legs(p: float, q: float) -> tuple[float, float, float, float]:
    """Area of an angle and its integrals of x, y and x^2 about O, walls one thick."""
    return p + q, (p * p - 0.25) / 2, (q * q - 0.25) / 2, (p**3 + 0.125) / 3 + (q - 0.5) / 12


def _first(p: float, q: float) -> float:
    """Integral of x times the warping of an angle, legs p and q without ends."""
    return _CORNER_A * p * p / 2 + q * q / 24 + _CORNER_MOMENT


def _square(p: float, q: float) -> float:
    """Integral of the warping squared of the same."""
    return (p**3 + q**3) / 36 + _CORNER_A**2 * (p + q) + _CORNER_SQUARE


def _twist(t: float, j: float, pole: tuple[float, float], warping: float, peak: float) -> Twist:
    """Figures of walls one thick, at the wall's own thickness."""
    return Twist(j * t**4, pole[0] * t, pole[1] * t, warping * t**6, j / peak * t**3)
