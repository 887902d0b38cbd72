"""Generated patterns do as well as all patterns, and patterns are what they claim to be."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting import programme
from panewright.cutting.patterns import dearest_pattern, full_patterns
from panewright.cutting.programme import Wanted, solve

SIZES = st.lists(st.integers(10, 70), min_size=1, max_size=5, unique=True).map(
    lambda sizes: tuple(float(size) for size in sorted(sizes, reverse=True))
)


@given(SIZES, st.integers(70, 140), st.data())
def test_full_patterns_fit_and_take_no_further_piece(sizes, room, data):
    most = tuple(data.draw(st.integers(1, 4)) for _ in sizes)
    patterns = full_patterns(sizes, most, float(room), 5000)
    assert patterns is not None
    assert len(set(patterns)) == len(patterns)
    for pattern in patterns:
        left = room - sum(size * count for size, count in zip(sizes, pattern, strict=True))
        assert left >= -1e-6
        assert all(count == cap or size > left for size, count, cap in zip(sizes, pattern, most, strict=True))


@given(SIZES, st.integers(70, 140), st.data())
def test_the_dearest_pattern_is_the_dearest_of_all_full_ones(sizes, room, data):
    most = tuple(data.draw(st.integers(1, 4)) for _ in sizes)
    worth = tuple(data.draw(st.integers(0, 50)) / 10 for _ in sizes)
    value, pattern = dearest_pattern(sizes, most, float(room), worth)
    assert value == pytest.approx(sum(w * n for w, n in zip(worth, pattern, strict=True)))
    every = full_patterns(sizes, most, float(room), 5000)
    assert every is not None
    assert value == pytest.approx(max(sum(w * n for w, n in zip(worth, p, strict=True)) for p in every))


def test_too_many_patterns_are_not_listed():
    sizes = tuple(float(size) for size in range(40, 10, -1))
    assert full_patterns(sizes, (5,) * 30, 400.0, 100) is None


@settings(deadline=None, max_examples=25)
@given(SIZES, st.data())
def test_generated_columns_bound_the_answer_from_below(sizes, data):
    counts = tuple(data.draw(st.integers(1, 6)) for _ in sizes)
    wanted = Wanted(sizes, counts, ((140.0, 140.0),))
    start = [(140.0, tuple(int(i == j) for j in range(len(sizes)))) for i in range(len(sizes))]
    best = solve(wanted, start)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(programme, "FULL_LIMIT", 0)
        generated = solve(wanted, start)
    lengths = [sum(bar * times for (bar, _), times in answer.bars) for answer in (best, generated)]
    assert best.proven
    assert generated.bound_mm <= lengths[0] <= lengths[1]
    assert lengths[1] - lengths[0] <= 140.0 + 1e-6
