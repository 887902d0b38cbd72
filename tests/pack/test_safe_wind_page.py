"""The page of safe wind: both families, this pane marked, and nothing where no rule book covers the sheet."""

from __future__ import annotations

from dataclasses import replace

from panewright.drawing.sheet import Figure, Table
from panewright.glass.pane import Plies, Sheet
from panewright.pack.bench import Bench
from panewright.pack.pages.safe_wind import SAFE_WIND, safe_wind_pages
from panewright.structure.panes.safe_wind import both_families


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


def changed(made, **of_sheet):
    built = made.design.structural
    sheet = replace(built.pane.sheet, **of_sheet)
    return replace(made.design, structural=replace(built, pane=replace(built.pane, sheet=sheet)))


def test_patterned_glass_is_told_as_not_covered_and_never_as_bearing_no_wind(made):
    site = both_families(made.design.order.site)[1]
    design = changed(made, surface="patterned")
    if site.family == "ASCE":
        design = replace(design, order=replace(design.order, site=site))
    (page,) = safe_wind_pages(Bench(design, made.quote))
    assert page.blocks[0].words.startswith("ASTM E1300 does not cover patterned glass")
    assert len(next(block for block in page.blocks if isinstance(block, Table)).columns) == 2


def test_the_page_names_how_the_pane_is_held_and_what_is_left_out(made):
    parts = replace(made.design.order.parts, held="two long sides")
    design = replace(made.design, order=replace(made.design.order, parts=parts))
    four, two = (safe_wind_pages(Bench(each, made.quote))[0] for each in (made.design, design))
    assert "held on four sides" in four.blocks[1].words
    assert "held on two long sides" in two.blocks[1].words
    assert "cells" in two.blocks[1].words
    assert four.blocks[0].words != two.blocks[0].words


def test_laminated_glass_has_its_page_without_a_chart(made):
    plies = Plies(2.9, 2.9, 0.76, "pvb")
    design = changed(made, plies=plies, thickness_mm=5.8, nominal_mm=6.8, surface="plain")
    (page,) = safe_wind_pages(Bench(design, made.quote))
    assert not any(isinstance(block, Figure) for block in page.blocks)
