"""The page of safe wind: both families, this pane marked, and nothing where no rule book covers the sheet."""

from __future__ import annotations

from dataclasses import replace

from panewright.drawing.sheet import Figure, Table
from panewright.glass.pane import Sheet
from panewright.pack.bench import Bench
from panewright.pack.pages.safe_wind import SAFE_WIND, safe_wind_pages


def test_both_families_have_a_column_and_the_lead_names_wind_and_order(made):
    design, quote = made.design, made.quote
    (page,) = safe_wind_pages(Bench(design, quote))
    assert page.title == SAFE_WIND
    table = next(block for block in page.blocks if isinstance(block, Table))
    assert len(table.columns) == 3
    assert any("EN 1991-1-4" in head for head in table.columns)
    assert any("ASCE 7-16" in head for head in table.columns)
    assert len(table.rows) > 2
    assert any(isinstance(block, Figure) for block in page.blocks)
    assert "the order names" in page.blocks[0].words


def test_a_plastic_pane_has_no_such_page(made):
    design, quote = made.design, made.quote
    acrylic = Sheet("a", "acrylic", "none", "plain", 6.0, 5.0, 1190.0, 7.2e-5, 0.9)
    built = design.structural
    other = replace(design, structural=replace(built, pane=replace(built.pane, sheet=acrylic)))
    assert safe_wind_pages(Bench(other, quote)) == ()
