"""The page of watts: figures that add up as printed, bars that tell losses from gains without colour."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Path, Text
from panewright.drawing.paper_size import figure_area
from panewright.drawing.sheet import Figure
from panewright.pack.bench import Bench
from panewright.pack.figures.small_bars import BarRow, small_bars
from panewright.pack.pages.watts import watts_page
from panewright.panel.electric.lot import LotLoss
from panewright.panel.electric.watts import account_at_work

ROWS = (
    BarRow("Cells", "10.00", "100 %"),
    BarRow("Lost", "−4.00", "−40 %", -4.0),
    BarRow("Gained", "+1.00", "+10 %", 1.0),
    BarRow("Nothing", "0.00", "", 0.0),
    BarRow("Panel", "7.00", "70 %"),
)


def _bars(figure):
    return [item for item in figure.drawing.items if isinstance(item, Path) and item.closed]


def test_losses_and_gains_differ_by_side_and_fill_from_one_line():
    loss, gain = _bars(small_bars(ROWS, ("Watts", "Share"), "x"))
    (left, *_, right) = sorted(x for x, _ in loss.points)
    (start, *_, end) = sorted(x for x, _ in gain.points)
    assert right == start  # the common line
    assert right - left == pytest.approx(4 * (end - start))
    assert (loss.layer, gain.layer) == ("hole", "ink")


def test_rows_of_words_and_bars_stand_on_one_foot():
    figure = small_bars(ROWS, ("Watts", "Share"), "x")
    feet = {item.words: item.at[1] for item in figure.drawing.items if isinstance(item, Text)}
    loss, gain = (min(y for _, y in bar.points) for bar in _bars(figure))
    assert feet["Lost"] - loss == pytest.approx(feet["Gained"] - gain)
    assert feet["Lost"] == feet["−4.00"]


@pytest.mark.parametrize("sizes", [(-4.0, -1.0), (2.0, 3.0), (-1e-9, 5.0), (0.0, 0.0)])
def test_bars_of_any_sizes_stay_on_the_page(sizes):
    rows = tuple(BarRow("words", f"{size:+.2f}", "", size) for size in sizes)
    around = bounds(small_bars(rows, ("Watts", "Share"), "x").drawing)
    assert around.width_mm < figure_area("Letter").width_mm


def test_the_printed_rows_add_up_to_the_panel(made):
    page = watts_page(Bench(made.design, made.quote), account_at_work(made.design))
    figure = next(block for block in page.blocks if isinstance(block, Figure))
    printed = [item.words for item in figure.drawing.items if isinstance(item, Text)]
    watts = [float(words.replace("−", "-")) for words in printed if re.fullmatch(r"[−+]?\d+\.\d\d", words)]
    first, *terms, stc, heat, at_work = watts
    assert first + sum(terms) == pytest.approx(stc, abs=0.005 * (len(terms) + 2))
    assert stc == pytest.approx(made.design.label.pmp_w, abs=0.0051)
    assert stc + heat == pytest.approx(at_work, abs=0.011)


def test_the_page_names_where_most_is_lost(made):
    lead = watts_page(Bench(made.design, made.quote), account_at_work(made.design)).blocks[0].words
    assert "The cells could give" in lead
    assert re.search(r"The most: [a-z ]+, [\d.]+.W\.", lead)


def test_the_lot_is_told_where_the_order_tells_it(made):
    watts = account_at_work(made.design)
    silent = watts_page(Bench(made.design, made.quote), watts).blocks[3].words
    assert "cell.spread" in silent
    lot = LotLoss(spread=0.01, share=0.0008, by_formula=True)
    design = replace(made.design, electrical=replace(made.design.electrical, lot=lot))
    told = watts_page(Bench(design, made.quote), watts).blocks[3].words
    lost = Bench(design, made.quote).say(0.0008 * design.label.pmp_w, "W", 2)
    assert f"expected to give {lost} less (0.08\u2009%; by formula)" in told


def test_the_cover_is_told_at_a_few_angles(made):
    page = watts_page(Bench(made.design, made.quote), account_at_work(made.design))
    table = next(
        block for block in page.blocks if getattr(block, "columns", ())[:1] == ("Light from straight on",)
    )
    shares = [float(row[1].split("\u2009")[0]) for row in table.rows]
    assert len(shares) == 5
    assert shares[0] == 100.0
    assert shares == sorted(shares, reverse=True)
    assert 65 < shares[-1] < 85
