"""Two exchanges at once: they gain where single ones do not, and what does not pay is undone."""

from __future__ import annotations

import numpy as np
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, BestRemainder, Limits, MostWatts
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans import search
from panewright.lots.matching.plans.coupled import coupled
from panewright.lots.matching.plans.reaching import short
from panewright.lots.matching.plans.search import Goal, Table, bettered
from panewright.lots.matching.vectors import stand, summed


@pytest.mark.parametrize("strings", [1, 2])
def test_where_no_exchange_pays_two_at_once_may(strings):
    lot = matching.standing(matching.cells(80, 5, matching.Drawn(leaky=0.1)))
    power = matching.sorted_w(lot, Asked(matching.wiring(12, strings, 1), MostWatts()))
    aim = BestRemainder(3, round(float(power.mean()), 2))
    maker = bench(lot, Asked(matching.wiring(12, strings, 1), aim, Limits(6.0, 1)))
    own = np.append(maker.rules.pieces.own_w, 0.0)
    goal = Goal(short(np.full(3, aim.rating_w), 1e4), own)
    single = maker.exchanged(maker.sorted_deal(), goal)
    both = maker.coupled(single, goal)
    assert worth(maker, both, goal) > worth(maker, single, goal) + 0.01
    assert np.unique(both).size == both.size
    assert all(maker.rules.allowed(s, panel[s]) for panel in both for s in range(strings))


def test_a_table_that_was_bettered_says_what_its_deal_gives():
    lot = lot_of_sixty()
    maker = bench(lot, Asked(matching.wiring(10, 2, 1), MostWatts()))
    deal = maker.sorted_deal()
    need = np.full(len(deal), stand(maker.vectors, summed(maker.vectors, deal)).power_w.mean())
    table = Table(maker.vectors, deal, maker.rules.kinds, maker.rules.allowed)
    assert coupled(table, Goal(short(need), np.zeros(61)), np.append(maker.rules.size, 0), 20)
    again = stand(maker.vectors, summed(maker.vectors, table.strings))
    assert np.allclose(table.power, again.power_w, atol=1e-9)
    for group, row in enumerate(table.strings.reshape(-1, table.strings.shape[2])):
        assert (table.group[row] == group).all()


def test_several_exchanges_from_one_list_each_pay(monkeypatch):
    monkeypatch.setattr(search, "_SEVERAL", 0)
    lot = lot_of_sixty()
    maker = bench(lot, Asked(matching.wiring(10, 1, 1), MostWatts()))
    deal = maker.sorted_deal()
    need = np.full(len(deal), stand(maker.vectors, summed(maker.vectors, deal)).power_w.mean())
    goal = Goal(short(need), np.zeros(61))
    table = Table(maker.vectors, deal, maker.rules.kinds, maker.rules.allowed)
    assert bettered(table, goal, np.append(maker.rules.size, 0), 3)
    assert worth(maker, table.strings, goal) > worth(maker, deal, goal) + 0.1
    again = stand(maker.vectors, summed(maker.vectors, table.strings))
    assert np.allclose(table.power, again.power_w, atol=1e-9)
    assert np.unique(table.strings).size == table.strings.size


def lot_of_sixty():
    return matching.standing(matching.cells(60, 2, matching.Drawn()))


def worth(maker, strings, goal: Goal) -> float:
    power = stand(maker.vectors, summed(maker.vectors, strings)).power_w
    left = np.setdiff1d(np.arange(goal.left.size), strings)
    return float(goal.panel(np.arange(len(strings)), power).sum() + goal.left[left].sum())
