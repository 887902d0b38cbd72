"""Motors, fans and pumps: their plates, the affinity laws, and what no pump can do."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.array.motor import WATER_N_M3, Fan, Heater, Motor, Pipe, Pump, Turning

MOTOR = Motor(24.0, 8.0, 2800, 0.25, friction_nm=0.02, start_nm=0.05)
PUMP = Pump(2800, 20.0, 3.0, 12.0, 220.0, Pipe(6.0, 1.5, 3.0))
FAN = Fan(1500, 900.0, 60.0)
RATED = 2800 * np.pi / 30


def test_a_motor_at_its_plates_current_and_speed_has_its_plates_voltage():
    assert MOTOR.k * RATED + MOTOR.ohm * 8.0 == pytest.approx(24.0)


@given(st.floats(0.1, 3.0), st.floats(0.2, 3.0))
def test_affinity_laws(speed, times):
    """Flow goes with the speed, head with its square, shaft power with its cube: Karassik (recalled)."""
    w = speed * RATED
    free = replace(PUMP, pipe=Pipe(0.0, 1.5, 3.0))
    assert free.flow(np.array(times * w)) == pytest.approx(times * free.flow(np.array(w)), rel=1e-9)
    high = replace(PUMP, pipe=Pipe(6.0 * times**2, 1.5, 3.0))
    assert high.flow(np.array(times * w)) == pytest.approx(times * PUMP.flow(np.array(w)), rel=1e-6, abs=1e-9)
    assert FAN.flow(np.array(times * w)) == pytest.approx(times * FAN.flow(np.array(w)))
    for load in (PUMP, FAN):
        assert load.drag * (times * w) ** 3 == pytest.approx(times**3 * load.drag * w**3)


@pytest.mark.parametrize("share", [0.7, 0.85, 1.0, 1.2])
def test_pump_and_pipe_meet_at_one_head(share):
    w = share * RATED
    flow = float(PUMP.flow(np.array(w)))
    pumped = 20.0 * share**2 - (20.0 - 12.0) / 9.0 * flow**2
    asked = 6.0 + 1.5 * (flow / 3.0) ** 2
    assert flow > 0
    assert pumped == pytest.approx(asked, rel=1e-9)


def test_at_its_rated_speed_a_pump_gives_its_rated_point():
    through = replace(PUMP, pipe=Pipe(12.0))
    assert through.flow(np.array(RATED)) == pytest.approx(3.0)
    assert PUMP.drag * RATED**3 == pytest.approx(220.0)


def test_a_pump_too_slow_for_its_lift_moves_nothing():
    least = RATED * np.sqrt(6.0 / 20.0)
    assert PUMP.flow(np.array(0.999 * least)) == 0.0
    assert PUMP.flow(np.array(1.01 * least)) > 0.0


def test_its_best_flow_is_the_best_of_all_flows():
    flows = np.linspace(0, 4.7, 20001)
    head = 20.0 - (20.0 - 12.0) / 9.0 * flows**2
    assert PUMP.best_share == pytest.approx((WATER_N_M3 * flows / 3600 * head).max() / 220.0, rel=1e-6)


@given(st.floats(0.0, 400.0), st.floats(0.01, 50.0))
def test_current_and_voltage_rise_with_the_speed(at, step):
    for line in (Turning(MOTOR, PUMP), Turning(MOTOR, FAN), Heater(3.0, 24.0)):
        before, after = np.array(at), np.array(at + step)
        assert line.volt(after) > line.volt(before)
        assert line.amp(after) >= line.amp(before)


@pytest.mark.parametrize(
    "line", [Turning(MOTOR, PUMP), Turning(replace(MOTOR, most_v=30.0), FAN), Heater(3.0, 24.0)]
)
def test_at_its_most_it_has_the_voltage_it_bears(line):
    assert line.volt(np.array(line.most)) == pytest.approx(line.most_v)


def test_all_of_a_motors_power_is_heat_friction_and_shaft():
    line, w = Turning(MOTOR, PUMP), np.array(250.0)
    amps = line.amp(w)
    assert line.volt(w) * amps == pytest.approx(0.25 * amps**2 + 0.02 * w + PUMP.drag * w**3)


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda: Heater(0.0, 12.0), "a heater has figures above 0"),
        (lambda: Heater(float("nan"), 12.0), "a heater"),
        (lambda: replace(MOTOR, ohm=4.0), "drops less than its voltage"),
        (lambda: replace(MOTOR, friction_nm=5.0), "less than its pull"),
        (lambda: replace(MOTOR, start_nm=0.01), "no less than turning"),
        (lambda: replace(FAN, rpm=-1), "a fan"),
        (lambda: Pipe(-1.0), "a pipe"),
        (lambda: replace(PUMP, head_m=20.0), "falls with the flow"),
        (lambda: replace(PUMP, shaft_w=100.0), "into water"),
    ],
)
def test_what_cannot_be_is_refused(make, why):
    with pytest.raises(ValueError, match=why):
        make()
