"""A small sample of every long campaign; `make proof` runs them whole."""

from __future__ import annotations

import numpy as np
import pytest
from campaigns import (
    circuits,
    diodes,
    greatest,
    killed,
    killed_restore,
    nameplates,
    orders,
    outside_panes,
    packs,
    panes,
    placed,
    ratings,
    unsynced,
)
from campaigns import (
    faults as faulty,
)
from campaigns.faulty import OWN_ISC, draw
from campaigns.found import Found, Worst

from panewright.bench.fault.readings import AS_BUILT
from panewright.circuit.maxima import key_points

SEED = 11


def faults(found: Found) -> list[str]:
    too_far = [
        f"{d.figure}: {d.worst:.2g} of {d.allowed:g} in {d.where}" for d in found.deviations if not d.holds
    ]
    return [*found.failures, *too_far]


def test_spoilt_orders_are_orders_or_told():
    assert faults(orders.campaign(150, SEED, design=0.0)) == []


def test_orders_answered_anew_are_designed_and_priced_or_told():
    assert faults(orders.campaign(5, SEED, pack=0.0)) == []


def test_panes_bend_as_with_many_more_functions():
    assert faults(panes.campaign(2, SEED)) == []


def test_a_pane_bends_as_finite_differences_say():
    assert faults(outside_panes.campaign(1, SEED, shells=False, coarse=16)) == []


@pytest.mark.filterwarnings("ignore")  # of the oracle's own imports
def test_diodes_have_the_key_points_of_pvlib():
    assert faults(diodes.campaign(200, SEED)) == []


def test_possible_nameplates_are_fitted_exactly():
    assert faults(nameplates.campaign(40, SEED)) == []


@pytest.mark.peer("ngspice")
def test_damaged_networks_give_the_curve_of_ngspice():
    assert faults(circuits.campaign(3, SEED)) == []


def test_panels_are_rated_within_what_is_said_to_be_unsure():
    """Four panels, a fixed seed: what refuses or errs wildly is seen; the share is the campaign's."""
    found = ratings.campaign(4, SEED)
    assert found.failures == ()
    assert all(d.worst <= 0.25 for d in found.deviations if "outside" in d.figure)


@pytest.mark.peer("ngspice")
def test_what_shows_is_named_as_by_an_observer_who_knows_how_it_was_drawn():
    """A healthy panel and one of lost voltage: the share that is named is the campaign's."""
    curves, meters = faulty.answers(2, SEED)
    for told in (*curves, *meters):
        assert not told.shows or faulty.first(told.ours) == faulty.first(told.observer)
        assert told.called == (told.lost > 0) or told.lost < faulty.COSTLY


def test_a_weak_cell_of_a_closed_panel_is_found_through_noise():
    chance = np.random.default_rng(SEED)
    told = placed.seek(draw(chance, "weak cell", AS_BUILT), chance, "closed")
    assert told.called
    assert told.found
    assert told.measured <= told.allowed


def test_panels_are_drawn_off_what_is_foretold_of_them_as_far_as_is_said():
    """Voc of many, of which the foretold one and the light are known: a half per cent about it."""
    off = []
    for nth in range(60):
        case = draw(np.random.default_rng((SEED, nth)), "healthy", AS_BUILT)
        true, told = (key_points(each) for each in (case.network, case.sound))
        off.append((true.voc_v / told.voc_v - 1, true.isc_a / told.isc_a - 1))
    assert np.std(off, axis=0) == pytest.approx((AS_BUILT.voc, OWN_ISC), rel=0.35)


def test_an_exhaustive_search_finds_no_greater_power():
    assert faults(greatest.campaign(18, SEED)) == []


def test_a_pack_is_the_same_in_another_surrounding():
    assert faults(packs.campaign(1, SEED)) == []


def test_records_whose_writer_is_killed_keep_what_was_confirmed():
    assert faults(killed.campaign(4, SEED)) == []


def test_a_restore_that_is_killed_leaves_the_old_records_or_the_new_ones():
    assert faults(killed_restore.campaign(4, SEED)) == []


@pytest.mark.peer("cc")
def test_records_keep_what_was_confirmed_when_the_plug_is_pulled():
    lost, confirmed = unsynced.plugs(5, SEED)
    assert lost == []
    assert confirmed > 0


@pytest.mark.peer("cc")
@pytest.mark.parametrize("word", ["hasty", "unsynced"])
def test_a_writer_that_does_not_sync_is_seen_to_lose_something(word):
    """Else the test above would prove nothing."""
    assert unsynced.plugs(6, SEED, word)[0] != []


def test_a_difference_that_is_not_a_number_does_not_hold():
    worst = Worst({"figure": 1.0})
    worst.see("figure", float("nan"), "here")
    assert not worst.deviations()[0].holds


def test_the_worst_difference_keeps_its_place():
    worst = Worst({"figure": 1.0})
    for size, where in ((0.1, "first"), (-0.5, "second"), (0.3, "third")):
        worst.see("figure", size, where)
    assert [(d.worst, d.where) for d in worst.deviations()] == [(0.5, "second")]
