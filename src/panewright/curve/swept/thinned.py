"""A curve of very many points made one of some hundreds, each the mean of its neighbours.

Within a group of neighbours the curve is as good as straight, so that their mean lies on it: a group spans
a hundredth of a percent of the readings. A mean counts as so many readings as it is of. Where no scatter is
stated, what the single readings were seen to scatter is put down, for the means no longer show it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.curve.measured import Measured
from panewright.curve.points import seen_scatter_a

MOST = 1500  #: points that are taken as they are
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
    accuracy = curve.accuracy
    if not accuracy.scatters:
        accuracy = replace(accuracy, current_a=seen_scatter_a(curve.volts, curve.amperes))
    size = -(-len(curve.voltage_v) // _KEPT)
    starts = np.arange(0, len(curve.voltage_v), size)
    weight = np.add.reduceat(curve.counts, starts)
    volts, amperes = (
        np.add.reduceat(column * curve.counts, starts) / weight for column in (curve.volts, curve.amperes)
    )
    repeats = tuple(int(each) for each in weight)
    points = tuple(volts.tolist()), tuple(amperes.tolist())
    return replace(curve, voltage_v=points[0], current_a=points[1], accuracy=accuracy, repeats=repeats)
