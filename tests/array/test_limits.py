"""Limits of strings, fuses and what else protects. Panels are invented."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.array.fuses import SIZES_A, fuse_checks, string_fuses
from panewright.array.limits import (
    Extremes,
    Port,
    input_checks,
    rules_most_v,
    string_cold_v,
    string_hot_v,
    thresholds_passed,
)
from panewright.array.plate import Plate
from panewright.array.protection import Protected, blocking_w, needs
from panewright.battery.load import Battery, Controller
from panewright.battery.window import charge_window

PANEL = Plate("A1", 22.4, 18.2, 8.55, 8.0, 15.0, 600.0)
KNOWN = replace(PANEL, voc_per_k=-0.0034, vmp_per_k=-0.0045)
HERE = Extremes("NEC", -12.0, 65.0)
DIRECT = Port(
    Controller("direct", 55.0, 0.3), charge_window(Battery("agm", 12.0), 35.0), 30.0, 12.0, (12.0, 24.0)
)
SEEKING = Port(
    Controller("mppt", 100.0, 0.0, 5.0), charge_window(Battery("agm", 24.0), 35.0), 30.0, 24.0, (12.0, 24.0)
)


def verdicts(strings, port, extremes=HERE):
    return {check.rule: check for check in input_checks(strings, port, extremes)}


def test_cold_strings_follow_the_printed_example():
    # NEC table 690.7(A), factor 1.16 from -15 to -11 degC (seen); coefficient -0.34 %/K: derived
    assert string_cold_v((PANEL,), -12.0) == pytest.approx(25.984)
    assert string_cold_v((PANEL,) * 4, -12.0) == pytest.approx(103.936)
    assert string_cold_v((KNOWN,), -12.0) == pytest.approx(25.21792)
    assert string_cold_v((PANEL, KNOWN), -12.0) == pytest.approx(25.984 + 25.21792)


def test_four_in_series_are_too_many_in_the_cold_and_three_are_not():
    rule = "controller bears every string on the coldest morning"
    assert not verdicts([(PANEL,) * 4], SEEKING)[rule].passed
    assert verdicts([(PANEL,) * 3], SEEKING)[rule].passed


@pytest.mark.parametrize(("family", "other"), [("NEC", "IEC"), ("IEC", "NEC")])
def test_each_family_names_only_its_own_books(family, other):
    found = input_checks([(PANEL,)] * 3, DIRECT, replace(HERE, family=family))
    found += fuse_checks(string_fuses([(PANEL,)] * 3, family, 10.0), 30.0)[:-1]
    assert not any(other in check.source for check in found)


def test_past_the_table_a_panel_without_a_coefficient_is_not_covered():
    arctic = replace(HERE, coldest_c=-45.0)
    found = input_checks([(PANEL,), (KNOWN,)], SEEKING, arctic)
    assert [check.verdict for check in found[:3]] == ["NOT COVERED"] * 3
    assert input_checks([(KNOWN,)], SEEKING, arctic)[0].covered


def test_one_panel_of_36_cells_finishes_the_charge_of_12_v_but_no_weaker_one():
    rule = "hottest string finishes the charge"
    assert string_hot_v((KNOWN,), 65.0) == pytest.approx(18.2 * (1 - 0.0045 * 40))
    assert verdicts([(KNOWN,)], DIRECT)[rule].passed
    weak = replace(KNOWN, vmp_v=16.9)
    assert not verdicts([(KNOWN,), (weak,)], DIRECT)[rule].passed
    assert not verdicts([(KNOWN,)], replace(DIRECT, lost_v=0.8))[rule].passed


def test_strings_side_by_side_add_their_currents_with_a_quarter_on_top():
    rule = "controller bears the strings' current"
    found = verdicts([(PANEL,), (PANEL,)], DIRECT)[rule]
    assert found.demand == pytest.approx(21.375)  # NEC 690.8(A) (seen)
    assert found.passed
    assert not verdicts([(PANEL,)] * 3, DIRECT)[rule].passed


def test_a_battery_that_the_controller_does_not_know_fails():
    rule = "bank's volts beside the nearest that the controller charges"
    assert verdicts([(PANEL,)], DIRECT)[rule].passed
    assert not verdicts([(PANEL,)], replace(DIRECT, battery_v=48.0))[rule].passed
    assert not verdicts([(PANEL,)], replace(DIRECT, takes_v=()))[rule].passed


def test_a_direct_controller_throws_a_second_panel_in_series_away():
    rule = "voltage that a direct controller throws away"
    assert verdicts([(PANEL,)], DIRECT)[rule].passed
    assert not verdicts([(PANEL, PANEL)], DIRECT)[rule].passed
    assert rule not in verdicts([(PANEL, PANEL)], SEEKING)


@pytest.mark.parametrize(
    ("family", "dwelling", "on_building", "volts"),
    [
        ("NEC", True, True, 600),
        ("NEC", False, True, 1000),
        ("NEC", True, False, 1500),
        ("IEC", True, True, 1000),
    ],
)
def test_the_highest_voltage_is_that_of_the_family_and_the_building(family, dwelling, on_building, volts):
    assert rules_most_v(Extremes(family, 0.0, 60.0, dwelling, on_building)) == volts


@given(st.floats(0.0, 2000.0), st.floats(0.0, 2000.0), st.sampled_from(["NEC", "IEC"]))
def test_more_voltage_never_asks_for_less(one, other, family):
    low, high = (thresholds_passed(volts, family) for volts in sorted((one, other)))
    assert high[: len(low)] == low


def test_two_like_strings_need_no_fuse_and_three_do():
    assert not any(fuse.needed for fuse in string_fuses([(PANEL,)] * 2, "NEC", 40.0))
    three = string_fuses([(PANEL,)] * 3, "NEC", 40.0)
    assert [fuse.reverse_a for fuse in three] == pytest.approx([21.375] * 3)
    assert {fuse.size_a for fuse in three} == {15.0}  # 1.5625 x 8.55 A = 13.36 A (seen)


def test_the_families_count_the_others_each_in_its_own_way():
    panel = replace(PANEL, fuse_a=20.0)
    assert string_fuses([(panel,)] * 3, "NEC", 40.0)[0].needed  # 21.4 A against 20 A
    assert not string_fuses([(panel,)] * 3, "IEC", 40.0)[0].needed  # 17.1 A against 20 A
    four = string_fuses([(panel,)] * 4, "IEC", 40.0)[0]
    assert four.needed
    assert (four.least_a, four.most_a) == pytest.approx((1.5 * 8.55, 20.0))
    assert four.size_a == 15.0


def test_a_thin_wire_asks_for_a_fuse_where_the_panels_would_not():
    two = string_fuses([(PANEL,)] * 2, "NEC", 10.0)
    assert all(fuse.needed for fuse in two)
    assert {fuse.size_a for fuse in two} == {None}
    assert [check.passed for check in fuse_checks(two, 30.0)] == [False, False, True]


def test_a_strong_string_beside_a_weak_one_asks_for_a_fuse_in_the_weak_one_alone():
    weak = replace(PANEL, isc_a=2.0, imp_a=1.8, fuse_a=5.0)
    assert [fuse.needed for fuse in string_fuses([(PANEL,), (weak,)], "NEC", 30.0)] == [False, True]


def test_a_battery_without_a_controller_always_asks_for_a_fuse():
    alone = string_fuses([(PANEL,)], "NEC", 40.0, battery_feeds_back=True)
    assert alone[0].needed
    assert "battery" in alone[0].why
    assert all(check.passed for check in fuse_checks(alone, 30.0))
    assert not fuse_checks(alone, 1200.0)[-1].passed


@given(st.floats(0.5, 19.0), st.integers(1, 8), st.sampled_from(["NEC", "IEC"]))
def test_a_fuse_that_is_named_carries_the_current_and_protects(isc_a, strings, family):
    panel = replace(PANEL, isc_a=isc_a, imp_a=0.9 * isc_a, fuse_a=30.0)
    for fuse in string_fuses([(panel,)] * strings, family, 35.0):
        assert fuse.size_a is None or fuse.least_a <= fuse.size_a <= fuse.most_a
        assert fuse.size_a is None or fuse.size_a in SIZES_A


ARRAY = Protected("NEC", 3, 104.0, on_building=True, controller=True, string_fuses=True)


def needed(array):
    return {need.thing for need in needs(array) if need.needed}


def test_a_house_of_three_strings_at_104_v_needs_nearly_everything():
    assert "guard against arcs" in needed(ARRAY)
    assert "combiner box" in needed(ARRAY)
    assert "blocking diodes" not in needed(ARRAY)


def test_under_80_v_and_apart_from_buildings_nobody_watches_for_arcs():
    assert "guard against arcs" not in needed(replace(ARRAY, cold_v=79.0))
    assert not {"guard against arcs", "rapid shutdown"} & needed(replace(ARRAY, on_building=False))


def test_panels_straight_on_a_battery_need_a_blocking_diode():
    assert "blocking diodes" in needed(replace(ARRAY, controller=False))
    assert blocking_w([8.0], 0.8) == pytest.approx(6.4)


@pytest.mark.parametrize(("family", "other"), [("NEC", "IEC"), ("IEC", "NEC")])
def test_no_family_borrows_an_article_of_the_other(family, other):
    found = needs(replace(ARRAY, family=family))
    assert not any(other in need.article for need in found)
    assert len({need.thing for need in found}) == len(found)
    assert all(need.why and need.article for need in found)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (lambda: replace(PANEL, vmp_v=23.0), "Vmp lies under Voc"),
        (lambda: replace(PANEL, isc_a=math.nan), "Imp under Isc"),
        (lambda: replace(PANEL, fuse_a=0.0), "above 0"),
        (lambda: replace(PANEL, voc_per_k=0.003), "below 0"),
        (lambda: input_checks([], DIRECT, HERE), "a string or more"),
        (lambda: input_checks([()], DIRECT, HERE), "a panel or more"),
    ],
)
def test_nonsense_is_refused_with_its_reason(wrong, words):
    with pytest.raises(ValueError, match=words):
        wrong()
