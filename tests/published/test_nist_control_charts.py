"""NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3.2: its worked control charts.

Individuals (6.3.2.2): flow rates of ten batches; data and limits seen as reprinted in many open tests. EWMA
(6.3.2.4) and CUSUM (6.3.2.3): data and results recalled; the sums were reckoned again by hand. c4 and the
factors of the mean and deviation chart (6.3.2.1 and the usual appendix of textbooks): recalled. Average run
lengths of a CUSUM with h = 5 and k = 0.5: 465 on good panels, 10.4 after a shift of one standard deviation;
of a plain chart 370 and 44 (textbook tables, recalled).
"""

import numpy as np
import pytest

from panewright.bench.chart.drift import began, settled_limits, smoothed, summed
from panewright.bench.chart.limits import Limits, limits
from panewright.bench.chart.subgroups import GroupLimits, c4

FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
PROCESS = [
    *(52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5),
    *(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1),
]
PRINTED_EWMA = [
    *(50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33),
    *(50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99),
]
LENGTHS = [
    *(324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600),
    *(324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350),
]
PRINTED_OVER = [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04]


def test_the_chart_of_individuals():
    made = limits(FLOW)
    assert made.centre == pytest.approx(50.81, abs=5e-3)
    assert made.range_mean == pytest.approx(1.8778, abs=5e-5)
    assert made.high == pytest.approx(55.8041, abs=5e-4)
    assert made.low == pytest.approx(45.8159, abs=5e-4)
    assert made.range_high == pytest.approx(3.267 * 1.8778, abs=5e-4)


def test_the_forgetting_mean():
    by = Limits(50.0, 2.0539, 100)
    low, high = settled_limits(by, 0.3)
    assert (low, high) == (pytest.approx(47.4115, abs=2e-4), pytest.approx(52.5884, abs=2e-4))
    found = [each.value for each in smoothed(PROCESS, by, 0.3)]
    assert found == pytest.approx(PRINTED_EWMA, abs=6e-3)
    assert all(low < value < high for value in found)
    assert found[-1] > found[10] + 1.5  # the drift at its end is seen, and is within the limits


def test_the_sum_that_remembers():
    found = summed(LENGTHS, 325.0, 0.3175)
    assert [each.over for each in found] == pytest.approx(PRINTED_OVER, abs=6e-3)
    signals = [place for place, each in enumerate(found, 1) if each.over > 4.1959]
    assert signals[0] == 14
    assert began(found[:14]) == 12  # the thirteenth was the first of the shift
    assert max(each.under for each in found) < 4.1959


@pytest.mark.parametrize(
    ("count", "bias", "a3", "b3", "b4"),
    [
        (2, 0.7979, 2.659, 0, 3.267),
        (3, 0.8862, 1.954, 0, 2.568),
        (5, 0.9400, 1.427, 0, 2.089),
        (10, 0.9727, 0.975, 0.284, 1.716),
    ],
)
def test_the_factors_of_mean_and_deviation(count, bias, a3, b3, b4):
    assert c4(count) == pytest.approx(bias, abs=6e-5)
    by = GroupLimits(10.0, 1 / c4(count), 20)  # a mean deviation of 1
    assert by.mean_limits(count)[1] == pytest.approx(10 + a3, abs=6e-4)
    low, high = by.scatter_limits(count)
    assert (low, high) == (pytest.approx(b3, abs=6e-4), pytest.approx(b4, abs=6e-4))


def test_how_soon_a_shift_is_found():
    """Four hundred runs after a shift of one standard deviation: the mean is known to half a panel."""
    chance = np.random.default_rng(11)
    lengths = []
    for _ in range(400):
        sums = summed(chance.normal(1.0, 1.0, 120), 0.0, 0.5)
        lengths.append(next(place for place, each in enumerate(sums, 1) if each.over > 5))
    assert np.mean(lengths) == pytest.approx(10.4, abs=0.8)
