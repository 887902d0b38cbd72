"""A few meter readings filled by the circuit's shape: the true power stays within what is told."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.bench.rate.between import between, filled
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.curve.measured import Measured
from panewright.curve.meter.bracket import power_bounds
from panewright.curve.meter.meter_points import MeterPoint
from panewright.curve.points import read_points
from panewright.errors import BenchError

TRUE = Diode(8.5, 3.5e-9, 1.04, 0.20, 700.0)
POORER = replace(TRUE, series_ohm=0.45)  # a poor joint that the circuit does not know


def curve(diode, count=200):
    volts = np.linspace(0, 24, count)
    amps = np.asarray(current_a(diode, volts))
    keep = amps > -0.5
    return Measured(tuple(volts[keep]), tuple(amps[keep]), 1000, 25)


def read(diode, ohms):
    """What a meter shows at resistors, and at short and open circuit."""
    whole = curve(diode, 4000)
    open_v = float(np.interp(0, -whole.amperes, whole.volts))
    lit = [(0.0, whole.amperes[0]), (open_v, 0.0)]
    for ohm in ohms:
        place = int(np.argmin(np.abs(whole.volts - ohm * whole.amperes)))
        lit.append((whole.volts[place], whole.amperes[place]))
    return [MeterPoint(f"{n}", v, i, 0.01, 0.01, "") for n, (v, i) in enumerate(sorted(lit))]


def measured(points):
    return Measured(tuple(p.voltage_v for p in points), tuple(p.current_a for p in points), 1000, 25)


@pytest.mark.parametrize("diode", [TRUE, POORER], ids=["sound", "poor joint"])
@pytest.mark.parametrize("ohms", [(2.2,), (1.5, 2.2, 3.3), (1.0, 1.8, 2.2, 2.7, 3.9)])
def test_the_true_power_lies_within_the_room_that_is_told(diode, ohms):
    points = read(diode, ohms)
    open_share = between(points, power_bounds(points))
    found = read_points(filled(measured(points), curve(TRUE))).power_w.value
    assert open_share.points == len(ohms) + 2
    assert abs(found - key_points(diode).power_w) <= 2 * open_share.power_share * found


def test_more_readings_leave_less_open():
    few, many = (between(p, power_bounds(p)) for p in (read(TRUE, (2.2,)), read(TRUE, (1.5, 2.0, 2.5, 3.3))))
    assert many.power_share < few.power_share / 2


def test_the_readings_themselves_stay():
    points = read(POORER, (1.5, 2.2, 3.3))
    made = filled(measured(points), curve(TRUE))
    for each in points:
        assert np.interp(each.voltage_v, made.volts, made.amperes) == pytest.approx(each.current_a, abs=1e-9)


def test_readings_without_short_or_open_circuit_and_a_step_are_refused():
    points = read(TRUE, (1.5, 2.2))
    with pytest.raises(BenchError, match="short circuit to open circuit"):
        filled(measured(points[1:]), curve(TRUE))
    stepped = [
        replace(each, current_a=0.4 * each.current_a) if n == 1 else each for n, each in enumerate(points)
    ]
    with pytest.raises(BenchError, match="sweep the panel"):
        between(stepped, power_bounds(stepped))
