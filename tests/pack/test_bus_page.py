"""Buses are drawn with words that can be read at the bench, over as many figures as that takes."""

from dataclasses import replace
from pathlib import Path

import pytest

from panewright import desk
from panewright.drawing.drawing import Text
from panewright.drawing.sheet import Figure
from panewright.layup.stations import bus_kinds
from panewright.pack.bench import Bench
from panewright.pack.figures.scale import LETTERS_MM
from panewright.pack.pages.layup import layup_pages

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize("name", ["bathhouse", "kiosk"])
def test_every_kind_once_and_no_word_too_small(name):
    made = desk.design((EXAMPLES / f"{name}.toml").read_bytes(), name)
    design = replace(made.design, weighed=())
    (page,) = [p for p in layup_pages(Bench(design, made.quote)) if p.title == "Bus ribbon to cut and mark"]
    figures = [block for block in page.blocks if isinstance(block, Figure) and block.caption]
    words = [(item, each) for each in figures for item in each.drawing.items if isinstance(item, Text)]
    assert sum(item.words.endswith("×") for item, _ in words) == len(bus_kinds(design.layup))
    assert min(item.height_mm / each.scale for item, each in words) >= LETTERS_MM[-1] - 0.01
