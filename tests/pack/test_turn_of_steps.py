"""Every example, poured, in film and over an air gap: each step finds what it works on, in book and plan."""

from __future__ import annotations

from dataclasses import replace

import pytest

from examples import CLOSED, closed
from panewright.pack.plan.panels import Asked, asked_of, plan_of
from panewright.pack.steps.steps import bench_steps


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
