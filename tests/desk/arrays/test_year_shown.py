"""What a page tells of a plan is what the plan holds, whatever it is of."""

from __future__ import annotations

import re

import numpy as np
import pytest

from invented_plans import Invented
from invented_plans import made as invented
from panewright.desk.arrays.year_shown import MONTHS, year_shown
from panewright.pack.array_book.limits_told import limits_told
from planned import plan

NUMBER = re.compile(r"-?[\d\u2009]*\d(?:\.\d+)?")


def number(words):
    return float(NUMBER.search(words)[0].replace("\u2009", ""))


@pytest.fixture(scope="module")
def made():
    return plan()


@pytest.fixture(scope="module")
def seen(made):
    return year_shown(made)


def test_months_add_up_to_the_year(made, seen):
    assert [each.name for each in seen.months] == list(MONTHS)
    assert sum(number(each.kwh) for each in seen.months) == pytest.approx(made.year.kwh, rel=0.01)
    widths = [float(each.width) for each in seen.months]
    assert max(widths) == 100
    assert widths.index(100) == int(np.argmax(made.year.month_kwh()))


def test_what_is_lost_leads_from_the_ratings_to_the_inputs(made, seen):
    first, *lost = [number(row.value) for row in seen.losses[: len(made.year.lost_kwh()) + 1]]
    at_inputs = next(number(row.value) for row in seen.losses if row.what.startswith("At the inputs"))
    assert first - sum(lost) == pytest.approx(at_inputs, rel=0.01)


def test_every_check_need_panel_and_caution_is_told_once(made, seen):
    assert len(seen.checks) == len(made.checks)
    assert {bar.rule for bar in seen.failing} == {check.rule for check in made.checks if not check.passed}
    assert len(seen.needs) == len(made.needs) + len(made.thresholds)
    assert [row.what for row in seen.known_by] == [panel.serial for panel in made.panels]
    assert seen.cautions == made.cautions
    assert len(seen.front) == len(made.front)


def test_limits_stand_in_the_order_of_report_and_book(made, seen):
    order = [check.rule for _, checks in limits_told(made) for check in checks]
    assert [bar.rule for bar in seen.checks] == order
    assert order != [check.rule for check in sorted(made.checks, key=lambda check: -check.utilisation)]


def test_the_likely_range_lies_round_the_year(made, seen):
    low, high = (number(words) for words in seen.likely.split("between ")[1].split(" and "))
    assert low < made.year.kwh < high


def test_the_day_is_a_picture_with_its_four_quarters(seen):
    for words in ("December to February", "March to May", "June to August", "September to November"):
        assert words in seen.hours
    assert "<script" not in seen.hours


@pytest.mark.parametrize(
    "asked",
    [
        Invented(strings=1, in_series=1, loads=0, bank=False, generator=False),
        Invented(strings=8, in_series=5, inputs=2, family="NEC", units="us", paper="Letter", currency="USD"),
        Invented(strings=4, in_series=1, kind="direct", known=False, serial="=<{}>"),
    ],
    ids=["one panel", "forty in US units", "direct"],
)
def test_odd_arrays_are_told_too(asked):
    made = invented(asked)
    seen = year_shown(made)
    assert len(seen.known_by) == asked.strings * asked.in_series
    assert bool(seen.bank) == (made.balance is not None) == seen.banked
    assert ("at their best" in seen.figures[0][0]) == (asked.kind == "direct")
    runs = seen.wires[0].value
    assert (" ft" in runs.replace("\u2009", " ")) == (asked.units == "us"), runs
    assert all(asked.currency in row.value for row in seen.money)
