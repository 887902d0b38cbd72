"""Von Karman's plate equations for any holding and load, as matrices.

As in `equations`, in the same scaled form, but with functions for each way apart (held or free, even or not),
with the Gaussian part of the bending energy, which counts where an edge is free, and with clips. [w, F] may
still be shed onto the test function, because F and its slope vanish round the edge.

A clip lets the pane's mean deflection over it be nothing. The few functions here cannot bend sharply over it
by themselves; what they miss, C r for the clips' forces r (`rough`), is counted in, so that

    mean w = C r - C' P        K w = load - mean r        P patches, C' what is missed of theirs

and each clip acts on the few functions as a stiff spring.

[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, articles 23, 83, 100.
"""

from __future__ import annotations

from functools import cached_property, lru_cache

import numpy as np

from panewright.glass.plate.axis import Axis
from panewright.glass.plate.basis import Array, Basis
from panewright.glass.plate.crossed import Crossed
from panewright.glass.plate.inverse import inverse_root
from panewright.glass.plate.rough import Refinement
from panewright.glass.plate.shape import Shape, bending_matrix, spot_row, stretching_matrix
from panewright.glass.plate.stretch import Give, flexible


class _Ground:
    """What a plate's shape alone says, whatever it is pressed with: kept, as thicknesses share it."""

    def __init__(self, bare: Shape, counts: tuple[int, int]) -> None:
        self.x, self.y = bare.axes(counts)
        self.weights = np.outer(self.x.weight, self.y.weight)
        self.crossed = Crossed(self.x.bent, self.y.bent, self.weights)
        self.even_push = np.asarray(
            np.kron(self.x.weight @ self.x.bent[0], self.y.weight @ self.y.bent[0]), np.float64
        )
        self.patch_rows = [spot_row(self.x, self.y, spot) for _, spot in bare.patches]
        self.bending = bending_matrix(self.x, self.y, bare.poisson)
        self.refinement = Refinement(bare, (self.x, self.y), lambda: self.at_rest)
        self._springs(bare)
        self.mixed = tuple(_mixed(way) for way in (self.x, self.y))
        self.pairs = tuple(_pairs(way.bent, way.weight) for way in (self.x, self.y))

    def _springs(self, bare: Shape) -> None:
        """Clips as springs on the few functions."""
        self.clip_rows = np.array([spot_row(self.x, self.y, spot) for spot in bare.distinct_clips])
        clips = len(bare.distinct_clips)
        if clips:
            self.stiff = np.linalg.inv(self.refinement.compliance[:clips, :clips])
            self.sinks = self.refinement.compliance[:clips, clips:]
            self.bending = self.bending + self.clip_rows.T @ self.stiff @ self.clip_rows

    @cached_property
    def at_rest(self) -> Give:
        """What the plate gives to a load while nothing is bent."""
        return flexible(self.bending)

    @cached_property
    def stretch_root(self) -> Array:
        """Its square is the flexibility."""
        return inverse_root(stretching_matrix(self.x, self.y))


@lru_cache(maxsize=32)
def _ground(bare: Shape, counts: tuple[int, int]) -> _Ground:
    return _Ground(bare, counts)


class HeldEquations:
    """The matrices of one shape."""

    def __init__(self, shape: Shape, counts: tuple[int, int]) -> None:
        self.shape = shape
        ground = self._ground = _ground(shape.bare, counts)
        self.x, self.y, self.weights = ground.x, ground.y, ground.weights
        self.bent_counts = self.x.bent_count, self.y.bent_count
        self.pulled_counts = self.x.pulled_count, self.y.pulled_count
        self.bending = ground.bending
        self.refinement = ground.refinement
        self._mixed, self._pairs = ground.mixed, ground.pairs
        self.push = self._push()

    @property
    def at_rest(self) -> Give:
        """What the plate gives to a load while nothing is bent."""
        return self._ground.at_rest

    @property
    def stretch_root(self) -> Array:
        """Of the flexibility of the skin."""
        return self._ground.stretch_root

    def _push(self) -> Array:
        ground = self._ground
        push = self.shape.pressure * ground.even_push
        for (share, _), row in zip(self.shape.patches, ground.patch_rows, strict=True):
            push = push + share * row
        if self.shape.clips:
            shares = np.array([share for share, _ in self.shape.patches])
            self._sunk = ground.sinks @ shares  # by patches, a load of 1
            push = push - ground.clip_rows.T @ ground.stiff @ self._sunk
        return push

    def clip_forces(self, load: float, w: Array) -> Array:
        """What each distinct clip, with its mirror images, pushes back with; scaled as the load."""
        if not self.shape.clips:
            return np.zeros(0)
        return np.asarray(self._ground.stiff @ (self._ground.clip_rows @ w + load * self._sunk))

    def curvatures(self, w: Array) -> Array:
        """w,xx w,yy w,xy at the Gauss points."""
        return self._ground.crossed.curvatures(w)

    def stress_function(self, f: Array) -> Array:
        """F at the Gauss points."""
        return np.asarray(self.x.pulled[0] @ f.reshape(self.pulled_counts) @ self.y.pulled[0].T)

    def coupling(self, curved: Array) -> Array:
        """Bracket of a bent state with each deflection function (columns), against each G (rows)."""
        x, y = self._mixed
        table: Array = (
            (x[0] @ curved[0]) @ y[2].T + (x[2] @ curved[1]) @ y[0].T - 2 * (x[1] @ curved[2]) @ y[1].T
        )
        (gx, gy), (nx, ny) = self.pulled_counts, self.bent_counts
        return table.reshape(gx, nx, gy, ny).transpose(0, 2, 1, 3).reshape(gx * gy, nx * ny)

    def geometric(self, stress: Array) -> Array:
        """Bracket of each two deflection functions against F: what tension adds to the stiffness."""
        x, y = self._pairs
        table = (x[1] @ stress) @ y[0].T + (x[0] @ stress) @ y[1].T - 2 * (x[2] @ stress) @ y[2].T
        nx, ny = self.bent_counts
        return table.reshape(nx, nx, ny, ny).transpose(0, 2, 1, 3).reshape(nx * ny, nx * ny)

    def against_stress(self, field: Array) -> Array:
        """A field at the Gauss points against each G."""
        return np.asarray(self.x.pulled[0].T @ (field * self.weights) @ self.y.pulled[0]).ravel()

    def against_bending(self, fields: Array) -> Array:
        """Integral of F w,xx v,yy + F w,yy v,xx - 2 F w,xy v,xy for each deflection function v."""
        return self._ground.crossed.against(fields)


def _mixed(way: Axis) -> tuple[Array, ...]:
    return tuple(_products(way.pulled[0], table, way.weight) for table in way.bent)


def _pairs(basis: Basis, weight: Array) -> tuple[Array, ...]:
    """Products value with curvature, curvature with value, slope with slope."""
    pairs = ((0, 2), (2, 0), (1, 1))
    return tuple(_products(basis[i], basis[j], weight) for i, j in pairs)


def _products(first: Array, second: Array, weight: Array) -> Array:
    """Weighted products of all functions of two tables: a row per pair, a column per point."""
    return (first[:, :, None] * second[:, None, :]).reshape(weight.size, -1).T * weight
