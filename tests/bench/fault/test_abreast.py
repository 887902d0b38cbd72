"""Strings side by side: an open one is named, and a weak cell is sought in both."""

import numpy as np
import pytest

from panewright.bench.fault.finding import find
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.place.belief import begin
from panewright.bench.fault.place.next import advise, after
from panewright.bench.fault.readings import Points
from panewright.cell.damage import Shaded
from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.damage import Fault, StringOpen, damaged
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, StringAt
from panewright.circuit.solve import current_a
from panewright.circuit.trace import trace

MODEL = CellModel(Diode(4.2, 1.1e-9, 0.02826, 0.006, 40.0, 0.0025, -18.0, 3.4), 1.05, 0.0005, 12168.0)


def panel(irradiance_w_m2: float, cell_c: float) -> Network:
    cell = diode_at(MODEL, irradiance_w_m2, cell_c)
    return Network((String((Substring((cell,) * 8, (0.0012,) * 8),)),) * 2, 0.01)


def read(network: Network) -> Points:
    curve = trace(network, 40)
    v, i = np.array(curve.voltage_v), np.array(curve.current_a)
    return Points(v, i, 0.005 * v, 0.005 * i, 800.0, 40.0)


@pytest.fixture(scope="module")
def foretold() -> Foretold:
    return Foretold(panel, 800.0, 40.0)


def test_an_open_string_is_named(foretold):
    told = find(foretold, read(damaged(panel(800.0, 40.0), Fault(StringOpen(), StringAt(1)))))
    assert told.first.group == "open string"
    assert told.called


def test_a_weak_cell_is_sought_in_both_strings(foretold):
    true = damaged(panel(800.0, 40.0), Fault(Shaded(0.3), CellAt(1, 6)))
    state = begin(foretold, find(foretold, read(true)))
    while state.located is None and state.measured < 7:  # halving sixteen cells, and three more
        best = advise(state, "closed", 1)[0]
        both = (
            damaged(true, *(Fault(Shaded(1.0, best.depth), cell) for cell in cells))
            for cells in (best.cells, best.setting.then)
        )
        amps = (float(current_a(each, np.array([best.at_v]))[0]) for each in both)
        state = after(state, best.setting, tuple(amps))
    assert state.located.place == CellAt(1, 6)
