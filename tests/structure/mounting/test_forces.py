"""What one bracket hands on: tied to the frame in space it holds, and to all that slides down the slope."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.climate.snow.drift import Drift
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.shelf.load import load_shelf
from panewright.structure.loads import Case, Loads
from panewright.structure.mounting.bracket import judge_bracket, moment_nmm, pull_n
from panewright.structure.mounting.choice import shelf_brackets
from panewright.structure.mounting.forces import BracketForces, Panel, Sides, bracket_forces, panel
from panewright.structure.rails.rails import judge_rail, usual_brackets
from panewright.structure.space.space_frame import stand

SHEET = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
PANE = Pane(1500, 900, SHEET)
BRACKETS = usual_brackets(RAIL, PANE, BEAD, 2)
CASES = (
    Case("own weight", 200.0, 1.0, True, ("own weight",)),
    Case("own weight and snow", 1100.0, 1.0, True, ("own weight", "snow")),
    Case("all", 1500.0, 1.0, True, ("own weight", "snow", "wind")),
    Case("lift", -1800.0, 1.0, True, ("wind",)),
    Case("own weight and snow, service", 4000.0, 1.0, False, ("own weight", "snow")),
)
LOADS = Loads("EN", CASES, (), 1000.0, 1200.0, 1500.0, 1800.0, 1300.0)
WHOLE = Panel("EN", 35.0, 950.0, 1550.0, 20.0, (), 0.0, 600.0)


def handed(loads=LOADS, whole=WHOLE, brackets=4):
    proof = judge_rail(RAIL, PANE, BEAD, loads, BRACKETS)
    return bracket_forces(loads, proof.per_pa, whole, brackets), proof.per_pa


def test_a_bracket_is_lifted_and_pressed_by_what_the_frame_in_space_hands_it():
    forces, _ = handed()
    length = PANE.long_mm + 2 * (BEAD.gap_mm + RAIL.wall_mm)
    own = stand(RAIL, PANE, BEAD, BRACKETS.places_mm(length), family="EN").long
    assert forces.up_n == pytest.approx(1800 * own.bracket.across_n)
    assert forces.down_n == pytest.approx(1500 * own.bracket.across_n)
    assert 4 * forces.up_n == pytest.approx(1800 * 1.5 * 0.9, rel=1e-6)


def test_the_sideways_hold_of_the_frame_goes_into_every_case():
    """Lifted, pressed, in snow and at rest: each with its own pressure; service cases are left out."""
    forces, own = handed()
    side = own.handed.sideways_n
    assert side > 0
    for found, pressure in (
        (forces.sideways_up_n, 1800.0),
        (forces.sideways_down_n, 1500.0),
        (forces.sideways_snow_n, 1100.0),
        (forces.sideways_rest_n, 200.0),
    ):
        assert found == pytest.approx(side * pressure)
    assert forces.pushed_up_n == pytest.approx(forces.along_n + side * 1800)
    assert forces.pushed_snow_n == pytest.approx(forces.along_snow_n + side * 1100)


def test_legs_bend_and_fasteners_are_pulled_by_the_sideways_hold():
    bracket = shelf_brackets(load_shelf())[0].part
    forces, _ = handed()
    still = replace(forces, sideways_up_n=0.0, sideways_down_n=0.0, sideways_snow_n=0.0)
    for with_it, without in zip(
        judge_bracket(bracket, forces, "EN")[:2], judge_bracket(bracket, still, "EN")[:2], strict=True
    ):
        assert with_it.demand > without.demand
    lifted = judge_bracket(bracket, forces, "EN")[0].demand
    modulus = bracket.modulus_mm3(9.0)
    assert lifted == pytest.approx(moment_nmm(bracket, forces.up_n, forces.pushed_up_n) / modulus)
    assert pull_n(bracket, 0.0, forces.pushed_up_n) > pull_n(bracket, 0.0, forces.along_n)


@settings(max_examples=10, deadline=None)
@given(st.floats(1.0, 3.0))
def test_all_grows_with_the_wind(factor):
    less, _ = handed()
    more, _ = handed(replace(LOADS, design_up_pa=1800 * factor, design_down_pa=1500 * factor))
    for name in ("up_n", "down_n", "sideways_up_n", "sideways_down_n", "pushed_up_n", "pushed_down_n"):
        assert getattr(more, name) >= getattr(less, name) * (1 - 1e-9)


def test_what_slides_down_lies_on_all_brackets_or_on_the_low_rail_s():
    """20 kg at 35 degrees; four brackets on rails up the slope, two of four on a low rail that lies level."""
    upright, _ = handed()
    level, _ = handed(whole=replace(WHOLE, width_mm=1550.0, slope_mm=950.0))
    weight = 20 * 9.80665 * math.sin(math.radians(35))
    assert upright.along_n == pytest.approx(weight / 4)
    assert level.along_n == pytest.approx(weight / 2)
    assert level.along_rest_n == pytest.approx(1.35 * weight / 2)


def test_slotted_brackets_bear_nothing_that_slides_down_along_their_rail():
    """Two of four have round holes; where the long rails lie level slots do not run down the slope."""
    weight = 20 * 9.80665 * math.sin(math.radians(35))
    _, per_pa = handed()
    level = replace(WHOLE, width_mm=1550.0, slope_mm=950.0)
    assert bracket_forces(LOADS, per_pa, WHOLE, 4, fixed=2).along_n == pytest.approx(weight / 2)
    assert bracket_forces(LOADS, per_pa, level, 4, fixed=2).along_n == pytest.approx(weight / 2)
    assert bracket_forces(LOADS, per_pa, WHOLE, 4).along_n == pytest.approx(weight / 4)


def drift(**changes):
    plain = Drift(900.0, 400.0, 600.0, 50.0, 600.0, 0.0, 0.0, (), ())
    return replace(plain, **changes)


def seen(piled, family="EN", tilt_deg=30.0):
    site = Place(family, tilt_deg)
    return panel(site, Sides(1000.0, 1800.0, 20.0), CALM, SNOW, drift=piled)


class Place:
    """As much of a site as the panel asks for."""

    height_m = 2.0

    def __init__(self, family, tilt_deg):
        self.family, self.tilt_deg = family, tilt_deg
        self.wind = type("Wind", (), {"edition": "7-16"})()


CALM = type("Calm", (), {"forces": (), "velocity_pressure_pa": 0.0})()
SNOW = type("Snow", (), {"plan_pa": 500.0})()


def test_snow_over_the_low_edge_is_a_triangle_of_weight_below_the_middle():
    """400 Pa across at 30 degrees are 400 / cos 30 straight down on the pane, half of 0.6 m by 1 m of it."""
    found = seen(drift())
    assert found.drift_n == pytest.approx(1.5 * 0.5 * 400 / math.cos(math.radians(30)) * 0.6)
    assert found.drift_off_mm == pytest.approx(900 - 200)
    assert seen(drift(), "ASCE").drift_n == pytest.approx(found.drift_n / 1.5)
    assert seen(None).drift_n == 0.0
    assert seen(drift(), tilt_deg=90.0).drift_n == 0.0


def test_a_panel_buried_whole_bears_the_full_height_everywhere():
    found = seen(drift(drift_mm=1800.0))
    assert found.drift_n == pytest.approx(1.5 * 400 / math.cos(math.radians(30)) * 1.8)


def test_snow_over_the_low_edge_slides_into_the_brackets_too():
    dry, _ = handed()
    piled, _ = handed(whole=replace(WHOLE, drift_n=800.0, drift_off_mm=500.0))
    assert piled.along_snow_n - dry.along_snow_n == pytest.approx(800 * math.sin(math.radians(35)) / 4)


def test_a_bracket_of_old_figures_has_no_sideways_part():
    forces = BracketForces(up_n=1.0, down_n=1.0, along_n=2.0, along_snow_n=3.0, along_rest_n=4.0)
    assert (forces.pushed_up_n, forces.pushed_snow_n, forces.pushed_rest_n) == (2.0, 3.0, 4.0)
