"""The single-line drawing: everything that is there once, nothing that is not, no word on another."""

from __future__ import annotations

import pytest

from invented_plans import Invented, made, pumping
from panewright.drawing.bounds import bounds, item_bounds
from panewright.drawing.drawing import Arc, Path, Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.paper_size import figure_area
from panewright.pack.array_book.drawn import signs
from panewright.pack.array_book.drawn.scheme import alike
from panewright.pack.array_book.drawn.schemed import scheme_of
from panewright.pack.array_book.drawn.single_line import folded, sheets, whole

ASKED = {
    "one panel": Invented(1, 1, generator=False),
    "two panels": Invented(1, 2),
    "two strings": Invented(2, 3, bank=False, loads=0, on="open ground"),
    "four strings, two inputs": Invented(4, 5, 2, spare=2),
    "eight strings of five": Invented(8, 5, 2, serial="Boathouse west roof, panel {:04d}"),
    "forty in four inputs": Invented(8, 5, 4, loads=4, serial="W/{}"),
    "NEC, US units": Invented(3, 6, family="NEC", units="us", paper="Letter"),
    "long strings": Invented(3, 17, 3, most_v=600.0, serial="IB-2026-{:06d}"),
    "direct, with diodes": Invented(3, 1, kind="direct"),
    "thirty strings": Invented(30, 1, 6, fuse_a=30.0),
    "a serial of one long word": Invented(1, 2, serial="W" * 60 + "{}"),
}


@pytest.fixture(scope="module", params=ASKED.values(), ids=ASKED.keys())
def plan(request):
    return made(request.param)


def words(drawing):
    return [item.words for item in drawing.items if isinstance(item, Text)]


def fuses(drawing):
    """Rectangles of a fuse's size, lying or upright."""
    sizes = {signs.FUSE_MM, signs.FUSE_MM[::-1]}
    found = [item_bounds(item) for item in drawing.items if isinstance(item, Path) and item.layer == "hole"]
    return [box for box in found if (round(box.width_mm, 6), round(box.height_mm, 6)) in sizes]


def panels(drawing):
    return [item for item in drawing.items if isinstance(item, Path) and item.layer == "cell"]


def drawings(plan):
    scheme = scheme_of(plan)
    found = sheets(scheme, figure_area(plan.site.named.paper))
    return [whole(scheme), folded(scheme), found.first, *found.strings]


def test_no_words_lie_on_words_or_are_crossed_by_a_line(plan):
    for drawing in drawings(plan):
        assert overlaps(drawing, plan.site.named.units) == ()
        assert crossed(drawing, plan.site.named.units) == ()


def test_every_panel_of_a_string_is_drawn_once(plan):
    drawing = whole(scheme_of(plan))
    wired = [placed.serial for string in plan.strings() for placed in string]
    assert len(panels(drawing)) == len(wired)
    said = "".join(words(drawing)).replace(" ", "")  # a long serial takes two lines, or three
    assert all(said.count(serial.replace(" ", "")) >= 1 for serial in wired)


def test_a_serial_of_its_own_line_stands_there_exactly_once():
    plan = made(ASKED["four strings, two inputs"])
    said = words(whole(scheme_of(plan)))
    assert [said.count(placed.serial) for string in plan.strings() for placed in string] == [1] * 20
    assert all(placed.serial not in said for placed in plan.panels[20:])  # not wired: not on the line


def test_there_are_as_many_fuses_as_are_needed(plan):
    needed = sum(fuse.needed for fuse in plan.fuses)
    bank = 1 if plan.site.bank else 0
    assert len(fuses(whole(scheme_of(plan)))) == needed + bank


def test_a_size_stands_at_each_fuse_and_the_words_say_where_none_is_needed():
    with_fuses, without = made(ASKED["four strings, two inputs"]), made(ASKED["two strings"])
    assert {fuse.needed for fuse in with_fuses.fuses} == {True}
    said = words(whole(scheme_of(with_fuses)))
    assert said.count("15\u2009A") == 4
    heads = [line for line in words(whole(scheme_of(without))) if "in series" in line]
    assert len(heads) == 2
    assert all("no fuse needed" in line for line in heads)


def test_blocking_diodes_are_drawn_where_they_are_needed_and_only_there(plan):
    wanted = any(need.needed for need in plan.needs if need.thing == "blocking diodes")
    scheme = scheme_of(plan)
    assert {strand.blocking for strand in scheme.strands} == {wanted}


def triangles(drawing):
    return [
        i
        for i in drawing.items
        if isinstance(i, Path) and i.layer == "ink" and i.filled and len(i.points) == 3
    ]


def test_diodes_add_one_triangle_to_each_string():
    from dataclasses import replace

    scheme = scheme_of(made(ASKED["four strings, two inputs"]))
    blocked = replace(scheme, strands=tuple(replace(s, blocking=True) for s in scheme.strands))
    assert len(triangles(whole(blocked))) == len(triangles(whole(scheme))) + 4


def test_only_what_is_there_hangs_at_the_bank():
    assert {"Battery", "Loads", "Generator"} <= set(words(whole(scheme_of(made(ASKED["two panels"])))))
    said = set(words(whole(scheme_of(made(ASKED["two strings"])))))
    assert not {"Battery", "Generator"} & said
    assert not any("fuse at plus" in line for line in said)


def test_a_pump_at_the_strings_is_a_motor_with_no_controller_between():
    drawing = whole(scheme_of(pumping(ASKED["two strings"])))
    said = words(drawing)
    assert {"Pump", "M", "24\u2009V, 8\u2009A"} <= set(said)
    assert not any(
        "controller" in line for line in said if not line.startswith(("W", "disconnect", "isolator"))
    )
    assert overlaps(drawing) == ()
    assert crossed(drawing) == ()


def test_folding_keeps_every_string_and_sheets_show_each_panel_once():
    plan = made(ASKED["thirty strings"])
    scheme = scheme_of(plan)
    groups = alike(scheme.strands)
    assert sum(len(group.strands) for group in groups) == 30
    found = sheets(scheme, figure_area("A4"))
    assert len(found.strings) > 1
    assert sum(len(panels(drawing)) for drawing in found.strings) == 30
    assert all(bounds(drawing).height_mm <= figure_area("A4").height_mm for drawing in found.strings)
    heads = [line for line in words(found.first) if "strings, each" in line]
    assert sum(int(line.split(": ")[1].split()[0]) for line in heads) == 30


def test_the_key_tells_each_run_as_the_plan_has_it():
    plan = made(ASKED["four strings, two inputs"])
    key = " ".join(scheme_of(plan).key)
    for number, leg in enumerate(plan.legs, 1):
        assert f"W{number} {leg.name}" in key
        assert f"{leg.chosen.taken.size.name} copper" in key


@pytest.mark.parametrize("name", ["fuse", "diode", "isolator", "connector", "battery", "earth", "arrester"])
def test_an_upright_sign_is_the_lying_one_turned(name):
    sign = getattr(signs, name)()
    lying = [item_bounds(item) for item in sign.at((0.0, 0.0)) if isinstance(item, Path | Arc)]
    upright = [item_bounds(item) for item in sign.upright((0.0, 0.0)) if isinstance(item, Path | Arc)]
    for one, other in zip(lying, upright, strict=True):
        assert (one.width_mm, one.height_mm) == pytest.approx((other.height_mm, other.width_mm))
        assert other.top == pytest.approx(-one.left)
