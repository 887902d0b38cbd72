"""Loads without a battery: working points on the exact circuit's curve, and what the trade knows of pumps."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pvlib
import pytest
from scipy.optimize import brentq

from invented_panels import Made
from panewright.array.driven import Booster, driven, told_volts
from panewright.array.member import Member
from panewright.array.motor import Fan, Heater, Motor, Pipe, Pump, Turning
from panewright.array.wiring import Input, Row
from panewright.array.year import Span, year_of
from panewright.battery.converter import Converter
from panewright.circuit.network import Network, String
from panewright.circuit.solve import current_a
from panewright.climate.hourly import hourly_cell_c
from panewright.intake.weather.weather import read_weather
from panewright.sky.hours import MONTH_DAYS
from panewright.sky.place import Plane
from panewright.sky.received import Standing, received
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings

FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
MADE, PLANE, OHM = Made(36, 2, scatter=0.0), Plane(30, 180), 0.05
SHAPES = tuple(
    (0.16 * (k // 6), 0.16 * (k % 6), 0.16 * (k // 6) + 0.15, 0.16 * (k % 6) + 0.15) for k in range(36)
)
MOTOR = Motor(16.0, 7.0, 2800, 0.25, friction_nm=0.015, start_nm=0.06)
PUMP = Turning(MOTOR, Pump(2800, 12.0, 2.0, 8.0, 90.0, Pipe(4.0, 0.5, 2.0)))
FAN = Turning(MOTOR, Fan(2800, 600.0, 85.0))
HEATER = Heater(2.5, 24.0)
LINES = {"pump": PUMP, "fan": FAN, "heater": HEATER}
DAYS = 8760 // 24


@pytest.fixture(scope="module")
def hours():
    return read_weather(FILE.read_bytes(), FILE.name)


@pytest.fixture(scope="module")
def year(hours):
    panel = Member("P", MADE.law(), Pane((0, 0, 0.5), PLANE, SHAPES), 150.0)
    return year_of(
        hours, Surroundings(), [panel], (Input((Row((0,), OHM),)),), (Span(0.0, 100.0, told_volts(26.0)),)
    )


@pytest.fixture(scope="module")
def exact(hours):
    """Current of the panel and its wire by the whole circuit in one hour at one voltage."""
    got = received(hours, Standing(PLANE))
    heat = hourly_cell_c(got.level_w_m2 + got.steps[0].adds_w_m2, hours.air_c, hours.wind_m_s)

    def amp(h, volt):
        network = MADE.network([got.cells_w_m2[h]] * 36, float(heat[h]))
        string = network.strings[0]
        whole = Network((String(string.substrings, string.tail_ohm),), network.lead_ohm + OHM)
        return float(current_a(whole, np.array([volt]))[0])

    return amp


def some(told, count=6):
    """Hours in which it works, from dim (over a hundredth of the rating) to bright."""
    at_work = np.flatnonzero((told.volt > 0) & (told.greatest_w > 1.5))
    return at_work[np.argsort(told.greatest_w[at_work])][np.linspace(0, at_work.size - 1, count).astype(int)]


@pytest.mark.parametrize("name", LINES)
def test_joined_straight_it_works_where_the_exact_curve_and_its_own_meet(year, exact, name):
    """Root by scipy on the exact circuit's curve."""
    line, told = LINES[name], driven(year, LINES[name])
    for h in some(told):
        at = brentq(
            lambda x, h=h: exact(h, float(line.volt(np.array(x)))) - float(line.amp(np.array(x))), 1e-6, 900.0
        )
        assert told.volt[h] == pytest.approx(float(line.volt(np.array(at))), rel=4e-3)
        assert told.amp[h] == pytest.approx(float(line.amp(np.array(at))), rel=6e-3)


@pytest.mark.parametrize("name", LINES)
def test_a_booster_holds_the_strings_and_loses_its_share(year, exact, name):
    line, box = LINES[name], Booster(15.5, 30.0, 0.93)
    told, straight = driven(year, line, box), driven(year, line)
    for h in some(told):
        gives = 0.93 * 15.5 * exact(h, 15.5)
        if told.volt[h] <= 15.5:
            assert told.power_w[h] == pytest.approx(gives, rel=5e-3)
        else:
            assert told.volt[h] == straight.volt[h], "it stands aside"


@pytest.mark.parametrize("name", LINES)
def test_a_converter_gives_what_its_efficiency_leaves_up_to_what_the_load_bears(year, name):
    line, box = LINES[name], Converter(20.0, 12.0, ((1.0, 0.95),))
    told = driven(year, line, box)
    at_work = told.volt > 0
    free = at_work & (told.volt < line.most_v * (1 - 1e-6))
    assert free.any()
    assert told.power_w[free] == pytest.approx(0.95 * year.input_w[free, 0], rel=1e-6)
    assert told.volt.max() <= line.most_v * (1 + 1e-9)
    assert not told.over.any()


def test_a_boxs_greatest_current_is_never_passed(year):
    for box in (Booster(15.0, 5.0), Converter(5.0, 12.0)):
        told = driven(year, HEATER, box)
        boxed = told.volt <= 15.0
        assert told.amp[boxed].max() <= 5.0 * (1 + 1e-9)


@pytest.mark.parametrize("join", [None, Booster(15.0, 20.0), Converter(20.0, 12.0)])
@pytest.mark.parametrize("name", LINES)
def test_no_light_no_flow_and_never_more_than_there_is(year, name, join):
    told = driven(year, LINES[name], join)
    dark = year.hours.level_w_m2 <= 0.5
    for each in (told.volt, told.amp, told.speed_rad_s, told.flow_m3_h):
        assert each[dark].max() == 0.0
        assert each.min() >= 0.0
    assert not told.stalled[dark].any()
    assert (told.power_w <= told.greatest_w * (1 + 1e-3) + 1e-6).all()
    assert 0.1 < told.used_share < 1.0


def test_it_starts_where_the_current_overcomes_the_friction_of_standing(year, exact):
    """Every first hour of a day's running has it, no standing hour before has; recalled of Appelbaum 1986."""
    told, needs = driven(year, PUMP), 0.06 / MOTOR.k
    on = told.speed_rad_s > 0
    starts = np.flatnonzero(on & ~np.roll(on, 1))
    assert starts.size > DAYS / 2
    for h in starts[::60]:
        assert exact(h, needs * 0.25) > needs * (1 - 5e-3)
    waits = np.flatnonzero(told.stalled & ~np.roll(on, 1) & (told.greatest_w > 1.0))
    for h in waits[:: max(1, waits.size // 8)]:
        assert exact(h, needs * 0.25) < needs * (1 + 5e-3)


def test_what_runs_keeps_on_in_light_that_would_not_start_it(year):
    told = driven(year, PUMP)
    on = told.speed_rad_s > 0
    kept = on & (told.amp < 0.5 * 0.06 / MOTOR.k) & np.roll(on, 1)
    assert kept.any()


def test_harder_to_start_runs_less_and_a_booster_starts_it_earlier(year):
    easy, hard = (driven(year, replace(PUMP, motor=replace(MOTOR, start_nm=nm))) for nm in (0.015, 0.15))
    boosted = driven(year, replace(PUMP, motor=replace(MOTOR, start_nm=0.15)), Booster(15.0, 30.0))
    runs = [np.count_nonzero(each.speed_rad_s) for each in (easy, hard, boosted)]
    assert runs[1] < runs[0]
    assert runs[2] > runs[1]
    assert boosted.day_m3().sum() > hard.day_m3().sum()


def test_water_of_the_days_is_that_of_the_hours_and_less_the_higher_it_is_lifted(year):
    told = [driven(year, replace(PUMP, load=replace(PUMP.load, pipe=Pipe(lift)))) for lift in (1.0, 4.0, 8.0)]
    sums = [float(each.day_m3() @ np.array(MONTH_DAYS)) for each in told]
    assert sums == pytest.approx([each.flow_m3_h.sum() for each in told])
    assert sums[0] > sums[1] > sums[2] > 0
    assert told[0].month_kwh().sum() == pytest.approx(told[0].power_w.sum() / 1000)


def test_a_months_water_is_that_of_its_light(year):
    told = driven(year, PUMP)
    light = year.hours.by_month(year.light_w[:, 0]) / np.array(MONTH_DAYS)
    assert np.corrcoef(told.day_m3(), light)[0, 1] > 0.8


def test_more_volts_than_a_load_bears_are_told(year):
    weak = driven(year, Heater(8.0, 12.0))
    assert weak.over.any()
    assert weak.volt[weak.over].min() > 12.0
    assert not driven(year, Heater(8.0, 26.0)).over.any()


def test_a_load_hangs_at_one_input_of_a_year_that_tells_currents(year):
    mute = replace(year, held_v=np.zeros((1, 0)), held_a=np.zeros((8760, 1, 0)))
    with pytest.raises(ValueError, match="one input"):
        driven(mute, PUMP)


@pytest.mark.parametrize("wrong", [(0.0, 5.0), (12.0, 0.0), (12.0, 5.0, 1.1), (float("inf"), 5.0)])
def test_no_booster_is_like_that(wrong):
    with pytest.raises(ValueError, match="wins nothing"):
        Booster(*wrong)
