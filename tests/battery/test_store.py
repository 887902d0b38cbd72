"""Banks as stores: voltages, what they take and keep, how long they last."""

import numpy as np
import pytest

from panewright.battery.bank import Bank, life_years, store_of
from panewright.battery.load import Battery
from panewright.battery.through import bank_v, held_wh, hour_v, kept_share, rest_v, taken_a

AGM = store_of(Bank(Battery("agm", 12.0), 100.0, 25.0))
LFP = store_of(Bank(Battery("lfp", 12.8), 100.0, 25.0))


@pytest.mark.parametrize("store", [AGM, LFP], ids=["agm", "lfp"])
def test_voltage_rises_with_current_and_with_charge(store):
    states, amps = np.linspace(0.1, 0.95, 12), np.linspace(-20, 20, 41)
    volts = np.array([[bank_v(store, s, a) for a in amps] for s in states])
    assert (np.diff(volts, axis=1) >= 0).all()
    assert (np.diff(volts, axis=0) >= -1e-9).all()


def test_a_lead_bank_lies_where_handbooks_have_it():
    """A rested 12 V bank: some 12.5 V full and 12.1 V half full; common practice."""
    assert rest_v(AGM, 1.0) == pytest.approx(12.5, abs=0.1)
    assert rest_v(AGM, 0.5) == pytest.approx(12.1, abs=0.1)


@pytest.mark.parametrize("s", [0.3, 0.6, 0.8, 0.95])
def test_it_takes_what_brings_it_to_the_voltage(s):
    amps = taken_a(AGM, s, AGM.absorption_v)
    at_limit = amps == AGM.most_a and hour_v(AGM, s, amps) <= AGM.absorption_v
    assert at_limit or hour_v(AGM, s, amps) == pytest.approx(AGM.absorption_v, abs=1e-6)


def test_what_it_takes_tapers_as_it_fills():
    taken = [taken_a(AGM, s, 14.4) for s in (0.5, 0.7, 0.8, 0.9, 0.97, 1.0)]
    assert taken == sorted(taken, reverse=True)
    assert taken[-1] < 0.01 * AGM.capacity_ah


def test_a_full_lead_bank_keeps_nothing_and_an_empty_one_all():
    assert kept_share(AGM, 1.0, 5.0) == 0.0
    assert kept_share(AGM, 0.3, 5.0) > 0.9999
    assert kept_share(LFP, 0.9, 5.0) == 0.995


@pytest.mark.parametrize("store", [AGM, LFP], ids=["agm", "lfp"])
def test_energy_held_is_the_integral_of_the_voltage_at_rest(store):
    states = np.linspace(0, 0.83, 20001)
    rest = np.array([rest_v(store, s) for s in states])
    integral = np.trapezoid(rest, states) * store.capacity_ah
    assert held_wh(store, 0.83) == pytest.approx(integral, rel=1e-6)


def test_a_frozen_lfp_bank_takes_nothing():
    assert taken_a(store_of(Bank(Battery("lfp", 12.8), 100.0, -5.0)), 0.5, 14.1) == 0.0


def test_life_ends_by_throughput_or_by_years():
    bank = Bank(Battery("flooded", 24.0), 200.0, bank_c=25.0)
    assert life_years(bank, 0.0) == 8.0
    assert life_years(bank, 60_000.0) == pytest.approx(1200 * 0.5 * 200 / 60_000)
    assert life_years(Bank(Battery("flooded", 24.0), 200.0, bank_c=35.0), 0.0) == pytest.approx(4.0)


@pytest.mark.parametrize(("amount", "said"), [((0.0, 20.0), "capacity"), ((100.0, 90.0), "-40 to 60")])
def test_a_bank_that_cannot_be_is_refused(amount, said):
    with pytest.raises(ValueError, match=said):
        Bank(Battery("agm", 12.0), *amount)
