"""The Gaussian integral over common errors beside numerical integration; what holds for any reading."""

import numpy as np
import pytest
from scipy.integrate import dblquad, quad

from panewright.bench.fault.foretold import Curves
from panewright.bench.fault.likelihood import likelihood
from panewright.bench.fault.readings import Common, Points


def straight(slope_ohm: float = 2.0, leaked_a: float = 0.0) -> Curves:
    """A straight curve: light moves its volts as its current, heat evenly; a leak takes current."""
    amps = np.linspace(0.0, 10.0, 40)
    volts = 20.0 - slope_ohm * amps
    moved = np.zeros((1, 40, 6))
    moved[0, :, 0], moved[0, :, 1] = amps, -0.1
    return Curves(volts[None], amps[None], moved, np.zeros(6), leaked_a * np.ones((1, 40)), np.zeros((1, 40)))


def points(volts: list[float], amps: list[float], common: Common) -> Points:
    size = len(volts)
    return Points(
        np.array(volts), np.array(amps), np.full(size, 0.1), np.full(size, 0.05), 800.0, 40.0, common
    )


def test_the_integral_is_that_of_both_common_errors():
    common = Common(light=0.05, heat_k=2.0)
    read = points([18.2, 14.1, 9.8], [1.0, 3.0, 5.1], common)
    slope, sv, si = 2.0, 0.1, 0.05

    def density(heat: float, light: float) -> float:
        volts = 20.0 - slope * read.current_a + light * read.current_a - 0.1 * heat
        off = (read.voltage_v - volts) / np.hypot(sv, (slope - light) * si)
        prior = (light / common.light) ** 2 + (heat / common.heat_k) ** 2
        return float(np.exp(-0.5 * (off @ off + prior)) / (2 * np.pi * common.light * common.heat_k))

    whole, _ = dblquad(density, -0.3, 0.3, -12, 12, epsabs=1e-12)
    assert likelihood(straight(), read).log[0] == pytest.approx(np.log(whole), abs=0.02)


@pytest.mark.parametrize("times", [0.4, 1.0, 4.0])
@pytest.mark.parametrize("leaked_a", [-0.02, -0.3])
def test_the_integral_over_a_leak_is_that_of_a_log_normal_distribution(times, leaked_a):
    """Readings of so much leak, beside quadrature; where they say much and little of it, to a sixth."""
    common = Common(light=0.0, heat_k=0.0, shunt=0.7)
    amps = np.array([1.0, 3.0, 5.1])
    read = points(list(20.0 - 2.0 * amps), list(amps + leaked_a * (times - 1)), common)

    def density(x: float) -> float:
        off = (read.current_a - leaked_a * np.expm1(x) - (20.0 - read.voltage_v) / 2.0) / np.hypot(
            0.1 / 2, 0.05
        )
        return float(np.exp(-0.5 * (off @ off + (x / 0.7) ** 2)) / np.sqrt(2 * np.pi) / 0.7)

    whole, _ = quad(density, -5, 5, points=[np.log(times)], epsabs=1e-12)
    told = likelihood(straight(leaked_a=leaked_a), read)
    assert told.log[0] == pytest.approx(np.log(whole), abs=0.15)


def test_without_common_errors_it_is_half_the_square_of_the_distances():
    read = points([18.3, 14.0], [1.0, 3.0], Common(light=0.0, heat_k=0.0))
    off = 0.3 / np.hypot(0.1, 2.0 * 0.05)
    assert likelihood(straight(), read).log[0] == pytest.approx(-0.5 * off**2, abs=1e-9)


def test_a_reading_on_an_axis_counts_for_what_was_read_of_it():
    read = Points(
        np.array([20.5]), np.array([0.0]), np.array([0.1]), np.array([0.0]), 800.0, 40.0, Common(0.0, 0.0)
    )
    assert likelihood(straight(), read).log[0] == pytest.approx(-0.5 * 5**2, rel=1e-2)


@pytest.mark.parametrize(("volts", "reason"), [([1.0, float("nan")], "finite"), ([], "every point")])
def test_readings_that_are_none_are_refused(volts, reason):
    array = np.array(volts)
    with pytest.raises(ValueError, match=reason):
        Points(array, array, np.ones_like(array), np.ones_like(array), 800.0, 40.0)
