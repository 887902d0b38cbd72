"""The stiffness of short members between nodes, and the loads at their ends, for many at once.

Each node moves along s, inward and up, and turns about s (the twist), about the inward axis and about the
upright one: w' = -turn inward, v' = turn upright, with shear's own slope added. Within a member v and w are
cubics whose slope may differ from the turn of the section by a constant, the slope of shear; twist is a
cubic. These inner parts are solved out. So nodes are exact for straight loads (a beam with shear between
nodes: interdependent interpolation), and the line spring of the pane is taken along the whole member.

In units of the member's length every part is a fixed matrix of 16 rows (6 and 6 at the nodes, twist's two
inner parts, shear's two slopes); a member is the sum of a few of them.

[P] J. Przemieniecki, Theory of Matrix Structural Analysis, chapter 5: bending with shear (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.member import Array, Member, Point

NODAL, INNER = 12, 4
_ALL = NODAL + INNER
Rows = NDArray[np.intp]
_V, _W, _THETA = (1, 5, 7, 11), (2, 4, 8, 10), (3, 9, 12, 13)
TURNED = np.array([n in (4, 5, 10, 11, 14, 15) for n in range(_ALL)])  #: turns and slopes, in units of length
_GAUSS = 6  # points: exact for all products of cubics


@dataclass(frozen=True, slots=True)
class Members:
    """A batch of members; the axes before the last are the caller's."""

    stiffness: Array  #: (..., 12, 12)
    push: Array  #: (..., 12): forces that stand for the load

    def of(self, springs: Rows, runs: Rows) -> Members:
        """Those of some springs and runs, as often as they are named."""
        at = springs[:, None], runs
        return Members(self.stiffness[at], self.push[at])


def members(
    member: Member, lengths: Array, line: tuple[Array, Array], *, seat: Array, spring: Array, bead: Point
) -> Members:
    """Members of these lengths, once for each spring: axes (springs, runs, members, ...).

    `line` is the load at both ends [N/mm], at `bead` inward and up from the shear centre [mm]; `seat`
    multiplies what resists twist and bending sideways; `spring` holds that point sideways [N/mm2].
    """
    weights, shapes = _weights(member, lengths, seat), shapes_of(member.centroid_mm, bead)
    base = (weights @ shapes[:-1]).reshape(*lengths.shape, _ALL, _ALL)
    held = lengths[..., None, None] * shapes[-1].reshape(_ALL, _ALL)
    scale = _scales(lengths)
    scaled = scale[..., :, None] * scale[..., None, :]
    base *= scaled
    held *= scaled
    whole = base[None] + spring[:, None, None, None, None] * held[None]
    push = np.broadcast_to(_pushed(lengths, line, bead[0]) * scale, whole.shape[:-1])
    return _condensed(whole, push)


def _weights(member: Member, lengths: Array, seat: Array) -> Array:
    """How much of each fixed matrix a member has, in units of its length; in the order of `shapes_of`."""
    e, g, cubed = member.young_mpa, member.shear_mpa, lengths**3
    drawn = e * member.area_mm2 / lengths
    return np.stack(
        [
            e * member.iy_mm4 * seat / cubed,
            e * member.ix_mm4 / cubed,
            e * member.ixy_mm4 / cubed,
            g * member.j_mm4 * seat / lengths,
            *(g * area / lengths for area in member.shear_area_mm2),
            drawn,
            drawn / lengths,
            drawn / lengths**2,
        ],
        axis=-1,
    )


@lru_cache(maxsize=64)
def shapes_of(centroid: Point, bead: Point) -> Array:
    """Fixed matrices, a row each: bending sideways, across and mixed, twist, both slopes of shear, stretch of
    the centroid's line by powers of the length; the last a spring against sideways movement of the bead's
    line, v less twist times its height."""
    parts = _parts()
    slopes = np.zeros((2, _ALL, _ALL))
    slopes[0, 14, 14] = slopes[1, 15, 15] = 1.0
    one = parts[4] - bead[1] * parts[5] + bead[1] ** 2 * parts[6]
    return np.concatenate([parts[:4], slopes, _drawn(centroid), one[None]]).reshape(-1, _ALL**2)


def _drawn(centroid: Point) -> Array:
    """Stretch of the centroid's line: both ends along, and turned about it over the length."""
    inward, up = centroid
    along, turned = np.zeros(_ALL), np.zeros(_ALL)
    for first, sign in ((0, -1.0), (6, 1.0)):
        along[first], turned[first + 4], turned[first + 5] = sign, sign * up, -sign * inward
    mixed = np.outer(along, turned)
    return np.stack([np.outer(along, along), mixed + mixed.T, np.outer(turned, turned)])


def _pushed(lengths: Array, line: tuple[Array, Array], lever: float) -> Array:
    """What the load does at each degree of freedom, in units of each length; it presses down."""
    shapes = loads_of(lever)
    return np.asarray(-lengths[..., None] * (line[0][..., None] * shapes[0] + line[1][..., None] * shapes[1]))


def _scales(lengths: Array) -> Array:
    """Turns in units of length: slopes times the length."""
    scale = np.ones((*lengths.shape, NODAL + INNER))
    scale[..., TURNED] = lengths[..., None]
    return scale


def _condensed(whole: Array, push: Array) -> Members:
    """The inner parts solved out."""
    inner = whole[..., NODAL:, NODAL:]
    right = np.concatenate([whole[..., NODAL:, :NODAL], push[..., NODAL:, None]], axis=-1)
    found = np.linalg.solve(inner, right)
    across = whole[..., :NODAL, NODAL:]
    stiffness = whole[..., :NODAL, :NODAL] - across @ found[..., :NODAL]
    return Members(stiffness, push[..., :NODAL] - (across @ found[..., NODAL:])[..., 0])


def _rows(x: Array) -> dict[str, Array]:
    """Shapes on a member of length 1: a row for each point, a column for each degree of freedom."""
    shape = np.stack([1 - 3 * x**2 + 2 * x**3, x - 2 * x**2 + x**3, 3 * x**2 - 2 * x**3, x**3 - x**2], 1)
    bow = np.stack([12 * x - 6, 6 * x - 4, 6 - 12 * x, 6 * x - 2], 1)
    rows = {name: np.zeros((len(x), NODAL + INNER)) for name in ("v", "w", "v''", "w''", "turn", "turn'")}
    for name, cubic in (("", shape), ("''", bow)):
        rows["v" + name][:, _V] = cubic
        rows["w" + name][:, _W] = cubic * (1, -1, 1, -1)
        rows["v" + name][:, 14] = rows["w" + name][:, 15] = cubic[:, 1] + cubic[:, 3]
    hill = x * (1 - x)
    rows["turn"][:, _THETA] = np.stack([1 - x, x, hill, hill * (2 * x - 1)], 1)
    flat = np.ones_like(x)
    rows["turn'"][:, _THETA] = np.stack([-flat, flat, 1 - 2 * x, 6 * x - 6 * x**2 - 1], 1)
    return rows


def _gauss() -> tuple[Array, Array]:
    at, weight = np.polynomial.legendre.leggauss(_GAUSS)
    return (at + 1) / 2, weight / 2


@lru_cache(maxsize=1)
def _parts() -> Array:
    """Fixed matrices: sideways, across, mixed, twist; then spring on v, on v with twist, on twist."""
    x, weight = _gauss()
    rows = _rows(x)

    def product(one: str, other: str) -> Array:
        return np.asarray(rows[one].T @ (weight[:, None] * rows[other]))

    mixed, lever = product("v''", "w''"), product("v", "turn")
    return np.stack(
        [
            product("v''", "v''"),
            product("w''", "w''"),
            mixed + mixed.T,
            product("turn'", "turn'"),
            product("v", "v"),
            lever + lever.T,
            product("turn", "turn"),
        ]
    )


@lru_cache(maxsize=64)
def loads_of(lever: float) -> Array:
    """What a load that falls and one that grows along the member do at each degree of freedom; a row each."""
    rise, turn = _loads()
    return rise + lever * turn


@lru_cache(maxsize=1)
def _loads() -> tuple[Array, Array]:
    """Work of a load that falls and of one that grows along the member: on w, and on twist; a row each."""
    x, weight = _gauss()
    rows, ramps = _rows(x), np.stack([1 - x, x]) * weight
    return ramps @ rows["w"], ramps @ rows["turn"]
