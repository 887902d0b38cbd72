"""What a converter or a switch makes of the panels' power."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from panewright.battery.bank import Bank
from panewright.battery.converter import USUAL_CURVE, Converter, Switch, held_volts
from panewright.battery.load import Battery

USUAL = Converter(30.0, 24.0)


@given(st.floats(1e-4, 1.2))
def test_output_over_input_is_the_efficiency_at_that_output(share):
    """The curve read as makers print it, over the output: found again by a search, not by its closed form."""
    shares, found = np.array(USUAL_CURVE).T
    wanted = share * USUAL.rated_w
    fed = brentq(lambda watts: USUAL.out_w(np.array([watts]))[0] - wanted, 0.0, 3 * USUAL.rated_w, xtol=1e-12)
    assert wanted / fed == pytest.approx(np.interp(share, shares, found), rel=1e-9)


def test_it_gives_more_for_more_and_never_more_than_it_got():
    fed = np.linspace(0, 1.5 * USUAL.rated_w, 2001)
    out = USUAL.out_w(fed)
    assert out[0] == 0.0
    assert (np.diff(out) > 0).all()
    assert (out <= fed).all()


def test_one_point_is_one_efficiency_for_all():
    assert Converter(10.0, 12.0, ((1.0, 0.9),)).out_w(np.array([5.0, 100.0, 500.0])) == pytest.approx(
        [4.5, 90.0, 450.0]
    )


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ({"most_a": 0.0}, "above 0"),
        ({"most_a": float("nan")}, "above 0"),
        ({"nominal_v": -12.0}, "above 0"),
        ({"own_w": -1.0}, "draws 0 W or more"),
        ({"curve": ()}, "efficiencies"),
        ({"curve": ((0.1, 1.01),)}, "efficiencies"),
        ({"curve": ((0.0, 0.9), (1.0, 0.9))}, "efficiencies"),
        ({"curve": ((0.5, 0.9), (0.2, 0.9))}, "shares rise"),
        ({"curve": ((0.2, 0.3), (0.3, 0.9))}, "more output asks for more input"),
    ],
)
def test_no_converter_is_like_that(wrong, why):
    with pytest.raises(ValueError, match=why):
        Converter(**{"most_a": 30.0, "nominal_v": 12.0} | wrong)


@pytest.mark.parametrize("wrong", [{"most_a": 0.0}, {"drop_v": -0.1}, {"own_w": float("inf")}])
def test_no_switch_is_like_that(wrong):
    with pytest.raises(ValueError, match="a switch passes"):
        Switch(**{"most_a": 20.0} | wrong)


@pytest.mark.parametrize("battery", [Battery("agm", 12.0), Battery("lfp", 25.6), Battery("flooded", 48.0)])
@pytest.mark.parametrize("heat", [-10.0, 25.0, 45.0])
def test_told_voltages_hold_all_that_a_bank_passes(battery, heat):
    bank, switch = Bank(battery, 200.0, heat), Switch(40.0, 0.4)
    told = np.array(held_volts(bank, switch, 0.02))
    assert (np.diff(told) > 0).all()
    assert told[0] - 0.4 <= bank.window.empty_v
    assert told[-1] - 0.4 - 40 * 0.02 >= bank.window.absorption_v
