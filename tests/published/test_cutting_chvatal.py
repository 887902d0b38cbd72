"""V. Chvatal, Linear Programming, Freeman 1983, chapter 13: raws of 100 in and four finals.

Seen (in public teaching code that cites it): raws of 100, finals 45, 36, 31 and 14, wanted 97, 610, 395 and
211 times. From memory: the linear programme needs 452.25 raws, the optimum is 453.
"""

from __future__ import annotations

from panewright.cutting.bars.bars import cut_bars
from panewright.cutting.piece import Piece

ORDER = {45: 97, 36: 610, 31: 395, 14: 211}


def test_the_order_needs_453_raws():
    plan = cut_bars([Piece(str(size), float(size), count) for size, count in ORDER.items()], 100.0, 0.0, 0.0)
    assert len(plan.bars) == 453
    assert plan.bound_mm == 45_300
    assert plan.proven
