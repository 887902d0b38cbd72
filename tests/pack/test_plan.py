"""No person and no place does two things at once; every wait is kept; no plan beats its bound."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.overlap import overlaps
from panewright.order.terms import Hands
from panewright.pack.bench import Bench
from panewright.pack.figures.plan import plan_figure
from panewright.pack.pages.plan import plan_page
from panewright.pack.plan.bound import bound
from panewright.pack.plan.clock import Clock
from panewright.pack.plan.panels import Asked, plan_of, shop_of, tasks_of
from panewright.pack.plan.schedule import Shop, schedule
from panewright.pack.plan.task import Task
from panewright.pack.plan.waits import waits
from panewright.pack.steps.steps import bench_steps
from panewright.panel.choose import design_panel
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

CLOCKS = st.integers(1, 7).flatmap(
    lambda days: st.builds(Clock, st.integers(60, 840), st.just(days), st.integers(0, days - 1))
)


@st.composite
def chores(draw):
    """Any tasks that wait only for earlier ones, and a shop for them."""
    count = draw(st.integers(1, 12))
    made = []
    for n in range(count):
        before = draw(st.lists(st.integers(0, n - 1), max_size=3, unique=True)) if n else []
        hands = draw(st.lists(st.integers(0, n - 1), max_size=2, unique=True)) if n else []
        made.append(
            Task(
                *("step", n, "Step"),
                minutes=draw(st.integers(0, 900)),
                wait_min=draw(st.sampled_from([0, 0, 60, 1440, 7000])),
                people=draw(st.integers(1, 2)),
                after=tuple(("step", each) for each in before),
                after_hands=tuple(("step", each) for each in hands),
                holds=draw(st.sampled_from(["", "", "cure", "form"])),
                whole=draw(st.booleans()),
            )
        )
    places = {"cure": draw(st.integers(1, 3)), "form": 1}
    return tuple(made), Shop(draw(st.integers(1, 2)), draw(CLOCKS), places)


@settings(deadline=None)
@given(chores())
def test_every_task_is_done_once_after_all_that_it_waits_for(asked):
    tasks, shop = asked
    plan = schedule(tasks, shop)
    by_name = {each.task.name: each for each in plan.done}
    assert sorted(by_name) == sorted(task.name for task in tasks)
    for each in plan.done:
        world = shop.clock.begins(each.start)
        assert all(by_name[name].over <= world for name in each.task.after)
        assert all(by_name[name].end <= each.start for name in each.task.after_hands)
        assert each.end == each.start + each.task.minutes
        assert each.over >= each.task.wait_min + each.task.minutes


@settings(deadline=None)
@given(chores())
def test_no_person_does_two_things_at_once_and_lifts_have_the_hands_there_are(asked):
    tasks, shop = asked
    plan = schedule(tasks, shop)
    for one, other in combinations(plan.done, 2):
        if set(one.people) & set(other.people):
            assert one.end <= other.start or other.end <= one.start
    for each in plan.done:
        assert len(set(each.people)) == len(each.people)
        assert len(each.people) == (min(each.task.people, shop.people) if each.task.minutes else 0)
        assert each.helper is (each.task.minutes > 0 and each.task.people > shop.people)


@settings(deadline=None)
@given(chores())
def test_no_place_is_held_by_more_than_there_are(asked):
    tasks, shop = asked
    held = [each for each in schedule(tasks, shop).done if each.task.holds]
    for kind, places in shop.places.items():
        spans = [(shop.clock.begins(each.start), each.over) for each in held if each.task.holds == kind]
        for moment, _ in spans:
            assert sum(start <= moment < over for start, over in spans) <= places


@settings(deadline=None)
@given(chores())
def test_no_plan_beats_its_bound(asked):
    tasks, shop = asked
    assert schedule(tasks, shop).over >= bound(tasks, shop).over


@settings(deadline=None)
@given(chores())
def test_what_must_not_be_broken_off_ends_the_day_it_begins(asked):
    tasks, shop = asked
    day = shop.clock.day_min
    for each in schedule(tasks, shop).done:
        if each.task.whole and 0 < each.task.minutes <= day:
            assert each.start // day == (each.end - 1) // day


@settings(deadline=None)
@given(chores())
def test_the_same_tasks_give_the_same_plan(asked):
    tasks, shop = asked
    assert schedule(tasks, shop) == schedule(tasks, shop)


@given(CLOCKS, st.integers(0, 50_000))
def test_work_and_world_agree(clock, minute):
    assert clock.work(clock.begins(minute)) == minute
    assert clock.world(minute) <= clock.begins(minute)
    assert clock.begins(clock.work(minute)) >= minute


def test_a_chain_alone_meets_its_bound():
    tasks = (Task("saw", 1, "Saw", 100), Task("glue", 1, "Glue", 60, 1440, after=(("saw", 1),)))
    shop = Shop(1, Clock(480, 5), {})
    assert schedule(tasks, shop).over == bound(tasks, shop).over == 100 + 60 + 1440


def test_what_waits_for_hands_alone_begins_within_the_cure():
    tasks = (Task("glue", 1, "Glue", 60, 1440), Task("label", 1, "Label", 5, after_hands=(("glue", 1),)))
    shop = Shop(1, Clock(480, 5), {})
    plan = schedule(tasks, shop)
    assert [each.start for each in plan.done] == [0, 60]
    assert plan.over == bound(tasks, shop).over == 60 + 1440


def test_a_friday_s_cure_is_over_on_monday():
    clock = Clock(480, 5)
    tasks = (
        Task("build", 1, "Build", 5 * 480, 1440),
        Task("measure", 1, "Measure", 10, after=(("build", 1),)),
    )
    plan = schedule(tasks, Shop(1, clock, {}))
    assert clock.begins(plan.done[1].start) == 7 * 1440


@pytest.mark.parametrize(
    "tasks",
    [
        (Task("a", 1, "A", 1, after=(("b", 1),)),),
        (Task("a", 1, "A", 1, after=(("b", 1),)), Task("b", 1, "B", 1, after=(("a", 1),))),
        (Task("a", 1, "A", 1, after=(("b", 1),)), Task("b", 1, "B", 1, after_hands=(("a", 1),))),
        (Task("a", 1, "A", 1, holds="oven"),),
    ],
)
def test_what_cannot_be_planned_is_our_own_mistake(tasks):
    with pytest.raises(ValueError, match=r"waits for|circle|wants a place"):
        schedule(tasks, Shop(1, Clock(480, 5), {}))


def with_hands(made, panels=4, closed="silicone pour", **hands):
    order = made.design.order
    parts = replace(order.parts, encapsulation=closed)
    order = replace(order, hands=Hands(**hands), parts=parts)
    same = closed == made.design.order.parts.encapsulation
    design = replace(made.design, order=order) if same else design_panel(order, load_shelf())
    return Bench(design, made.quote), panels


@pytest.mark.parametrize("closed", ["silicone pour", "film", "air gap"])
def test_hours_of_the_plan_are_those_of_the_steps(made, closed):
    bench, panels = with_hands(made, closed=closed)
    tasks = tasks_of(bench, panels)
    plan = schedule(tasks, shop_of(bench))
    assert sum(each.task.minutes for each in plan.done) == sum(task.minutes for task in tasks)
    assert {each.task.panel for each in plan.done} == {0, 1, 2, 3, 4}
    order = [each.task.key for each in plan.done if each.task.panel == 1]
    assert order.index("sort-cells") < order.index("tab-cells") < order.index("join-columns")
    assert order[-1] == "measure-sun"


def test_two_people_and_more_places_are_never_slower(made):
    ends = []
    for hands in ({"people": 1}, {"people": 2}, {"people": 2, "cure_places": 8}):
        bench, panels = with_hands(made, **hands)
        ends.append(schedule(tasks_of(bench, panels), shop_of(bench)).over)
    assert ends == sorted(ends, reverse=True)


def test_the_page_and_its_bars_can_be_read(made):
    bench = Bench(made.design, made.quote)
    plan, least = plan_of(bench)
    drawn = plan_figure(plan)
    assert overlaps(drawn.drawing) == ()
    page = plan_page(bench)
    told = next(block for block in page.blocks if hasattr(block, "pairs")).pairs
    assert told[0] == ("Panels", str(made.design.order.job.panels))
    assert plan.over >= least.over > 0


@given(CLOCKS, st.integers(0, 60))
def test_a_day_of_work_is_never_a_free_day_and_all_others_are(clock, work_day):
    days = [clock.day_of(n) for n in range(work_day + 1)]
    assert days == [day for day in range(days[-1] + 1) if not clock.is_free(day)]
    assert clock.work(clock.begins(work_day * clock.day_min)) == work_day * clock.day_min


def test_work_that_begins_on_a_friday_rests_on_the_next_day():
    clock = Clock(480, 5, first=4)
    assert [clock.day_of(n) for n in range(3)] == [0, 3, 4]
    assert [clock.weekday(day) for day in range(4)] == ["Fri", "Sat", "Sun", "Mon"]
    assert clock.day_words(1) == "Mon, week 2"
    with pytest.raises(ValueError, match="weekday 5"):
        Clock(480, 5, first=5)


@settings(deadline=None)
@given(chores())
def test_nobody_waits_for_a_place_where_there_is_one_for_every_task(asked):
    tasks, shop = asked
    plenty = replace(shop, places=dict.fromkeys(shop.places, len(tasks)))
    assert waits(schedule(tasks, plenty)) == ()


@settings(deadline=None)
@given(chores())
def test_a_wait_for_a_place_is_part_of_the_time_a_task_stood(asked):
    tasks, shop = asked
    plan = schedule(tasks, shop)
    by_name = {each.task.name: each for each in plan.done}
    for each in waits(plan):
        before = [by_name[name].over for name in each.task.after]
        hands = [by_name[name] for name in each.task.after_hands]
        ready = max((*before, *(done.over - done.task.wait_min for done in hands)), default=0)
        assert 720 <= each.minutes <= shop.clock.begins(by_name[each.task.name].start) - ready


@pytest.mark.parametrize("closed", ["silicone pour", "film", "air gap"])
def test_a_pane_is_set_only_where_it_may_lie_until_its_bead_has_cured(made, closed):
    bench, panels = with_hands(made, panels=5, closed=closed)
    plan = schedule(tasks_of(bench, panels), shop_of(bench))
    wet = [each for each in plan.done if each.task.key == "set-pane"]
    spans = [(plan.shop.clock.begins(each.start), each.over) for each in wet]
    assert len(wet) == panels
    assert all(each.task.wait_min >= 24 * 60 for each in wet)  # the cure begins when the hands are off
    assert all(sum(start <= moment < over for start, over in spans) <= 2 for moment, _ in spans)


def words_of(page):
    return " ".join(block.words for block in page.blocks if hasattr(block, "words"))


def test_the_page_names_cure_places_as_the_reason_and_what_one_more_gains(made):
    few, many = (with_hands(made, cure_places=places)[0] for places in (1, 20))
    page = plan_page(few, Asked(4, people=1))
    told = words_of(page)
    assert "1 cure place," in told
    assert "Waiting for a cure place: " in told
    assert "because the cure place is taken" in told
    assert "With 2 cure places all is done " in told
    rows = [row for block in page.blocks if hasattr(block, "rows") for row in block.rows]
    assert any("for a cure place)" in cell for row in rows for cell in row)
    assert "Waiting for a cure" not in words_of(plan_page(many, Asked(4, people=1)))


@pytest.mark.parametrize("closed", ["silicone pour", "air gap"])
def test_a_back_board_is_drilled_in_price_steps_and_plan_alike(made, closed):
    order = made.design.order
    design = design_panel(replace(order, parts=replace(order.parts, encapsulation=closed)), load_shelf())
    bench = Bench(design, quote(design, load_shelf()))
    work = {each.step: each for each in bench.quote.work}
    panels = design.order.job.panels
    joined = next(each for each in bench_steps(bench) if each.key == "join-frame")
    corners = float(work["Join the corners and square the frame"].minutes) / panels
    if closed != "air gap":
        assert "Drill and slit the back board" not in work
        assert joined.minutes == corners
        return
    layup, screws = design.layup, design.structural.frame.holes("board")
    drilled = work["Drill and slit the back board"]
    assert drilled.count / panels == screws + design.amounts.vents + len(layup.leads) + len(layup.taps)
    board = float(drilled.minutes + work["Cut the back board"].minutes) / panels
    assert board > 20
    assert joined.minutes == pytest.approx(corners + board, abs=0.5)
    assert "cut the back board" in joined.step.do
    assert any("saw for the board" in tool for tool in joined.step.tools)
    planned = {(each.key, each.panel): each for each in tasks_of(bench, 1)}
    assert planned["join-frame", 1].minutes == round(joined.minutes)
    assert ("join-frame", 1) in {tuple(each) for each in planned["join-columns", 1].after}
