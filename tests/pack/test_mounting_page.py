"""The page on what carries the panel: its caution, a drawing to scale, forces and every rule of it."""

from dataclasses import replace

import pytest

from panewright.drawing.drawing import Dimension, Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.sheet import Caution, Figure, Verdicts
from panewright.pack.bench import Bench
from panewright.pack.figures.mounting import mounting_figure
from panewright.pack.pages import caution
from panewright.pack.pages.mounting import mounting_page
from panewright.shelf.load import load_shelf
from panewright.structure.mounting.choice import prove
from panewright.structure.mounting.wish import BallastWish, Mounting, PostWish, TimberWish

SHELF = load_shelf()
BALLAST = BallastWish("sand", 0.35, "table", None, None, None, None, 150.0, None)
WAYS = {
    "by others": Mounting(),
    "timber": Mounting("timber", timber=TimberWish("C24", True, 100.0, 100.0)),
    "steel": Mounting("steel", support_wall_mm=3.0),
    "post": Mounting("post", post=PostWish(None, 2200.0, 300.0, None, "sand")),
    "ground ballast": Mounting("ground ballast", ballast=BALLAST),
    "roof ballast": Mounting("roof ballast", ballast=replace(BALLAST, surface="bitumen")),
}


def on(design, way, tilt_deg=35.0):
    """The design mounted in another way, at another tilt."""
    built, units = design.structural, design.order.job.units
    was = built.mounting
    panel = replace(was.panel, tilt_deg=tilt_deg)
    proof = prove(WAYS[way], was.bracket, panel, was.forces, brackets=was.brackets, shelf=SHELF, units=units)
    return replace(design, structural=replace(built, mounting=proof))


def page(made, way):
    return mounting_page(Bench(on(made.design, way), made.quote))


@pytest.mark.parametrize("way", WAYS)
def test_it_warns_draws_and_shows_every_rule(made, way):
    blocks = page(made, way).blocks
    assert [block.words for block in blocks if isinstance(block, Caution)] == [caution.CARRIES]
    assert any(isinstance(block, Figure) for block in blocks)
    (rules,) = (block for block in blocks if isinstance(block, Verdicts))
    assert rules.checks == on(made.design, way).structural.mounting.checks


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("tilt_deg", [5.0, 35.0, 60.0, 90.0])
def test_no_words_lie_on_words_or_under_lines_at_any_tilt(made, way, tilt_deg):
    design, units = on(made.design, way, tilt_deg), made.design.order.job.units
    made_page = mounting_page(Bench(design, made.quote))
    drawn, _title = (block for block in made_page.blocks if isinstance(block, Figure))
    assert overlaps(drawn.drawing, units) == ()
    assert crossed(drawn.drawing, units) == ()


def test_the_post_is_dimensioned_as_it_stands(made):
    design = on(made.design, "post")
    standing = design.structural.mounting.standing
    lengths = {item.length_mm for item in mounting_figure(design, 2.7).items if isinstance(item, Dimension)}
    assert lengths == {standing.height_mm, standing.embedment_mm, standing.collar_mm}


def test_the_ballast_is_told_in_blocks_and_kilograms(made):
    design = on(made.design, "ground ballast")
    proof = design.structural.mounting
    words = [item.words for item in mounting_figure(design, 2.7).items if isinstance(item, Text)]
    assert any(f"{proof.blocks // 2} of {proof.block.name}" in line for line in words)


def test_a_kit_says_that_only_its_brackets_are_proved(made):
    assert "by others" in page(made, "by others").blocks[0].words
