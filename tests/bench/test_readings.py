"""What to read in each step, as figures: the same as the words of the book; a verdict on what is typed."""

import math
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright import desk
from panewright.bench.bounds import bounds
from panewright.bench.expected import Condition
from panewright.bench.judge import judge_reading
from panewright.bench.predicted import cells_voc_v, panel_isc_a, panel_pmp_w, panel_voc_v
from panewright.bench.readings import FULL_SUN, VOLTS, all_readings
from panewright.pack.bench import Bench
from panewright.pack.steps.steps import KEYS, bench_steps, steps
from panewright.units import show

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
NAMES = [path.stem for path in EXAMPLES]


@cache
def made(name="jetty"):
    path = next(path for path in EXAMPLES if path.stem == name)
    return desk.design(path.read_bytes(), path.name)


def reading(key, name="jetty"):
    return {each.key: each for each in all_readings(made(name).design)}[key]


@pytest.mark.parametrize("name", NAMES)
def test_every_step_has_a_key_of_its_own_and_its_own_readings(name):
    found = desk.steps(made(name))
    keys = [each.key for each in found]
    assert len(set(keys)) == len(keys)
    assert set(keys) <= set(KEYS.values())
    assert all(each.step == step.key for step in found for each in step.readings)
    read = [each.key for step in found for each in step.readings]
    assert read == sorted(set(read), key=read.index)
    assert set(read) == {each.key for each in all_readings(made(name).design)}


@pytest.mark.parametrize("name", NAMES)
def test_the_words_are_the_steps_of_the_book(name):
    bench = Bench(made(name).design, made(name).quote)
    assert tuple(each.step for each in bench_steps(bench)) == steps(bench)
    by_key = {each.key: each for each in bench_steps(bench)}
    units = made(name).design.order.job.units
    column = reading("string-column.voc", name)
    assert by_key["string-column"].step.expect.startswith(show(column.value, "V", units))
    volts, amps = reading("polarity.voc", name), reading("polarity.isc", name)
    assert by_key["polarity"].step.expect.startswith(
        f"{show(volts.value, 'V', units)}, {show(amps.value, 'A', units)}"
    )
    assert by_key["insulation"].step.expect == f"at least {reading('insulation.mohm', name).low:.0f}\u2009MΩ"
    power = reading("measure-sun.power", name)
    assert by_key["measure-sun"].step.expect.startswith(show(power.value, "W", units))


@pytest.mark.parametrize("name", NAMES)
def test_every_reading_lies_between_its_own_bounds_and_is_judged_well(name):
    for each in all_readings(made(name).design):
        assert each.low is None or each.low <= each.value
        assert each.high is None or each.value <= each.high
        assert each.count >= 1
        light, heat = each.at.irradiance_w_m2, each.at.cell_c
        assert judge_reading(each, each.value, light, heat).passed
        assert each.cure


def test_as_many_readings_as_there_are_things_to_read():
    plan = made().design.layup.plan
    assert reading("string-column.voc").count == plan.columns
    assert reading("bypass-diodes.drop").count == plan.substrings * plan.strings
    assert reading("sort-cells.voc").count == len(made().design.layup.cells)
    assert sum(each.count for each in all_readings(made().design) if each.step == "cut-rails") == 4


@pytest.mark.parametrize(("light", "heat"), [(1000.0, 25.0), (800.0, 45.0), (200.0, 15.0)])
def test_a_reading_follows_the_panel_in_every_light_and_heat(light, heat):
    design = made().design
    wanted = {
        "string-column.voc": cells_voc_v(design, design.layup.plan.rows, light, heat),
        "measure-sun.voc": panel_voc_v(design, light, heat),
        "measure-sun.isc": panel_isc_a(design, light, heat),
        "measure-sun.power": panel_pmp_w(design, light, heat),
    }
    for key, value in wanted.items():
        judged = judge_reading(reading(key), value, light, heat)
        assert judged.expected == pytest.approx(value, rel=1e-12)
        assert judged.passed


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("light", "heat"), [(1000.0, 25.0), (800.0, 50.0), (200.0, 15.0)])
def test_a_cell_missing_in_a_column_is_seen_in_any_light(name, light, heat):
    design = made(name).design
    short = cells_voc_v(design, design.layup.plan.rows - 1, light, heat)
    judged = judge_reading(reading("string-column.voc", name), short, light, heat)
    assert not judged.passed
    assert "missing" in judged.check.cure


def test_a_shadow_is_seen_in_the_current_and_not_in_the_volts():
    design = made().design
    amps = reading("polarity.isc")
    assert not judge_reading(amps, 0.9 * amps.law.at(700, 35), 700, 35).passed
    assert judge_reading(reading("polarity.voc"), panel_voc_v(design, 640, 35), 700, 35).passed


def test_a_current_without_its_light_is_not_judged():
    judged = judge_reading(reading("polarity.isc"), 3.0, None, 30.0)
    assert judged.check.limit is None
    assert not judged.passed
    assert "light" in judged.check.cure


def test_volts_without_light_and_heat_are_judged_widely():
    column = reading("string-column.voc")
    design, rows = made().design, made().design.layup.plan.rows
    assert judge_reading(column, cells_voc_v(design, rows, 200.0, 60.0), None, None).passed
    assert not judge_reading(column, 0.5 * column.value, None, None).passed
    known, unknown = (judge_reading(column, column.value, *at) for at in ((1000.0, 25.0), (None, None)))
    assert unknown.low < known.low < known.high < unknown.high


@pytest.mark.parametrize(
    ("key", "good", "bad"),
    [
        ("insulation.mohm", 1.0, -1.0),
        ("close-back.earth", 0.05, 0.2),
        ("join-frame.difference", 0.9, 1.2),
        ("tab-cells.off", 0.2, 0.4),
    ],
)
def test_figures_with_one_bound_are_judged_by_it(key, good, bad):
    asked = reading(key)
    base = asked.value if key == "insulation.mohm" else 0.0
    assert judge_reading(asked, base + good, None, None).passed
    assert not judge_reading(asked, base + bad, None, None).passed


def test_a_gap_is_bounded_by_the_least_that_would_do():
    design = made().design
    gap, need = reading("set-pane.gap"), design.structural.bead_need.gap_mm
    assert gap.count == 8
    assert judge_reading(gap, need, None, None).passed
    assert not judge_reading(gap, need - 0.1, None, None).passed
    assert not judge_reading(gap, gap.high + 0.1, None, None).passed


def test_waiting_and_what_to_do_meanwhile():
    found = {each.key: each for each in desk.steps(made())}
    cure = found["cure-bead"]
    days = int(cure.step.expect.split()[1])
    assert cure.wait_h == 24.0 * days
    assert set(cure.meanwhile) <= set(found)
    assert found["string-column"].wait_h == 0


def test_the_desk_judges_by_key():
    judged = desk.judge_reading(made(), "string-column.voc", 3.0, Condition(1000.0, 25.0))
    assert not judged.passed
    with pytest.raises(KeyError):
        desk.judge_reading(made(), "string-column.colour", 3.0, Condition())


@pytest.mark.parametrize(("value", "light"), [(math.nan, 800.0), (1.0, -3.0), (1.0, 5000.0)])
def test_what_no_meter_shows_is_refused(value, light):
    with pytest.raises(ValueError, match="got"):
        judge_reading(reading("polarity.voc"), value, light, 25.0)


@settings(max_examples=30, deadline=None)
@given(st.floats(100, 1100), st.floats(0, 65))
def test_bounds_hold_the_value_and_are_wider_the_less_is_known(light, heat):
    law = reading("string-column.voc").law
    known = bounds(law, VOLTS, Condition(light, heat), FULL_SUN)
    cooler = bounds(law, VOLTS, Condition(light, None), FULL_SUN)
    assert known.low < known.value < known.high
    assert cooler.high - cooler.low > known.high - known.low
