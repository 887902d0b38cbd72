"""Where the watts of whole designs go: to the design's own power, and each row is its own physics."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from panewright.cell.key_points import key_points as cell_key_points
from panewright.circuit.account import account
from panewright.circuit.maxima import key_points
from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.panel.electric.light import light_of, openings
from panewright.panel.electric.watts import (
    BUSES,
    DIODES,
    HEAT,
    MISMATCH,
    TABS,
    account_of,
    light_in,
    lit_of,
    wired_of,
)
from panewright.panel.electric.wiring import network_at
from panewright.shelf.load import load_shelf

ORDER = """
[order]
name = "Watts"
maker = "Invented Bench"
panels = 1
[load]
cells = {cells}
controller = "mppt"
controller_most = "150 V"
[cell]
name = "{cell}"
cut = "{cut}"
[parts]
encapsulation = "{kind}"
[site]
code = "EN"
wind = "24 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.5 kPa"
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "35 deg"
[money]
labour = "40 EUR/h"
"""
CASES = {
    "pour": ("36", "156 mm mono", "whole", "silicone pour"),
    "film": ("36", "156 mm poly", "whole", "film"),
    "air": ("36", "156 mm mono", "third", "air gap"),
}
SHELF = load_shelf()


@pytest.fixture(scope="module", params=CASES)
def design(request):
    return _design(*CASES[request.param])


@cache
def _design(cells, cell, cut, kind):
    text = ORDER.format(cells=cells, cell=cell, cut=cut, kind=kind)
    return design_panel(parse_bytes(text.encode(), "order.toml", SHELF), SHELF)


def _terms(design, cell_c=None):
    return {term.words: term.watts for term in account_of(design, cell_c).terms}


def test_the_account_goes_from_the_bare_cells_to_the_designs_own_power(design):
    found = account_of(design)
    models = design.electrical.models
    bare = [cell_key_points(models[(cell.number - 1) % len(models)].stc) for cell in design.layup.cells]
    assert found.start_w == pytest.approx(sum(points.power_w for points in bare))
    assert found.end_w == pytest.approx(design.electrical.curves[0].points.power_w, rel=1e-12)
    assert found.start_w + sum(term.watts for term in found.terms) == pytest.approx(found.end_w, abs=1e-9)


def test_the_circuit_is_rebuilt_as_the_design_has_it(design):
    ours, theirs = network_at(wired_of(design), 1000.0, 25.0), design.electrical.network
    assert key_points(ours).power_w == pytest.approx(key_points(theirs).power_w, rel=1e-9)
    assert ours.lead_ohm == theirs.lead_ohm
    for one, other in zip(ours.strings, theirs.strings, strict=True):
        assert [part.joints_ohm for part in one.substrings] == [part.joints_ohm for part in other.substrings]


def test_the_lights_steps_make_the_share_that_the_circuit_counts_with(design):
    cell, model = design.electrical.network.strings[0].substrings[0].cells[0], design.electrical.models[0]
    assert light_in(design).share == pytest.approx(cell.light_a / model.stc.light_a, rel=1e-9)


def test_resistance_and_heat_lose_and_diodes_wait(design):
    terms = _terms(design, 60.0)
    assert terms[TABS] < 0
    assert terms[BUSES] < 0
    assert -0.19 < terms[HEAT] / account_of(design).end_w < -0.10  # 35 K at 0.3 to 0.5 % a kelvin
    assert terms.get(DIODES, 0.0) == pytest.approx(0, abs=0.01)


def test_ribbons_lose_about_current_squared_times_what_they_resist(design):
    """First order: the terms are differences of maxima, which move a little."""
    lost = len(design.layup.cells) * design.electrical.tab_loss.total_w
    heated = 1.02  # the table's loss is at 20 degC, the circuit's at 25
    assert _terms(design)[TABS] == pytest.approx(-lost * heated, rel=0.02)


def test_strips_of_clipped_wafers_lose_by_standing_together():
    assert _terms(_design(*CASES["air"]))[MISMATCH] < -0.01
    assert _terms(_design(*CASES["pour"]))[MISMATCH] == pytest.approx(0, abs=1e-9)


def test_only_what_is_bonded_couples_and_only_film_bonds_the_back():
    steps = {
        name: [step.words for step in light_of(lit_of(_design(*case))).steps] for name, case in CASES.items()
    }
    assert "cells throw back less under silicone" in steps["pour"]
    assert "cells throw back less under film" in steps["film"]
    assert not any(words.startswith("cells throw back") for words in steps["air"])
    back = "comes back from gaps and white back sheet"
    assert [back in steps[name] for name in ("pour", "film", "air")] == [False, True, False]


def test_an_air_gap_throws_back_with_two_faces():
    share = {name: light_of(lit_of(_design(*case))).steps[0].share for name, case in CASES.items()}
    assert share["air"] == pytest.approx(0.91688107, abs=5e-9)  # slab of 1.526 that swallows nothing
    assert share["pour"] == pytest.approx((1 - 0.04336155) * (1 - ((1.526 - 1.41) / 2.936) ** 2), rel=1e-4)


def test_gains_stay_within_what_the_trade_knows():
    """Coupling 0.5 to 2 %, white back sheet 1 to 4 % (memory)."""
    *_, coupled, _, back = light_of(lit_of(_design(*CASES["film"]))).steps
    assert 1.005 < coupled.share < 1.02
    assert 1.01 < back.share < 1.04


def test_openings_and_cells_fill_field_and_rim():
    design = _design(*CASES["film"])
    lit, plan = lit_of(design), design.layup.plan
    cells = sum(cell.shape.width_mm * cell.shape.length_mm for cell in design.layup.cells)
    open_mm2 = sum(opening.area_mm2 for opening in openings(lit))
    assert cells + open_mm2 < design.layup.pane_width_mm * design.layup.pane_height_mm
    inner = [opening for opening in openings(lit) if opening.sides == 2]
    wide = plan.columns * 156 + (plan.columns - 1) * plan.string_gap_mm
    high = plan.rows * 156 + (plan.rows - 1) * plan.cell_gap_mm
    bridged = wide * high - cells - sum(opening.area_mm2 for opening in inner)
    assert 0 < bridged < 0.1 * sum(opening.area_mm2 for opening in inner)  # where ribbon crosses the gaps


def test_cells_with_both_poles_behind_have_no_ribbon_in_the_light():
    lit = lit_of(_design(*CASES["pour"]))
    behind = replace(lit, layup=replace(lit.layup, front="behind"))
    assert light_of(behind).steps[-1].share == 1
    assert light_of(lit).steps[-1].share < 1


def test_the_account_of_one_stage_more_is_the_old_one_and_a_term(design):
    cold = network_at(wired_of(design), 1000.0, 0.0)
    found = account((("as built", design.electrical.network), ("a cold day", cold)))
    assert found.terms[1].watts > 0
