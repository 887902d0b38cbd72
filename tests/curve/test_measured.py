"""A measured curve refuses nonsense at birth."""

import pytest

from panewright.curve.measured import Accuracy, Measured

GOOD = ((0.0, 0.3, 0.6), (3.0, 2.9, 0.1))


@pytest.mark.parametrize(
    ("voltage_v", "current_a", "why"),
    [
        ((0.0, 0.3), (1.0,), "no curve"),
        ((), (), "no curve"),
        ((0.0, float("nan")), (1.0, 1.0), "finite"),
        ((0.0, 0.3), (1.0, float("inf")), "finite"),
        ((0.3, 0.0), (1.0, 1.0), "rise"),
        ((0.3, 0.3), (1.0, 1.0), "rise"),
    ],
)
def test_points_that_are_no_curve_are_refused(voltage_v, current_a, why):
    with pytest.raises(ValueError, match=why):
        Measured(voltage_v, current_a, 1000.0, 25.0)


@pytest.mark.parametrize(("light", "cell_c"), [(-1.0, 25.0), (1000.0, -300.0), (float("nan"), 25.0)])
def test_impossible_light_and_heat_are_refused(light, cell_c):
    with pytest.raises(ValueError, match="light is 0"):
        Measured(*GOOD, light, cell_c)


def test_each_point_is_the_mean_of_one_reading_or_more():
    with pytest.raises(ValueError, match="one reading or more"):
        Measured(*GOOD, 1000.0, 25.0, repeats=(1, 0, 1))
    assert Measured(*GOOD, 1000.0, 25.0).counts.tolist() == [1.0, 1.0, 1.0]


def test_an_uncertainty_below_nothing_is_refused():
    with pytest.raises(ValueError, match="zero or more"):
        Accuracy(current_a=-0.1)


def test_scatter_of_the_voltage_counts_by_the_slope():
    curve = Measured(*GOOD, 1000.0, 25.0, Accuracy(voltage_v=0.001, current_a=0.003), repeats=(1, 1, 4))
    scatter = curve.scatter_a(curve.volts * 0 + 4.0)
    assert scatter.tolist() == pytest.approx([0.005, 0.005, 0.0025])
