"""Cells eight abreast stand as the same cells do one by one; and the functions that make it possible."""

from dataclasses import replace
from itertools import accumulate
from random import Random

import numpy as np
import pytest

from panewright.cell.diode import Diode
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solver import abreast, elementary, substring
from panewright.circuit.solver.compiled import compiled
from panewright.circuit.solver.facts import learn
from panewright.circuit.solver.hand import WIDE, hand
from panewright.circuit.solver.panel import Panel
from panewright.circuit.solver.sheet import arrays, lay_out_apart
from panewright.circuit.trials import Trials, _Laid


def drawn(chance, light=8.0):
    """A cell from anywhere a diode can be."""
    return Diode(
        light * chance.choice((0.0, 1e-6, 1.0, 1.0)) * chance.uniform(0.1, 1.1),
        10 ** chance.uniform(-13, -5),
        chance.uniform(0.02, 0.06),
        chance.choice((0.0, 0.003)),
        chance.choice((float("inf"), 10 ** chance.uniform(-1, 4))),
        chance.choice((0.0, 10 ** chance.uniform(-6, -1))),
        -(10 ** chance.uniform(0.3, 2)),
        chance.uniform(1, 8),
    )


@pytest.mark.parametrize("seed", range(40))
def test_a_substring_stands_abreast_as_it_does_one_by_one(seed):
    chance = Random(seed)
    cells = tuple(drawn(chance) for _ in range(chance.randint(1, 30)))
    turned = tuple(k for k in range(len(cells)) if chance.random() < 0.1)
    network = Network((String((Substring(cells, (0.001,) * len(cells), None, turned),)),))
    laid, one = _Laid.of(Trials.once(network)), Panel.of(network)
    columns = type(one.laid.cells)(*(table[0] for table in laid.cells), laid.hand.parts)
    learn(laid.sheet, columns)
    abreast.load(laid.sheet, columns, laid.hand.work)
    whole = compiled(abreast.cells_at)
    amps = [chance.uniform(-1, 9) * chance.choice((1.0, 1e-9)) for _ in range(20)]
    for amp in [*amps, *(a * 1.0001 for a in amps), 0.0]:
        kept = whole(laid.sheet, columns, 0, amp, laid.hand.work)
        alone = substring.cells_at(one.laid.sheet, one.laid.cells, 0, amp, one.hand.work)
        if abs(alone[0]) == float("inf"):
            assert kept[0] == alone[0]
            continue
        assert kept[0] == pytest.approx(alone[0], rel=1e-9, abs=1e-10)
        assert kept[1] == pytest.approx(alone[1], rel=1e-5)
        if not turned:
            assert kept[2] == pytest.approx(alone[2], rel=1e-2, abs=1e-9)
        volts = [one.hand.work.junction_v[one.laid.column[c]] for c in range(len(cells))]
        assert laid.hand.work.junction_v == pytest.approx(volts, rel=1e-9, abs=1e-9)


def test_the_functions_for_many_at_once_are_those_of_the_library():
    """numpy's exp and log are the peer, correct to 1 in the last place."""
    of = np.concatenate([np.linspace(-700, 700, 4001), np.linspace(-1, 1, 4001)])
    ours = np.array([elementary.exp(x) for x in of])
    assert np.max(np.abs(ours / np.exp(of) - 1)) < 5e-16
    of = np.concatenate([np.exp(np.linspace(-700, 700, 4001)), np.linspace(0.5, 2, 4000)])
    ours = np.array([elementary.log(x) for x in of])
    assert np.max(np.abs(ours - np.log(of)) / np.maximum(np.abs(np.log(of)), 1e-300)) < 5e-16
    assert elementary.exp(-1e9) < 1e-307
    assert elementary.exp(1e9) > 1e307


def test_rows_hold_every_cell_once():
    cells = (Diode(8.0, 1e-9, 0.027, 0.003, 20.0),)
    parts = tuple(Substring(cells * count, (0.0,) * count, None) for count in (1, 8, 9, 18))
    sheet, signs = lay_out_apart(Network((String(parts),)))
    room = hand(sheet).work
    assert list(room.first_row) == [0, *accumulate((1, 1, 2, 3))]
    assert signs.size == 36
    assert len(arrays(sheet).kind) == 4
    assert room.rows.shape[1] == abreast._BACKWARD + WIDE  # the last figure of a row


def test_what_steps_together_do_not_settle_is_done_one_by_one(monkeypatch):
    """With one step allowed nearly nothing settles; every cell still stands where it must."""
    chance = Random(5)
    cells = tuple(replace(drawn(chance), breakdown_siemens=0.005) for _ in range(13))
    network = Network((String((Substring(cells, (0.0,) * 13, None),)),))
    laid, one = _Laid.of(Trials.once(network)), Panel.of(network)
    columns = type(one.laid.cells)(*(table[0] for table in laid.cells), laid.hand.parts)
    learn(laid.sheet, columns)
    abreast.load(laid.sheet, columns, laid.hand.work)
    monkeypatch.setattr(abreast, "ROUNDS", 1)
    alone = substring.cells_at(one.laid.sheet, one.laid.cells, 0, 0.5, one.hand.work)
    with np.errstate(all="ignore"):  # compiled, infinity and no number pass without a word
        kept = abreast.cells_at(laid.sheet, columns, 0, 0.5, laid.hand.work)
    assert kept[0] == pytest.approx(alone[0], rel=1e-9)
