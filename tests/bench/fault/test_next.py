"""The next measurement: what it tells, and what is believed after it; from the curve to the place."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.bench.fault.finding import found
from panewright.bench.fault.place.belief import begin
from panewright.bench.fault.place.expected import corrected
from panewright.bench.fault.place.information import bits
from panewright.bench.fault.place.next import LEAST_BITS, METERS, advise, after, hides
from panewright.bench.fault.place.probe import cells_v
from panewright.bench.fault.place.setting import AtHand, Setting
from panewright.bench.fault.place.strip import along, lines, ratios
from panewright.bench.fault.place.whole import dull_v
from panewright.bench.fault.readings import AS_BUILT, Common
from panewright.bench.fault.stacked import Stacked
from panewright.cell.damage import Shaded
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.inside import cell_states
from panewright.circuit.place import CellAt, DiodeAt, all_cells
from panewright.circuit.solve import at_resistance, current_a, voltage_v
from panewright.enclosure.bypass import Bypass

AT = CellAt(0, 5)
SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)


@pytest.fixture(scope="module")
def weak(by, swept):
    """A fifth of the light is gone from a cell, of which the curve cannot know the place."""
    return begin(by.foretold, found(by, swept(("weak cell", AT, 0.2))))


@pytest.fixture(scope="module")
def closed(weak):
    return advise(weak, "closed")


def under(network, setting, cells):
    """With the strip or cover over those cells."""
    return damaged(network, *(Fault(Shaded(1.0, setting.depth), cell) for cell in cells))


def truth(network, advice):
    """What meters without error show."""
    setting, volt = advice.setting, np.array([advice.at_v])
    both = (under(network, setting, cells) for cells in (setting.cells, setting.then))
    return tuple(float(current_a(each, volt)[0]) for each in both)


def test_a_reading_that_halves_two_things_tells_one_bit():
    mean = np.array([[0.0], [100.0]])
    assert bits(mean, np.ones((2, 1)), np.full((2, 1), 0.5)) == pytest.approx(1.0, abs=1e-3)


def test_four_that_lie_apart_tell_two_bits_and_alike_ones_none():
    four, weights = np.arange(4.0)[:, None] * 50, np.full((4, 1), 0.25)
    assert bits(four, np.ones((4, 1)), weights) == pytest.approx(2.0, abs=1e-3)
    assert bits(np.ones((4, 1)), np.ones((4, 1)), weights) == 0.0


def test_a_reading_two_deviations_apart_tells_what_a_noisy_channel_does():
    """0.486 bit: a signal of one sigma each way, 1 - E[log2(1 + exp(-2 (1 + noise)))] (recalled)."""
    told = bits(np.array([[-1.0], [1.0]]), np.ones((2, 1)), np.full((2, 1), 0.5))
    assert told == pytest.approx(0.486, abs=0.002)


@pytest.fixture(scope="module")
def strips(weak):
    return [each for each in advise(weak, "closed", 30) if each.measurement == "strip"]


@pytest.fixture(scope="module")
def strip(strips):
    """Laid on and taken off."""
    return next(each for each in strips if not each.setting.then)


@pytest.fixture(scope="module")
def moved(strips):
    """Moved from some cells to others."""
    return next(each for each in strips if each.setting.then)


def test_the_first_measurements_on_a_closed_panel_halve_the_cells(closed, strip):
    """A cover over one cell takes its row out, a strip over half the cells shows in which half it is."""
    assert closed[0].expected_bits > 0.9
    assert strip.expected_bits > 0.9
    assert 0 < strip.at_v < 21
    assert len(strip.outcomes) >= 2
    assert sum(each.odds for each in strip.outcomes) == pytest.approx(1.0, abs=0.05)


def test_the_strip_lets_through_more_than_the_weak_cell_has(strip):
    assert 0.05 <= strip.depth < 0.2


def test_a_strip_that_is_moved_takes_more_and_parts_the_cells_in_three(moved):
    assert moved.depth > 0.2
    assert moved.expected_bits > 1.3
    assert "move it over cell" in moved.how
    assert [each.unit for each in moved.asks] == ["A", "A"]


@pytest.mark.parametrize("lies", ["under the first part", "under the second part", "elsewhere"])
def test_where_a_moved_strip_is_read_is_foretold_as_the_exact_circuit_has_it(by, wrong, weak, moved, lies):
    """Under the first part less than elsewhere, under the second as much more, else alike."""
    first, then = (each[0] for each in (moved.setting.cells, moved.setting.then))
    others = set(all_cells(by.foretold.network)) - {*moved.setting.cells, *moved.setting.then}
    at = {"under the first part": first, "under the second part": then}.get(lies) or min(
        others, key=lambda each: each.number
    )
    network = by.foretold.network_with(wrong(("weak cell", at, 0.2)))
    with_it, elsewhere = truth(network, moved)
    spot = next(k for k, each in enumerate(weak.spots) if each.place == at and each.kind.key == "weak cell")
    told = [
        along(each, each.amps, moved.setting)[spot, 2]
        for each in (lines(weak, cells, moved.depth) for cells in (moved.cells, moved.setting.then))
    ]
    assert with_it / elsewhere == pytest.approx(told[0] / told[1], rel=0.01)
    sign = {"under the first part": 1, "under the second part": -1, "elsewhere": 0}[lies]
    assert np.log(with_it / elsewhere) == pytest.approx(sign * np.log(1 - 0.2), abs=0.06)  # cells leak
    later = after(weak, moved.setting, (with_it, elsewhere))
    assert sum(spot.odds for spot in later.spots if spot.place == at) > 2.5 / 36


@pytest.mark.parametrize("at", [AT, CellAt(0, 30)])
def test_a_strip_foretells_what_the_exact_circuit_gives(by, wrong, weak, strip, at):
    """Within a two-hundredth of the short-circuit current."""
    spot = next(k for k, each in enumerate(weak.spots) if each.place == at and each.kind.key == "weak cell")
    told = lines(weak, strip.cells, strip.depth)
    network = by.foretold.network_with(wrong(("weak cell", at, weak.spots[spot].strengths[2])))
    shaded = under(network, strip.setting, strip.cells)
    exact = current_a(shaded, told.volts)
    assert np.abs(told.amps[spot, 2] - exact).max() < 0.005 * by.foretold.isc_a


def test_a_reading_moves_what_is_believed_to_the_true_half(by, wrong, weak, closed):
    network = by.foretold.network_with(wrong(("weak cell", AT, 0.2)))
    later = after(weak, closed[0].setting, truth(network, closed[0]))
    before, now = (next(s.odds for s in each.spots if s.place == AT) for each in (weak, later))
    assert now > 1.8 * before
    assert later.measured == 1


def test_a_weak_cell_is_found_within_as_many_measurements_as_halving_takes(by, wrong, weak):
    network, state = by.foretold.network_with(wrong(("weak cell", AT, 0.2))), weak
    while state.located is None and state.measured < 9:
        best = advise(state, "closed", 1)[0]
        state = after(state, best.setting, truth(network, best))
    assert state.located.place == AT
    assert hides(state, "closed") == ""


@pytest.mark.parametrize(
    ("key", "place", "strength"),
    [("weak cell", AT, 0.2), ("bypass shorted", DiodeAt(0, 1), 0.0), ("joint open", AT, 0.0)],
)
@pytest.mark.parametrize("share", [0.0, 0.8, 1.0])
def test_needles_foretell_every_cell_s_voltage(by, wrong, key, place, strength, share):
    """Beside the exact circuit, within 0.1 V of a cell driven backward and 10 mV of any other."""
    foretold, network = by.foretold, by.foretold.network_with(wrong((key, place, strength)))
    stacked = Stacked(foretold.network, foretold.grid, foretold.scale)
    top = float(voltage_v(network, np.array([0.0]))[0])
    at_v = share * top
    volts, more = cells_v(stacked, ((key, strength, place),), 0, at_v)
    exact = np.array([state.voltage_v - state.current_a * 0.0012 for state in cell_states(network, at_v)])
    if isinstance(place, CellAt) and key != "joint open":  # the gap stands beside the cells
        volts[place.number - 1] += more
    off = np.abs(volts - exact)
    assert np.median(off) < 0.01
    assert off.max() < max(0.1, 0.02 * np.abs(exact).max())


def test_an_open_lay_up_is_asked_by_needles(by, swept):
    state = begin(by.foretold, found(by, swept(("cell turned", AT, 0.0))))
    best = advise(state, "open", 1)[0]
    assert best.measurement == "probe"
    assert "needles" in best.how


def test_needles_find_the_joint_that_is_off_by_its_row_s_whole_voltage(by, wrong, swept):
    things = ("joint open", AT, 0.0)
    network, state = by.foretold.network_with(wrong(things)), begin(by.foretold, found(by, swept(things)))
    while state.located is None and state.measured < 9:
        best = advise(state, "open", 1)[0]
        assert best.measurement == "probe"
        state = after(state, best.setting, needles(network, best))
    assert (state.located.kind.key, state.located.place) == ("joint open", AT)


def needles(network, advice):
    """Of a panel whose joint behind its fifth cell is off: the gap has what the row has not."""
    top = float(voltage_v(network, np.array([0.0]))[0])
    held = top if advice.setting.opened else min(advice.at_v, top)
    states = cell_states(network, held)
    amps = float(current_a(network, np.array([held]))[0])
    row = -(SCHOTTKY.ideality_v * np.log1p(amps / SCHOTTKY.saturation_a) + SCHOTTKY.series_ohm * amps)
    across = [state.voltage_v - state.current_a * 0.0012 for state in states]
    across[AT.number - 1] += row - sum(across[:18])
    read = sum(across[cell.number - 1] for cell in advice.cells)
    return (read,) if advice.setting.shorted else (read, held)


def test_a_closed_panel_hides_which_joint_of_a_row_is_cold(by, wrong, swept):
    """Its row may be told by covering a cell of it; then nothing tells more, and that is said."""
    things = ("resistance", AT, 0.3)
    state, network = begin(by.foretold, found(by, swept(things))), by.foretold.network_with(wrong(things))
    for _ in range(6):
        told = advise(state, "closed", 1)
        if not told or told[0].measurement not in ("strip", "cover"):
            break
        state = after(state, told[0].setting, truth(network, told[0]))
    assert state.located is None
    assert "closed panel" in hides(state, "closed")
    assert "each lead with its end" in hides(state, "closed")
    assert advise(state, "open", 1)[0].measurement == "probe"


def test_a_meter_alone_is_sent_to_no_voltage_that_nothing_holds(weak):
    """Shorted, or through its own resistors; no supply, and no needles under a held voltage."""
    hand = AtHand(load=False, supply=False, resistors_ohm=(2.2,))
    told = [*advise(weak, "closed", 20, hand=hand), *advise(weak, "open", 20, hand=hand)]
    assert {each.measurement for each in told} >= {"strip", "probe"}
    for each in told:
        setting = each.setting
        assert setting.measurement != "dark current"
        assert setting.at_v == 0
        assert setting.load_ohm in (0.0, 2.2, np.inf)
    assert any("through the resistor of 2.2 ohm" in each.how for each in told)


def test_a_weak_cell_is_found_with_a_meter_and_two_resistors(by, wrong, weak):
    network, state = by.foretold.network_with(wrong(("weak cell", AT, 0.2))), weak
    hand = AtHand(load=False, supply=False, resistors_ohm=(2.2, 3.3))
    while state.located is None and state.measured < 9:
        best = advise(state, "closed", 1, hand=hand)[0].setting
        both = (under(network, best, cells) for cells in (best.cells, best.then))
        amps = (at_resistance(each, best.load_ohm)[1] for each in both)
        state = after(state, best, tuple(amps))
    assert state.located.place == AT


def test_what_the_meter_would_show_is_the_exact_circuit_s_where_it_comes_out_so(by, wrong, closed):
    """Both readings of one of the outcomes."""
    network = by.foretold.network_with(wrong(("weak cell", AT, 0.2)))
    for each in closed:
        first, second = truth(network, each)
        (came,) = (out for out in each.outcomes if out.low <= first / second <= out.high)
        assert came.beside == pytest.approx(second, abs=0.02 * by.foretold.isc_a)
        assert came.low * came.beside - 0.02 < first < came.high * came.beside + 0.02


@pytest.fixture(scope="module")
def shunted(by, swept):
    """A shunt of which light alone is in doubt, by readings of a panel known by what went in."""
    read = replace(swept(("shunt", AT, 20.0)), common=AS_BUILT)
    return begin(by.foretold, found(by, read))


def test_dull_light_errs_by_what_is_not_known_of_the_panel_itself(shunted):
    known = replace(shunted, common=Common())
    built, exact = (dull_v(each, Setting("dull light"), METERS) for each in (shunted, known))
    assert built.own == pytest.approx(exact.own)
    assert np.all(built.alike > exact.alike)
    assert built.alike.min() > AS_BUILT.voc * shunted.foretold.voc_v


def test_the_same_read_again_makes_nothing_surer_than_the_panel_is_known(shunted):
    """Ten readings of one voltage err alike: they tell what two of them do, nearly."""
    setting = Setting("dull light")
    foretold = dull_v(shunted, setting, METERS)
    volts = (float(np.average(foretold.mean.ravel(), weights=shunted_weights(shunted).ravel())),)
    states = [shunted]
    for _ in range(10):
        states.append(after(states[-1], setting, volts))
    moved = [np.abs(shunted_weights(each) - shunted_weights(shunted)).sum() for each in states[1:]]
    assert moved[-1] < 1.5 * moved[0] + 0.02
    alone = dull_v(shunted, setting, METERS)
    left = corrected(alone, states[-1].learning)
    assert np.all(left.sigma < alone.sigma)
    assert np.all(left.sigma >= alone.own)


def test_a_strip_s_ratio_errs_where_the_two_currents_fall_unlike_with_voltage(by, wrong, weak, strip):
    """The panel moved by a hundredth of its voltage: the exact ratio moves as the error says."""
    network = by.foretold.network_with(wrong(("weak cell", AT, 0.2)))
    shaded = under(network, strip.setting, strip.cells)
    volts = np.array([strip.at_v, 0.99 * strip.at_v])
    with_it, without = (current_a(each, volts) for each in (shaded, network))
    moved = abs(np.diff(with_it / without)[0])
    plain = replace(lines(weak, (), 0.0), off=0.01)
    alike = ratios(plain, lines(weak, strip.cells, strip.depth), METERS)[2]
    spot = next(k for k, each in enumerate(weak.spots) if each.place == AT and each.kind.key == "weak cell")
    told = along(plain, alike, strip.setting)[spot, 2]
    assert told == pytest.approx(np.hypot(moved, 0.003 * with_it[0] / without[0]), rel=0.35, abs=0.001)


def shunted_weights(state):
    return np.array([spot.weights for spot in state.spots])


def test_readings_that_cannot_be_are_refused(weak, closed):
    with pytest.raises(ValueError, match="2 readings are asked for"):
        after(weak, closed[0].setting, (1.0,))
    with pytest.raises(ValueError, match="cannot be 0"):
        after(weak, closed[0].setting, (1.0, 0.0))


def test_what_tells_next_to_nothing_is_not_advised(closed):
    assert all(each.expected_bits > LEAST_BITS for each in closed)
