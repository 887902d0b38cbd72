"""A year of a bank: its energy closes hour by hour, and it does what a controller makes it do."""

import dataclasses

import numpy as np
import pytest

from panewright.array.loops import stored_loops
from panewright.array.stored import Demand, Supply, Told, through
from panewright.battery.bank import Bank, store_of
from panewright.battery.load import Battery
from panewright.battery.through import held_wh, kept_share

HOURS = 8760


def sunny(watts, hours=HOURS, seed=1):
    """Watts that come and go with the sun of an invented year; cloudy days drawn by chance."""
    hour = np.arange(hours)
    sun = np.maximum(np.sin((hour % 24 - 6) / 12 * np.pi), 0.0)
    cloud = np.random.default_rng(seed).uniform(0.1, 1.0, hours // 24 + 1)[hour // 24]
    return watts * sun * cloud


def told(hours):
    return Told(*np.zeros((len(Told._fields), hours)))


def mppt(watts):
    return Supply(watts, np.array([10.0, 16.0]), np.zeros((watts.size, 2)), 1e3)


def direct(watts):
    volts = np.linspace(9.0, 17.0, 9)
    amps = np.maximum(watts[:, None] / 17.0 * (1 - np.exp((volts - 19.0) / 1.2)), 0.0)
    return Supply(np.zeros(watts.size), volts, amps, 1e3)


def demand(watts, hours=HOURS, generator=0.0):
    return Demand(np.full(hours, watts), generator, 0.55, 0.8, 0.6)


def before(store, out, charge):
    """State of charge at the begin of each hour, after what rest took."""
    begun = np.concatenate([[charge], out.charge[:-1]])
    return begun * (1 - store.idle_a / store.capacity_ah)


BANKS = {
    "agm": Bank(Battery("agm", 12.0), 120.0),
    "flooded": Bank(Battery("flooded", 12.0), 200.0, bank_c=5.0),
    "lfp": Bank(Battery("lfp", 12.8), 100.0),
}


@pytest.mark.parametrize("generator", [0.0, 200.0])
@pytest.mark.parametrize("supply", [mppt, direct])
@pytest.mark.parametrize("kind", BANKS)
def test_energy_closes_in_every_hour(kind, supply, generator):
    store, out = store_of(BANKS[kind]), told(HOURS)
    end = stored_loops()["through"](store, supply(sunny(180.0)), demand(25.0, generator=generator), 0.8, out)
    come, gone = out.used_wh + out.generator_wh, out.served_wh + out.bank_wh
    assert np.abs(come - gone).max() < 1e-9 * 180
    begun, amps = before(store, out, 0.8), out.bank_wh / out.volt
    for h in range(0, HOURS, 7):
        kept = kept_share(store, begun[h], amps[h]) if amps[h] > 0 else 1.0
        assert out.charge[h] == pytest.approx(begun[h] + kept * amps[h] / store.capacity_ah, abs=1e-9)
        assert out.held_wh[h] == pytest.approx(
            held_wh(store, out.charge[h]) - held_wh(store, begun[h]), abs=1e-9
        )
    free = (out.volt < store.absorption_v - 1e-6) & (out.charge < 0.999) & (out.missing_wh < 1e-9)
    assert np.abs(out.used_wh - out.offered_wh)[free].max() < 1e-9 * 180, (
        "all is used while none is held back"
    )
    changed = out.held_wh.sum() - out.idle_wh.sum()
    assert changed == pytest.approx(held_wh(store, end) - held_wh(store, 0.8), abs=1e-6)
    assert (out.lost_wh >= -1e-9).all(), "no bank gives more than it holds"
    assert (out.used_wh <= out.offered_wh + 1e-9).all()
    assert (out.used_wh >= 0).all()
    assert (out.missing_wh >= -1e-9).all()
    assert out.charge.min() >= store.lowest - 0.01
    assert out.charge.max() <= 1.0 + 1e-12


def test_compiled_and_written_do_the_same():
    store, outs = store_of(BANKS["agm"]), (told(400), told(400))
    given = (store, direct(sunny(150.0, 400)), demand(30.0, 400), 0.9)
    through(*given, outs[0])
    stored_loops()["through"](*given, outs[1])
    for name in Told._fields:
        assert getattr(outs[0], name) == pytest.approx(getattr(outs[1], name), abs=1e-9), name


def test_a_full_bank_is_held_at_its_absorption_voltage():
    store, out = store_of(BANKS["agm"]), told(240)
    through(store, mppt(sunny(300.0, 240)), demand(2.0, 240), 0.9, out)
    full = out.charge > 0.98
    assert full.any()
    assert out.volt.max() == pytest.approx(store.absorption_v, abs=1e-9)
    assert out.offered_wh[full].sum() > 2 * out.used_wh[full].sum(), "what is held back is told"


def test_without_sun_the_load_is_cut_off_at_the_depth_and_comes_back():
    store, out = store_of(BANKS["agm"]), told(96)
    watts = np.concatenate([np.zeros(48), np.full(48, 200.0)])
    through(store, mppt(watts), demand(40.0, 96), 1.0, out)
    dark = slice(20, 48)
    assert out.served_wh[dark].sum() == 0.0
    assert out.missing_wh[dark].sum() == pytest.approx(40.0 * 28)
    assert out.served_wh[-24:].sum() == pytest.approx(40.0 * 24), "the bank is charged again"


def test_a_generator_keeps_the_load_on():
    store, out = store_of(BANKS["agm"]), told(200)
    through(store, mppt(np.zeros(200)), demand(40.0, 200, generator=250.0), 1.0, out)
    assert out.missing_wh.sum() == 0.0
    assert 0 < (out.generator_wh > 0).sum() < 100


def test_a_direct_controller_gives_the_current_of_the_banks_voltage():
    store, out = store_of(BANKS["lfp"]), told(24)
    supply = direct(np.full(24, 100.0))
    through(store, supply, demand(0.0, 24), 0.5, out)
    amps = np.interp(out.volt[0], supply.held_v, supply.held_a[0])
    assert out.bank_wh[0] == pytest.approx(amps * out.volt[0], rel=1e-9)


def test_rest_costs_charge():
    store, out = store_of(dataclasses.replace(BANKS["flooded"], bank_c=25.0)), told(730)
    end = through(store, mppt(np.zeros(730)), demand(0.0, 730), 0.9, out)
    assert end == pytest.approx(0.9 * np.exp(-0.05), rel=2e-3)
