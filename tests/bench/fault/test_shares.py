"""Shares of a shop's panels: those said hold, the others share what is left."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.bench.fault.finding import SHARES, SHARES_ABREAST
from panewright.bench.fault.shares import own_shares, why_not

SAID = st.dictionaries(st.sampled_from(sorted(SHARES)), st.floats(0, 0.12), max_size=len(SHARES))


@given(SAID, st.sampled_from([SHARES, SHARES_ABREAST]))
def test_shares_add_up_to_one_and_those_said_hold(said, usual):
    made = own_shares(said, usual)
    assert sum(made.values()) == pytest.approx(1)
    if any(usual[group] for group in usual if group not in said):
        assert all(made[group] == share for group, share in said.items())
        rest = [group for group in usual if group not in said]
        assert len({made[group] for group in rest if usual[group]}) <= 1 or max(
            made[group] for group in rest if usual[group]
        ) == pytest.approx(min(made[group] for group in rest if usual[group]))


def test_more_than_all_panels_is_refused():
    too_many = {"healthy": 0.9, "dimmed": 0.2}
    assert "more than all panels" in why_not(too_many, SHARES)
    with pytest.raises(ValueError, match="more than all"):
        own_shares(too_many, SHARES)
    assert "Every group is said" in why_not(dict.fromkeys(SHARES, 0.1), SHARES)
    assert why_not({"healthy": 0.95}, SHARES) == ""


def test_where_no_other_group_can_be_those_said_make_up_the_whole():
    """One string has no strings abreast of which one could be open."""
    said = {group: 0.1 for group in SHARES if group != "open string"}
    assert own_shares(said, SHARES)["healthy"] == pytest.approx(1 / 7)
