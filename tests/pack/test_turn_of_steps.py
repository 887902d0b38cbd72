"""Every example, poured, in film and over an air gap: each step finds what it works on, in book and plan."""

from __future__ import annotations

from dataclasses import replace

import pytest

from examples import ANOTHER_WAY, CLOSED, closed
from panewright.bench.judge import judge_reading
from panewright.bench.predicted import STC_C, STC_W_M2, cell_points, stc
from panewright.bench.readings import all_readings
from panewright.layup.drawn.bus_sheet import bus_sheet
from panewright.layup.drawn.end_view import end_view
from panewright.layup.drawn.figure import bench_view
from panewright.pack.bench import Bench
from panewright.pack.figures.steps.step import step_figure
from panewright.pack.pages.layup import layup_pages
from panewright.pack.plan.panels import Asked, asked_of, plan_of, tasks_of
from panewright.pack.steps.steps import bench_steps
from panewright.pack.steps.takes import lines_of
from panewright.pack.steps.work import ONCE, WORK
from panewright.panel.choose import design_panel
from panewright.price.buying.open_orders import asked_of as open_order
from panewright.price.hours import RATES
from panewright.price.kit import packing
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf


@pytest.fixture(params=CLOSED, ids=" ".join)
def bench(request):
    return closed(*request.param)


def keys(bench):
    return [step.key for step in bench_steps(bench)]


def plans(bench):
    """As the order asks, and several panels by one person and by two."""
    asked = (asked_of(bench), Asked(5, people=1), Asked(5, people=2))
    return [plan_of(bench, each)[0] for each in asked]


def test_nothing_is_stuck_on_a_back_that_is_not_there(bench):
    said = keys(bench)
    assert said.index("close-back") < said.index("label") < said.index("measure-sun")
    for plan in plans(bench):
        by_name = {each.task.name: each for each in plan.done}
        for key, panel in by_name:
            if key == "label":
                assert by_name["close-back", panel].end <= by_name[key, panel].start


def test_a_label_does_not_wait_until_the_glue_under_the_box_has_set(bench):
    plan = plan_of(bench, replace(asked_of(bench), panels=1))[0]
    done = {each.task.key: each for each in plan.done}
    assert plan.shop.clock.begins(done["label"].start) < done["close-back"].over


def read(bench, key):
    return {each.key: each for step in bench_steps(bench) for each in step.readings}[key]


@pytest.mark.parametrize("name", ANOTHER_WAY)
def test_a_string_on_the_pane_reads_before_the_pour_what_a_panel_with_air_behind_its_pane_gives(name):
    poured, gapped = closed(name, "silicone pour"), closed(name, "air gap")
    finished = stc(gapped.design).points  # its pane may be a millimetre thinner
    assert read(poured, "polarity.isc").value == pytest.approx(finished.isc_a, rel=0.01)
    volts = read(poured, "polarity.voc").value / poured.design.layup.plan.in_series
    assert volts == pytest.approx(finished.voc_v / gapped.design.layup.plan.in_series, rel=0.002)
    assert read(poured, "polarity.isc").value < 0.97 * stc(poured.design).points.isc_a


@pytest.mark.parametrize("name", ANOTHER_WAY)
def test_bare_cells_on_an_open_board_read_what_bare_cells_give_less_their_ribbons(name):
    bench = closed(name, "air gap")
    bare = cell_points(bench.design.electrical.models[0], STC_W_M2, STC_C)
    asked, strings = read(bench, "polarity.isc"), bench.design.layup.plan.strings
    assert 0.93 * strings * bare.isc_a < asked.value <= strings * bare.isc_a
    assert judge_reading(asked, 0.985 * strings * bare.isc_a, STC_W_M2, STC_C).passed
    assert asked.value > 1.06 * stc(bench.design).points.isc_a  # two faces of a pane throw 8 % back


@pytest.mark.parametrize("name", ANOTHER_WAY)
def test_a_laminate_is_read_as_the_finished_panel(name):
    bench = closed(name, "film")
    assert read(bench, "polarity.isc").value == pytest.approx(stc(bench.design).points.isc_a)


def test_the_words_of_a_step_hold_the_figures_that_it_is_judged_by(bench):
    said = {step.key: step.step.expect for step in bench_steps(bench)}
    for key in ("join-columns.voc", "polarity.voc", "polarity.isc", "close-back.voc"):
        asked = read(bench, key)
        assert bench.say(asked.value, asked.unit) in said[asked.step]


SIDES = ("sunny side down", "sunny side up", "face to the light")


def test_the_string_is_soldered_on_the_side_that_its_drawings_show(bench):
    words = next(step.step.do for step in bench_steps(bench) if step.key == "join-columns")
    before = words[: words.index("Solder")]
    named = [side for side in SIDES if side in before]
    layup = bench.design.layup
    told = ("Lay-up on the bench", "Bus ribbon")
    pages = [page for page in layup_pages(bench) if page.title.startswith(told)]
    drawings = [bus_sheet(layup), end_view(layup, "bottom"), end_view(layup, "top"), bench_view(layup)]
    drawings += [step_figure(bench, "join-columns").drawing, step_figure(bench, "string-column").drawing]
    assert len(pages) >= 2
    assert {drawing.side for drawing in drawings} | {page.side for page in pages} == set(named)


def test_what_lies_on_a_board_is_turned_over_only_when_all_of_it_is_soldered(bench):
    words = next(step.step.do for step in bench_steps(bench) if step.key == "join-columns")
    gap = bench.design.order.parts.encapsulation == "air gap"
    assert ("turn all of it over" in words[words.index("Solder") :]) is gap
    assert "sunny side up" not in words


def before(bench, first, then):
    """Whether one step comes before another, in the book and for every panel of every plan."""
    said = keys(bench)
    for plan in plans(bench):
        done = {each.task.name: each for each in plan.done}
        if any(done[first, panel].end > done[key, panel].start for key, panel in done if key == then):
            return False
    return said.index(first) < said.index(then)


def test_diodes_are_fitted_into_a_box_that_is_on_the_bench_and_the_box_goes_on_with_them(bench):
    found = {step.key: step for step in bench_steps(bench)}
    if bench.design.electrical.bypass is None:
        assert "box" in {line.use for line in lines_of(bench, "close-back")}
        return
    assert before(bench, "bypass-diodes", "close-back")
    assert {line.use for line in lines_of(bench, "bypass-diodes")} == {"box", "bypass"}
    assert "no ribbon in it yet" in found["bypass-diodes"].step.do
    assert found["close-back"].step.do.index("tails") < found["close-back"].step.do.index("Clamp the cable")


def test_each_diode_has_its_substring_read_in_the_open_box(bench):
    design, read_there = bench.design, [r for r in all_readings(bench.design) if "substring" in r.key]
    assert sum(each.count for each in read_there) == design.amounts.diodes
    cells = sum(each.law.times * each.count for each in read_there)
    assert cells == (len(design.layup.cells) if design.electrical.bypass else 0)
    held_v = 0.6  # of a turned diode, which lies across its cells
    assert not any(judge_reading(each, held_v, STC_W_M2, STC_C).passed for each in read_there)


def test_cells_are_held_against_a_frame_that_they_lie_in(bench):
    """On a board they come into it only when the board is laid on the seats."""
    way = bench.design.order.parts.encapsulation
    lies = {"silicone pour": "join-columns", "film": "set-pane", "air gap": "encapsulate"}[way]
    assert before(bench, lies, "insulation")
    assert before(bench, "insulation", "measure-sun")


def test_every_part_of_a_panel_is_taken_at_one_step_and_no_step_twice(bench):
    taken = [line for key in keys(bench) if key != "trial-patch" for line in lines_of(bench, key)]
    assert len(taken) == len({(line.use, line.name) for line in taken})
    wanted = [line for line in bench.quote.lines if line.group not in ("mounting", "crate")]
    assert {line.use for line in wanted} - {line.use for line in taken} == set()


def spent(bench, begins):
    """Minutes of work in the price, over the whole order."""
    work = (*bench.quote.work, *bench.quote.customer_work)
    return float(sum(each.minutes for each in work if each.step.startswith(begins)))


def test_hours_of_the_price_are_the_minutes_of_the_steps_line_by_line(bench):
    agree(bench)


def test_so_they_are_where_each_panel_is_the_box_of_a_kit():
    own = closed("jetty", "silicone pour").design.order
    shelf = load_shelf()
    design = design_panel(replace(own, kit=replace(own.kit, sold_as="kit")), shelf)
    agree(Bench(design, quote(design, shelf)))


def agree(bench):
    """Minutes of the steps, for all panels, are what the price has for the same work."""
    panels, minutes = bench.design.order.job.panels, {s.key: s.minutes for s in bench_steps(bench)}
    for steps, begins in WORK:
        done = sum(minutes.pop(key, 0.0) for key in steps)
        assert done == pytest.approx(spent(bench, begins) / panels, abs=0.51 * len(begins)), begins
    for steps, begins in ONCE:
        boxes = panels if bench.design.order.kit.is_kit else 1
        assert sum(minutes.pop(key, 0.0) for key in steps) * boxes == spent(bench, begins)
    assert sum(minutes.values()) == 0  # no step takes time that nobody pays


def test_hours_of_the_price_are_the_minutes_of_the_plan_of_all_its_panels(bench):
    panels = bench.design.order.job.panels
    tasks = tasks_of(bench, panels)
    known = ("Set up", *(begin for _, begins in (*WORK, *ONCE) for begin in begins))
    rounded = 0.51 * len(tasks)  # minutes are whole
    assert sum(task.minutes for task in tasks) == pytest.approx(spent(bench, known), abs=rounded)
    assert {each.step for each in bench.quote.work if not each.step.startswith(known)} <= CRATES


CRATES = {rate.step for rate in RATES if rate.per in ("crates", "crated panels", "kits")}


def test_one_trial_patch_goes_before_all_panels_of_an_order(bench):
    poured = bench.design.order.parts.encapsulation == "silicone pour"
    for plan in plans(bench):
        patches = [each for each in plan.done if each.task.key == "trial-patch"]
        pours = [each for each in plan.done if each.task.key == "encapsulate"]
        assert len(patches) == (1 if poured else 0)
        assert all(patch.over <= plan.shop.clock.begins(pour.start) for patch in patches for pour in pours)


@pytest.mark.parametrize("name", [name for name, way in CLOSED if way == "silicone pour"])
def test_silicone_is_bought_and_boxed_for_the_trial_patch_too(name):
    bench = closed(name, "silicone pour")
    pour = next(line for line in bench.quote.lines if line.use == "encapsulant")
    mix_kg, panels = bench.design.pour.mix_kg, bench.design.order.job.panels
    assert pour.sold_by == "kilogram"
    assert float(pour.once) == pytest.approx(0.05)
    patches = panels if bench.design.order.kit.is_kit else 1
    assert float(pour.buy) >= panels * mix_kg + patches * 0.05 - 1e-5
    assert float(pour.buy) < panels * mix_kg + patches * 0.05 + 0.1 * (patches + 1)
    (patch,) = lines_of(bench, "trial-patch")
    assert float(patch.one) == pytest.approx(0.05)
    (boxed,) = [each for each in packing((pour,), ()) if each.use == "encapsulant"]
    assert float(boxed.amount - boxed.spare) == pytest.approx(mix_kg + 0.05, abs=0.006)
    asked = open_order(bench.design, load_shelf(), panels=panels)
    left = open_order(bench.design, load_shelf(), panels=panels - 1)
    need, later = (next(n for n in each.needs if n.use == "encapsulant") for each in (asked, left))
    if not bench.design.order.kit.is_kit:
        assert float(asked.net(need)) == pytest.approx(panels * mix_kg + 0.05, abs=1e-5)
        assert float(left.net(later)) == pytest.approx((panels - 1) * mix_kg, abs=1e-5)


def test_nothing_is_held_behind_a_seat_that_is_shut(bench):
    """The pane is set long before a board is laid on: its screws hold by the seat alone."""
    if not bench.design.closing.screwed:
        assert bench.design.amounts.board_screws == 0
        return
    done = {step.key: step.step for step in bench_steps(bench)}
    (screws,) = [line for line in lines_of(bench, "encapsulate") if line.use == "board screw"]
    assert "nut" not in screws.name + done["encapsulate"].do
    holes = [h for piece in bench.design.structural.frame.pieces for h in piece.holes if h.purpose == "board"]
    assert {hole.diameter_mm for hole in holes} == {4.9}
    assert "Leave the holes S at" in done["drill-rails"].do
    rules = {check.rule for check in bench.design.closing.checks}
    assert {"back board's screw holds in the seat", "back board's screw ends short of the pane"} <= rules


@pytest.mark.parametrize(("gap", "sieve_g", "use"), [("vented", 0.0, "vent"), ("sealed", 50.0, "desiccant")])
def test_what_keeps_a_gap_dry_is_in_parts_price_and_what_is_to_buy(gap, sieve_g, use):
    order = closed("henhouse", "air gap").design.order
    order = replace(order, closing=replace(order.closing, gap=gap, desiccant_g=sieve_g))
    design = design_panel(order, load_shelf())
    bench = Bench(design, quote(design, load_shelf()))
    (line,) = [line for line in bench.quote.lines if line.use in ("vent", "desiccant")]
    assert line.use == use
    assert float(line.one) == (1.0 if use == "vent" else 0.05)
    assert line.cost > 0
    assert line in lines_of(bench, "encapsulate")
    assert use in {need.use for need in open_order(design, load_shelf(), panels=1).needs if need.one > 0}
