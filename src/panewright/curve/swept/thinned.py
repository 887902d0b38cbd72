"""A curve of very many points made one of some hundreds, each the mean of its neighbours, for a fit's sake.

Within a group of neighbours the curve is as good as straight, so that their mean lies on it: a group spans a
hundredth of a percent of the readings. A mean counts as so many readings as it is of.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.curve.measured import Measured

MOST = 1500  #: points that a fit takes as they are
_KEPT = 750


def thinned(curve: Measured, most: int = MOST) -> Measured:
    """The same curve of at most so many points.

    >>> curve = Measured(tuple(range(4000)), tuple(range(4000, 0, -1)), 1000, 25)
    >>> thin = thinned(curve)
    >>> len(thin.volts), int(thin.counts.sum()), thin.voltage_v[0], thin.current_a[0]
    (667, 4000, 2.5, 3997.5)
    """
    if len(curve.voltage_v) <= most:
        return curve
    size = -(-len(curve.voltage_v) // _KEPT)
    starts = np.arange(0, len(curve.voltage_v), size)
    weight = np.add.reduceat(curve.counts, starts)
    volts, amperes = (
        np.add.reduceat(column * curve.counts, starts) / weight for column in (curve.volts, curve.amperes)
    )
    repeats = tuple(int(each) for each in weight)
    return replace(curve, voltage_v=tuple(volts.tolist()), current_a=tuple(amperes.tolist()), repeats=repeats)
