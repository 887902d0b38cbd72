"""Sums of products of functions along and across a plate: their curvatures, and fields held against them.

All three curvatures are one product along and one across, for a path asks for them at every order.
"""

from __future__ import annotations

import numpy as np

from panewright.glass.plate.basis import Array, Basis


class Crossed:
    """Functions along (x) and across (y) at the Gauss points, with the weights there."""

    def __init__(self, x: Basis, y: Basis, weights: Array) -> None:
        self._counts = x[0].shape[1], y[0].shape[1]
        self._weights = weights
        self._bent_x, self._bent_y = np.concatenate((x[2], x[0], x[1])), np.stack((y[0].T, y[2].T, y[1].T))
        self._tested_x = np.ascontiguousarray(np.concatenate((x[0], x[2], -2 * x[1])).T)
        self._tested_y = np.stack((y[2], y[0], y[1]))

    def curvatures(self, w: Array) -> Array:
        """w,xx w,yy w,xy at the Gauss points."""
        along = (self._bent_x @ w.reshape(self._counts)).reshape(3, -1, self._counts[1])
        return np.asarray(along @ self._bent_y)

    def against(self, fields: Array) -> Array:
        """Integral of m0 v,yy + m1 v,xx - 2 m2 v,xy for each product v."""
        across = (fields * self._weights) @ self._tested_y
        return np.asarray(self._tested_x @ across.reshape(-1, self._counts[1])).ravel()
