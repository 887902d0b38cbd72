"""A lot without some of its cells is the same lot otherwise."""

from __future__ import annotations

import numpy as np

from panewright.desk.lots import table
from panewright.desk.lots.stood import stand
from panewright.lots.standing.less import without

ROWS = "Cell,Isc [A],Voc [V],Imp [A],Vmp [V]\n" + "".join(
    f"c{n},{9 + 0.01 * n:.2f},0.62,{8.5 + 0.01 * n:.2f},0.52\n" for n in range(12)
)


def test_the_other_cells_stand_as_before():
    lot = stand(
        table.look(ROWS.encode(), "lot.csv", beside=table.Beside("STC")).read(), "156 mm mono"
    ).standing
    less = without(lot, {"c3", "c7", "nobody"})
    stays = [k for k, mark in enumerate(lot.marks) if mark not in ("c3", "c7")]
    assert less.marks == tuple(lot.marks[k] for k in stays)
    for name in ("power_w", "imp_a", "power_sd_w", "readings"):
        assert np.array_equal(getattr(less, name), getattr(lot, name)[stays])
    assert np.array_equal(less.cells.shunt_ohm, lot.cells.shunt_ohm[stays])
    assert (less.said, less.common_share) == (lot.said, lot.common_share)
    assert without(lot, ()) is lot
