"""A paper machine's order: the worked example of the article 'Cutting stock problem' in Wikipedia.

Rolls 5600 mm wide are cut into thirteen widths. Seen: the order, the optimum of 73 rolls, the waste of
0.401 % and the material bound of 72.7 rolls. From memory: nothing.
"""

from __future__ import annotations

import pytest

from panewright.cutting.bars.bars import cut_bars
from panewright.cutting.piece import Piece

ORDER = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
    2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip


def test_the_order_needs_73_rolls_and_wastes_0_401_percent():
    plan = cut_bars(
        [Piece(str(width), float(width), count) for width, count in ORDER.items()], 5600.0, 0.0, 0.0
    )
    assert len(plan.bars) == 73
    assert plan.proven
    assert plan.waste * 100 == pytest.approx(0.401, abs=5e-4)
    assert sum(bar.cut_mm for bar in plan.bars) / 5600 == pytest.approx(72.7, abs=0.05)
