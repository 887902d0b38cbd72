"""Laws of metals that touch."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.metals.galvanic import POTENTIAL_V, Pair, judge_pair

BOLT = Pair("bracket bolts", "stainless", "aluminium", 250.0, 15_000.0)
couples = st.builds(
    Pair,
    st.just("a part"),
    st.sampled_from(sorted(POTENTIAL_V)),
    st.sampled_from(sorted(POTENTIAL_V)),
    st.floats(1, 1e5),
    st.floats(1, 1e6),
)
WORSE = {"dry": "damp", "damp": "salt", "salt": "salt"}


def test_stainless_bolts_in_large_rails_hold_inland_and_are_kept_apart_at_the_shore():
    assert judge_pair(BOLT, "damp").passed
    bare, apart = judge_pair(BOLT, "salt"), judge_pair(replace(BOLT, apart=True), "salt")
    assert not bare.passed
    assert "nylon" in bare.cure
    assert apart.passed


def test_a_small_aluminium_rivet_in_stainless_is_eaten():
    rivet = Pair("rivets", "aluminium", "stainless", 100.0, 10_000.0)
    assert not judge_pair(rivet, "damp").passed


def test_zinc_on_aluminium_may_touch_in_a_dry_room_and_not_at_the_shore():
    zinc = Pair("zinc screws", "zinc", "aluminium", 100.0, 100.0)
    assert judge_pair(zinc, "dry").passed
    assert not judge_pair(zinc, "salt").passed


@given(couples, st.sampled_from(sorted(WORSE)))
def test_worse_air_never_helps(pair, air):
    assert judge_pair(pair, air).passed or not judge_pair(pair, WORSE[air]).passed


@given(couples, st.sampled_from(sorted(WORSE)))
def test_what_is_kept_apart_always_holds(pair, air):
    assert judge_pair(replace(pair, apart=True), air).passed


@given(couples, st.floats(1, 100))
def test_more_of_the_less_noble_metal_never_harms(pair, factor):
    noble_part = POTENTIAL_V[pair.part] > POTENTIAL_V[pair.on]
    grown = replace(pair, on_mm2=pair.on_mm2 * factor) if noble_part else pair
    assert judge_pair(grown, "damp").passed or not judge_pair(pair, "damp").passed


def test_a_pair_without_a_surface_is_refused():
    with pytest.raises(ValueError, match="surfaces"):
        Pair("nothing", "tin", "copper", 0.0, 1.0)
