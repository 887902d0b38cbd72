"""Curves moved to another light and heat: laws that hold for any panel, and what is told where they end."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.moved.choice import Given, most_fitting
from panewright.curve.moved.coefficients import Coefficient, from_nameplate, typical
from panewright.curve.moved.corrections import OneDiode, move_1, move_2, move_4
from panewright.curve.moved.families import families
from panewright.curve.moved.found import coefficients
from panewright.curve.moved.interpolation import move_3
from panewright.curve.moved.moved import STC, Target
from panewright.curve.moved.steady import in_mean_light
from panewright.curve.points import read_points
from panewright.errors import CurveError

MODEL = CellModel(Diode(8.57, 3.5e-9, 1.036, 0.198, 740.0), 1.04, 0.0005, 1.0)
TRUE = key_points(MODEL.stc)
BY = typical(TRUE.isc_a, TRUE.voc_v)
ONE_DIODE = OneDiode(36, Coefficient(0.198, 0.02, "recalled"), BY.alpha_per_k)
MOVES = {
    "1": lambda curve, target: move_1(curve, BY, target),
    "2": lambda curve, target: move_2(curve, BY, target),
    "4": lambda curve, target: move_4(curve, ONE_DIODE, target),
}
LIGHTS, HEATS = st.floats(300, 1100), st.floats(0, 70)
EACH = pytest.mark.parametrize("move", MOVES.values(), ids=MOVES)


def curve(light, heat, past=1.5, count=80, scatter=0.0, seed=0):
    diode = diode_at(MODEL, light, heat)
    volts = np.linspace(0.0, key_points(diode).voc_v + past, count)
    amperes = current_a(diode, volts) + scatter * np.random.default_rng(seed).standard_normal(count)
    return Measured(tuple(volts.tolist()), tuple(amperes.tolist()), light, heat, Accuracy(current_a=scatter))


def pmp(measured):
    return read_points(measured).power_w.value


@EACH
@given(light=LIGHTS, heat=HEATS)
@settings(max_examples=20, deadline=None)
def test_moving_to_the_same_condition_moves_nothing(move, light, heat):
    still = curve(light, heat, count=30)
    there = move(still, Target(light, heat)).curve
    assert there.voltage_v == pytest.approx(still.voltage_v, abs=1e-9)
    assert there.current_a == pytest.approx(still.current_a, abs=1e-9)


@EACH
@given(light=st.floats(834, 1200), heat=st.floats(15, 60))
@settings(max_examples=20, deadline=None)
def test_there_and_back_is_where_it_began(move, light, heat):
    """To what the laws themselves are not reversible in: alpha of another Isc, Isc and Voc as read."""
    begun = curve(light, heat, past=3.0)
    back = move(move(begun, STC).curve, Target(light, heat)).curve
    isc = begun.amperes.max()
    assert np.abs(back.amperes - begun.amperes).max() < 4e-3 * isc
    assert np.abs(back.volts - begun.volts).max() < 5e-3 * begun.volts.max()


@given(light=LIGHTS, share=st.floats(0, 1), heat=st.floats(10, 60))
@settings(max_examples=20, deadline=None)
def test_procedure_3_gives_back_its_own_curves_and_what_lies_between_exact_ones(light, share, heat):
    """Of two exact curves of one diode in one light: Pmp between them, over 20 K, to a thousandth."""
    one, other = curve(light, heat), curve(light, heat + 20)
    ends = move_3((one, other), Target(light, heat)).curve
    assert np.interp(5.0, ends.volts, ends.amperes) == pytest.approx(
        np.interp(5.0, one.volts, one.amperes), rel=1e-9
    )
    found = move_3((one, other), Target(light, heat + 20 * share))
    assert found.within or found.checks[2].demand < 0.03  # the dimmer end may lack some points
    true = curve(light, heat + 20 * share)
    assert pmp(found.curve) == pytest.approx(pmp(true), rel=1.5e-3)  # both as read from 80 points


def test_three_curves_reach_what_lies_in_their_triangle():
    three = (curve(700, 20, 4), curve(1050, 20, 4), curve(900, 45, 4))
    found = move_3(three, Target(900, 28))
    assert found.within
    assert found.curve.irradiance_w_m2 == pytest.approx(900)
    assert found.curve.cell_c == pytest.approx(28)
    assert pmp(found.curve) == pytest.approx(key_points(diode_at(MODEL, 900, 28)).power_w, rel=1.5e-3)


def test_of_many_curves_those_closest_round_the_target_are_taken():
    far = (curve(400, 60, 8), curve(450, 62, 8), curve(1100, 70, 4))
    near = (curve(880, 24, 4), curve(930, 24, 4), curve(900, 33, 4))
    found, alone = move_3((*far, *near), Target(900, 28)), move_3(near, Target(900, 28))
    assert found.within
    assert found.curve == alone.curve


def test_the_order_of_the_curves_is_the_same_to_procedure_3():
    three = [curve(700, 20, 4), curve(1050, 20, 4), curve(900, 45, 4)]
    one, other = move_3(three, Target(900, 28)), move_3(three[::-1], Target(900, 28))
    assert pmp(one.curve) == pytest.approx(pmp(other.curve), rel=3e-4)


def test_an_interpolation_that_extrapolates_or_misses_says_so():
    far = move_3((curve(800, 45, 4), curve(900, 45, 4)), STC)
    broken = {check.rule for check in far.checks if not check.passed}
    assert {"procedure 3 within its curves", "procedure 3 leads to its target"} <= broken


@pytest.mark.parametrize(
    ("curves", "word"),
    [
        ([curve(900, 40)], "not 1"),
        ([curve(900, 40)] * 4, "All 4 curves lie in one light"),
        ([curve(900, 40), curve(905, 40)], "one light and heat"),
        ([curve(600, 40), curve(800, 40), curve(1000, 40)], "one line"),
    ],
)
def test_curves_between_which_nothing_lies_are_refused(curves, word):
    with pytest.raises(CurveError, match=word):
        move_3(curves, STC)


def test_noisy_points_move_as_their_curve_does():
    noisy = curve(850, 48, count=120, scatter=0.02, seed=3)
    for move in MOVES.values():
        clean_w = pmp(move(curve(850, 48, count=120), STC).curve)
        assert pmp(move(noisy, STC).curve) == pytest.approx(clean_w, rel=3e-3)
    pair = move_3((noisy, curve(1050, 20, 3, 120, 0.02, 4)), Target(950, 34))
    assert pmp(pair.curve) == pytest.approx(key_points(diode_at(MODEL, 950, 34)).power_w, rel=4e-3)


def test_a_dark_curve_or_one_without_an_end_cannot_be_moved():
    dark = Measured((0.0, 1.0, 2.0), (0.0, -0.1, -0.2), 0.0, 25.0)
    with pytest.raises(ValueError, match="without light"):
        move_1(dark, BY)
    half = curve(900, 40)
    half = Measured(half.voltage_v[40:], half.current_a[40:], 900, 40)
    with pytest.raises(CurveError, match="too far from short circuit"):
        move_1(half, BY)


def test_the_fittest_procedure_is_taken_and_all_others_stand_beside_it():
    sunny, dim = curve(900, 45, 4), curve(500, 45, 12)
    known = coefficients([*(curve(g, 25) for g in (500, 700, 1000)), curve(1000, 40), curve(1000, 60)])
    assert most_fitting(Given((sunny,), known)).taken.moved.procedure == "1"
    assert most_fitting(Given((dim,), known)).taken.moved.procedure == "2"
    assert most_fitting(Given((sunny,), BY, ONE_DIODE)).taken.moved.procedure == "4"
    round_it = (sunny, curve(1100, 15, 4), curve(950, 15, 4))
    chosen = most_fitting(Given(round_it, known, ONE_DIODE))
    assert chosen.taken.moved.procedure == "3"
    assert {gone.moved.procedure for gone in chosen.others} == {"1", "2", "4"}
    assert chosen.why.startswith("Procedure 3: the curves stand round")
    assert 0 < chosen.spread("power_w") < 0.01
    assert chosen.taken.points.power_w.value == pytest.approx(TRUE.power_w, rel=3e-3)


def test_with_nothing_known_of_the_panel_no_curve_is_moved():
    with pytest.raises(CurveError, match="nothing known of the panel"):
        most_fitting(Given((curve(900, 40),)))


def test_a_curve_at_its_target_is_left_as_it_is():
    chosen = most_fitting(Given((curve(1000, 25),)))
    assert chosen.taken.moved.curve.current_a == curve(1000, 25).current_a
    assert chosen.spread("power_w") is None


def test_curves_that_span_too_little_are_refused_with_all_that_is_missing():
    with pytest.raises(CurveError) as told:
        families([curve(900, 40), curve(900, 45), curve(800, 44)])
    assert [problem.reason for problem in told.value.problems] == [
        "2 curves in one light span 5 K.",
        "2 curves of unlike light lie within 2 K of one temperature.",
    ]


def test_scatter_widens_what_is_said_of_the_coefficients():
    def of(scatter):
        places = [(600, 25), (800, 25), (1000, 25), (1000, 45), (1000, 65)]
        return coefficients([curve(g, t, 1.5, 60, scatter, k) for k, (g, t) in enumerate(places)])

    quiet, loud = of(0.002), of(0.03)
    for read in (lambda by: by.first.ohm, lambda by: by.beta_per_k, lambda by: by.alpha_per_k):
        assert read(loud).sigma > 1.2 * read(quiet).sigma
        assert abs(read(loud).value - read(quiet).value) <= 3 * read(loud).sigma


def test_a_nameplate_brings_its_slopes_and_leaves_the_rest_recalled():
    by = from_nameplate(9.0, 22.0, 0.0005, -0.0033)
    assert (by.beta_per_k.value, by.beta_per_k.whence) == (-0.0033, "a nameplate")
    assert by.first.ohm.whence == "recalled"
    assert by.alpha_a_k == pytest.approx(0.0045)


@given(st.floats(-0.04, 0.04), st.booleans())
@settings(max_examples=25, deadline=None)
def test_light_that_moves_during_the_sweep_is_taken_out(slope, load_signs):
    """Swept through a light that drifts by up to four percent either way: Pmp as in steady light."""
    volts = np.linspace(0.0, 23.0, 60)
    lights = 900 * (1 + slope * np.linspace(-1, 1, 60))
    amperes = [float(current_a(diode_at(MODEL, g, 45.0), v)) for v, g in zip(volts, lights, strict=True)]
    sign = -1 if load_signs else 1
    steady = in_mean_light(volts, [sign * i for i in amperes], lights, 0.2)
    found = Measured(steady.voltage_v, tuple(sign * i for i in steady.current_a), 900, 45)
    assert pmp(found) == pytest.approx(
        pmp(curve(900, 45, 23 - key_points(diode_at(MODEL, 900, 45)).voc_v, 60)), rel=1e-4
    )
    assert steady.was_steady == (abs(slope) <= 0.01) or abs(slope) == pytest.approx(0.01)
    assert steady.drift_share == pytest.approx(abs(slope), abs=1e-12)


def test_a_reading_under_a_cloud_moves_as_procedure_1_moves_it_from_its_own_light():
    """IEC 60891 (recalled): I2 - I1 = Isc1 (G2 / G1 - 1), V2 - V1 = -Rs (I2 - I1), with Isc1 at G1."""
    isc_a = 5.0
    volts, lights = np.array([0.0, 5.0, 10.0, 15.0]), np.array([1050.0, 1050.0, 1050.0, 850.0])
    amps = np.array([1.05, 1.05, 1.05, 0.85]) * isc_a  # of a curve that is flat
    steady = in_mean_light(volts, amps, lights, BY.first.ohm.value)
    own = Measured(tuple(np.linspace(0, 20, 41)), (0.85 * isc_a,) * 40 + (-1.0,), 850, 25)
    there = move_1(own, BY, Target(1000.0, 25.0)).curve
    assert steady.current_a == pytest.approx((isc_a,) * 4, rel=1e-12)
    assert there.current_a[30] == pytest.approx(steady.current_a[3], rel=1e-6)
    assert there.voltage_v[30] == pytest.approx(steady.voltage_v[3], rel=1e-6)


def test_readings_at_the_end_of_the_range_are_seen_though_each_is_moved_by_its_own_light():
    volts = np.linspace(0.0, 21.0, 60)
    lights = 900 * (1 + 0.03 * np.linspace(-1, 1, 60))
    amps = [float(current_a(diode_at(MODEL, g, 45.0), v)) for v, g in zip(volts, lights, strict=True)]
    steady = in_mean_light(volts, np.minimum(amps, 7.0), lights)
    cut = sum(each > 7.0 for each in amps)
    assert cut > 20
    assert steady.stuck == tuple((v, 7.0) for v in volts[:cut])
    assert steady.voltage_v == tuple(volts[cut:])
    assert f"{cut} points stuck" in steady.said[1]


@pytest.mark.parametrize(
    ("lights", "word"), [((900.0, 901.0), "side by side"), ((900.0, 0.0, 900.0), "0 W/m2")]
)
def test_light_that_does_not_stand_beside_each_reading_is_refused(lights, word):
    with pytest.raises(CurveError, match=word):
        in_mean_light((0.0, 1.0, 2.0), (1.0, 0.9, 0.1), lights)
