"""Slots of a long panel, drawn, listed and told."""

from pathlib import Path

import pytest

from panewright.drawing.drawing import Arc
from panewright.drawing.drawing import Path as Line
from panewright.order.parse import parse_bytes
from panewright.pack.bench import Bench
from panewright.pack.figures.frame import rail_figure
from panewright.pack.pages.frame import hole_size
from panewright.pack.pages.mounting import slot_words
from panewright.pack.steps.frame import drill_rails
from panewright.panel.choose import design_panel
from panewright.price.offers.quote import quote
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def benches():
    shelf = load_shelf()

    def bench(name):
        order = parse_bytes((EXAMPLES / name).read_bytes(), name, shelf)
        design = design_panel(order, shelf)
        return Bench(design, quote(design, shelf))

    return {name: bench(name) for name in ("workshop.toml", "frost-sensor.toml")}


def bracket_holes(bench):
    pieces = bench.design.structural.frame.pieces
    return [hole for piece in pieces for hole in piece.holes if hole.purpose == "bracket"]


def test_a_long_panel_has_slots_in_all_but_one_bracket_of_each_long_rail(benches):
    bench = benches["workshop.toml"]
    frame, holes = bench.design.structural.frame, bracket_holes(bench)
    assert frame.slot_mm > 0
    assert sum(not hole.slot_mm for hole in holes) == 2
    slotted = next(hole for hole in holes if hole.slot_mm)
    assert hole_size(bench, slotted).startswith("slot")
    assert "file away" in drill_rails(bench).do
    assert "slide" in slot_words(bench)


def test_a_slot_is_drawn_as_long_as_it_is(benches):
    frame = benches["workshop.toml"].design.structural.frame
    piece = next(piece for piece in frame.pieces if any(hole.slot_mm for hole in piece.holes))
    drawn = rail_figure(piece, frame, 10.0).items
    slots = [item for item in drawn if isinstance(item, Line) and item.layer == "hole"]
    circles = [item for item in drawn if isinstance(item, Arc) and item.layer == "hole"]
    made = [hole for hole in piece.holes if hole.slot_mm]
    assert len(slots) == len(made)
    assert len(circles) == len(piece.holes) - len(made)
    for slot, hole in zip(sorted(slots, key=lambda each: each.points[0]), made, strict=True):
        xs, ys = [x for x, _ in slot.points], [y for _, y in slot.points]
        assert (min(xs) + max(xs)) / 2 == pytest.approx(hole.along_mm)
        assert max(xs) - min(xs) == pytest.approx(hole.slot_mm + hole.diameter_mm)
        assert max(ys) - min(ys) == pytest.approx(hole.diameter_mm)


def test_a_short_panel_keeps_its_round_holes(benches):
    bench = benches["frost-sensor.toml"]
    assert bench.design.structural.frame.slot_mm == 0
    assert bench.design.structural.frame.fixed_brackets == len(bracket_holes(bench))
    assert "Slots" not in drill_rails(bench).do
    assert slot_words(bench) == ""
