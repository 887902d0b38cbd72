"""What a person knows by the month alone: dirt on the panel, and snow where no file tells its depth.

Rain keeps a tilted panel within some 2 % of clean; dust, pollen and birds take 3 to 10 % of a dry month
(common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from panewright.errors import Problem, SkyError
from panewright.sky.hours import Floats
from panewright.sky.made.means import MONTHS

USUAL_DIRT = (0.02,) * 12
_MOST = 0.95


def left_share(lost: Sequence[float], months: NDArray[np.int64]) -> Floats:
    """Of the light, what is left in each hour, given twelve shares that are lost; `SkyError` for others.

    >>> left_share((0.02,) * 6 + (0.05,) * 6, np.array([0, 11]))
    array([0.98, 0.95])
    """
    if len(lost) != len(MONTHS):
        raise SkyError([Problem(f"There are {len(lost)} shares.", "Give twelve, January first.", key="lost")])
    cure = f"Give 0 to {_MOST:g}: 0.03 is three in a hundred."
    problems = [
        Problem("This is no share of the light.", cure, key=f"lost, {month}", value=f"{share:g}")
        for month, share in zip(MONTHS, lost, strict=True)
        if not 0 <= share <= _MOST
    ]
    if problems:
        raise SkyError(problems)
    return np.asarray(1 - np.array(lost)[months])
