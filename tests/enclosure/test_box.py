"""Diodes in their box, the back, the leads and the earth."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.back_board import choose_back
from panewright.enclosure.back_sheet import Back, BackLoad, back_checks
from panewright.enclosure.box import box_ask
from panewright.enclosure.bypass import Bypass, Guarded, choose_bypass, forward_v
from panewright.enclosure.earth import Frame, earth
from panewright.enclosure.junction import Bypassing, judge_junction, junction_c, leak_a
from panewright.enclosure.relief import pull_check, relief

DIODE = Bypass("15 A", 1.2401e-5, 0.027, 8.123e-3, 15.0, 45.0)
ASKED = Bypassing(8.5, 75.0, 11.0)
WHITE = Back("white", "laminate", 0.35, 1000.0, 105.0, 1.5, 0.75, 0.2, 50e6, 0.48)
BOARD = Back("board", "plastic", 4.0, 1500.0, 90.0, 0.5, 0.6, 0.2, 20e6, 3.64)
amps, heats = st.floats(0.1, 20.0), st.floats(20.0, 100.0)


@given(amps, heats)
def test_the_junction_sheds_what_its_own_drop_makes(current, round_c):
    at = junction_c(DIODE, current, round_c)
    drop = forward_v(DIODE, current) + DIODE.drift_v_k * (at - 25.0)
    made = round_c + DIODE.sheds_k_w * current * max(0.1, drop)
    assert at == pytest.approx(made, abs=1e-6)


@given(amps, st.floats(1.01, 3.0), heats, st.floats(1.0, 40.0))
def test_more_current_and_more_heat_round_it_never_cool_it(current, more, round_c, hotter):
    base = junction_c(DIODE, current, round_c)
    assert junction_c(DIODE, current * more, round_c) >= base
    assert junction_c(DIODE, current, round_c + hotter) > base
    assert junction_c(replace(DIODE, sheds_k_w=2 * DIODE.sheds_k_w), current, round_c) > base


@given(st.floats(1.0, 45.0), st.floats(20.0, 150.0), st.floats(1.0, 50.0))
def test_a_hotter_diode_leaks_more(volts, at_c, hotter):
    assert leak_a(DIODE, volts, at_c + hotter) > leak_a(DIODE, volts, at_c)


def test_a_usual_diode_holds_and_each_fault_fails_its_own_rule():
    assert all(check.passed for check in judge_junction(DIODE, ASKED).checks)
    bare = judge_junction(replace(DIODE, sheds_k_w=40.0), ASKED)
    assert "bypass diode's junction at Isc" in [c.rule for c in bare.checks if not c.passed]
    leaky = judge_junction(replace(DIODE, leaks_a=1.0), ASKED)
    assert [c.rule for c in leaky.checks if not c.passed][:1] == ["bypass diode cools when the shade leaves"]
    assert [c.rule for c in leaky.checks if not c.passed][-1] == "bypass diode's leak stays tame"


def test_where_heating_meets_cooling_the_slope_says_so():
    """On the edge the line of cooling touches the curve of heating: one step up, e times the leak at rest."""
    edge = replace(DIODE, leaks_a=DIODE.leaks_a / judge_junction(DIODE, ASKED).slope)
    touch = ASKED.round_c + 1 / edge.leak_per_k
    heating = ASKED.blocks_v * leak_a(edge, ASKED.blocks_v, touch)
    assert heating == pytest.approx((touch - ASKED.round_c) / edge.sheds_k_w)


def test_a_diode_that_stays_cool_is_taken_before_one_that_only_carries():
    cool = replace(DIODE, name="cool", rated_a=20.0)
    guarded = Guarded(18, 0.7, -18.0, 8.5)
    assert choose_bypass((DIODE, cool), guarded, always=True, cool=lambda d: d.name == "cool") == cool
    assert choose_bypass((DIODE, cool), guarded, always=True, cool=lambda _: False) == DIODE


def test_the_box_must_say_as_much_as_the_panel_does():
    ask = box_ask(35.0, 8.0, 80.0, 6.0)
    assert (ask.volts, ask.amps, ask.around_c, ask.sheds_w) == (35.0, 10.0, 80.0, 6.0)


def test_backs_by_voltage_heat_and_pull():
    assert all(check.passed for check in back_checks(WHITE, BackLoad(600.0, 90.0)))
    failed = [c.rule for c in back_checks(WHITE, BackLoad(1500.0, 120.0)) if not c.passed]
    assert failed == ["back sheet holds the system voltage", "heat the back sheet bears"]
    assert choose_back((WHITE, BOARD), BackLoad(1500.0, 80.0)) == BOARD
    assert choose_back((WHITE, BOARD), BackLoad(1600.0, 80.0)) == BOARD  # nearer to holding
    assert choose_back((WHITE, replace(WHITE, name="white too")), BackLoad(1600.0, 80.0)) == WHITE


def test_leads_are_pulled_as_the_rules_say():
    lead = relief(4.0)
    assert pull_check(lead).passed
    assert not pull_check(lead, tested_n=20.0).passed
    with pytest.raises(ValueError, match="asked for 50"):
        relief(50.0)


@given(st.floats(500.0, 8000.0), st.floats(20.0, 500.0), st.floats(1.0, 40.0))
def test_welded_corners_bond_better_and_longer_rails_worse(round_mm, metal, fuse):
    clipped, welded = (earth(Frame(round_mm, metal, welded=each), fuse) for each in (False, True))
    assert welded.ohm < clipped.ohm
    assert earth(Frame(2 * round_mm, metal, welded=False), fuse).ohm > clipped.ohm
    assert clipped.test_a == pytest.approx(2.5 * fuse)
    assert clipped.volts == pytest.approx(clipped.test_a * clipped.ohm)
