"""A pump at a site's strings: its motor by its plate, and what no pump can beat."""

from math import pi

import numpy as np
import pytest

from panewright.array.plan.pumped import turning_of
from panewright.errors import OrderError
from panewright.order.site.parse import parse_site
from planned import SITE, plan, site

PUMP = """[pump]
volts = "24 V"
current = "8 A"
rpm = 2800
winding = "250 mohm"
friction = "3 %"
start = "8 %"
most_volts = "45 V"
flow = "50 l/min"
head = "12 m"
shut_head = "20 m"
shaft = "150 W"
lift = "6 m"
rubs = "1.5 m"
"""
BARE = SITE[: SITE.index("[controller]")]
STRAIGHT = '[controller]\nkind = "direct"\nmost = "100 V"\n'
BOXED = (
    '[controller]\nkind = "mppt"\nmost = "100 V"\nleast = "20 V"\npower = "250 W"\ninput_current = "40 A"\n'
)
CUT = SITE[SITE.index("[controller]") :]


@pytest.fixture(scope="module", params=[STRAIGHT, BOXED], ids=["straight", "behind a controller"])
def made(request):
    return plan((CUT, request.param + PUMP))


def test_the_motor_turns_by_its_plate_as_a_book_has_it():
    """E = V - R I at the rated turns; friction as shares of k I."""
    motor = turning_of(site((CUT, STRAIGHT + PUMP)).pump).motor
    k = (24 - 8 * 0.25) / (2800 * 2 * pi / 60)
    assert motor.k == pytest.approx(k)
    assert motor.friction_nm == pytest.approx(0.03 * k * 8)
    assert motor.start_nm == pytest.approx(0.08 * k * 8)


def test_water_is_lifted_with_less_than_the_energy_that_reaches_the_motor(made):
    days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    lifted = made.pumped.day_m3() * days * 998.2 * 9.80665 * 6.0 / 3.6e6
    assert (lifted > 0).all()
    assert (lifted < 0.7 * made.pumped.month_kwh()).all()
    assert (made.controlled.output_kwh <= made.year.month_kwh() * (1 + 1e-9)).all()


def test_summer_days_lift_more_than_winter_days(made):
    water = made.pumped.day_m3()
    assert water[5] > water[11]


def test_there_is_nothing_of_a_bank_or_a_charge(made):
    assert (made.balance, made.front) == (None, ())
    told = " ".join([*(check.rule for check in made.checks), *(need.thing for need in made.needs)])
    assert "battery" not in told
    assert "charge" not in told
    assert any("runs dry" in caution for caution in made.cautions)


def test_what_the_motor_bears_is_judged_where_it_is_joined_straight():
    weak = PUMP.replace('"45 V"', '"25 V"')
    own = plan((CUT, STRAIGHT + weak))
    (check,) = (check for check in own.checks if check.rule == "motor bears what the strings give")
    assert check.demand == pytest.approx(own.pumped.volt.max())
    assert check.passed == (own.pumped.volt.max() <= 25)
    assert not [check for check in own.checks if check.rule.startswith("controller bears")]


WRONG = {
    "winding": ('"250 mohm"', '"4 ohm"', "pump.winding", "alone would take"),
    "heads": ('shut_head = "20 m"', 'shut_head = "10 m"', "pump.head", "Exchange"),
    "too good": ('shaft = "150 W"', 'shaft = "90 W"', "pump.shaft", "none does"),
    "too high": ('lift = "6 m"', 'lift = "25 m"', "pump.lift", "for that height"),
    "friction": ('start = "8 %"', 'start = "1 %"', "pump.start", "Exchange"),
    "no lift": ('lift = "6 m"\n', "", "pump.lift", "is missing"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_no_pump_is_is_told(case):
    old, new, key, word = WRONG[case]
    assert old in PUMP
    with pytest.raises(OrderError) as told:
        parse_site(BARE + STRAIGHT + PUMP.replace(old, new), "well.toml")
    found = {problem.key: problem for problem in told.value.problems}
    assert word in f"{found[key].reason} {found[key].cure}"


def test_a_pump_has_no_battery_and_a_straight_one_no_controller():
    with pytest.raises(OrderError, match="without a battery"):
        parse_site(SITE + PUMP, "well.toml")
    with pytest.raises(OrderError, match="has nothing between"):
        parse_site(BARE + STRAIGHT + 'power = "1 kW"\n' + PUMP, "well.toml")
