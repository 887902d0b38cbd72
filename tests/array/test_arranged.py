"""Which panel in which string: the best of all on small arrays, never under sorting on large ones."""

import dataclasses
from itertools import permutations

import numpy as np
import pytest

from panewright.array.arranged import Allowed, States, alone_kwh, arranged, weighed

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


@pytest.mark.parametrize("change", [{"inputs": 0}, {"most_rows": 0}, {"least_v": 60.0, "most_v": 50.0}])
def test_limits_that_cannot_be_are_refused(change):
    with pytest.raises(ValueError, match="under the most"):
        allowed(2, **change)
