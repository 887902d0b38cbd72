"""Laws of the number of cells in series."""

from dataclasses import replace
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.battery.load import Battery, Controller
from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.string_length import StringAsk, direct_current_a, string_diode, study_string
from panewright.ribbon.resistance import heat_factor
from panewright.wire.cable import Cable

CELL = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
MODEL = CellModel(CELL, 1.0375, 5e-4, 24336.0)
DIRECT = Controller("direct", most_v=50.0, drop_v=0.3)
ASK = StringAsk(
    MODEL,
    hot_cell_c=68.0,
    running_cell_c=50.0,
    cold_cell_c=-14.0,
    battery=Battery("agm", 12.0),
    controller=DIRECT,
    cable=Cable(6.0, 4.0),
    blocking_drop_v=0.4,
    tab_ohm_per_cell=0.0016,
    extra_ohm=0.01,
)

WARM = heat_factor(ASK.running_cell_c)  # the ribbons are as warm as the cells


def _running():
    return diode_at(MODEL, 1000.0, ASK.running_cell_c)


@given(st.integers(1, 80), st.floats(0.0, 8.5), st.floats(0.0, 0.01), st.floats(0.0, 0.1))
def test_one_diode_stands_for_a_string_of_equal_cells(count, current, tab, extra):
    string = string_diode(CELL, count, tab, extra)
    summed = count * (voltage_v(CELL, current) - current * tab) - current * extra
    assert voltage_v(string, current) == pytest.approx(summed, rel=1e-10, abs=1e-9)


def test_breakdown_of_a_string_is_that_of_its_cells_together():
    cell = replace(CELL, breakdown_siemens=0.01, breakdown_v=-15.0)
    assert voltage_v(string_diode(cell, 12), 9.5) == pytest.approx(12 * voltage_v(cell, 9.5), rel=1e-10)


@settings(max_examples=20, deadline=None)
@given(
    st.floats(45.0, 80.0), st.sampled_from(["agm", "gel", "flooded", "lfp"]), st.sampled_from([12.0, 24.0])
)
def test_the_count_chosen_for_a_direct_controller_is_the_least_that_holds(hot_c, chemistry, nominal_v):
    ask = replace(
        ASK, hot_cell_c=hot_c, battery=Battery(chemistry, nominal_v), controller=replace(DIRECT, most_v=99)
    )
    study = study_string(ask)
    row = next(row for row in study.rows if row.cells == study.chosen)
    fewer = next(row for row in study.rows if row.cells == study.chosen - 1)
    assert row.holds
    assert not fewer.holds_hot
    assert study.chosen == study.acceptable[0]
    assert all(check.passed for check in study.checks)


@settings(max_examples=20, deadline=None)
@given(st.floats(50.0, 75.0), st.floats(-35.0, 10.0))
def test_every_acceptable_count_holds_when_it_is_pinned_and_the_next_ones_do_not(hot_c, cold_c):
    study = study_string(replace(ASK, hot_cell_c=hot_c, cold_cell_c=cold_c))
    first, last = study.acceptable[0], study.acceptable[-1]
    for count in (first - 1, first, last, last + 1):
        pinned = study_string(replace(ASK, hot_cell_c=hot_c, cold_cell_c=cold_c, pinned_in_series=count))
        assert all(check.passed for check in pinned.checks) == (first <= count <= last)
        assert pinned.chosen == count


def test_heat_and_long_cables_ask_for_more_cells():
    counts = [study_string(replace(ASK, hot_cell_c=hot)).chosen for hot in (45.0, 55.0, 65.0, 75.0)]
    assert counts == sorted(set(counts))
    assert study_string(replace(ASK, cable=Cable(20.0, 2.5))).chosen > study_string(ASK).chosen


def test_ribbon_takes_the_power_it_resists():
    with_ribbon = study_string(replace(ASK, pinned_in_series=36))
    without = study_string(replace(ASK, pinned_in_series=36, tab_ohm_per_cell=0.0, extra_ohm=0.0))
    ohm, imp = WARM * (36 * ASK.tab_ohm_per_cell + ASK.extra_ohm), key_points(_running()).imp_a
    assert without.pmp_there_w - with_ribbon.pmp_there_w == pytest.approx(imp**2 * ohm, rel=0.02)
    hot_v = [next(row for row in s.rows if row.cells == 36).hot_vmp_v for s in (without, with_ribbon)]
    assert 0 < hot_v[0] - hot_v[1] < imp * ohm * heat_factor(ASK.hot_cell_c) / WARM


def test_what_the_battery_gets_lies_on_the_curve_at_its_own_voltage():
    study = study_string(replace(ASK, cable=None, blocking_drop_v=0.0))
    from_curve = direct_current_a(
        string_diode(_running(), study.chosen, WARM * ASK.tab_ohm_per_cell, WARM * ASK.extra_ohm), 13.35 + 0.3
    )
    assert study.battery_current_a == pytest.approx(from_curve)
    assert study.battery_power_w == pytest.approx(13.35 * from_curve)
    assert study.battery_power_w < study.pmp_there_w


def test_a_cable_that_eats_voltage_is_felt_by_the_battery_through_the_curve():
    ask = replace(ASK, cable=Cable(30.0, 1.5), pinned_in_series=36)
    study = study_string(ask)
    ohm = WARM * (36 * ASK.tab_ohm_per_cell + ASK.extra_ohm) + 2 * 30 * 0.0137 * (1 + 0.00393 * 30)
    current = study.battery_current_a
    left_v = 36 * voltage_v(_running(), current) - current * ohm
    assert left_v == pytest.approx(13.35 + 0.3 + 0.4, rel=1e-9)


def test_two_strings_give_twice_the_current_less_what_the_shared_cable_costs():
    one = study_string(replace(ASK, pinned_in_series=40))
    two = study_string(replace(ASK, pinned_in_series=40, strings=2))
    assert one.battery_current_a < two.battery_current_a < 2 * one.battery_current_a
    assert two.pmp_there_w == pytest.approx(2 * one.pmp_there_w)


def test_too_few_cells_send_nothing_back():
    study = study_string(replace(ASK, pinned_in_series=10))
    assert (study.battery_current_a, study.battery_power_w) == (0.0, 0.0)
    assert [check.passed for check in study.checks] == [False, True]


def test_textbook_36_is_said_to_be_right_where_it_is():
    study = study_string(replace(ASK, hot_cell_c=55.0, cable=None, blocking_drop_v=0.0))
    mild = replace(
        ASK, hot_cell_c=64.0, cable=None, blocking_drop_v=0.0, tab_ohm_per_cell=0.0008, extra_ohm=0.0
    )
    assert study_string(mild).chosen == 36
    assert "textbook's 36 cells for this battery are right here" in study_string(mild).reason
    assert study.chosen < 36
    assert "36 cells for this battery would work, but" in study.reason


def test_textbook_36_is_said_to_be_wrong_on_a_hot_roof():
    study = study_string(replace(ASK, hot_cell_c=75.0))
    assert study.chosen > 36
    assert "textbook's 36 cells for this battery would be wrong here: they give only" in study.reason


def test_textbook_is_18_for_6_v_and_72_for_24_v():
    assert study_string(replace(ASK, battery=Battery("agm", 6.0))).textbook == 18
    assert study_string(replace(ASK, battery=Battery("lfp", 24.0))).textbook == 72


def test_where_no_count_holds_the_controller_is_spared_and_the_heat_fails():
    study = study_string(replace(ASK, controller=replace(DIRECT, most_v=25.0)))
    hot, cold = study.checks
    assert study.acceptable == ()
    assert cold.passed
    assert not hot.passed
    assert "a controller that bears" in hot.cure
    assert "No count holds both ends" in study.reason


def test_cure_of_a_pinned_count_names_the_count_that_would_do():
    study = study_string(replace(ASK, pinned_in_series=30))
    assert study.checks[0].cure == f"Put {study_string(ASK).chosen} cells in series."
    over = study_string(replace(ASK, pinned_in_series=90))
    assert over.checks[1].cure.startswith(f"Put no more than {over.acceptable[-1]} cells in series")


def test_mppt_takes_the_usual_count_nearest_the_middle_of_its_window():
    ask = replace(ASK, controller=Controller("mppt", 100.0, 0.0, headroom_v=5.0))
    study = study_string(ask)
    middle = (study.acceptable[0] + study.acceptable[-1]) / 2
    assert study.chosen == min((60, 72), key=lambda count: abs(count - middle))
    assert all(check.passed for check in study.checks)
    assert study.battery_power_w == pytest.approx(0.96 * study.pmp_there_w, rel=0.06)


def test_mppt_window_without_a_usual_count_takes_an_even_one():
    ask = replace(ASK, battery=Battery("lfp", 24.0), controller=Controller("mppt", 63.0, 0.0, headroom_v=2.0))
    study = study_string(replace(ask, hot_cell_c=60.0))
    assert not {36, 60, 72, 96} & set(study.acceptable)
    assert study.chosen in study.acceptable
    assert study.chosen % 2 == 0


def test_mppt_below_its_headroom_gives_nothing():
    ask = replace(ASK, controller=Controller("mppt", 100.0, 0.0, headroom_v=5.0), pinned_in_series=36)
    study = study_string(ask)
    assert study.battery_current_a == 0.0
    assert not study.checks[0].passed


def test_mppt_turns_spare_voltage_into_current_and_direct_does_not():
    ask = replace(ASK, pinned_in_series=60)
    tracked = study_string(replace(ask, controller=Controller("mppt", 100.0, 0.0, headroom_v=2.0)))
    held = study_string(ask)
    assert tracked.battery_current_a > 1.3 * held.battery_current_a


def test_a_number_of_cells_alone_is_taken_as_it_is():
    study = study_string(StringAsk(MODEL, 68.0, 50.0, -14.0, cells_wanted=30))
    assert (study.chosen, study.checks, study.acceptable) == (30, (), (30,))
    assert study.pmp_there_w == pytest.approx(30 * key_points(_running()).power_w)


def test_neither_battery_nor_number_is_refused():
    with pytest.raises(ValueError, match="a battery behind a controller, or a number of cells"):
        study_string(StringAsk(MODEL, 68.0, 50.0, -14.0))


def test_a_string_of_nothing_is_refused():
    with pytest.raises(ValueError, match="a cell or more"):
        replace(ASK, pinned_in_series=0)


@pytest.mark.parametrize("hot_c", [55.0, 62.0, 68.0, 75.0])
def test_reason_is_two_to_four_sentences(hot_c):
    for controller in (DIRECT, Controller("mppt", 100.0, 0.0, 5.0), replace(DIRECT, most_v=25.0)):
        reason = study_string(replace(ASK, hot_cell_c=hot_c, controller=controller)).reason
        assert 2 <= reason.count(". ") + 1 <= 4
        assert reason.endswith(".")


def test_nothing_runs_back_through_the_string():
    assert direct_current_a(CELL, 0.7) == 0.0
    assert direct_current_a(CELL, 0.4) == current_a(CELL, 0.4)


def test_a_study_is_quick():
    study_string(ASK)
    times = []
    for _ in range(5):
        start = process_time()
        study_string(ASK)
        times.append(process_time() - start)
    assert min(times) < 0.03


def test_the_table_shows_the_neighbours_that_fail_at_both_ends():
    study = study_string(replace(ASK, controller=replace(DIRECT, most_v=34.0)))
    first, last = study.acceptable[0], study.acceptable[-1]
    rows = {row.cells: row for row in study.rows}
    assert not rows[first - 1].holds_hot
    assert not rows[last + 1].holds_cold
    assert rows[first].holds
    assert rows[last].holds


def test_a_count_taken_for_the_lay_out_says_why_it_was_taken():
    least = study_string(ASK).chosen
    study = study_string(replace(ASK, laid_out=least + 1, laid_why="it loses 40 points, not 400"))
    assert study.chosen == least + 1
    assert f"taken for the lay-out; by voltage {least} would do; it loses 40 points, not 400" in study.reason
    assert "taken for" not in study_string(ASK).reason
