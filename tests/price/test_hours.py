"""Hours from counts."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from panewright.price.hours import RATES, SOURCE, hours, hours_by_step

COUNTS = st.dictionaries(
    st.sampled_from(sorted({rate.per for rate in RATES})), st.decimals(0, 1000, places=1), max_size=14
)


@given(COUNTS)
def test_only_steps_with_something_to_do_take_time(counts):
    work = hours_by_step(counts)
    assert all(step.count > 0 and step.minutes > 0 for step in work)
    assert {step.per for step in work} == {per for per, count in counts.items() if count > 0}


@given(COUNTS)
def test_twice_the_work_takes_twice_the_time(counts):
    once, twice = hours_by_step(counts), hours_by_step({per: 2 * n for per, n in counts.items()})
    assert sum(step.minutes for step in twice) == 2 * sum(step.minutes for step in once)


def test_every_rate_says_that_it_has_no_source():
    work = hours_by_step({rate.per: Decimal(1) for rate in RATES})
    assert {step.source for step in work} == {SOURCE}


def test_hours_are_told_to_a_tenth():
    assert hours(hours_by_step({"rails": Decimal(4)})) == Decimal("0.3")
