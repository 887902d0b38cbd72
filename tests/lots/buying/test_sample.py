"""A sample of a lot: Student's law for what is not measured, the measured cells themselves for what is."""

from __future__ import annotations

import numpy as np
import pytest
from campaigns import matching
from scipy.stats import t

from panewright.lots.buying.sample import Sample


def cells(count: int, seed: int = 1):
    return matching.cells(count, seed, matching.Drawn(imp=0.03))


def test_a_cell_not_measured_follows_students_law_in_its_light():
    """S. Geisser, J. Cornfield, J. Royal Stat. Society B 25, 1963, p. 368 (recalled): n - 2 degrees."""
    n = 8
    sample = Sample(cells(n), 10**9)
    dice = np.random.default_rng(3)
    drawn = np.concatenate([np.log(sample.believed(dice).drawn(4, dice).light_a) for _ in range(4000)])
    light = np.log(sample.cells.light_a)
    scale = np.sqrt(((light - light.mean()) ** 2).sum() * (1 + 1 / n) / (n - 2))
    for share in (0.05, 0.25, 0.5, 0.75, 0.95):
        below = float(np.mean(drawn < light.mean() + scale * t.ppf(share, n - 2)))
        assert below == pytest.approx(share, abs=0.015)


def test_a_lot_measured_whole_is_those_very_cells():
    sample = Sample(cells(30), 30)
    dice = np.random.default_rng(1)
    drawn = sample.believed(dice).drawn(30, dice)
    assert np.sort(drawn.light_a) == pytest.approx(np.sort(sample.cells.light_a))
    assert np.sort(drawn.series_ohm) == pytest.approx(np.sort(sample.cells.series_ohm))


def test_the_more_of_a_lot_is_measured_the_less_its_mean_is_in_doubt():
    def doubt(lot: int) -> float:
        dice = np.random.default_rng(2)
        sample = Sample(cells(20), lot)
        return float(np.std([sample.believed(dice).drawn(lot, dice).light_a.mean() for _ in range(300)]))

    assert doubt(22) < 0.6 * doubt(30) < 0.6 * doubt(200)


def test_what_all_readings_share_moves_all_cells():
    dice = np.random.default_rng(4)
    sample = Sample(cells(10), 10, common_share=0.05)
    means = [sample.believed(dice).drawn(10, dice).light_a.mean() for _ in range(400)]
    assert np.std(means) / np.mean(means) == pytest.approx(0.05, rel=0.15)


def test_cells_that_read_all_alike_are_drawn_alike():
    like = cells(1).at(np.zeros(6, dtype=int))
    dice = np.random.default_rng(5)
    drawn = Sample(like, 100).believed(dice).drawn(50, dice)
    assert drawn.light_a == pytest.approx(np.full(50, like.light_a[0]), rel=1e-4)


@pytest.mark.parametrize(("count", "lot"), [(4, 100), (30, 20)])
def test_too_few_cells_or_too_small_a_lot_are_refused(count, lot):
    with pytest.raises(ValueError, match="a sample has 5 cells or more"):
        Sample(cells(count), lot)
