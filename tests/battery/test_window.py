"""Laws of charge windows and of the controller's input."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.battery.controller import battery_power_w, input_window
from panewright.battery.load import Battery, Controller
from panewright.battery.window import (
    charge_window,
    cold_charge_check,
    overvoltage_check,
    possible_nominal_v,
)

CHEMISTRIES = ("flooded", "agm", "gel", "lfp")
BANKS = [(chemistry, volts) for chemistry in CHEMISTRIES for volts in possible_nominal_v(chemistry)]


@pytest.mark.parametrize(("chemistry", "volts"), BANKS)
def test_every_bank_has_its_voltages_in_order(chemistry, volts):
    window = charge_window(Battery(chemistry, volts))
    assert window.empty_v < window.usual_v < window.absorption_v < window.most_v
    assert window.float_v < window.absorption_v <= (window.equalise_v or window.most_v)


@given(st.sampled_from(BANKS), st.floats(-20, 50), st.floats(-20, 50))
def test_no_bank_asks_for_more_voltage_when_warm(bank, one_c, other_c):
    cool, warm = (charge_window(Battery(*bank), t) for t in sorted((one_c, other_c)))
    assert warm.absorption_v <= cool.absorption_v
    assert bank[0] != "lfp" or warm.absorption_v == cool.absorption_v


def test_a_small_sensor_may_have_three_lead_acid_cells():
    window = charge_window(Battery("agm", 6.0))
    assert (window.cells, window.absorption_v) == (3, pytest.approx(7.2))


@pytest.mark.parametrize(("chemistry", "volts"), [("lfp", 6.0), ("gel", 10.0), ("agm", 12.8)])
def test_a_bank_nobody_sells_is_refused_with_those_one_can_buy(chemistry, volts):
    with pytest.raises(
        ValueError, match=rf"{chemistry} battery of {volts:g} V cannot be had; there is .*12, .* V"
    ):
        charge_window(Battery(chemistry, volts))


def test_lfp_named_by_its_true_voltage_is_the_same_bank():
    assert charge_window(Battery("lfp", 51.2)) == charge_window(Battery("lfp", 48.0))


def test_the_maker_of_the_battery_knows_best():
    window = charge_window(Battery("agm", 24.0, absorption_v=29.4, float_v=27.0, volts_per_k=-0.005), 35.0)
    assert window.absorption_v == pytest.approx(29.4 - 12 * 0.005 * 10)
    assert window.float_v == pytest.approx(27.0 - 0.6)
    assert window.source == "the battery maker's own figure"


def test_lfp_is_not_charged_below_freezing_and_lead_acid_may_be():
    cold = cold_charge_check(Battery("lfp", 12.0), -10.0)
    assert not cold.passed
    assert str(cold).startswith(
        "how far an LFP battery gets below freezing, where it is not charged: 10 of 0 K, TOO MUCH"
    )
    assert cold_charge_check(Battery("lfp", 12.0), 0.0).passed
    assert cold_charge_check(Battery("agm", 12.0), -5.0) is None


def test_strong_compensation_in_deep_cold_passes_the_battery_limit():
    battery = Battery("flooded", 12.0, volts_per_k=-0.009)
    assert not overvoltage_check(charge_window(battery, -25.0)).passed
    assert overvoltage_check(charge_window(battery, 20.0)).passed


@pytest.mark.parametrize(
    "wrong",
    [{"nominal_v": 0.0}, {"nominal_v": 12.0, "float_v": 0.0}, {"nominal_v": 12.0, "volts_per_k": 0.003}],
)
def test_a_battery_without_sense_is_refused_at_birth(wrong):
    with pytest.raises(ValueError, match="fall with heat"):
        Battery("agm", **wrong)


@given(st.floats(0, 2), st.floats(0, 8))
def test_headroom_counts_for_an_mppt_controller_only(drop, headroom):
    window = charge_window(Battery("agm", 12.0))
    direct = input_window(Controller("direct", 50.0, drop, headroom), window)
    mppt = input_window(Controller("mppt", 50.0, drop, headroom), window)
    assert direct.least_v == pytest.approx(14.4 + drop)
    assert mppt.least_v == pytest.approx(14.4 + drop + headroom)
    assert direct.most_v == mppt.most_v == 50.0


def test_a_direct_controller_passes_current_and_an_mppt_controller_power():
    window = charge_window(Battery("lfp", 12.0))
    assert battery_power_w(Controller("direct", 50.0, 0.3), window, 8.0, 17.0) == pytest.approx(8.0 * 13.3)
    mppt = Controller("mppt", 100.0, 0.0, efficiency=0.95)
    assert battery_power_w(mppt, window, 8.0, 30.0) == pytest.approx(0.95 * 240)


def test_a_controller_without_sense_is_refused_at_birth():
    with pytest.raises(ValueError, match="wins nothing"):
        Controller("mppt", 100.0, 0.0, efficiency=1.02)
