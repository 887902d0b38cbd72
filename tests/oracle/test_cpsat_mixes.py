"""Bars of several kinds against a model in CP-SAT that puts every piece into a bar by itself."""

from __future__ import annotations

from decimal import Decimal
from random import Random

import pytest
from campaigns import cutting
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw

SAW = Saw(cutting.KERF_MM, cutting.TRIM_MM)


@given(
    st.lists(st.integers(300, 2800), min_size=3, max_size=6, unique=True),
    st.lists(st.integers(400, 3000), max_size=2),
    st.sampled_from(((None, None), ("27.40", "19.80"), ("30", "20"))),
)
@settings(deadline=None, max_examples=15)
def test_the_cost_is_the_least_that_a_model_of_single_pieces_finds(lengths, remnants, prices):
    pieces = [Piece("p", float(length), 1) for length in lengths]
    free = None if prices[0] is None else Decimal(0)
    bars = [Bar(mm, p and Decimal(p)) for mm, p in zip((6000.0, 4000.0), prices, strict=True)]
    bars += [Bar(float(mm), free, 1, "rack", remnant=True) for mm in remnants]
    plan = cut_from(pieces, bars, SAW)
    assert plan.proven
    assert cutting.fault(pieces, plan, bars) == ""
    assert cutting.cost(plan) == pytest.approx(cutting.least_cost(pieces, bars), abs=1e-6)


@pytest.mark.parametrize("number", range(4))
def test_two_hundred_rails_from_racks_and_shop_are_proven(number):
    chance = Random(number)
    pieces = cutting.job(chance, "rails", 200)
    bars = cutting.stock(chance, cutting.PRICED)
    plan = cut_from(pieces, bars, SAW, keep_mm=300.0)
    assert (plan.proven, cutting.fault(pieces, plan, bars)) == (True, "")
