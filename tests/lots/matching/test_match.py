"""Laws of matching: no cell twice, limits kept, never worse than sorting, bounds that hold."""

from __future__ import annotations

from dataclasses import fields, replace
from itertools import combinations, product
from random import Random

import numpy as np
import pytest
from campaigns import matching
from campaigns.matching_told import LEAST
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panewright.cell.diodes import Diodes
from panewright.circuit.maxima import key_points
from panewright.lots.matching.asked import Asked, BestRemainder, Limits, MostReaching, MostWatts, Reverse
from panewright.lots.matching.filled import filled
from panewright.lots.matching.match import bench, match
from panewright.lots.matching.plans import cooling, making, pooled, small
from panewright.lots.matching.plans.assigning import apart, reassigned
from panewright.lots.matching.plans.cooled import cooled, standing
from panewright.lots.matching.proof.fills import fills_of, most_strings
from panewright.lots.matching.proof.sets import Room, dearest
from panewright.lots.matching.proof.windows import Half, Windows, leaves
from panewright.lots.matching.vectors import stand, summed

FEW = settings(deadline=None, max_examples=3, suppress_health_check=list(HealthCheck))
LIMITS = Limits(6.0, 1, Reverse(0.66))


def lot_of(count: int, seed: int, **how: float):
    return matching.standing(matching.cells(count, seed, matching.Drawn(**how)))


@given(
    st.integers(24, 48),
    st.sampled_from([(8, 1, 2), (9, 3, 1), (12, 2, 2), (10, 1, 1)]),
    st.booleans(),
    st.integers(0, 10**6),
    st.integers(0, 3),
)
@FEW
def test_every_cell_once_limits_kept_never_worse_and_the_bound_proven(count, build, limited, seed, number):
    lot = lot_of(count, seed, leaky=0.1, weak=0.1)
    asked = Asked(matching.wiring(*build), MostWatts(), LIMITS if limited else Limits())
    aims = (MostWatts(), *matching.aims(lot, asked)) if matching.sorted_w(lot, asked).size else (MostWatts(),)
    matched = match(lot, replace(asked, aim=aims[number % len(aims)]))
    assert matching.fault(matched) == ""
    place = -1 if matched.bound.kind == "remainder" else 0
    assert matched.score[place] <= matched.bound.value * (1 + 1e-9) + 1e-9


@given(st.integers(0, 10**6), st.sampled_from([(4, 1, 2), (4, 2, 1)]), st.integers(0, 3))
@FEW
def test_the_bound_lies_above_the_best_of_all_ways(seed, build, number):
    lot = lot_of(9, seed, imp=0.05)
    asked = Asked(matching.wiring(*build), MostWatts())
    aim = (MostWatts(), *matching.aims(lot, asked))[number]
    exact = match(lot, replace(asked, aim=aim))
    assert exact.bound.kind == "exhausted"
    most, sets = small.MOST, pooled.SETS
    small.MOST = 0
    try:
        chosen = match(lot, replace(asked, aim=aim))
        pooled.SETS = 0
        bounded = match(lot, replace(asked, aim=aim))
    finally:
        small.MOST, pooled.SETS = most, sets
    if chosen.bound.kind == "exhausted":
        assert chosen.score[0] == pytest.approx(exact.score[0], rel=1e-12)
    assert bounded.bound.kind != "exhausted"
    place = -1 if isinstance(aim, BestRemainder) else 0
    if exact.score[0] == bounded.score[0] or place == 0:
        assert bounded.bound.value >= exact.score[place] * (1 - 1e-9)
    assert matching.proven(bounded)


@pytest.fixture(scope="module")
def sixty():
    """Sixty cells matched for most watts."""
    return match(lot_of(60, 3), Asked(matching.wiring(8, 1, 2), MostWatts()))


def test_a_falsified_certificate_is_caught(sixty):
    matched = sixty
    assert matching.proven(matched)
    proof = matched.bound.proofs[-1]
    lower = replace(matched.bound, value=matched.bound.value * 0.999)
    dearer = replace(proof, costs=tuple(cost - 0.01 for cost in proof.costs))
    below = replace(proof, prices=proof.prices - 0.01)
    for wrong in (
        lower,
        replace(matched.bound, proofs=(dearer,)),
        replace(matched.bound, proofs=(below,), value=matched.bound.value - 0.4),
    ):
        assert not matching.proven(replace(matched, bound=wrong))


def test_a_proof_that_leaves_currents_out_is_refused(sixty):
    matched = sixty
    proof = matched.bound.proofs[-1]
    gap = replace(proof, low_a=proof.low_a + 0.1)
    with pytest.raises(ValueError, match="stretches follow each other"):
        matching.proven(replace(matched, bound=replace(matched.bound, proofs=(gap,))))


@given(st.integers(0, 10**6), st.integers(0, 3))
@FEW
def test_a_cell_more_never_lowers_the_best(seed, number):
    cells = matching.cells(9, seed, matching.Drawn())
    lot = matching.standing(cells)
    less = matching.standing(Diodes(*(getattr(cells, each.name)[:8] for each in fields(Diodes))))
    asked = Asked(matching.wiring(4, 1, 1), MostWatts())
    aim = (MostWatts(), *matching.aims(less, asked))[number]
    fewer, more = (match(each, replace(asked, aim=aim)) for each in (less, lot))
    assert more.score[0] >= fewer.score[0] - 1e-9
    if more.score[0] == fewer.score[0] and isinstance(aim, BestRemainder):
        assert more.score[1] >= fewer.score[1] - 1e-6


def test_the_panels_told_are_those_of_the_circuit():
    lot = lot_of(44, 5)
    matched = match(lot, Asked(matching.wiring(10, 2, 1), MostWatts()))
    assert len(matched.panels) == 4
    for panel in matched.panels:
        seats = [lot.marks.index(seat.mark) for seat in panel.seats]
        exact = key_points(filled(matched.asked.network, lot.cells, seats))
        assert panel.points.power_w == pytest.approx(exact.power_w, rel=1e-9)
        assert (panel.points.isc_a, panel.points.voc_v) == pytest.approx((exact.isc_a, exact.voc_v), rel=1e-6)
        assert 0 < panel.loss < 0.1
        assert 0 < panel.mismatch < panel.loss
        assert panel.own_w == pytest.approx(sum(lot.power_w[k] for k in seats))


@pytest.mark.parametrize(("cells", "leaky"), [(9, 0.0), (26, 1.0)])
def test_cells_that_fill_no_panel_are_told_as_none_with_a_bound_that_holds(cells, leaky):
    asked = Asked(matching.wiring(12, 1, 2), MostWatts(), Limits(6.0, 1) if leaky else Limits())
    for aim in (MostWatts(), MostReaching(50.0), BestRemainder(1, 50.0)):
        matched = match(lot_of(cells, 5, leaky=leaky), replace(asked, aim=aim))
        assert not matched.panels
        assert matching.fault(matched) == ""


@pytest.mark.parametrize("every", [13, 1])
@pytest.mark.parametrize("number", [0, 1, 2, 3])
def test_dead_cells_are_matched_with_a_bound_that_holds(every, number):
    """One cell in thirteen gives no current, or none gives any."""
    cells = matching.cells(40, 1, matching.Drawn())
    light = np.where(np.arange(40) % every == 0, 0.0, cells.light_a)
    asked = Asked(matching.wiring(12, 1, 2), MostWatts())
    aim = (MostWatts(), matching.steps(51.0), MostReaching(51.0), BestRemainder(1, 51.0))[number]
    matched = match(matching.standing(replace(cells, light_a=light)), replace(asked, aim=aim))
    assert matching.fault(matched) == ""
    dead = {f"c{k + 1:04}" for k in np.flatnonzero(light == 0).tolist()}
    if every > 1:
        assert matched.panels
        assert not dead & {seat.mark for panel in matched.panels for seat in panel.seats}
    else:
        assert matched.score[0] == matched.bound.value == 0


def test_the_best_two_panels_of_six_single_cells_side_by_side_are_settled():
    """Of thirteen cells 1716 panels nearly alike: the best two of them are the best of all pairs."""
    maker = bench(lot_of(13, 6), Asked(matching.wiring(6, 6, 1), MostWatts()))
    ways = small.every_way(maker.rules, maker.network)
    chosen, settled = small.best_of(ways, maker.aim, 2)
    assert settled
    watts = dict(zip(ways.sets, ways.power_w.tolist(), strict=True))
    pairs = (
        w + watts[o] for s, w in watts.items() for o in map(frozenset, combinations(set(range(13)) - s, 6))
    )
    assert ways.power_w[chosen].sum() == pytest.approx(max(pairs), rel=1e-9)


def test_two_kinds_of_cells_have_a_bound_by_whole_strings_of_each():
    """Strings of four and a third of each kind: prices alone fill the third, cases forbid it."""
    drawn = [matching.cells(26, seed, matching.Drawn(imp=0.01)) for seed in (1, 2)]
    drawn[0] = replace(drawn[0], light_a=0.8 * drawn[0].light_a)
    both = Diodes(*(np.concatenate([getattr(one, f.name) for one in drawn]) for f in fields(Diodes)))
    matched = match(matching.standing(both), Asked(matching.wiring(6, 1, 2), MostWatts()))
    assert matching.fault(matched) == ""
    assert len(matched.bound.proofs) > 1
    assert matched.bound.value - matched.score[0] < 0.003 * matched.score[0]


def test_cooling_strings_side_by_side_never_loses_and_loses_no_piece():
    lot = lot_of(40, 2)
    maker = bench(lot, Asked(matching.wiring(8, 2, 1), MostWatts()))
    plain = maker.made(maker.sorted_deal())
    cold = making.cooled_down(maker, plain)
    assert cold.score > plain.score
    assert np.unique(cold.seats).size == cold.seats.size == plain.seats.size
    alone = bench(lot, Asked(matching.wiring(8, 1, 1), MostWatts()))
    single = alone.made(alone.sorted_deal())
    assert making.cooled_down(alone, single) is single


def test_what_the_loops_say_of_a_panel_is_what_the_circuit_says():
    """Two panels of two strings of four: each pair of strings, as the exact circuit has it."""
    maker = bench(lot_of(17, 3, imp=0.05), Asked(matching.wiring(8, 2, 1, lead_ohm=0.01), MostWatts()))
    strings = maker.sorted_deal()
    curves, _piece, grid, begin, volt, power = standing(maker.vectors, strings)
    at = np.empty(4)
    for panel, exact_w in enumerate(maker.made(strings).power_w.tolist()):
        seen = cooling.most_w(curves, begin, 2 * panel, 2, grid, volt[panel], at)
        assert seen == pytest.approx(exact_w, rel=1e-5)
        assert power[panel] == pytest.approx(exact_w, rel=1e-5)


def test_cooling_leaves_soldered_strings_whole_and_takes_what_is_left_over():
    lot = lot_of(38, 5)
    joined = matching.soldered(lot, 2, 5)[:6]
    maker = bench(lot, Asked(matching.wiring(8, 2, 1), MostWatts(), soldered=joined))
    plain = maker.made(maker.sorted_deal())
    cold = maker.made(cooled(maker.vectors, maker.rules, plain.strings, 1e-4))
    assert cold.score > plain.score
    assert np.unique(cold.seats).size == cold.seats.size == plain.seats.size
    assert set(cold.seats.reshape(-1).tolist()) != set(plain.seats.reshape(-1).tolist())


def test_the_same_lot_gives_the_same_deal():
    asked = Asked(matching.wiring(9, 1, 1), MostReaching(39.0))
    one, two = (match(lot_of(80, 7), asked) for _ in range(2))
    assert (one.panels, one.left, one.bound.value) == (two.panels, two.left, two.bound.value)


@pytest.mark.parametrize("number", [0, 2])
def test_how_far_it_is_only_rises_and_ends_whole(number):
    lot, told = lot_of(30, 7), list[float]()
    asked = Asked(matching.wiring(9, 1, 1), MostWatts())
    aim = (MostWatts(), *matching.aims(lot, asked))[number]
    match(lot, replace(asked, aim=aim), far=told.append)
    assert told == sorted(told)
    assert len(told) > 2
    assert told[-1] == 1.0


def test_soldered_strings_stay_together_and_spares_are_left():
    lot = lot_of(96, 4)
    joined = matching.soldered(lot, 4, 9)
    matched = match(lot, Asked(matching.wiring(8, 1, 2), MostWatts(), soldered=joined, spares=9))
    assert matching.fault(matched) == ""
    assert len(matched.panels) == 10
    seated = [[seat.mark for seat in panel.seats] for panel in matched.panels]
    halves = {tuple(marks[k : k + 4]) for marks in seated for k in (0, 4)}
    assert halves <= set(joined)


def test_loose_cells_and_soldered_strings_go_together():
    lot = lot_of(60, 8)
    joined = matching.soldered(lot, 3, 2)[:8]
    asked = Asked(matching.wiring(8, 1, 2), MostWatts(), soldered=joined)
    for aim in (MostWatts(), *matching.aims(lot, asked)):
        assert matching.fault(match(lot, replace(asked, aim=aim))) == ""


def test_unequal_substrings_take_weak_cells_where_they_are_short():
    part = matching.wiring(4, 1, 1).strings[0].substrings[0]
    short = replace(part, cells=part.cells[:2], joints_ohm=part.joints_ohm[:2])
    string = replace(matching.wiring(4, 1, 1).strings[0], substrings=(part, short))
    network = replace(matching.wiring(4, 1, 1), strings=(string,))
    lot = lot_of(48, 6, weak=0.2)
    matched = match(lot, Asked(network, MostWatts(), Limits(reverse=Reverse(4.0))))
    assert matching.fault(matched) == ""
    assert any(matched.rules.pieces.most_cells[c] == 2 for c in matched.made.seats.reshape(-1))


@given(st.integers(0, 10**6), st.integers(1, 6), st.integers(0, 3))
@FEW
def test_the_dearest_set_is_the_dearest(seed, count, most_leaky):
    dice = np.random.default_rng(seed)
    values, leaky = dice.normal(size=(3, 9)), dice.random(9) < 0.4
    none, ones = np.zeros(9, dtype=bool), np.ones(9, dtype=np.int64)
    room = Room(count, ones, leaky, most_leaky, none, none, count)
    from itertools import combinations

    for row, found in zip(values, dearest(values, room).worth, strict=True):
        sets = [list(c) for c in combinations(range(9), count) if leaky[list(c)].sum() <= most_leaky]
        if sets:
            assert found == pytest.approx(max(row[each].sum() for each in sets))


@pytest.mark.parametrize("wrong", [{"spares": -1}, {"panels": 0}])
def test_what_cannot_be_asked_is_refused(wrong):
    with pytest.raises(ValueError, match="spares are 0 or more"):
        Asked(matching.wiring(8, 1, 2), MostWatts(), **wrong)


def test_a_soldered_cell_that_is_not_there_is_refused():
    with pytest.raises(ValueError, match="not in the lot"):
        match(lot_of(10, 1), Asked(matching.wiring(4, 1, 1), MostWatts(), soldered=(("x", "c0001"),)))


def test_a_lot_too_small_makes_nothing():
    matched = match(lot_of(3, 1), Asked(matching.wiring(4, 1, 1), MostWatts()))
    assert (matched.panels, len(matched.left)) == ((), 3)


def test_windows_that_are_halved_leave_nothing_out():
    wide = Windows.wide(3)
    halves = Half(1, 8.5, 0, Half(0, 9.0, 1, 2))
    ends = leaves(halves, wide)
    dice = np.random.default_rng(1)
    for _ in range(200):
        currents = np.sort(dice.uniform(8, 9.5, 3))[::-1]
        assert any(((w.low_a <= currents) & (currents <= w.high_a)).all() for _, w in ends)
    assert [number for number, _ in ends] == [0, 1, 2]
    assert ends[0][1].high_a.tolist() == [np.inf, 8.5, 8.5]


@given(st.integers(0, 10**6), st.integers(2, 5))
@FEW
def test_fills_are_all_ways_to_fill_a_string(seed, count):
    dice = np.random.default_rng(seed)
    there = dice.choice([1, 2, 3, 6], count * 3)
    sizes, string = np.unique(there), (4, 2)
    found = set(fills_of(there, sizes, [string]))
    most = [int((there == size).sum()) for size in sizes]
    for fill in product(*(range(n + 1) for n in most)):
        pieces = [int(size) for size, n in zip(sizes, fill, strict=True) for _ in range(n)]
        if sum(pieces) == sum(string):
            assert (fill in found) == goes_in(pieces, string)


@given(st.integers(0, 10**6), st.integers(1, 4))
@FEW
def test_no_more_strings_are_counted_than_pieces_fill(seed, loose):
    dice = np.random.default_rng(seed)
    there = [int(n) for n in dice.integers(0, 5, 3)]
    there[0] += loose
    fills = fills_of(np.repeat([1, 2, 3], there), np.array([1, 2, 3]), [(4, 2)])
    if fills:
        assert most_strings(fills, there) == filled_by(fills, tuple(there))


def filled_by(fills, there: tuple[int, ...]) -> int:
    """Every way tried."""
    left = [tuple(n - m for n, m in zip(there, fill, strict=True)) for fill in fills]
    return max((1 + filled_by(fills, rest) for rest in left if min(rest) >= 0), default=0)


def test_soldered_strings_that_go_in_nowhere_make_no_panel_and_no_bound():
    lot = lot_of(66, 8)
    asked = Asked(matching.wiring(10, 1, 1), MostWatts(), soldered=matching.soldered(lot, 7, 2))
    matched = match(lot, asked)
    assert matched.maker.panels == len(matched.panels) == 1
    assert matching.fault(matched) == ""
    assert matched.bound.value < 1.02 * matched.score[0]


def test_loose_cells_are_kept_for_soldered_strings_that_need_them():
    lot = lot_of(66, 8)
    asked = Asked(matching.wiring(10, 1, 1), MostWatts(), soldered=matching.soldered(lot, 7, 2)[:5])
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    assert matched.sorted_score[0] < 0.9 * matched.score[0]
    assert len(matched.panels) == matched.maker.panels == 6
    assert matched.bound.value < 1.001 * matched.score[0]


def test_a_diode_may_take_over_in_the_midst_of_a_soldered_string():
    """Half of each string gives next to no current: with that half bypassed the other gives its watts."""
    cells = matching.cells(16, 3, matching.Drawn())
    dark = np.isin(np.arange(16) % 8, range(4))
    lot = matching.standing(replace(cells, light_a=np.where(dark, 0.2, cells.light_a)))
    joined = tuple(lot.marks[k : k + 8] for k in (0, 8))
    asked = Asked(matching.wiring(8, 1, 2), MostWatts(), soldered=joined)
    matched = match(lot, asked)
    assert matched.score[0] > 25.0
    most, sets = small.MOST, pooled.SETS
    small.MOST = pooled.SETS = 0
    try:
        bounded = match(lot, asked)
    finally:
        small.MOST, pooled.SETS = most, sets
    assert bounded.bound.kind == "watts"
    assert bounded.bound.value >= matched.score[0]
    assert matching.proven(bounded)


def goes_in(pieces: list[int], string: tuple[int, ...]) -> bool:
    if not pieces:
        return not any(string)
    rest = pieces[1:]
    if pieces[0] == 6 and string == (4, 2):
        return not rest
    return any(
        goes_in(rest, (*string[:k], cells - pieces[0], *string[k + 1 :]))
        for k, cells in enumerate(string)
        if cells >= pieces[0]
    )


def test_dealing_anew_finds_the_best_deal_at_given_currents():
    lot = lot_of(9, 4, imp=0.05)
    maker = bench(lot, Asked(matching.wiring(4, 1, 2), MostWatts()))
    first = maker.sorted_deal()
    currents = np.array([8.9, 8.3])
    dealt = reassigned(maker.vectors, maker.rules, first, currents)
    alone = apart(maker.vectors)
    power = stand(alone, summed(alone, dealt)).power_w.sum()
    ways = [
        np.array([one, other]) for one in combinations(range(9), 4) for other in combinations(range(9), 4)
    ]
    apart_ways = [each.reshape(2, 1, 4) for each in ways if not set(each[0]) & set(each[1])]
    best = max(stand(alone, summed(alone, each)).power_w.sum() for each in apart_ways[::7])
    assert power >= best * (1 - 1e-4)


def test_of_soldered_strings_every_set_that_matters_is_tried():
    lot = lot_of(234, 7)
    joined = matching.soldered(lot, 9, 7)
    matched = match(lot, Asked(matching.wiring(36, 1, 2), MostWatts(), soldered=joined))
    assert matching.fault(matched) == ""
    assert matched.closed >= LEAST


@pytest.mark.parametrize("kind", ["soldered", "limits"])
def test_four_fifths_of_the_gap_of_most_watts_are_closed(kind):
    lot, asked = matching.job(Random(2), kind, 96)
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    assert matched.closed >= LEAST or matched.bound.value - matched.score[0] < 2e-6 * matched.score[0]
