"""The label never states less than the panel can do to others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.rating import (
    FUSES_A,
    cold_factor,
    fuse_size_check,
    label_fuse_a,
    label_system_v,
    system_voltage_check,
)


@given(st.floats(0.01, 60.0))
def test_fuse_is_a_size_as_sold_and_the_least_that_is_large_enough(isc_a):
    fuse = label_fuse_a(isc_a)
    assert fuse in FUSES_A
    assert fuse >= 1.5625 * isc_a * (1 - 1e-9)
    assert all(size >= fuse or size < 1.5625 * isc_a for size in FUSES_A)


def test_a_current_past_the_largest_fuse_is_a_check_that_fails():
    assert label_fuse_a(70.0) == 100.0
    assert not fuse_size_check(70.0).passed
    assert fuse_size_check(60.0).passed


@pytest.mark.parametrize(
    ("cold_v", "step_v"), [(25.9, 35), (35.0, 35), (35.1, 60), (61, 120), (140, 300), (1001, 1500)]
)
def test_system_voltage_is_the_next_step(cold_v, step_v):
    assert label_system_v(cold_v) == step_v


def test_a_pinned_system_voltage_stands_and_is_judged():
    assert label_system_v(25.0, pinned_v=600.0) == 600.0
    assert system_voltage_check(25.0, 600.0).passed
    assert not system_voltage_check(40.0, label_system_v(40.0, pinned_v=35.0)).passed


def test_past_the_last_step_is_an_error_that_names_it():
    with pytest.raises(ValueError, match="1500 V"):
        label_system_v(1600.0)


@given(st.floats(-40, 60), st.floats(-40, 60))
def test_colder_never_means_less_voltage(one_c, other_c):
    cold, warm = sorted((one_c, other_c))
    assert cold_factor(cold) >= cold_factor(warm)
