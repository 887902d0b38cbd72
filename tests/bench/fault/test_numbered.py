"""Cells in words bear the numbers of the drawings, which run on from string to string."""

from panewright.bench.fault.numbered import numbers_at, of_cells, where
from panewright.bench.fault.place.setting import Setting
from panewright.bench.fault.place.telling import asks, how
from panewright.cell.diode import Diode
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt, StringAt

CELL = Diode(8.0, 1e-9, 0.027, 0.004, 20.0)
ROW = Substring((CELL,) * 18, (0.001,) * 18)
TWO = Network((String((ROW, ROW)), String((ROW, ROW))))


def test_a_cell_of_the_second_string_is_numbered_on():
    assert where(TWO, CellAt(1, 5)) == " at cell 41"
    assert where(TWO, DiodeAt(1, 1)) == " at row 2 of string 2, cells 55 to 72"
    assert where(TWO, StringAt(0)) == " in string 1, cells 1 to 36"
    assert where(TWO, None) == ""
    assert numbers_at(TWO, DiodeAt(0, 0)) == tuple(range(1, 19))


def test_a_measurement_names_cells_alike_in_what_is_done_and_what_is_read():
    setting = Setting("probe", tuple(CellAt(1, n) for n in (3, 4, 5)), at_v=9.0)
    assert of_cells(TWO, setting.cells) == "cells 39 to 41"
    assert "across cells 39 to 41." in how(setting, TWO)
    assert asks(setting, TWO)[0].words == "voltage across cells 39 to 41"


def test_the_numbers_are_those_that_the_drawings_bear():
    from examples import made
    from panewright.panel.electric.watts import wired_of
    from panewright.panel.electric.wiring import network_at

    design = made("henhouse").design
    network = network_at(wired_of(design), 1000.0, 25.0)
    told = [n for k in range(3) for n in numbers_at(network, DiodeAt(0, k))]
    assert told == [cell.number for cell in design.layup.cells]
