"""The almanac says what a walked path says, wherever a plate and its load lie in it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from panewright.glass.plate import reaction
from panewright.glass.plate.almanac import edges, states
from panewright.glass.plate.almanac.leaf import node_places, polynomials
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.path import FINEST, functions, load_path, walked_path
from panewright.glass.strength.breakage import flaw_integral

NU = 0.23
POWERS = st.floats(-4.0, 3.079)  # of Q, up to 1200
ASPECTS = st.one_of(st.sampled_from([1.0, 1.1, 1.25, 2.0, 2.1, 2.5, 3.0, 4.0, 5.0]), st.floats(1.0, 5.0))


@settings(deadline=None, max_examples=40)
@given(ASPECTS, POWERS)
@example(5.9, 2.2)
@example(5.4, 2.7)  # its second level is walked, from a state of the almanac on
@example(1.7, 3.5)  # so is its third
def test_a_kept_state_is_that_of_the_walked_path(aspect, power):
    kept, walked = (path(aspect, NU).faces(10**power) for path in (load_path, walked_path))
    assert kept.counts == walked.counts
    assert kept.centre_deflection == pytest.approx(walked.centre_deflection, rel=2e-7)
    there, here = walked.extremes(), kept.extremes()
    assert here.centre_stress == pytest.approx(there.centre_stress, rel=2e-7)
    assert here.peak.stress == pytest.approx(there.peak.stress, rel=2e-7)
    assert here.pressed_peak.stress == pytest.approx(there.pressed_peak.stress, abs=2e-7 * there.peak.stress)
    assert flaw_integral(kept) == pytest.approx(flaw_integral(walked), rel=1e-6)


@settings(deadline=None, max_examples=15)
@given(ASPECTS, st.floats(-3.0, 3.079))
def test_a_kept_push_is_that_of_the_walked_path(aspect, power):
    glass = Elastic(70e9, NU)
    plate = Plate(1000 * aspect, 1000, 4.0, glass)
    pressure_pa = 10**power * plate.load_unit_pa
    kept = reaction.edge_reaction(plate, pressure_pa)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(reaction, "shares", lambda _aspect, _load: None)
        walked = reaction.edge_reaction.__wrapped__(plate, pressure_pa)
    most = 1e-6 * walked.peak_n_per_mm
    assert kept.long_n_per_mm == pytest.approx(walked.long_n_per_mm, abs=most)
    assert kept.short_n_per_mm == pytest.approx(walked.short_n_per_mm, abs=most)
    assert kept.corner_n == pytest.approx(walked.corner_n, rel=1e-5)
    assert kept.total_n == pytest.approx(walked.total_n, rel=1e-9)


@pytest.mark.parametrize("level", [0, 1])
def test_leaves_lie_side_by_side_each_in_functions_of_its_own(level):
    leaves = states.LEAVES[level]
    assert [leaf.least for leaf in leaves[1:]] == [leaf.widest for leaf in leaves[:-1]]
    for leaf in leaves:
        middle = (leaf.least * leaf.widest) ** 0.5
        assert functions(middle, level) == functions(leaf.widest, level)
        assert len(leaf.at(middle, leaf.ends)) == 2 * np.prod(functions(middle, level))


def test_leaves_of_edges_lie_side_by_side_too():
    assert [leaf.least for leaf in edges.LEAVES[1:]] == [leaf.widest for leaf in edges.LEAVES[:-1]]
    for leaf in edges.LEAVES:
        assert len(leaf.at(leaf.widest, leaf.ends)) == 2 * sum(functions(leaf.widest, FINEST))


def test_what_is_not_in_it_is_not_told():
    assert states.state(5.5, 1, states.SECOND) is None
    assert states.state(6.5, 0, 1.0) is None
    assert states.state(1.5, 2, 2 * states.SECOND) is None
    assert edges.shares(5.5, 1.0) is None
    assert edges.shares(1.5, 2 * states.SECOND) is None


@pytest.mark.parametrize("count", [5, 12])
def test_polynomials_are_found_again_at_their_nodes(count):
    table = np.array([polynomials(place, count) for place in node_places(count)])
    assert table.T @ table == pytest.approx(np.diag([count] + [count / 2] * (count - 1)), abs=1e-12)
