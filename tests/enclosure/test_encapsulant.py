"""A pour fills its room, in batches a pair of hands can lay down in time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.encapsulant import (
    Bench,
    PourAsk,
    most_batch_ml,
    pour,
    volume_ml,
)
from panewright.enclosure.silicone import Silicone

ASK = PourAsk(pane_mm2=1e6, front_mm=1.0, cell_mm=0.2, back_mm=1.5, cells_mm2=8e5, dam_mm=5.0)
depths = st.floats(0.3, 4.0)


def test_room_is_pane_times_depth_less_the_cells():
    assert volume_ml(ASK) == pytest.approx(1000 * 2.7 - 160)


@given(depths, depths, st.floats(1e4, 2e6), st.floats(0.0, 1.0))
def test_batches_together_are_the_mix_and_each_is_laid_in_time(front, back, pane, covered):
    ask = PourAsk(pane, front, 0.2, back, covered * pane)
    bench, silicone = Bench(), Silicone()
    mixed = pour(ask, silicone, bench)
    assert mixed.batches * mixed.batch_ml == pytest.approx(mixed.mix_ml)
    assert mixed.mix_ml == pytest.approx(volume_ml(ask) * 1.08)
    assert mixed.batch_ml <= min(bench.cup_ml, most_batch_ml(silicone, bench)) * (1 + 1e-9)
    assert mixed.batch_min <= silicone.pot_life_min / 2 * (1 + 1e-9)
    assert mixed.mix_kg == pytest.approx(mixed.mix_ml * 1.03e-3)


def test_one_batch_fewer_would_not_fit():
    mixed = pour(ASK)
    assert mixed.batches == 2
    assert mixed.mix_ml / (mixed.batches - 1) > most_batch_ml(Silicone(), Bench())


def test_a_silicone_that_sets_too_fast_is_told_so():
    mixed = pour(ASK, Silicone(pot_life_min=15.0))
    failed = [check.rule for check in mixed.checks if not check.passed]
    assert failed == ["batch on the pane at half its pot life"]


@pytest.mark.parametrize(
    ("changed", "rule"),
    [
        ({"front_mm": 0.1}, "silicone between glass and cells"),
        ({"back_mm": 0.5}, "silicone over the ribbons"),
        ({"dam_mm": 2.0}, "pour within its rim"),
    ],
)
def test_a_poor_fill_fails_its_own_check(changed, rule):
    sound = {
        "pane_mm2": 1e6,
        "front_mm": 1.0,
        "cell_mm": 0.2,
        "back_mm": 1.5,
        "cells_mm2": 8e5,
        "dam_mm": 5.0,
    }
    failed = [check.rule for check in pour(PourAsk(**{**sound, **changed})).checks if not check.passed]
    assert failed == [rule]
    assert all(check.passed for check in pour(PourAsk(**sound)).checks)
