"""The layers that a design's heat balance is given."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from panewright.climate.balance.layer import AirSpace, Solid
from panewright.climate.heat import temperatures
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.electric.electrical import efficiency, read_cells
from panewright.panel.electric.hot import most_c
from panewright.panel.layers import layers_of
from panewright.shelf.load import load_shelf

WORKSHOP = (Path(__file__).parents[2] / "examples" / "workshop.toml").read_text("utf-8")


@cache
def designed(parts="", more=""):
    shelf = load_shelf()
    text = WORKSHOP.replace("[parts]\n", f"[parts]\n{parts}\n") + more
    return design_panel(parse_order(text, "workshop.toml", shelf), shelf)


def layers(design):
    behind = replace(design.order.parts, back=design.closing.back)
    return layers_of(
        replace(design.order, parts=behind), design.structural.pane.sheet, read_cells(design.order)
    )


@pytest.mark.parametrize("parts", ["", 'encapsulation = "film"', 'encapsulation = "air gap"'])
def test_a_design_is_as_warm_as_its_own_layers_under_the_sheet_taken(parts):
    design = designed(parts)
    spot_c = most_c(design.order.parts.encapsulation)
    shop_c = design.order.closing.shop_c  # where pane and frame are joined
    wanted = temperatures(design.order.site, layers(design), shop_c, spot_c=spot_c)
    assert design.structural.temperatures == wanted


def test_the_cover_is_as_thick_as_the_sheet_and_air_stands_only_before_boxed_cells():
    for parts, inner in (("", Solid), ('encapsulation = "air gap"', AirSpace)):
        design = designed(parts)
        front = layers(design).front
        assert front[0].thickness_mm == design.structural.pane.sheet.nominal_mm
        assert isinstance(front[1], inner)


def test_behind_an_air_gap_stands_one_board_named_or_not():
    for more in ("", 'back = "glass-fibre epoxy board 3 mm"'):
        order = designed(f'encapsulation = "air gap"\n{more}').order
        (board,) = layers_of(order, designed().structural.pane.sheet, read_cells(order)).back
        assert board == Solid(3.0, 0.3)


def test_a_back_taken_unasked_is_the_one_that_heat_was_reckoned_with():
    """The workshop's panel is too wide for a board of epoxy: one with metal skins comes nearest."""
    unasked = designed('encapsulation = "air gap"')
    taken = unasked.closing.back
    assert taken.name == "aluminium composite board 3 mm"
    asked = designed(f'encapsulation = "air gap"\nback = "{taken.name}"')
    assert unasked.structural.temperatures == asked.structural.temperatures
    assert unasked.checks == asked.checks


def test_a_cell_gives_a_sixth_of_the_sun_and_takes_in_most_of_it():
    design = designed()
    found = layers(design)
    assert 0.1 < found.gives < efficiency(read_cells(design.order)) < 0.25
    assert 0.85 < found.cell_takes < 0.93
    assert found.cover_takes < 0.03


def test_boxed_cells_run_hotter_and_film_cooler_than_poured_ones():
    kinds = (designed('encapsulation = "film"'), designed(), designed('encapsulation = "air gap"'))
    film, poured, boxed = (each.structural.temperatures.hot_cell_c for each in kinds)
    assert film < poured < boxed - 8


def test_pane_and_frame_are_joined_at_the_heat_of_the_shop():
    """A colder shop leaves more growth to come in the sun."""
    cold, warm = (
        designed("", f'\n[closing]\nshop_temperature = "{shop_c} degC"').structural for shop_c in (13, 33)
    )
    assert cold.temperatures.build_c == 13.0
    assert warm.temperatures.build_c == 33.0
    assert cold.temperatures.hot_glass_c == pytest.approx(warm.temperatures.hot_glass_c, abs=0.5)


@pytest.mark.parametrize("parts", ["", 'encapsulation = "film"', 'encapsulation = "air gap"'])
def test_the_back_is_cut_to_lie_where_it_can(parts):
    design = designed(parts)
    pane, bead, frame = design.structural.pane, design.structural.bead, design.structural.frame
    long, short = design.closing.back_mm
    if "air" in parts:
        outer = sorted((frame.outer_width_mm, frame.outer_height_mm))
        assert [short, long] == pytest.approx([side - 4.0 for side in outer], abs=1.0)
        return
    seat = design.structural.rail.seat_mm - design.structural.rail.wall_mm - bead.gap_mm
    rim = bead.bite_mm + 2.0 if "film" in parts else seat + 2.0
    assert (long, short) == pytest.approx((pane.long_mm - 2 * rim, pane.short_mm - 2 * rim), abs=1.0)
