"""Pieces lie side by side on a bar with a saw cut between; paper and screen draw them from one geometry."""

from __future__ import annotations

import re
from dataclasses import replace
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cutting.bars.laid import laid_out
from panewright.cutting.piece import Piece, Saw
from panewright.cutting.plan import BarCut
from panewright.desk.stores.cut_pictures import bar_picture
from panewright.drawing.drawing import Path
from panewright.pack.figures.bars import rows_figure

SAWS = st.builds(Saw, kerf_mm=st.floats(0, 6), trim_mm=st.floats(0, 30))
LENGTHS = st.lists(st.floats(50, 900), min_size=1, max_size=6)


def bar_of(lengths, saw):
    pieces = tuple(Piece(f"rail {n}", length, 1) for n, length in enumerate(lengths))
    return BarCut(sum(lengths) + len(lengths) * saw.kerf_mm + 2 * saw.trim_mm + 10.0, pieces, 10.0)


@given(LENGTHS, SAWS)
def test_a_saw_cut_lies_between_two_pieces_and_nothing_overlaps(lengths, saw):
    laid = laid_out(bar_of(lengths, saw), saw)
    assert laid.pieces[0].left_mm == saw.trim_mm
    for before, after in zip(laid.pieces, laid.pieces[1:], strict=False):
        assert after.left_mm - before.right_mm == pytest.approx(saw.kerf_mm)
    assert laid.pieces[-1].right_mm <= laid.rest_from_mm <= laid.bar_mm


def test_a_remnant_is_not_trimmed_again_and_a_last_cut_may_fall_away():
    saw = Saw(kerf_mm=3.0, trim_mm=10.0)
    bar = replace(bar_of([500.0], saw), from_remnant=True, bar_mm=501.0)
    laid = laid_out(bar, saw)
    assert (laid.pieces[0].left_mm, laid.rest_from_mm) == (0.0, 501.0)


def test_paper_and_screen_draw_every_piece_at_the_same_share_of_the_bar():
    saw = Saw(kerf_mm=3.0, trim_mm=10.0)
    bar = bar_of([900.0, 640.5, 120.0], saw)
    plan = SimpleNamespace(tools=SimpleNamespace(saw=saw), units_of=lambda _order: "metric")
    screen = [
        tuple(map(float, found))
        for found in re.findall(r'class="piece" x="([\d.]+)%" y="4" width="([\d.]+)%', bar_picture(bar, plan))
    ]
    figure = rows_figure([(1, bar)], saw, "metric")
    rails = [each for each in figure.drawing.items if isinstance(each, Path) and each.layer == "rail"]
    paper = [(min(x for x, _ in each.points), max(x for x, _ in each.points)) for each in rails]
    whole = bar.bar_mm / (bar.bar_mm / 150.0)
    assert len(screen) == len(paper) == 3
    for (left, wide), (start, end) in zip(screen, paper, strict=True):
        assert left == pytest.approx(100 * start / whole, abs=0.002)
        assert wide == pytest.approx(100 * (end - start) / whole, abs=0.002)
