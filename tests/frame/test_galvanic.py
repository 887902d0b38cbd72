"""Laws of metals that touch."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.galvanic import POTENTIAL_V, Touch, judge_touch

BOLT = Touch("bracket bolts", "stainless", "aluminium", 250.0, 15_000.0)
touches = st.builds(
    Touch,
    st.just("a part"),
    st.sampled_from(sorted(POTENTIAL_V)),
    st.sampled_from(sorted(POTENTIAL_V)),
    st.floats(1, 1e5),
    st.floats(1, 1e6),
)
WORSE = {"dry": "damp", "damp": "salt", "salt": "salt"}


def test_stainless_bolts_in_large_rails_hold_inland_and_are_kept_apart_at_the_shore():
    assert judge_touch(BOLT, "damp").passed
    bare, apart = judge_touch(BOLT, "salt"), judge_touch(replace(BOLT, apart=True), "salt")
    assert not bare.passed
    assert "nylon" in bare.cure
    assert apart.passed


def test_a_small_aluminium_rivet_in_stainless_is_eaten():
    rivet = Touch("rivets", "aluminium", "stainless", 100.0, 10_000.0)
    assert not judge_touch(rivet, "damp").passed


def test_zinc_on_aluminium_may_touch_in_a_dry_room_and_not_at_the_shore():
    zinc = Touch("zinc screws", "zinc", "aluminium", 100.0, 100.0)
    assert judge_touch(zinc, "dry").passed
    assert not judge_touch(zinc, "salt").passed


@given(touches, st.sampled_from(sorted(WORSE)))
def test_worse_air_never_helps(touch, air):
    assert judge_touch(touch, air).passed or not judge_touch(touch, WORSE[air]).passed


@given(touches, st.sampled_from(sorted(WORSE)))
def test_what_is_kept_apart_always_holds(touch, air):
    assert judge_touch(replace(touch, apart=True), air).passed


@given(touches, st.floats(1, 100))
def test_more_of_the_less_noble_metal_never_harms(touch, factor):
    noble_part = POTENTIAL_V[touch.part] > POTENTIAL_V[touch.on]
    grown = replace(touch, on_mm2=touch.on_mm2 * factor) if noble_part else touch
    assert judge_touch(grown, "damp").passed or not judge_touch(touch, "damp").passed


def test_a_touch_without_a_surface_is_refused():
    with pytest.raises(ValueError, match="surfaces"):
        Touch("nothing", "tin", "copper", 0.0, 1.0)
