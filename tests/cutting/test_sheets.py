"""Laws of sheet plans: all panels, apart, inside, by cuts from edge to edge that a person could make."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.bars.stock import StockShort
from panewright.cutting.sheets.sheet import Cutter, Panel, PanelTooLarge, Rectangle, Sheet
from panewright.cutting.sheets.sheets import count_by_rule, cut_by_rule, cut_sheets

PANELS = st.lists(
    st.builds(
        Panel,
        st.sampled_from("abc"),
        st.integers(8, 60).map(lambda n: n * 10.0),
        st.integers(8, 60).map(lambda n: n * 10.0),
        st.integers(1, 4),
        st.booleans(),
        st.sampled_from(("first", "second")),
    ),
    min_size=1,
    max_size=3,
)
CUTTERS = st.sampled_from((Cutter(), Cutter(4.0, 10.0), Cutter(0.0, 15.0, 20.0), Cutter(3.0, 0.0, 0.0, 3)))
SHEET = Sheet(1000.0, 700.0, Decimal(30))


def apart(one: Rectangle, other: Rectangle, kerf: float) -> bool:
    return (
        one.left_mm + one.width_mm + kerf <= other.left_mm + 1e-6
        or other.left_mm + other.width_mm + kerf <= one.left_mm + 1e-6
        or one.bottom_mm + one.height_mm + kerf <= other.bottom_mm + 1e-6
        or other.bottom_mm + other.height_mm + kerf <= one.bottom_mm + 1e-6
    )


def parted_by_straight_cuts(things: list[Rectangle], kerf: float) -> bool:
    """Whether some cut from edge to edge parts the things, and so on with both halves."""
    if len(things) < 2:
        return True
    for low, size in (("left_mm", "width_mm"), ("bottom_mm", "height_mm")):
        for end in sorted({getattr(t, low) + getattr(t, size) for t in things}):
            before = [t for t in things if getattr(t, low) + getattr(t, size) <= end + 1e-6]
            after = [t for t in things if getattr(t, low) >= end + kerf - 1e-6]
            if after and len(before) + len(after) == len(things):
                return parted_by_straight_cuts(before, kerf) and parted_by_straight_cuts(after, kerf)
    return False


@given(PANELS, CUTTERS)
@settings(deadline=None, max_examples=8)
def test_every_panel_once_apart_inside_and_by_straight_cuts(panels, cutter):
    plan = cut_sheets(panels, [SHEET], cutter)
    wanted = Counter()
    for panel in panels:
        wanted[panel.name, panel.width_mm, panel.height_mm, panel.turns, panel.order] += panel.quantity
    cut = [p for sheet in plan.sheets for p in sheet.panels]
    told = [(p.panel.name, p.panel.width_mm, p.panel.height_mm, p.panel.turns, p.panel.order) for p in cut]
    assert Counter(told) == wanted
    for sheet in plan.sheets:
        places = [p.at for p in sheet.panels]
        assert all(apart(one, other, cutter.kerf_mm) for one, other in combinations(places, 2))
        assert parted_by_straight_cuts(places, cutter.kerf_mm)
        for at in places:
            assert at.left_mm >= cutter.trim_mm - 1e-6
            assert at.bottom_mm >= cutter.trim_mm - 1e-6
            assert at.left_mm + at.width_mm <= 1000.0 - cutter.trim_mm + 1e-6
            assert at.bottom_mm + at.height_mm <= 700.0 - cutter.trim_mm + 1e-6
        for placed in sheet.panels:
            assert placed.panel.turns or not placed.turned


@given(PANELS, st.sampled_from((Cutter(), Cutter(0.0, 15.0, 20.0), Cutter(0.0, 10.0, 0.0, 3))))
@settings(deadline=None, max_examples=8)
def test_panels_rests_and_waste_make_up_the_sheet(panels, cutter):
    """A scoring wheel takes nothing, so that no area is lost but the trimmed edges."""
    plan = cut_sheets(panels, [SHEET], cutter, (300.0, 200.0))
    for sheet in plan.sheets:
        parts = [p.at for p in sheet.panels] + [*sheet.kept, *sheet.lost]
        assert all(apart(one, other, 0.0) for one, other in combinations(parts, 2))
        usable = (1000.0 - 2 * cutter.trim_mm) * (700.0 - 2 * cutter.trim_mm)
        assert sum(at.width_mm * at.height_mm for at in parts) == pytest.approx(usable)


@given(PANELS, CUTTERS)
@settings(deadline=None, max_examples=8)
def test_the_steps_followed_one_by_one_give_the_panels(panels, cutter):
    """Parts are cut as the words say; what comes out has the panels' sizes, and no strip is too narrow."""
    plan = cut_sheets(panels, [SHEET], cutter)
    for sheet in plan.sheets:
        rooms = {"the sheet": (1000.0 - 2 * cutter.trim_mm, 700.0 - 2 * cutter.trim_mm)}
        out = [] if sheet.steps else [rooms["the sheet"]]
        for step in sheet.steps:
            width, height = rooms.pop(step.part)
            assert step.size_mm == pytest.approx((width, height))
            whole = width if step.axis == "across" else height
            rest = whole - step.at_mm - cutter.kerf_mm
            assert step.at_mm >= cutter.breakout_mm
            assert rest <= 1e-6 or rest >= cutter.breakout_mm - 1e-6
            for name, side in zip(step.gives, (step.at_mm, rest), strict=True):
                size = (side, height) if step.axis == "across" else (width, side)
                if name.startswith("part "):
                    rooms[name] = size
                elif name in "abc":
                    out.append(size)
        assert rooms in ({}, {"the sheet": rooms.get("the sheet")})
        sizes = sorted((round(p.at.width_mm, 3), round(p.at.height_mm, 3)) for p in sheet.panels)
        assert sorted((round(w, 3), round(h, 3)) for w, h in out) == sizes


@given(PANELS, CUTTERS)
@settings(deadline=None, max_examples=8)
def test_the_plan_is_not_below_its_bound_and_never_dearer_than_shelves(panels, cutter):
    plan = cut_sheets(panels, [SHEET], cutter)
    assert plan.bound <= float(plan.cost) + 1e-6
    if cutter.breakout_mm == 0 and cutter.stages == 0:
        assert len(plan.sheets) <= shelves(panels, cutter)


def shelves(panels: list[Panel], cutter: Cutter) -> int:
    """First fit on shelves, the highest panels first, none turned: how many sheets."""
    width, height = 1000.0 - 2 * cutter.trim_mm, 700.0 - 2 * cutter.trim_mm
    upright = [
        (p.width_mm, p.height_mm)
        if p.height_mm <= height and p.width_mm <= width
        else (p.height_mm, p.width_mm)
        for p in panels
        for _ in range(p.quantity)
    ]
    sheets: list[list[list[float]]] = []  # shelves of each: height, width left
    for wide, high in sorted(upright, key=lambda size: -size[1]):
        for sheet in sheets:
            shelf = next((s for s in sheet if high <= s[0] + 1e-9 and wide <= s[1] + 1e-9), None)
            if shelf is None and sum(s[0] + cutter.kerf_mm for s in sheet) + high <= height + 1e-9:
                shelf = [high, width]
                sheet.append(shelf)
            if shelf is not None:
                shelf[1] -= wide + cutter.kerf_mm
                break
        else:
            sheets.append([[high, width - wide - cutter.kerf_mm]])
    return len(sheets)


def test_a_remnant_that_does_is_taken_before_a_sheet_is_bought():
    rack = Sheet(620.0, 420.0, Decimal(0), 1, "rack", remnant=True)
    plan = cut_sheets([Panel("a", 400.0, 600.0, 1)], [SHEET, rack], Cutter(0.0, 10.0, 15.0))
    assert plan.cost == 0
    assert plan.sheets[0].sheet.name == "rack"


def test_a_rest_worth_keeping_is_one_rectangle_as_large_as_can_be():
    plan = cut_sheets([Panel("a", 400.0, 700.0, 1)], [SHEET], Cutter(), (300.0, 300.0))
    assert [(s.width_mm, s.height_mm, s.remnant) for s in plan.kept] == [(600.0, 700.0, True)]
    assert plan.waste == pytest.approx(0.0)


def test_a_panel_with_a_pattern_is_not_turned():
    with pytest.raises(PanelTooLarge, match=r"a is 600\.0 × 900\.0 mm; the sheets leave 1000 × 700 mm"):
        cut_sheets([Panel("a", 600.0, 900.0, 1, turns=False)], [SHEET], Cutter())
    assert cut_sheets([Panel("a", 600.0, 900.0, 1)], [SHEET], Cutter()).sheets[0].panels[0].turned


def test_stages_bound_how_often_the_direction_turns():
    """A sheet of 4 × 4 in two shelves takes two directions; one stage gives strips alone."""
    panels = [Panel("a", 500.0, 350.0, 4)]
    assert len(cut_sheets(panels, [SHEET], Cutter(stages=2)).sheets) == 1
    with pytest.raises(StockShort):
        cut_sheets(panels, [SHEET], Cutter(stages=1))


def test_a_strip_too_narrow_to_break_off_is_never_left():
    panels = [Panel("a", 990.0, 700.0, 1)]
    assert cut_sheets(panels, [SHEET], Cutter(breakout_mm=10.0)).sheets
    with pytest.raises(StockShort, match="no way to cut them"):
        cut_sheets(panels, [SHEET], Cutter(breakout_mm=15.0))


def test_tempered_glass_is_never_cut():
    with pytest.raises(ValueError, match="tempered: it is never cut, it bursts"):
        Sheet(1000.0, 700.0, tempered=True)


def test_too_few_sheets_are_an_error():
    with pytest.raises(StockShort, match="do not give all panels"):
        cut_sheets([Panel("a", 900.0, 600.0, 3)], [Sheet(1000.0, 700.0, None, 2)], Cutter())


def test_the_words_of_a_cut_say_which_part_from_which_edge_and_what_comes_off():
    plan = cut_sheets([Panel("front", 400.0, 700.0, 2)], [SHEET], Cutter())
    assert plan.sheets[0].steps[0].told("400 mm") == (
        "Cut the sheet upright, 400 mm from its left edge: front and part A."
    )


def test_same_panels_in_another_order_are_cut_alike():
    panels = [Panel("a", 400.0, 300.0, 3), Panel("b", 250.0, 200.0, 5)]
    assert cut_sheets(panels, [SHEET], Cutter()) == cut_sheets(panels[::-1], [SHEET], Cutter())


@given(PANELS, CUTTERS)
@settings(deadline=None)
def test_sheets_by_rule_are_as_many_as_their_plan_takes(panels, cutter):
    try:
        number = count_by_rule(panels, SHEET, cutter)
    except StockShort:
        with pytest.raises(StockShort):
            cut_by_rule(panels, SHEET, cutter)
        return
    plan = cut_by_rule(panels, SHEET, cutter)
    assert number == len(plan.sheets)
    assert number >= plan.bound / float(SHEET.price) - 1e-9
