"""The worst shaded cell of a design."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from panewright.circuit.hot.heat import Spread, hot_heat
from panewright.circuit.hot.spot import hot_spots
from panewright.circuit.network import Network, Substring
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.electric.electrical import tab_run
from panewright.panel.electric.hot import cooling_of, heat_limit, judge_hot, most_cool_cells
from panewright.panel.electric.wiring import Wired, network_at
from panewright.shelf.load import load_shelf

WORKSHOP = Path(__file__).parents[2] / "examples" / "workshop.toml"


@cache
def made():
    """A design and its wiring."""
    shelf = load_shelf()
    design = design_panel(parse_order(WORKSHOP.read_text("utf-8"), WORKSHOP.name, shelf), shelf)
    part = design.electrical
    run = tab_run(design.order, design.layup.plan.cell_gap_mm)
    return design, Wired(design.layup, part.models, part.tab, part.bus, run, part.bypass, light=0.9)


def judged(encapsulation="silicone pour"):
    design, wired = made()
    return judge_hot(wired, design.electrical.network, design.structural.temperatures, encapsulation)


def test_no_cell_of_the_panel_is_hotter_than_the_one_judged():
    design, _ = made()
    hottest_w = hot_spots(design.electrical.network)[0].absorbed_w
    assert judged().spot.absorbed_w == pytest.approx(hottest_w, rel=2e-3)  # a bus makes that much difference


def test_the_cell_is_held_at_the_sites_record_heat():
    design, wired = made()
    heat = design.structural.temperatures
    cooling = cooling_of(heat)
    hot = judged()
    assert hot.heat == hot_heat(
        hot.spot, Spread(wired.models[0].area_mm2, wafer_mm=design.order.cell.shape.thickness_mm), cooling
    )
    assert hot.checks[0].demand == hot.heat.even_c > heat.hot_cell_c


def test_without_shade_a_cell_is_as_warm_as_an_idle_one_in_the_breeze():
    heat = made()[0].structural.temperatures
    cooling = cooling_of(heat)
    idle_c = cooling.air_c + cooling.k_m2_w * cooling.sun_w_m2
    assert idle_c == pytest.approx(heat.breezy_cell_c)
    assert heat.breezy_cell_c > heat.hot_cell_c


def test_film_gives_way_before_solder():
    poured, film = judged().checks[0], judged("film").checks[0]
    assert (poured.limit, film.limit) == (183.0, 150.0)
    assert poured.demand == film.demand


def test_fewer_cells_under_a_diode_are_cooler():
    design, wired = made()
    string = design.electrical.network.strings[0]
    short = Network((replace(string, substrings=string.substrings[:1]),))
    assert len(hot_spots(short)) == len(set(string.substrings[0].cells))
    part = string.substrings[0]
    cut = replace(part, cells=part.cells[:10], joints_ohm=part.joints_ohm[:10])
    few = Network((replace(string, substrings=(cut, *string.substrings[1:])),))
    heat = design.structural.temperatures
    watts = [spot.absorbed_w for spot in hot_spots(few)]
    assert min(watts) < 0.6 * max(watts)
    assert judge_hot(wired, few, heat).spot.absorbed_w == pytest.approx(max(watts), rel=2e-3)


def test_a_network_in_low_light_is_cooler():
    design, wired = made()
    dim = network_at(wired, 200.0, 25.0)
    assert judge_hot(wired, dim, design.structural.temperatures).heat.even_c < judged().heat.even_c


def test_the_design_holds_its_worst_cell_and_its_rule():
    design, _ = made()
    hot = design.electrical.hot
    assert hot.absorbed_w == hot.spot.absorbed_w > 0
    assert [check for check in design.checks if check.rule == hot.checks[0].rule] == list(hot.checks)


def test_cells_alike_are_counted():
    design, _ = made()
    whole = sum(len(part.cells) for part in design.electrical.network.strings[0].substrings)
    assert design.electrical.hot.spot.alike == whole  # one kind of strip, even runs


def test_what_one_spot_bears_heats_it_to_the_limit():
    design, wired = made()
    hot, heat = judged(), design.structural.temperatures
    cooling = cooling_of(heat)
    borne = replace(hot.spot, shade=0.0, voltage_v=-1.0, current_a=hot.spot_bears_w)
    spread = Spread(wired.models[0].area_mm2, wafer_mm=design.order.cell.shape.thickness_mm)
    assert hot_heat(borne, spread, cooling).spot_c == pytest.approx(hot.checks[0].limit)


def film(text):
    assert text.count("[parts]\n") == 1
    return text.replace("[parts]\n", '[parts]\nencapsulation = "film"\n')


def test_a_lay_up_takes_no_more_cells_under_a_diode_than_stay_cool():
    shelf = load_shelf()
    text = film(WORKSHOP.read_text("utf-8"))
    design = design_panel(parse_order(text, WORKSHOP.name, shelf), shelf)
    assert all(check.passed for check in design.electrical.hot.checks)
    poured, _ = made()
    runs = [
        max(len(part.cells) for part in each.electrical.network.strings[0].substrings)
        for each in (design, poured)
    ]
    assert runs[0] < runs[1]


def test_one_cell_more_would_get_too_hot():
    design, wired = made()
    heat, cell = design.structural.temperatures, design.electrical.network.strings[0].substrings[0].cells[0]
    limit = heat_limit(wired.models[0], design.order.cell.shape.thickness_mm, heat, "film")
    most = most_cool_cells(24, cell, limit)
    assert 2 < most < 24
    assert most_cool_cells(most, cell, limit) == most
    assert most_cool_cells(most + 1, cell, limit) == most
    string = design.electrical.network.strings[0]
    for count, holds in ((most - 1, True), (most + 2, False)):  # ribbons and the other cells make a little
        run = Substring((cell,) * count, (0.0,) * count, wired.bypass)
        panel = Network((replace(string, substrings=(run, run)),))
        assert judge_hot(wired, panel, heat, "film").checks[0].passed == holds


def test_where_even_a_pair_gets_too_hot_one_cell_is_left():
    design, wired = made()
    cell = design.electrical.network.strings[0].substrings[0].cells[0]
    limit = heat_limit(wired.models[0], 0.2, design.structural.temperatures, "film")
    assert most_cool_cells(24, cell, replace(limit, most_c=0.0)) == 1
