"""The page of one shaded cell: the design's own figures, its rule, its caution, and never an empty chart."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panewright.drawing.sheet import Caution, Figure, Table, Verdicts
from panewright.pack.bench import Bench
from panewright.pack.pages import caution
from panewright.pack.pages.shade import shade_page
from panewright.panel.electric.hot import absorbed_w


def page_of(made, **changes):
    electrical = replace(made.design.electrical, **changes)
    return shade_page(Bench(replace(made.design, electrical=electrical), made.quote))


def blocks(page, kind):
    return [block for block in page.blocks if isinstance(block, kind)]


def words(page):
    return " ".join(getattr(block, "words", "") for block in page.blocks)


def test_the_page_tells_watts_both_heats_and_the_rule(made):
    page, hot = page_of(made), made.design.electrical.hot
    say = Bench(made.design, made.quote).say
    watts, heat = say(hot.absorbed_w, "W"), say(hot.heat.even_c, "degC")
    assert f"{watts} from the others and gets {heat} hot" in words(page)
    told = {value for table in blocks(page, Table) for _, value in table.rows}
    assert {watts, heat, say(hot.heat.spot_c, "degC")} <= told
    assert [block.checks for block in blocks(page, Verdicts)] == [hot.checks]
    assert caution.HOT_SPOT in [block.words for block in blocks(page, Caution)]


def test_no_shade_of_the_line_is_worse_than_the_worst(made):
    made_of = made.design.electrical
    watts = absorbed_w(made_of.network, made_of.hot.spot.place, [k / 40 for k in range(41)])
    assert max(watts) <= made_of.hot.absorbed_w * (1 + 1e-6)
    assert max(watts) == pytest.approx(made_of.hot.absorbed_w, rel=0.02)
    worst = absorbed_w(made_of.network, made_of.hot.spot.place, [made_of.hot.spot.shade])
    assert worst[0] == pytest.approx(made_of.hot.absorbed_w, rel=1e-6)


def test_diodes_are_counted_with_their_cells(made):
    string = made.design.electrical.network.strings[0]
    runs = [len(part.cells) for part in string.substrings]
    assert f"({len(runs)}, each over {runs[0]} cells)" in words(page_of(made))


def test_a_panel_without_diodes_says_who_pushes(made):
    cells = len(made.design.electrical.network.strings[0].substrings[0].cells)
    assert f"all {cells} cells of the string push" in words(page_of(made, bypass=None))


def test_where_no_shade_heats_nothing_is_drawn(made):
    cold = replace(made.design.electrical.hot, absorbed_w=0.0)
    page = page_of(made, hot=cold)
    assert blocks(page, Figure) == []
    assert "No shade on one cell" in words(page)


def test_the_second_heat_is_called_no_forecast_only_where_it_passes_the_limit(made):
    hot = made.design.electrical.hot
    assert hot.absorbed_w > hot.spot_bears_w
    assert "no forecast" in words(page_of(made))
    mild = replace(hot, spot_bears_w=2 * hot.absorbed_w)
    assert "no forecast" not in words(page_of(made, hot=mild))
