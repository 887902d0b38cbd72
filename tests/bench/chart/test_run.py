"""A run of panels told as checks: it is silent on good panels, and names what moved and since when."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.bench.chart.drift import began, smoothed, summed
from panewright.bench.chart.limits import Limits, limits
from panewright.bench.chart.run import (
    PULL,
    RATING,
    STRING_VOC,
    Run,
    stop_and_look,
    watch,
    watch_groups,
    weakest_peel,
)
from panewright.bench.chart.subgroups import GroupLimits, group_limits
from panewright.errors import BenchError

GOOD = Limits(1.0, 0.01, 40)
SERIALS = tuple(f"P-{number:04}" for number in range(1, 61))


def run(values, watched=RATING, by=GOOD):
    return Run(watched, by, SERIALS[: len(values)], tuple(values))


def broken(values):
    return [check.rule.split(": ")[1] for check in watch(run(values)) if not check.passed]


def good(count, seed=0):
    return (1 + 0.01 * np.random.default_rng(seed).standard_normal(count)).tolist()


def test_good_panels_alarm_about_once_in_a_hundred():
    """Five thousand good panels in runs of 20: a plain chart alone alarms once in 370."""
    alarms = sum(bool(broken(good(20, seed))) for seed in range(250))
    assert 20 <= alarms <= 60


@pytest.mark.parametrize(
    ("values", "rule", "words"),
    [
        ([*good(6), 0.95], "within three sigma", "Stop and look at P-0007. Isc, Voc and fill factor"),
        ([*good(6), 1.05], "within three sigma", "Stop and look at P-0007. A reference cell that is dirty"),
        ([1.004] * 5 + [0.996] * 8, "values in a row on one side", "at about P-0006"),
        ([1.0] * 10 + [0.988] * 12, "slow drift", "since about P-0011"),
        ([1.022, 0.978, 1.02], "jump between neighbours", "Look at P-0001 and P-0002. Moving clouds"),
    ],
)
def test_each_kind_of_trouble_is_named_with_its_serial(values, rule, words):
    checks = {check.rule.split(": ")[1]: check for check in watch(run(values))}
    assert not checks[rule].passed
    assert words in checks[rule].cure


def test_a_slow_drift_is_found_before_any_panel_is_outside():
    """A loss of a tenth of a standard deviation a panel."""
    values = [1 - 0.001 * k for k in range(22)]
    assert "within three sigma" not in broken(values)
    assert "slow drift" in broken(values)


def test_the_first_thing_to_look_at_stands_first_and_a_quiet_run_says_nothing():
    assert stop_and_look(watch(run(good(12, 4)))) == ()
    told = stop_and_look(watch(run([*good(6), 0.95])))
    assert told[0].startswith("power rated against prediction: within three sigma: Stop and look at P-0007.")


def test_limits_from_few_panels_are_told_to_be_loose():
    few = watch(run(good(5), by=limits(good(8))))
    assert [check.rule for check in few if not check.passed] == [
        "power rated against prediction: values behind the limits"
    ]


@given(st.lists(st.floats(0.9, 1.1), min_size=1, max_size=30), st.floats(0.5, 3), st.floats(-5, 5))
@settings(max_examples=60, deadline=None)
def test_the_unit_of_a_chart_does_not_matter(values, scale, shift):
    other = Run(
        RATING,
        Limits(GOOD.centre * scale + shift, GOOD.sigma * scale, 40),
        SERIALS[: len(values)],
        tuple(value * scale + shift for value in values),
    )
    for one, two in zip(watch(run(values)), watch(other), strict=True):
        if "row" not in one.rule:  # a value at the very middle may fall to either side
            assert one.demand == pytest.approx(two.demand, rel=1e-6, abs=1e-6)


@given(st.lists(st.floats(-3, 3), min_size=1, max_size=40))
def test_the_forgetting_mean_lies_among_its_values_and_the_sums_are_never_below_nothing(values):
    found = smoothed(values, Limits(0.0, 1.0, 30))
    low, high = min(0.0, *values), max(0.0, *values)
    assert all(low - 1e-9 <= each.value <= high + 1e-9 for each in found)
    sums = summed(values, 0.0, 0.5)
    assert all(each.over >= 0 and each.under >= 0 for each in sums)
    since = began(sums)
    assert since is None or 0 <= since < len(values)


PEELED = [np.random.default_rng(seed).normal(2.4, 0.3, 5).tolist() for seed in range(20)]


def test_limits_of_groups_are_those_of_what_they_were_drawn_from():
    by = group_limits(PEELED)
    assert by.centre == pytest.approx(2.4, abs=0.07)
    assert by.sigma == pytest.approx(0.3, rel=0.15)
    unlike = group_limits([*PEELED, [2.3, 2.5], [2.4, 2.6, 2.2, 2.1, 2.6, 2.7, 2.9]])
    assert unlike.sigma == pytest.approx(by.sigma, rel=0.1)


def test_peel_samples_are_watched_in_mean_and_in_scatter():
    by = group_limits(PEELED)
    same = watch_groups(PULL, by, SERIALS[:2], [[2.3, 2.5, 2.4], [2.6, 2.2, 2.5]])
    assert all(check.passed for check in same)
    cold = watch_groups(PULL, by, SERIALS[:2], [[2.3, 2.5, 2.4], [1.5, 1.6, 1.4]])
    assert [check.rule for check in cold if not check.passed] == ["joint pull: mean within three sigma"]
    assert "P-0002. A cold or worn tip" in cold[1].cure
    wild = watch_groups(PULL, by, SERIALS[:1], [[1.2, 3.6, 2.4]])
    assert [check.rule for check in wild if not check.passed] == ["joint pull: scatter within a panel"]


def test_hardly_a_joint_may_be_weaker_than_the_least():
    assert weakest_peel(GroupLimits(2.4, 0.3, 20)).passed
    assert not weakest_peel(GroupLimits(2.4, 0.6, 20)).passed


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (lambda: limits([1.0]), "begins with 2 values"),
        (lambda: limits([1.0, 1.0, 1.0]), "All 3 values are alike"),
        (lambda: limits([1.0, float("nan"), float("inf")]), "Value 2 is no number(.|\n)*Value 3"),
        (lambda: watch(run([])), "begins with 1 values"),
        (lambda: group_limits([[1.0, 2.0]]), "two groups|2 groups"),
        (lambda: group_limits([[1.0, 2.0], [1.0]]), "begins with 2 values"),
        (lambda: group_limits([[1.0, 1.0], [2.0, 2.0]]), "alike"),
        (lambda: watch_groups(PULL, GroupLimits(2.4, 0.3, 20), (), ()), "1 groups"),
    ],
)
def test_what_is_no_chart_is_refused_with_its_cure(asked, words):
    with pytest.raises(BenchError, match=words):
        asked()


def test_serials_and_values_pair():
    with pytest.raises(ValueError, match="do not pair"):
        Run(STRING_VOC, GOOD, ("P-0001",), (1.0, 1.0))
