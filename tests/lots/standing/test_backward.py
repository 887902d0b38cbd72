"""Leak and breakdown by readings in reverse: Bishop's law (Solar Cells, 1988, recalled), the truth known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from known_lots import KIND, Ask, drawn

from panewright.lots.standing.estimate import estimate

SOFT = replace(
    KIND, stc=replace(KIND.stc, breakdown_siemens=0.0025, breakdown_v=-15.0, breakdown_exponent=3.4)
)
LOT = drawn(Ask("isc voc imp", 200, seed=4))
SHARE = 0.3  # the error of a reverse current that the trust states


def in_reverse(volts, broken, siemens, seed=9):
    """What a meter reads of dark cells, each reading with its error."""
    dice = np.random.default_rng(seed)
    volt, ohm = np.asarray(volts, dtype=float)[:, None], LOT.stc["shunt"][None, :]
    amp = volt / ohm + siemens * volt * (1 - volt / broken) ** -3.4
    amp *= np.exp(SHARE * dice.standard_normal(amp.shape))
    figures = {name: np.tile(each, len(volts)) for name, each in LOT.rows.figures.items()}
    for name in ("isc_a", "voc_v", "imp_a", "vmp_v"):
        figures[name][len(broken) :] = np.nan
    figures |= {"reverse_v": np.repeat(volt, len(broken)), "reverse_a": amp.ravel()}
    many = len(volts)
    return replace(
        LOT.rows,
        marks=LOT.rows.marks * many,
        row_numbers=np.arange(200 * many),
        figures=figures,
        remarks=("",) * (200 * many),
    )


@pytest.fixture(scope="module")
def twice():
    """Every cell at 5 and at 10 V; both its figures scatter as is usual of a lot."""
    dice = np.random.default_rng(2)
    broken = 15.0 * np.exp(0.25 * dice.standard_normal(200))
    broken = np.maximum(broken, 11.5)
    siemens = 0.0025 * np.exp(0.4 * dice.standard_normal(200))
    return broken, estimate(in_reverse((5.0, 10.0), broken, siemens), SOFT)


def test_each_cell_gets_a_breakdown_of_its_own_and_its_deviation_holds(twice):
    broken, lot = twice
    off = np.log(-lot.cells.breakdown_v / broken)
    assert np.corrcoef(np.log(broken), np.log(-lot.cells.breakdown_v))[0, 1] > 0.7
    assert 0.8 < float(np.sqrt(np.mean((off / lot.breakdown_sd) ** 2))) < 1.25
    assert (lot.breakdown_sd < 0.28).all()  # nothing read: 0.3


def test_reverse_readings_of_a_plain_lot_suspect_next_to_none(twice):
    assert sum(each.kind == "reverse" for each in twice[1].suspects) <= 1


def test_one_reading_far_too_high_is_a_suspect_and_lowers_the_breakdown():
    broken, siemens = np.full(200, 15.0), np.full(200, 0.0025)
    rows = in_reverse((10.0,), broken, siemens)
    for cell, times in ((7, 12.0), (90, 30.0)):
        rows.figures["reverse_a"][cell] *= times
    lot = estimate(rows, SOFT)
    told = {each.mark: each.reason for each in lot.suspects if each.kind == "reverse"}
    assert {"c7", "c90"} <= set(told)
    assert len(told) <= 3
    assert "At 10 V backwards it passes" in told["c7"]
    assert -lot.cells.breakdown_v[90] < -lot.cells.breakdown_v[7] < 0.85 * np.median(-lot.cells.breakdown_v)


def test_a_cell_that_bore_more_than_its_kind_breaks_down_beyond_it():
    broken, siemens = np.full(200, 24.0), np.full(200, 0.0025)
    lot = estimate(in_reverse((20.0,), broken, siemens), SOFT)
    assert (-lot.cells.breakdown_v > 20).all()
    assert (lot.readings == 5).all()


def test_nothing_read_in_reverse_is_as_the_kind_is():
    lot = estimate(LOT.rows, SOFT)
    assert set(lot.cells.breakdown_v.tolist()) == {-15.0}
    assert set(lot.breakdown_sd.tolist()) == {0.3}
