"""Sums that are to be kept: light scaled to them, no hour over what it can have."""

from __future__ import annotations

import numpy as np

from panewright.sky.hours import Floats

_SOME = 1e-9  #: of its most that an hour has at least, so that no day is without light to scale


def scaled_under(light: Floats, most: Floats, wanted: Floats) -> Floats:
    """The light times one factor along the last axis, capped hour by hour, adding up as wanted.

    The factor is found in one pass: hours reach their caps in the order of most over light. Where all hours
    at their most are still less than what is wanted, that is what comes out.

    >>> scaled_under(np.array([1.0, 3.0]), np.array([10.0, 4.0]), np.array(7.0)).round(6)
    array([3., 4.])
    """
    base, cap = light + _SOME * most, np.broadcast_to(most, light.shape)
    reach = np.divide(cap, base, out=np.full(light.shape, np.inf), where=base > 0)
    order = np.argsort(reach, axis=-1)
    caps, bases, turns = (np.take_along_axis(each, order, -1) for each in (cap, base, reach))
    held = np.cumsum(caps, -1) - caps  # of the hours that are at their most before this one
    loose = np.cumsum(bases[..., ::-1], -1)[..., ::-1]  # of this one and all after it
    left = np.asarray(wanted)[..., None] - held
    factors = np.divide(left, loose, out=np.full(light.shape, np.nan), where=loose > 0)
    first = np.argmax(factors <= turns, -1)[..., None]
    factor = np.take_along_axis(factors, first, -1)
    none = ~(factors <= turns).any(-1, keepdims=True)
    return np.asarray(np.where(none, cap, np.minimum(base * np.maximum(factor, 0), cap)))
