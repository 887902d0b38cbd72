"""A fit finds the diode behind a curve, and its errors say how well."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.curve.equation import bounds, frame_of, model, slopes
from panewright.curve.fit import fit
from panewright.curve.fitted import rmse_a
from panewright.curve.measured import Accuracy, Measured
from panewright.errors import CurveError

CELL = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
SOFT = replace(CELL, breakdown_siemens=0.005, breakdown_v=-18.0)  # soft breakdown, m = 3.4


def measured(diode, volts, scatter=0.0, seed=0, light=1000.0, accuracy=None):
    volts = np.asarray(volts, dtype=float)
    amperes = current_a(diode, volts) + scatter * np.random.default_rng(seed).standard_normal(volts.size)
    return Measured(tuple(volts.tolist()), tuple(amperes.tolist()), light, 25.0, accuracy or Accuracy())


def truth(diode):
    points = key_points(diode)
    return {
        "light_a": diode.light_a,
        "ln_saturation": float(np.log(diode.saturation_a)),
        "ideality_v": diode.ideality_v,
        "series_ohm": diode.series_ohm,
        "shunt_siemens": 1 / diode.shunt_ohm,
        "isc_a": points.isc_a,
        "voc_v": points.voc_v,
        "power_w": points.power_w,
    }


@pytest.mark.parametrize("optimum", ["exact", "implicit"])
@pytest.mark.parametrize("seed", range(8))
def test_points_of_a_diode_give_that_diode_back(seed, optimum):
    rng = np.random.default_rng(seed)
    diode = Diode(
        light_a=rng.uniform(1, 12),
        saturation_a=10 ** rng.uniform(-11, -7),
        ideality_v=rng.uniform(0.0257, 0.045),
        series_ohm=rng.choice([0.0, rng.uniform(0.001, 0.02)]),
        shunt_ohm=rng.choice([float("inf"), rng.uniform(1, 100)]),
    )
    volts = np.linspace(-0.05, 1.02 * key_points(diode).voc_v, int(rng.integers(9, 60)))
    found = fit(measured(diode, volts), optimum=optimum)
    assert found.rmse_exact_a < 1e-9 * diode.light_a
    assert found.diode.light_a == pytest.approx(diode.light_a, rel=1e-7)
    assert found.diode.ideality_v == pytest.approx(diode.ideality_v, rel=1e-6)
    assert found.diode.series_ohm == pytest.approx(diode.series_ohm, rel=1e-5, abs=1e-9)
    assert found.points.power_w == pytest.approx(key_points(diode).power_w, rel=1e-8)


@given(st.sampled_from(["exact", "implicit"]), st.lists(st.floats(0.02, 0.98), min_size=8, max_size=8))
def test_slopes_are_what_differences_say(optimum, shares):
    frame = frame_of(measured(SOFT, np.linspace(-14, 0.63, 20)), 1)
    least = np.array([0.5, -4, np.log(0.03), 0.0, 0.0, -7.0, -2.0, np.log(2.0)])
    most = np.array([1.2, 0.5, np.log(0.1), 0.1, 0.1, -3.0, 1.0, np.log(5.0)])
    theta = least + np.array(shares) * (most - least)
    got, step = slopes(frame, theta, optimum), 1e-6
    for place in range(8):
        ahead, behind = theta.copy(), theta.copy()
        ahead[place] += step
        behind[place] -= step
        difference = (model(frame, ahead, optimum) - model(frame, behind, optimum)) / (2 * step)
        assert got[:, place] == pytest.approx(difference, rel=1e-4, abs=1e-5 * (1 + abs(difference).max()))


@pytest.mark.parametrize("optimum", ["exact", "implicit"])
def test_one_standard_error_holds_two_thirds_of_the_truths(optimum):
    rng = np.random.default_rng(7)
    inside = dict.fromkeys(truth(CELL), 0)
    trials = 60
    for trial in range(trials):
        diode = Diode(
            CELL.light_a,
            CELL.saturation_a * 10 ** rng.uniform(-1, 2),
            CELL.ideality_v,
            rng.uniform(0.003, 0.008),
            rng.uniform(3.0, 20.0),
        )
        volts = np.linspace(-0.1, 1.03 * key_points(diode).voc_v, int(rng.integers(15, 60)))
        found = fit(measured(diode, volts, 0.01, seed=trial), optimum=optimum)
        for estimate in (*found.figures, *found.ends):
            inside[estimate.name] += abs(estimate.value - truth(diode)[estimate.name]) <= estimate.sigma
    for name, count in inside.items():
        assert 30 <= count <= 52, name  # 68 % of 60 is 41; outside is chance once in a thousand


def test_the_exact_optimum_lies_no_higher_than_the_truth_and_the_implicit_one_neither():
    curve = measured(CELL, np.linspace(-0.1, 0.64, 30), 0.02)
    exact, implicit = fit(curve), fit(curve, optimum="implicit")
    assert exact.rmse_exact_a <= min(implicit.rmse_exact_a, rmse_a(curve, CELL))
    assert implicit.rmse_implicit_a <= min(exact.rmse_implicit_a, rmse_a(curve, CELL, optimum="implicit"))
    assert exact.rmse_exact_a < implicit.rmse_implicit_a
    assert "exact" in exact.said[0]
    assert "implicit" in implicit.said[0]


@pytest.mark.parametrize("count", [5, 6, 8])
@pytest.mark.parametrize("seed", range(3))
def test_few_points_give_an_answer_with_its_errors(count, seed):
    found = fit(measured(CELL, np.linspace(0.0, 0.63, count), 0.01, seed))
    assert found.rmse_exact_a < 0.03
    assert all(estimate.sigma > 0 for estimate in found.figures)
    if count == 5 and not any(estimate.at_bound for estimate in found.figures):
        assert all(estimate.sigma == float("inf") for estimate in found.figures)


def test_five_points_with_a_stated_scatter_have_errors():
    curve = measured(CELL, [0.0, 0.3, 0.5, 0.58, 0.62], 0.005, accuracy=Accuracy(current_a=0.005))
    power = fit(curve).ends[2]
    assert power.name == "power_w"
    assert 0 < power.sigma < 0.1
    assert power.value == pytest.approx(key_points(CELL).power_w, abs=4 * power.sigma)


@pytest.mark.parametrize(("low", "high"), [(-0.1, 0.53), (0.0, 0.56), (0.42, 0.64), (0.5, 0.63)])
def test_half_a_curve_gives_an_answer_whose_errors_hold(low, high):
    inside = 0
    for seed in range(12):
        found = fit(measured(CELL, np.linspace(low, high, 40), 0.01, seed))
        inside += all(
            abs(e.value - truth(CELL)[e.name]) <= 3 * e.sigma for e in (*found.figures, *found.ends)
        )
    assert inside >= 10


def test_half_a_curve_knows_less_than_a_whole_one():
    whole, half = (fit(measured(CELL, np.linspace(-0.1, high, 40), 0.02)) for high in (0.64, 0.5))
    assert half.ends[1].sigma > 10 * whole.ends[1].sigma
    assert whole.unseen == ()
    assert half.unseen != ()
    assert any("hardly tell" in said for said in half.said)


@pytest.mark.parametrize(
    ("volts", "why"),
    [
        (np.linspace(-0.1, 0.3, 20), "does not bend"),
        (np.linspace(0.0, 0.6, 4), "too few"),
        (np.linspace(-10.0, -0.1, 20), "above zero volts"),
    ],
)
def test_a_curve_that_tells_nothing_is_one_clear_error(volts, why):
    with pytest.raises(CurveError, match=why) as caught:
        fit(measured(CELL, volts, 0.005))
    assert len(caught.value.problems) == 1
    assert caught.value.problems[0].cure


@pytest.mark.parametrize("count", [12, 60])
def test_a_dark_curve_has_no_light(count):
    dark = replace(CELL, light_a=0.0)
    found = fit(measured(dark, np.linspace(-0.5, 0.66, count), light=0.0))
    assert found.diode.light_a == 0.0
    assert found.ends == ()
    assert found.diode.saturation_a == pytest.approx(CELL.saturation_a, rel=1e-5)
    assert found.diode.series_ohm == pytest.approx(CELL.series_ohm, rel=1e-5)
    assert found.diode.shunt_ohm == pytest.approx(CELL.shunt_ohm, rel=1e-5)


@pytest.mark.parametrize("light_a", [0.0, 8.5679853])
def test_points_in_reverse_bring_the_breakdown_out(light_a):
    cell = replace(SOFT, light_a=light_a)
    volts = np.concatenate([np.linspace(-16.0, -0.5, 25), np.linspace(0.0, 0.65, 25)])
    found = fit(measured(cell, volts, 0.002, light=1000.0 if light_a else 0.0))
    assert found.diode.breakdown_v == pytest.approx(-18.0, rel=0.02)
    assert found.diode.breakdown_siemens == pytest.approx(0.005, rel=0.1)
    assert found.diode.ideality_v == pytest.approx(CELL.ideality_v, rel=0.02)


def test_reverse_points_without_breakdown_bring_none():
    volts = np.concatenate([np.linspace(-8.0, -0.5, 25), np.linspace(0.0, 0.65, 25)])
    found = fit(measured(CELL, volts, 0.002))
    assert found.diode.breakdown_siemens == 0.0
    assert len(found.figures) == 5


def test_resistances_that_are_not_there_come_out_at_their_bounds_and_it_is_said():
    ideal = replace(CELL, series_ohm=0.0, shunt_ohm=float("inf"))
    curves = [measured(ideal, np.linspace(-0.1, 0.64, 40), 0.02, seed) for seed in range(12)]
    found = [fit(curve) for curve in curves]
    assert any(one.diode.shunt_ohm == float("inf") for one in found)
    assert any(one.diode.series_ohm == 0.0 for one in found)
    for one in found:
        assert (one.diode.series_ohm == 0.0) == any("bound, zero" in said for said in one.said)
        assert (one.diode.shunt_ohm == float("inf")) == ("The shunt came out infinite." in one.said)


def test_a_string_of_equal_cells_is_fitted_as_one_of_them():
    volts = np.linspace(-0.1, 0.64, 40)
    one = measured(CELL, volts, 0.01)
    string = Measured(tuple((36 * volts).tolist()), one.current_a, 1000.0, 25.0)
    cell, of_36, as_one = fit(one), fit(string, 36), fit(string)
    assert of_36.diode.series_ohm == pytest.approx(cell.diode.series_ohm, rel=1e-7)
    assert of_36.diode.ideality_v == pytest.approx(cell.diode.ideality_v, rel=1e-7)
    assert as_one.diode.series_ohm == pytest.approx(36 * cell.diode.series_ohm, rel=1e-7)
    assert of_36.whole.shunt_ohm == pytest.approx(as_one.diode.shunt_ohm, rel=1e-7)
    assert of_36.ideality == pytest.approx(cell.ideality, rel=1e-7)
    assert of_36.ends[1].value == pytest.approx(36 * cell.ends[1].value)


def test_a_robust_fit_forgives_what_a_plain_one_does_not():
    curve = measured(CELL, np.linspace(-0.1, 0.64, 50), 0.005)
    amperes = curve.amperes.copy()
    amperes[[12, 30, 44]] += [0.8, -0.9, 0.7]
    spoilt = replace(curve, current_a=tuple(amperes.tolist()))
    plain, robust = (abs(fit(spoilt, robust=how).points.power_w - key_points(CELL).power_w) for how in (0, 1))
    assert robust < 0.3 * plain
    assert robust < 0.01


def test_weights_take_the_steep_points_for_what_they_are():
    accuracy = Accuracy(voltage_v=0.004, current_a=0.001)
    plain, weighed = [], []
    for seed in range(12):
        rng = np.random.default_rng(seed)
        volts = np.linspace(-0.1, 0.64, 40)
        amperes = current_a(CELL, volts + 0.004 * rng.standard_normal(40)) + 0.001 * rng.standard_normal(40)
        curve = Measured(tuple(volts.tolist()), tuple(amperes.tolist()), 1000.0, 25.0, accuracy)
        for how, kept in ((False, plain), (True, weighed)):
            found = fit(curve, weigh=how)
            kept.append((found.diode.shunt_ohm**-1 - 1 / CELL.shunt_ohm) ** 2)
            isc = found.ends[0]
            assert abs(isc.value - key_points(CELL).isc_a) < 4 * isc.sigma
    assert np.mean(weighed) < 0.3 * np.mean(plain)


def test_weights_need_a_stated_scatter():
    with pytest.raises(ValueError, match="states none"):
        fit(measured(CELL, np.linspace(0.0, 0.64, 20)), weigh=True)


def test_a_point_read_four_times_counts_four_times():
    volts = np.linspace(0.0, 0.64, 20)
    curve = measured(CELL, volts, 0.02)
    thrice = replace(curve, repeats=(4, *(1,) * 19))
    first = abs(current_a(fit(curve).diode, 0.0) - curve.current_a[0])
    assert abs(current_a(fit(thrice).diode, 0.0) - curve.current_a[0]) < first


def test_gains_widen_the_errors_they_touch_and_no_others():
    volts = np.linspace(-0.1, 0.64, 40)
    bare = fit(measured(CELL, volts, 0.005))
    gained = fit(measured(CELL, volts, 0.005, accuracy=Accuracy(current_gain=0.02)))
    sigma = {
        one.name: (one.sigma, other.sigma) for one, other in zip(bare.figures, gained.figures, strict=True)
    }
    assert sigma["light_a"][1] == pytest.approx(
        np.hypot(sigma["light_a"][0], 0.02 * bare.diode.light_a), rel=1e-6
    )
    assert sigma["ideality_v"][1] == pytest.approx(sigma["ideality_v"][0], rel=1e-9)


def test_saturation_and_ideality_go_together():
    found = fit(measured(CELL, np.linspace(-0.1, 0.64, 40), 0.01))
    assert found.correlations[1][2] > 0.99
    assert any("go together" in said for said in found.said)


def test_the_search_covers_any_cell():
    least, most = bounds(5)
    assert np.all(least < most)
