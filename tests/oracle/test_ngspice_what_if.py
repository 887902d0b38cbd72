"""What a screen shows of a shaded design, beside ngspice: the curve with its reverse branch, every cell."""

from pathlib import Path

import numpy as np
import pytest
from campaigns import spice

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.what_if import CellState, touched, what_if
from panewright.shelf.load import load_shelf

ORDER = Path(__file__).parents[2] / "examples" / "kiosk.toml"
STATES = {3: CellState(shade=0.35), 7: CellState(shade=0.9, crack=0.2), 30: CellState(crack=0.1)}


@pytest.mark.peer("ngspice")
def test_curve_and_cells_of_a_shaded_panel_equal_ngspice_run_now(tmp_path):
    shelf = load_shelf()
    design = design_panel(parse_order(ORDER.read_text("utf-8"), ORDER.name, shelf), shelf)
    network, seen = touched(design, STATES), what_if(design, STATES)
    chosen = [(v, i) for v, i in zip(seen.curve.voltage_v, seen.curve.current_a, strict=True)][::6]
    assert chosen[0][0] < -0.3  # a diode's drop below nothing
    sweeps = [spice.Sweep(volt + 0.5, volt, 2) for volt, _ in chosen]
    sweeps.append(spice.Sweep(seen.points.vmp_v + 0.5, seen.points.vmp_v, 2))
    *curve, peak = spice.solve(network, sweeps, tmp_path)
    for (_, current), swept in zip(chosen, curve, strict=True):
        assert current == pytest.approx(swept.current_a[-1], abs=2e-6)
    assert seen.points.imp_a == pytest.approx(peak.current_a[-1], abs=2e-6)
    cells = spice.cells(network, peak)
    wanted = -(np.asarray(cells.voltage_v) * np.asarray(cells.current_a))[-1]
    assert [cell.absorbed_w for cell in seen.cells] == pytest.approx(list(wanted), abs=1e-4)
