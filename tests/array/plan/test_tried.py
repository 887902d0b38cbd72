"""Strings tried at once: beside the year that is reckoned hour by hour, and what no arrangement can do."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest

from invented_site import headed
from panewright.array.plan.composed import plan_of
from panewright.array.plan.panel import of_label
from panewright.array.plan.placing import placed
from panewright.array.plan.tried import basis_of, best_strings, tried
from panewright.array.plan.weather import weathered
from panewright.order.site.parse import parse_site
from panewright.order.site.site import Typed

#: invented: two new panels and two of seven eighths of their current, on one controller with two inputs
TEXT = headed(
    "Invented",
    """\
[[panel]]
name = "new"
count = 2
voc = "22.4 V"
vmp = "18.2 V"
isc = "8.0 A"
imp = "7.5 A"
cells = 36
width = "670 mm"
height = "1480 mm"
[[panel]]
name = "old"
count = 2
voc = "22.0 V"
vmp = "17.9 V"
isc = "7.0 A"
imp = "6.5 A"
cells = 36
width = "670 mm"
height = "1480 mm"
[controller]
kind = "mppt"
most = "100 V"
current = "30 A"
inputs = 2
[battery]
kind = "agm"
volts = "12 V"
capacity = "200 Ah"
""",
)
NEW, OLD = (0, 1), (2, 3)


@pytest.fixture(scope="module")
def site():
    return parse_site(TEXT, "invented.toml")


@pytest.fixture(scope="module")
def panels(site):
    return placed(site, [of_label(each.known.label) for each in site.panels])


@pytest.fixture(scope="module")
def basis(site, panels):
    return basis_of(site, panels, weathered(site, None).usual)


def test_like_panels_belong_together_and_it_is_found(basis):
    apart = tried(basis, [Typed(NEW, 0), Typed(OLD, 1)])
    mixed = tried(basis, [Typed((0, 2), 0), Typed((1, 3), 1)])
    assert apart.kept_share == pytest.approx(1, abs=0.003)
    #: a string's current is held down to the weaker panel's: of 7.5 and 6.5 A about 7 % of the power
    assert 0.03 < 1 - mixed.kept_share < 0.08
    best = tried(basis, best_strings(basis))
    assert best.kwh == pytest.approx(apart.kwh, rel=0.004)
    assert best.kwh > mixed.kwh


def test_it_is_what_the_year_says_but_for_the_wires(site, panels, basis):
    for strings in ((Typed(NEW, 0), Typed(OLD, 1)), (Typed((0, 2), 0), Typed((3, 1), 0))):
        plan = plan_of(replace(site, strings=strings), panels, weathered(site, None))
        now = tried(basis, strings)
        assert now.kwh == pytest.approx(plan.year.kwh + plan.wire_kwh, rel=0.01)  # by 48 moments
        assert now.alone_kwh == pytest.approx(plan.year.alone_w.sum() / 1000, rel=0.01)
        assert [check.rule for check in now.checks] == [check.rule for check in plan.checks]
        assert [each.fuse.needed for each in now.strings] == [fuse.needed for fuse in plan.fuses]


def test_no_arrangement_gives_more_than_each_panel_alone(basis):
    for one, two, three, four in permutations(range(4)):
        found = tried(basis, [Typed((one, two), 0), Typed((three,), 1), Typed((four,), 1)])
        assert 0 < found.kept_share <= 1
        assert found.left_out == ()


def test_a_string_that_is_too_long_fails_in_the_cold_and_one_that_is_too_short_in_heat(basis):
    def failing(strings):
        return {check.rule for check in tried(basis, strings).checks if not check.passed}

    assert not any("coldest" in rule for rule in failing([Typed((0, 1, 2), 0)]))  # 3 x 22 V, 15 % more
    assert any("coldest" in rule for rule in failing([Typed((0, 1, 2, 3), 0)]))  # 4 x 22 V
    tall = replace(basis, site=replace(basis.site, box=replace(basis.site.box, least_v=60.0)))
    found = [check for check in tried(tall, [Typed((0,), 0)]).checks if not check.passed]
    assert any("hottest" in check.rule for check in found)


def test_each_string_keeps_its_own_fuse_whatever_their_order(basis):
    """Inputs told in turn: a string alone at its input is fed by no other, two at one by each other."""
    strings = [Typed((0,), 1), Typed((2,), 0), Typed((1,), 1)]
    found = tried(basis, strings)
    others = [each.fuse.reverse_a for each in found.strings]
    assert others == pytest.approx([8.0, 0.0, 8.0], rel=1e-3)
    assert [each.cold_v > each.hot_v for each in found.strings] == [True] * 3
    assert found.left_out == (3,)


def test_no_string_at_all_is_no_question(basis):
    with pytest.raises(ValueError, match="got none"):
        tried(basis, [])


def test_where_no_string_holds_none_is_told(site, panels):
    low = replace(site, box=replace(site.box, controller=replace(site.box.controller, most_v=20.0)))
    assert best_strings(basis_of(low, panels, weathered(site, None).usual)) == ()


def test_strings_of_its_own_choice_need_no_fuse_that_nobody_sells():
    """Labels of 5 A on panels of 3.6 A: 1.5 Isc asks for 6 A, so three strings cannot lie side by side."""
    panel = TEXT.index("[[panel]]"), TEXT.index("[controller]")
    alike = """
[[panel]]
name = "small"
count = 9
voc = "22.4 V"
vmp = "18.2 V"
isc = "3.6 A"
imp = "3.3 A"
fuse = "5 A"
cells = 36
width = "500 mm"
height = "900 mm"
"""
    own = parse_site(
        TEXT[: panel[0]] + alike + TEXT[panel[1] :].replace("inputs = 2", "inputs = 1"), "own.toml"
    )
    laid = placed(own, [of_label(each.known.label) for each in own.panels])
    found = basis_of(own, laid, weathered(own, None).usual)
    three = [Typed((0, 1, 2), 0), Typed((3, 4, 5), 0), Typed((6, 7, 8), 0)]
    assert any("fuse of string" in check.rule and not check.passed for check in tried(found, three).checks)
    best = tried(found, best_strings(found))
    assert not any("fuse of string" in check.rule and not check.passed for check in best.checks)
