"""Through a converter or a switch to a bank: the exact circuit's current, and an account that closes."""

from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
import pvlib
import pytest
from scipy.optimize import brentq

from invented_panels import Made
from panewright.array.loops import stored_loops
from panewright.array.member import Member
from panewright.array.stored import Demand, Told
from panewright.array.supplied import Way, lost_w, own_w, supply_of
from panewright.array.wiring import Input, Row
from panewright.array.year import Span, year_of
from panewright.battery.bank import Bank, store_of
from panewright.battery.converter import Converter, Switch, held_volts
from panewright.battery.load import Battery
from panewright.circuit.network import Network, String
from panewright.circuit.solve import current_a
from panewright.climate.hourly import hourly_cell_c
from panewright.intake.weather.weather import read_weather
from panewright.sky.place import Plane
from panewright.sky.received import Standing, received
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings

FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
MADE, PLANE, OHM = Made(36, 2, scatter=0.0), Plane(30, 180), 0.03
SHAPES = tuple(
    (0.16 * (k // 6), 0.16 * (k % 6), 0.16 * (k // 6) + 0.15, 0.16 * (k % 6) + 0.15) for k in range(36)
)
BANKS = {"agm": Bank(Battery("agm", 12.0), 120.0), "lfp": Bank(Battery("lfp", 12.8), 80.0)}
SWITCH, CONVERTER = Switch(20.0), Converter(20.0, 12.0)
WAYS = {
    "switch": Way((SWITCH,)),
    "switch behind a run": Way((SWITCH,), 0.05),
    "small switch": Way((Switch(6.0),), 0.02),
    "two switches": Way((Switch(10.0, 0.2), Switch(10.0, 0.5))),
    "converter": Way((CONVERTER,)),
    "converter behind a run": Way((CONVERTER,), 0.05),
    "small converter": Way((Converter(8.0, 12.0),)),
    "two converters": Way((Converter(10.0, 12.0), Converter(15.0, 12.0)), 0.01),
}


@pytest.fixture(scope="module")
def hours():
    return read_weather(FILE.read_bytes(), FILE.name)


@pytest.fixture(scope="module")
def year(hours):
    panels = [Member(f"P{k}", MADE.law(), Pane((k, 0, 0.5), PLANE, SHAPES), 150.0) for k in range(2)]
    span = Span(0.0, 100.0, held_volts(BANKS["agm"], SWITCH, 0.05))
    return year_of(
        hours, Surroundings(), panels, (Input((Row((0,), OHM),)), Input((Row((1,), OHM),))), (span,) * 2
    )


def ran(year, way, bank, watts=40.0):
    told = Told(*np.zeros((len(Told._fields), 8760)))
    demand = Demand(watts + own_w(year, way), 0.0, 0.4, 0.8, 0.6)
    stored_loops()["through"](store_of(bank), supply_of(year, way, bank), demand, 0.7, told)
    return told


def exact_a(hours, h, volt):
    """Current of one panel and its wire by the whole circuit, each hour by itself."""
    got = received(hours, Standing(PLANE))
    heat = hourly_cell_c(
        (got.level_w_m2 + got.steps[0].adds_w_m2)[h : h + 1], hours.air_c[h], hours.wind_m_s[h]
    )
    network = MADE.network([got.cells_w_m2[h]] * 36, float(heat[0]))
    string = network.strings[0]
    whole = Network((String(string.substrings, string.tail_ohm),), network.lead_ohm + OHM)
    return float(current_a(whole, np.array([volt]))[0])


def over_a(hours, h, bank_v, ohm, amps):
    """What two panels give at a bank's voltage more than so many amperes, behind 0.3 V and a run."""
    return 2 * exact_a(hours, h, bank_v + 0.3 + ohm * amps) - amps


@pytest.mark.parametrize("h", [12, 2000 + 12, 4000 + 14, 4500 + 3, 8000 + 15])
@pytest.mark.parametrize("ohm", [0.0, 0.05])
def test_a_switch_brings_the_current_of_the_exact_circuit_at_the_banks_voltage(hours, year, h, ohm):
    """Both panels' current behind drop and run: V = Vbank + drop + R I, root by scipy."""
    h += int(np.argmax(hours.level_w_m2[h : h + 24]))
    supply = supply_of(year, Way((SWITCH,), ohm), BANKS["agm"])
    for bank_v in (11.6, 12.9, 14.2):
        told = np.interp(bank_v, supply.held_v, supply.held_a[h])
        found = partial(over_a, hours, h, bank_v, ohm)
        alone = brentq(found, 0.0, 30.0, xtol=1e-6)
        assert told == pytest.approx(alone, rel=3e-3)


@pytest.mark.parametrize("name", WAYS)
@pytest.mark.parametrize("kind", BANKS)
def test_the_account_of_every_hour_closes(year, name, kind):
    """Greatest power of the inputs = what each cause takes + what is used, to 1e-9 of it."""
    told = ran(year, WAYS[name], BANKS[kind])
    lost, greatest = lost_w(year, WAYS[name], BANKS[kind], told), year.input_w.sum(axis=1)
    left = greatest - sum(lost.values()) - told.used_wh
    assert np.abs(left).max() < 1e-9 * greatest.max()
    for cause, watts in lost.items():
        assert (watts >= -2e-4 * greatest.max()).all(), cause
        assert cause in ("limit", "run", "held back") or watts.sum() > 0, cause
    offered = told.volt * np.minimum(told.offered_wh / told.volt, WAYS[name].most_a)
    assert lost["held back"] == pytest.approx(offered - told.used_wh, abs=1e-9 * greatest.max())


def test_by_a_current_that_never_changes_all_is_known_by_hand(year):
    """5 A at any voltage, 100 W at the best: at 12.5 V behind 0.3 V and 0.1 ohm 62.5 W come."""
    level = replace(
        year,
        input_w=np.full((8760, 1), 100.0),
        held_v=year.held_v[:1],
        held_a=np.full((8760, 1, year.held_v.shape[1]), 5.0),
    )
    way, told = Way((SWITCH,), 0.1), Told(*np.zeros((len(Told._fields), 8760)))
    told.volt[:], told.used_wh[:] = 12.5, 40.0
    lost = {cause: watts[77] for cause, watts in lost_w(level, way, BANKS["agm"], told).items()}
    assert lost == pytest.approx(
        {"clamp": 100 - 5 * 13.3, "switch": 1.5, "run": 2.5, "limit": 0.0, "held back": 22.5}, abs=1e-9
    )
    small = {c: w[5] for c, w in lost_w(level, Way((Switch(4.0),), 0.1), BANKS["agm"], told).items()}
    assert small == pytest.approx(
        {"clamp": 33.5, "switch": 1.2, "run": 0.1 * 5 * 4, "limit": 13.3, "held back": 10.0}, abs=1e-9
    )


def test_of_one_efficiency_and_a_run_all_is_known_by_hand(year):
    """100 W at 90 %, a run that takes I^2 R at the bank's usual voltage."""
    level, bank = replace(year, input_w=np.full((8760, 1), 100.0)), BANKS["agm"]
    way = Way((Converter(50.0, 12.0, ((1.0, 0.9),)),), 0.1)
    amps = brentq(lambda i: (bank.window.usual_v + 0.1 * i) * i - 90.0, 0.0, 20.0, xtol=1e-12)
    assert supply_of(level, way, bank).power_w == pytest.approx(90.0 - 0.1 * amps**2, rel=1e-9)


def test_a_switch_costs_what_the_trade_knows(year):
    """36 cells straight on a 12 V battery lose 10 to 30 % (common practice, no source)."""
    big = Bank(Battery("agm", 12.0), 2000.0)
    by = {name: ran(year, WAYS[name], big, 60.0) for name in ("switch", "converter")}
    lost = lost_w(year, WAYS["switch"], big, by["switch"])
    assert 0.08 < lost["clamp"].sum() / year.input_w.sum() < 0.30
    assert by["switch"].offered_wh.sum() < by["converter"].offered_wh.sum()


def test_a_controllers_current_is_never_passed(year):
    for name in ("small switch", "small converter"):
        way, told = WAYS[name], ran(year, WAYS[name], BANKS["agm"])
        assert (told.used_wh / told.volt).max() <= way.most_a * (1 + 1e-9)
        assert lost_w(year, way, BANKS["agm"], told)["limit"].sum() > 0.01 * year.input_w.sum()


def test_by_night_controllers_draw_from_the_bank(year):
    dark = year.hours.level_w_m2 <= 0.5
    drawn = own_w(year, Way((Converter(9.0, 12.0, own_w=0.7), Converter(9.0, 12.0, own_w=0.5))))
    assert drawn[dark] == pytest.approx(1.2)
    assert drawn[year.input_w.sum(axis=1) > 1].max() == 0.0


@pytest.mark.parametrize(
    ("way", "bank", "why"),
    [
        (Way((SWITCH,) * 3), BANKS["agm"], "2 inputs have one controller or each its own"),
        (Way((SWITCH,)), Bank(Battery("agm", 24.0), 100.0), "currents are told at"),
        (Way((SWITCH,), 1.0), BANKS["agm"], "currents are told at"),
    ],
)
def test_what_does_not_go_together_is_refused(year, way, bank, why):
    with pytest.raises(ValueError, match=why):
        supply_of(year, way, bank)


def test_a_year_without_told_currents_brings_nothing_through_a_switch(year):
    mute = replace(year, held_v=np.zeros((2, 0)), held_a=np.zeros((8760, 2, 0)))
    with pytest.raises(ValueError, match="the same voltages, two or more"):
        supply_of(mute, Way((SWITCH,)), BANKS["agm"])


@pytest.mark.parametrize("wrong", [((), 0.0), ((SWITCH, CONVERTER), 0.0), ((SWITCH,), -0.1)])
def test_a_way_is_all_of_one_kind(wrong):
    with pytest.raises(ValueError, match=r"all converters or all switches|0 ohm or more"):
        Way(*wrong)
