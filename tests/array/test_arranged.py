"""Which panel in which string: the best of all on small arrays, never under sorting on large ones."""

import dataclasses
from itertools import permutations

import numpy as np
import pytest

from panewright.array.arranged import Allowed, States, alone_kwh, arranged, weighed
from panewright.array.fuses import Fusing, fuse_checks, string_fuses
from panewright.array.plate import Plate

CURRENTS, STATES = 120, 5
LIGHT = np.array([0.2, 0.4, 0.6, 0.8, 1.0])
HOURS = np.array([900.0, 800.0, 700.0, 500.0, 200.0])


def states(amps, cells):
    """Invented panels by the current of their weakest cell and their count of cells, in five lights."""
    amps, cells = np.asarray(amps), np.asarray(cells)
    current = np.outer(LIGHT * amps.max() * 1.05, np.sin(np.linspace(0, np.pi / 2, CURRENTS)))
    left = LIGHT[:, None, None] * amps[:, None] - current[:, None, :]
    volt = cells[:, None] * (0.6 + 0.027 * np.log(np.maximum(left, 1e-12) / 9.0))
    return States(current, np.where(left > 0, np.maximum(volt, -0.5), -0.5), HOURS)


def allowed(count, **change):
    each = Allowed(1, 2, 0.0, 1e3, (23.0,) * count, (16.0,) * count)
    return dataclasses.replace(each, **change)


def brute(found, limits, shape):
    """The best of a shape by every order of the panels."""
    count, best = found.volt_v.shape[1], 0.0
    rows, long = shape
    for order in permutations(range(count)):
        way = tuple(tuple(sorted(order[k * long : (k + 1) * long])) for k in range(rows))
        best = max(best, weighed(found, limits, (way,)))
    return best


@pytest.mark.parametrize("seed", range(4))
def test_of_few_panels_the_best_of_all_is_found(seed):
    chance = np.random.default_rng(seed)
    found = states(9 * chance.normal(1, 0.08, 6), [36] * 6)
    limits = allowed(6, least_v=33.0, most_v=80.0)
    best = arranged(found, limits)
    asked = max(brute(found, limits, shape) for shape in ((1, 3), (2, 3), (2, 2), (1, 2)))
    assert best.kwh == pytest.approx(asked, rel=1e-9)
    assert best.kwh <= best.alone_kwh


def test_like_currents_come_together():
    found = states([9.0, 7.0, 9.05, 7.05, 8.98, 7.02], [36] * 6)
    best = arranged(found, allowed(6, inputs=2, most_rows=1, least_v=45.0))
    assert {frozenset(row) for rows in best.inputs for row in rows} == {
        frozenset({0, 2, 4}),
        frozenset({1, 3, 5}),
    }
    assert best.lost_share < 0.02


def test_a_panel_that_would_hold_a_string_back_is_left_out():
    found = states([9.0, 9.0, 9.0, 2.0], [36] * 4)
    best = arranged(found, allowed(4, inputs=1, most_rows=1, least_v=30.0))
    assert best.left_out == (3,)


@pytest.mark.parametrize("seed", range(3))
def test_exchanges_of_many_panels_gain_on_sorting_or_keep_it(seed):
    chance = np.random.default_rng(seed)
    count = 16
    found = states(9 * chance.normal(1, 0.06, count), chance.choice([36, 36, 40], count))
    limits = allowed(count, inputs=1, most_rows=4, least_v=60.0, most_v=100.0)
    best = arranged(found, limits)
    at = (found.current_a[:, None] * found.volt_v).argmax(axis=2)[-1]
    order = np.argsort(-found.current_a[-1][at], kind="stable").tolist()
    plain = tuple(tuple(order[4 * k : 4 * k + 4]) for k in range(4))
    assert best.kwh >= weighed(found, limits, (plain,)) > 0
    assert best.kwh <= best.alone_kwh == pytest.approx(alone_kwh(found))
    assert best.kwh == pytest.approx(weighed(found, limits, best.inputs), rel=1e-9)


def test_no_string_passes_the_controllers_voltage_in_the_cold():
    found = states([9.0] * 6, [36] * 6)
    best = arranged(found, allowed(6, most_v=50.0))
    assert max(len(row) for rows in best.inputs for row in rows) == 2
    assert arranged(found, allowed(6, most_v=20.0)) is None
    assert arranged(found, allowed(6, least_v=900.0, most_v=1e4)) is None


def test_panels_joined_straight_to_a_battery_lie_side_by_side():
    found = states([9.0, 8.5, 9.2, 8.8], [36] * 4)
    limits = allowed(4, most_rows=4, most_v=30.0, held_v=13.5)
    best = arranged(found, limits)
    assert all(len(row) == 1 for row in best.inputs[0])
    assert best.left_out == ()
    volts = found.volt_v
    amps = [
        sum(np.interp(13.5, volts[k, p][::-1], found.current_a[k][::-1]) for p in range(4))
        for k in range(STATES)
    ]
    assert best.kwh == pytest.approx(13.5 * np.array(amps) @ HOURS / 1000, rel=1e-6)


def test_no_string_longer_than_a_switch_can_use_is_taken_by_choice():
    """Two panels in series give a battery of 12 V hardly more amperes than one."""
    found = states([9.0, 9.0], [36] * 2)
    long = allowed(2, most_rows=1, most_v=60.0, held_v=13.5)
    assert [len(row) for row in arranged(found, long).inputs[0]] == [2]
    short = dataclasses.replace(long, work_v=(18.2, 18.2), most_work_v=21.6)
    assert [len(row) for row in arranged(found, short).inputs[0]] == [1]


def keep_fuses(inputs, amps, label_a, family, cold_v=23.0):
    """Whether the strings keep the rules for string fuses, by the checks that a plan is held to."""
    for rows in inputs:
        strings = [
            tuple(Plate(f"{p}", 22.0, 18.0, amps[p], 0.95 * amps[p], label_a[p]) for p in row) for row in rows
        ]
        found = string_fuses(strings, family, np.inf)
        cold = max(cold_v * len(row) for row in rows)
        if not all(check.passed for check in fuse_checks(found, cold)):
            return False
    return True


def every_way(count, rows, long):
    """Each order of the panels, dealt into so many strings."""
    for order in permutations(range(count), rows * long):
        row = tuple(tuple(order[k * long : (k + 1) * long]) for k in range(rows))
        if list(row) == sorted(row) and all(list(each) == sorted(each) for each in row):
            yield (row,)


#: of six panels: short-circuit currents and largest fuses of their labels
LABELS = [
    ([3.6, 3.5, 3.7, 3.4, 3.65, 3.55], [5.0] * 6),  # no fuse as sold fits
    ([3.6, 3.5, 3.7, 3.4, 3.65, 3.55], [8.0, 8.0, 5.0, 8.0, 8.0, 5.0]),  # of four panels one fits
    ([3.0, 3.1, 2.2, 2.1, 3.05, 2.15], [5.0, 5.0, 4.0, 4.0, 5.0, 4.0]),  # weak and strong ones
    ([6.1, 6.0, 5.9, 6.2, 6.05, 5.95], [6.3] * 6),  # even two side by side are the most that is borne
    ([8.0, 7.9, 8.1, 8.05, 7.95, 7.85], [15.0] * 6),  # all have theirs
]


@pytest.mark.parametrize("family", ["IEC", "NEC"])
@pytest.mark.parametrize(("amps", "label_a"), LABELS)
def test_of_few_panels_the_best_of_all_that_keep_the_fuses_is_found(amps, label_a, family):
    found = states(np.array(amps), [36] * 6)
    limits = allowed(6, most_rows=6, most_v=80.0, fusing=Fusing(family, tuple(amps), tuple(label_a)))
    best = arranged(found, limits)
    assert keep_fuses(best.inputs, amps, label_a, family)
    free = dataclasses.replace(limits, fusing=None)
    ways = (
        way for rows in range(1, 7) for long in range(1, 6 // rows + 1) for way in every_way(6, rows, long)
    )
    asked = max(weighed(found, free, way) for way in ways if keep_fuses(way, amps, label_a, family))
    assert best.kwh == pytest.approx(asked, rel=1e-9)


def test_strings_of_high_voltage_lie_apart_where_no_fuse_breaks_it():
    """Fuses for panels end at 1000 V (IEC 60269-6): three strings above it would need them."""
    amps = [8.0] * 6
    fusing = Fusing("IEC", tuple(amps), (15.0,) * 6)
    limits = allowed(6, most_rows=3, most_v=1500.0, cold_v=(600.0,) * 6, fusing=fusing)
    best = arranged(states(np.array(amps), [36] * 6), dataclasses.replace(limits, least_v=30.0))
    assert keep_fuses(best.inputs, amps, [15.0] * 6, "IEC", 600.0)
    assert len(best.inputs[0]) < 3


@pytest.mark.parametrize("label_a", [[5.0] * 30, [5.0, 8.0] * 15, [5.0] * 20 + [6.0] * 10])
@pytest.mark.parametrize("inputs", [1, 2])
def test_thirty_unlike_panels_never_break_the_rules_for_fuses(label_a, inputs):
    amps = 3.6 * np.random.default_rng(7).normal(1, 0.05, 30)
    found = states(amps, [36] * 30)
    fusing = Fusing("IEC", tuple(amps.tolist()), tuple(label_a))
    limits = allowed(30, inputs=inputs, most_rows=4, least_v=75.0, most_v=120.0, fusing=fusing)
    best = arranged(found, limits)
    assert keep_fuses(best.inputs, amps, label_a, "IEC")
    plain = arranged(found, dataclasses.replace(limits, fusing=None))
    assert not keep_fuses(plain.inputs, amps, label_a, "IEC")
    pair = dataclasses.replace(limits, fusing=None, most_rows=2)  # two never need a fuse here
    assert best.kwh >= arranged(found, pair).kwh * (1 - 1e-9)


@pytest.mark.parametrize("change", [{"inputs": 0}, {"most_rows": 0}, {"least_v": 60.0, "most_v": 50.0}])
def test_limits_that_cannot_be_are_refused(change):
    with pytest.raises(ValueError, match="under the most"):
        allowed(2, **change)
