"""Steps that change with the design."""

import re
from dataclasses import replace

import pytest

from panewright.bench.predicted import cells_voc_v
from panewright.enclosure.bypass import forward_v
from panewright.layup.buses import crossings
from panewright.pack.bench import Bench, by_rule, count, listed
from panewright.pack.figures.frame import brackets_figure
from panewright.pack.figures.frame import diagonal_mm as frame_diagonal_mm
from panewright.pack.figures.pane import diagonal_mm as pane_diagonal_mm
from panewright.pack.figures.pane import pane_figure
from panewright.pack.pages.glass import glass_book
from panewright.pack.pages.readings import BEFORE_CLOSING
from panewright.pack.steps import cells as steps_cells
from panewright.pack.steps import close as steps_close
from panewright.pack.steps import frame as steps_frame
from panewright.pack.steps.steps import bench_steps, steps
from panewright.pack.steps.takes import said
from panewright.pack.steps.tools import tools
from panewright.panel.choose import design_panel
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf
from panewright.units import show


@pytest.fixture
def bench(made):
    return Bench(made.design, made.quote)


def encapsulated(made, how):
    parts = replace(made.design.order.parts, encapsulation=how)
    return Bench(design_panel(replace(made.design.order, parts=parts), load_shelf()), made.quote)


@pytest.mark.parametrize(("how", "title"), [("film", "Laminate"), ("air gap", "Close over an air gap")])
def test_how_it_is_encapsulated_decides_the_step(made, how, title):
    assert steps_close.encapsulate(encapsulated(made, how)).title == title


def test_an_air_gap_is_told_what_will_come_of_it(made):
    assert "fog" in steps_close.encapsulate(encapsulated(made, "air gap")).check


def test_the_pour_is_mixed_in_the_batches_that_were_reckoned(made, bench):
    step, pour = steps_close.encapsulate(bench), made.design.pour
    assert count(pour.batches, "batch", "batches") in step.do
    assert bench.say(pour.mix_kg, "kg") in step.do
    first = made.design.closing.pour.card.batches[0]
    assert f"within {first.lies_by_min:.0f} minutes of mixing" in step.check  # as the mix card says
    assert f"{pour.batch_min:.0f} minutes are expected" in step.check
    assert step.minutes == pytest.approx(
        pour.batches * pour.batch_min, abs=1.0
    )  # price and plan say the same


def test_a_column_reads_the_volts_of_its_cells(made, bench):
    plan = made.design.layup.plan
    volts = show(cells_voc_v(made.design, plan.rows, 1000.0, 25.0), "V")
    assert steps_cells.string_cells(bench).expect.startswith(volts)


def test_without_diodes_there_is_no_step_for_them(made):
    bare = replace(made.design, electrical=replace(made.design.electrical, bypass=None))
    keys = [step.key for step in bench_steps(Bench(bare, made.quote))]
    assert "bypass-diodes" in [step.key for step in bench_steps(Bench(made.design, made.quote))]
    assert "bypass-diodes" not in keys
    assert "terminals of each diode" not in steps_close.close_back(Bench(bare, made.quote)).check


def test_a_diode_is_expected_to_drop_what_its_law_says(made, bench):
    bypass = made.design.electrical.bypass
    assert bypass is not None
    assert show(forward_v(bypass, 1e-3), "V") in steps_cells.bypass_diodes(bench).expect


def test_a_current_past_the_meter_asks_for_a_clamp(made):
    label_points = made.design.electrical.curves[0].points
    strong = replace(made.design.electrical.curves[0], points=replace(label_points, isc_a=12.0))
    curves = (strong, *made.design.electrical.curves[1:])
    design = replace(made.design, electrical=replace(made.design.electrical, curves=curves))
    assert "clamp meter" in steps_cells.polarity(Bench(design, made.quote)).do
    assert "10\u2009A range" in steps_cells.polarity(Bench(made.design, made.quote)).do


def test_insulation_asks_more_of_a_small_panel_than_of_a_large_one(made):
    frame = made.design.structural.frame
    small = replace(frame, outer_width_mm=300.0, outer_height_mm=300.0)
    design = replace(made.design, structural=replace(made.design.structural, frame=small))
    step = steps_cells.insulation(Bench(design, made.quote))
    assert step.expect == "at least 400\u2009MΩ"
    assert "400\u2009MΩ under 0.100\u2009m²" in step.check


def test_the_insulation_asked_can_be_followed_by_hand(made, bench):
    step = steps_cells.insulation(bench)
    area_m2 = float(re.search(r"MΩ·m² over ([\d.]+)\u2009m²", step.check).group(1))
    asked = int(re.search(r"\d+", step.expect).group())
    assert asked == pytest.approx(40.0 / area_m2, abs=1.0)
    assert ("ft²" in step.check) is (made.design.order.job.units == "us")


@pytest.mark.parametrize(("bite", "days"), [(4.0, 3), (6.0, 3), (9.0, 5), (12.0, 6)])
def test_a_wider_bead_cures_longer(bite, days):
    assert steps_frame.cure_days(bite) == days


def test_minutes_of_one_panel_are_those_of_the_order_over_its_panels(made, bench):
    total = sum(work.minutes for work in made.quote.work if work.step == "Cut the rails")
    assert bench.minutes("Cut the rails") == round(total / made.design.order.job.panels)


def test_words_are_listed_as_one_says_them():
    assert listed(["one"]) == "one"
    assert listed(()) == ""


def titles(bench):
    return [step.title for step in steps(bench)]


def test_film_is_laminated_before_there_is_a_frame_and_the_pane_is_framed_after(made):
    order = ["Clean the pane", "Solder the bus ribbon", "Laminate", "Cut the rails", "Join the frame"]
    order += ["Lay the bead and set the pane", "Fix the box and the leads", "Check the insulation", "Label"]
    said = titles(encapsulated(made, "film"))
    assert [title for title in said if title in order] == order
    assert len(said) == len(titles(encapsulated(made, "air gap")))


@pytest.mark.parametrize("how", ["silicone pour", "air gap"])
def test_a_tray_or_a_walled_gap_needs_the_framed_pane_first(made, how):
    bench = Bench(made.design, made.quote) if how == "silicone pour" else encapsulated(made, how)
    said = titles(bench)
    closing = steps_close.encapsulate(bench).title
    assert said.index("Lay the bead and set the pane") < said.index("Tab the cells") < said.index(closing)


def test_film_ends_clear_of_the_bead(made):
    bench = encapsulated(made, "film")
    bite = bench.design.structural.bead.bite_mm
    assert bench.size(bite + 2.0) in steps_close.encapsulate(bench).do


@pytest.mark.parametrize("how", ["film", "air gap", "silicone pour"])
def test_every_way_to_close_names_its_own_readings_on_the_test_sheet(how):
    headings = [heading for heading, _ in BEFORE_CLOSING[how]]
    asked = [name for _, names in BEFORE_CLOSING[how] for name in names]
    assert sorted(asked) == ["diodes", "insulation", "string", "substrings"]
    assert any("pour" in heading for heading in headings) is (how == "silicone pour")


def test_cells_with_both_poles_behind_are_never_told_of_a_shadow_or_a_front(made):
    cell = replace(made.design.order.cell, front="behind")
    bench = Bench(replace(made.design, order=replace(made.design.order, cell=cell)), made.quote)
    for step in (
        steps_cells.sort_cells(bench),
        steps_cells.tab_cells(bench),
        steps_cells.string_cells(bench),
    ):
        said = " ".join((step.do, step.check, step.expect))
        assert "busbar" not in said
        assert "shades" not in said
        assert "takes the front" not in said


def test_film_between_ribbons_is_told_only_where_ribbons_cross(made, bench):
    said = steps_cells.join_columns(bench).check
    assert ("film lies" in said) is bool(crossings(made.design.layup.buses))


def test_the_cable_is_pulled_with_a_stated_force(bench):
    assert bench.say(50.0, "N", 2) in steps_close.close_back(bench).check


@pytest.mark.parametrize(
    ("use", "group", "size", "told"),
    [
        ("rail", "frame", "", "4 rails of the order"),
        ("tab", "ribbon", "tabbing ribbon", "ribbon of the order"),
    ],
)
def test_a_part_that_the_order_describes_is_not_told_twice(bench, use, group, size, told):
    own = next(line for line in bench.quote.lines if line.use == use)
    own = replace(own, name=f"{use} of the order", group=group, size=size)
    assert said(bench, own).endswith(told)
    assert f"of {use} of" not in said(bench, own)


def test_a_diagonal_reads_alike_wherever_it_stands(made, bench):
    """On the drawing, in the step and on the shop's sheet, to what a rule shows."""
    design, units = made.design, made.design.order.job.units
    for across, said_in in (
        (
            frame_diagonal_mm(design.structural.frame),
            (str(steps_frame.assemble_frame(bench)), brackets(bench)),
        ),
        (pane_diagonal_mm(design), (str(glass_book(bench)), str(pane_figure(design, 8.0)))),
    ):
        words = repr(by_rule(across, units))[1:-1]
        assert all(words in text for text in said_in)


def brackets(bench):
    return str(brackets_figure(bench.design.structural.frame, 8.0, bench.design.order.job.units))


def test_the_drill_of_a_vent_plug_stands_among_the_tools_where_there_is_one(made):
    """A plug goes through a hole of its own, which its name tells."""
    order, shelf = made.design.order, load_shelf()
    parts = replace(order.parts, encapsulation="air gap")
    drills = {}
    for gap in ("vented", "sealed"):
        design = design_panel(replace(order, parts=parts, closing=replace(order.closing, gap=gap)), shelf)
        found = tools(Bench(design, quote(design, shelf)), "join-frame")
        drills[gap] = [each for each in found if "vent plug" in each]
    assert drills == {"vented": ["drill for the vent plug 12 mm with membrane filter"], "sealed": []}
