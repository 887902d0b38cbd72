"""A figure that is too much never reads the same as its limit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.check import Check
from panewright.pack.verdict import told
from panewright.units import against, show

UNITS = st.sampled_from(["1", "mm", "MPa", "N", "W"])
SYSTEMS = st.sampled_from(["metric", "us"])


@given(st.floats(1e-3, 1e6), st.floats(1e-11, 1e-2), UNITS, SYSTEMS)
def test_past_the_limit_never_reads_as_the_limit(limit, more, unit, system):
    said = against(limit * (1 + more), limit, unit, system)
    assert said[0] != said[1]


@given(st.floats(1e-3, 1e6), st.floats(0.0, 1.0))
def test_what_holds_reads_in_three_digits(limit, share):
    said = against(limit * share, limit, "MPa")
    assert said == (show(limit * share, "MPa"), show(limit, "MPa"))


@pytest.mark.parametrize(
    ("demand", "said"),
    [(1.0004, "1.0004 of 1.0000, TOO MUCH"), (1.2, "1.20 of 1.00, TOO MUCH"), (1.0, "1.00 of 1.00, holds")],
)
def test_the_verdict_and_its_figures_agree(demand, said):
    assert told(Check("screw", demand, 1.0, "1", "a table")) == said
    assert told(Check("screw", float("nan"), None, "1", "a table")).startswith("past what is known")
