"""Laws of cooled tabs on a brittle wafer."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from panewright.ribbon.stress import (
    BROKEN,
    SILICON_NU,
    SILICON_PA,
    SOLDER_PA,
    Wafer,
    both_faces,
    end_mpa,
    one_face,
    strength_mpa,
    stress_checks,
)
from panewright.ribbon.strip import Strip

WAFER = Wafer(156.0, 156.0, 0.2, 3)
TAB_OF_BUS, THIN = Strip("2.6 x 0.43", 2.6, 0.43, yield_mpa=52.0), Wafer(168.0, 79.0, 0.14, 5)
TAB = Strip("1.6 x 0.2", 1.6, 0.2)
tabs = st.builds(
    Strip,
    st.just(""),
    st.floats(0.5, 3.0),
    st.floats(0.05, 0.4),
    coat_mm=st.floats(0, 0.03),
    yield_mpa=st.floats(30, 300),
)
wafers = st.builds(Wafer, st.floats(50, 220), st.floats(50, 220), st.floats(0.12, 0.3), st.integers(1, 12))


def test_a_soft_tab_by_hand():
    # 80 MPa on 1.6 x 0.2 mm; 0.22 mm off the middle of 52 x 0.2 mm of wafer
    pull = one_face(TAB, WAFER)
    assert pull.yields
    assert pull.force_n == pytest.approx(25.6)
    assert pull.squeezed_mpa == pytest.approx(25.6 / 10.4)
    assert pull.bent_mpa == pytest.approx(6 * 25.6 * 0.22 / (52 * 0.04))
    assert pull.bow_mm == pytest.approx(25.6 * 0.22 / (130e3 * 52 * 0.008 / 12) * 156**2 / 8)


@given(tabs, wafers)
def test_silicon_and_copper_hold_each_other(tab, wafer):
    pull = one_face(tab, wafer)
    area = wafer.pitch_mm * wafer.thickness_mm
    assert pull.squeezed_mpa * area == pytest.approx(pull.force_n)
    assert pull.force_n <= tab.yield_mpa * tab.width_mm * tab.thickness_mm * (1 + 1e-12)


@given(tabs, wafers)
def test_an_elastic_tab_pulls_with_the_strain_that_is_left(tab, wafer):
    hard = replace(tab, yield_mpa=1e6)
    once, twice = one_face(hard, wafer, 100.0, 20.0), one_face(hard, wafer, 180.0, 20.0)
    assert not twice.yields
    assert twice.force_n == pytest.approx(2 * once.force_n)
    assert twice.bow_mm == pytest.approx(2 * once.bow_mm)


@given(tabs, wafers)
def test_tabs_on_both_faces_squeeze_and_do_not_bend(tab, wafer):
    pull = both_faces(tab, wafer)
    assert (pull.bent_mpa, pull.across_mpa, pull.bow_mm) == (0.0, 0.0, 0.0)
    assert pull.stretched_mpa < 0
    single = one_face(tab, wafer)
    if pull.yields and single.yields:
        assert pull.squeezed_mpa == pytest.approx(2 * single.squeezed_mpa)


@given(tabs, wafers)
def test_a_softer_tab_a_thicker_wafer_and_fewer_tabs_strain_less(tab, wafer):
    assume(one_face(tab, wafer).yields and wafer.tabs > 1)
    pull = one_face(tab, wafer)
    softer = one_face(replace(tab, yield_mpa=0.8 * tab.yield_mpa), wafer)
    thicker = one_face(tab, replace(wafer, thickness_mm=1.2 * wafer.thickness_mm))
    fewer = one_face(tab, replace(wafer, tabs=wafer.tabs - 1))
    for less in (softer, thicker):
        assert less.bow_mm < pull.bow_mm
        assert less.bent_mpa < pull.bent_mpa
    assert fewer.bent_mpa < pull.bent_mpa or not fewer.yields


def test_the_end_of_a_tab_agrees_with_point_loads_summed_over_its_patch():
    # Stresses of single forces and moments in and on an infinite plate, by rule of thumb nowhere used above
    force, nu, thick = one_face(TAB, WAFER).force_n, SILICON_NU, 0.2
    long = force / (SOLDER_PA * 1e-6 * 1.6)
    x, y = np.meshgrid((np.arange(2000) + 0.5) / 2000 * long, ((np.arange(2000) + 0.5) / 2000 - 0.5) * 1.6)
    square = x**2 + y**2
    plane = x / square * ((3 + nu) * x**2 + (1 - nu) * y**2) / square / (4 * pi * thick)
    moment = ((1 + nu) * x / square + (1 - nu) * 2 * x * y**2 / square**2) / (4 * pi)
    summed = force * (plane.mean() + 6 / thick**2 * (thick / 2) * moment.mean())
    assert end_mpa(TAB, WAFER, force) == pytest.approx(summed, rel=1e-3)


def test_a_short_patch_gives_half_of_what_would_cross_a_strip_as_wide_as_the_tab():
    force = 1e-4
    section = 1.6 * 0.2
    crossing = force / section + 6 * force * (0.2 / 2) / (section * 0.2)
    assert end_mpa(TAB, WAFER, force) == pytest.approx(crossing / 2, rel=1e-3)


@given(st.floats(0.1, 1e5), st.floats(1e-4, 0.9))
def test_large_faces_and_few_breakages_allow_less(face, broken):
    assert strength_mpa(2 * face, broken) < strength_mpa(face, broken)
    assert strength_mpa(face, broken / 2) < strength_mpa(face, broken)
    assert strength_mpa(2 * face, broken) == pytest.approx(strength_mpa(face, broken) / 2**0.1)


def test_the_check_asks_no_more_than_the_bench_loses_shared_by_all_ends():
    under, end = stress_checks(TAB, WAFER)
    assert under.limit == pytest.approx(strength_mpa(3 * 1.6 * 156.0, BROKEN))
    assert end.limit == pytest.approx(strength_mpa(0.32, BROKEN / 6))
    assert (under.demand, end.demand) == (
        one_face(TAB, WAFER).across_mpa,
        end_mpa(TAB, WAFER, one_face(TAB, WAFER).force_n),
    )
    assert under.passed
    assert end.passed


def test_a_bus_used_as_a_tab_bends_a_thin_wafer_too_far():
    under, _ = stress_checks(TAB_OF_BUS, THIN)
    assert not under.passed
    assert under.demand == one_face(TAB_OF_BUS, THIN).stretched_mpa


def test_bow_is_that_of_an_arc():
    pull = one_face(TAB, WAFER)
    curvature = pull.bent_mpa * 1e6 / (SILICON_PA * 0.1e-3)
    assert pull.bow_mm == pytest.approx(curvature * 0.156**2 / 8 * 1e3)


@pytest.mark.parametrize("wrong", [(0.0, 156.0, 0.2, 3), (156.0, 156.0, 0.2, 0)])
def test_nonsense_is_refused_at_birth(wrong):
    with pytest.raises(ValueError, match="got Wafer"):
        Wafer(*wrong)


def test_no_face_and_no_breakage_have_no_strength():
    for face, broken in ((0.0, 0.03), (1.0, 0.0), (1.0, 1.0)):
        with pytest.raises(ValueError, match="face has a size"):
            strength_mpa(face, broken)


@given(tabs, wafers)
def test_stress_across_a_tab_knows_neither_the_pitch_nor_the_width(tab, wafer):
    pull = one_face(tab, wafer)
    assume(pull.yields)
    other = one_face(tab, replace(wafer, width_mm=2 * wafer.width_mm))
    assume(other.yields)
    assert other.across_mpa == pytest.approx(pull.across_mpa)
