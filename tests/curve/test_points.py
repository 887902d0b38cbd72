"""Isc, Voc and maximum power read without a model, with errors that hold."""

import numpy as np
import pytest

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.points import read_points

CELL = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
TRUE = key_points(CELL)


def measured(low, high, count=60, scatter=0.0, seed=0, accuracy=None):
    volts = np.linspace(low, high, count)
    amperes = current_a(CELL, volts) + scatter * np.random.default_rng(seed).standard_normal(count)
    return Measured(
        tuple(volts.tolist()), tuple(amperes.tolist()), 1000.0, 25.0, accuracy or Accuracy(current_a=scatter)
    )


def test_a_fine_curve_without_scatter_is_read_to_a_few_parts_in_ten_thousand():
    read = read_points(measured(-0.02, 0.64, 100))
    assert read.isc_a.value == pytest.approx(TRUE.isc_a, rel=1e-6)
    assert read.voc_v.value == pytest.approx(TRUE.voc_v, rel=3e-4)
    assert read.power_w.value == pytest.approx(TRUE.power_w, rel=5e-4)
    assert read.vmp_v.value == pytest.approx(TRUE.vmp_v, rel=5e-3)
    assert read.fill_factor == pytest.approx(TRUE.fill_factor, rel=5e-4)


@pytest.mark.parametrize("name", ["isc_a", "voc_v", "power_w", "vmp_v", "imp_a"])
@pytest.mark.parametrize(("count", "scatter"), [(20, 0.02), (60, 0.05), (200, 0.02)])
def test_the_truth_lies_within_two_errors_as_often_as_it_should(name, count, scatter):
    inside = 0
    for seed in range(60):
        read = getattr(read_points(measured(-0.02, 0.64, count, scatter, seed)), name)
        inside += abs(read.value - getattr(TRUE, name)) <= 2 * read.sigma
    assert inside >= 51  # 95 % of 60 is 57; fewer than 51 is chance once in a thousand


@pytest.mark.parametrize("name", ["isc_a", "voc_v", "power_w"])
def test_the_errors_are_not_made_large_to_be_safe(name):
    read = getattr(read_points(measured(-0.02, 0.64, 100, 0.02)), name)
    assert read.sigma < 0.005 * read.value


def test_a_value_outside_the_points_is_marked():
    read = read_points(measured(0.05, 0.61))
    assert read.isc_a.extrapolated
    assert read.voc_v.extrapolated
    assert not read.power_w.extrapolated
    assert read.isc_a.value == pytest.approx(TRUE.isc_a, abs=3 * read.isc_a.sigma + 1e-6)
    assert read.voc_v.value == pytest.approx(TRUE.voc_v, abs=3 * read.voc_v.sigma)


def test_what_the_curve_does_not_reach_is_not_there():
    left = read_points(measured(-0.02, 0.40))
    assert left.voc_v is None
    assert left.power_w is None
    assert left.fill_factor is None
    assert read_points(measured(0.45, 0.64)).isc_a is None


def test_a_dark_curve_has_no_key_points():
    volts = np.linspace(0.0, 0.6, 20)
    dark = current_a(Diode(0.0, 1e-9, 0.028, 0.004, 20.0), volts)
    read = read_points(Measured(tuple(volts.tolist()), tuple(dark.tolist()), 0.0, 25.0))
    assert (read.isc_a, read.voc_v, read.power_w) == (None, None, None)


def test_gains_move_the_whole_curve_and_do_not_average_out():
    gain = Accuracy(current_gain=0.01, voltage_gain=0.002)
    read = read_points(measured(-0.02, 0.64, 300, accuracy=gain))
    assert read.isc_a.sigma == pytest.approx(0.01 * TRUE.isc_a, rel=0.05)
    assert read.voc_v.sigma == pytest.approx(0.002 * TRUE.voc_v, rel=0.05)
    assert read.power_w.sigma == pytest.approx(np.hypot(0.01, 0.002) * TRUE.power_w, rel=0.05)


@pytest.mark.parametrize("count", [9, 15, 25])
def test_few_points_on_both_sides_of_the_axis_give_voc_as_the_curve_runs_between_them(count):
    coarse = measured(0.0, TRUE.voc_v + 1e-4, count)
    read = read_points(coarse).voc_v
    assert read.value == pytest.approx(TRUE.voc_v, rel=1e-4)
    assert abs(read.value - TRUE.voc_v) <= 2 * read.sigma < 0.02 * TRUE.voc_v


@pytest.mark.parametrize("series", [0.0005, 0.004, 0.016])
@pytest.mark.parametrize("count", [40, 60, 200])
def test_a_sharp_knee_is_read_as_well_as_a_round_one(series, count):
    """Windows round the peak: without scatter Pmp to 4 parts in ten thousand, and the error says how well."""
    cell = Diode(8.5679853, 3.498345e-9, 0.02877568862, series, 20.5457)
    true = key_points(cell)
    volts = np.linspace(0.0, true.voc_v + 0.02, count)
    curve = Measured(tuple(volts.tolist()), tuple(current_a(cell, volts).tolist()), 1000.0, 25.0)
    read = read_points(curve).power_w
    assert read.value == pytest.approx(true.power_w, rel=4e-4)
    assert read.sigma < 1e-3 * read.value
