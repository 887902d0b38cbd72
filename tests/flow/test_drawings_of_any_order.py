"""Drawings of orders that nobody chose: no words on words, no line through words, none too large.

Each seed draws one order from all the parts that the shelf has; one that cannot be built is drawn again.
"""

import random

import pytest

from panewright import desk
from panewright.drawing.bounds import bounds
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.paper_size import figure_area
from panewright.drawing.sheet import Figure
from panewright.errors import OrderError
from panewright.pack.leaf import BookLeaf, DxfLeaf, SvgLeaf, TemplateLeaf
from panewright.pack.pack import make_pack
from panewright.shelf.load import load_shelf

SEEDS = range(16)
CELLS = (2, 3, 4, 6, 8, 12, 18, 20, 24, 30, 36, 40, 48, 60, 72)
SITES = {
    "metric": 'wind_code = "EN 1991-1-4"\nwind_kind = "10 min mean"\nwind = "24 m/s"\nsnow = "0.7 kPa"',
    "us": 'wind_code = "ASCE 7-16"\nwind_kind = "3 s gust"\nwind = "105 mph"\nsnow = "20 psf"',
}
KIND = {"metric": '\nwind_return = "50 yr"', "us": '\nwind_risk = "I"'}


def drawn_order(chance, shelf):
    """The text of an order: cells, units, corner, rail, filling and mounting as chance has them."""
    units = chance.choice(("metric", "us"))
    cell = chance.choice([row.name for row in shelf.cells])
    paper = {"metric": "A4", "us": "Letter"}[units]
    parts = [f'corner = "{chance.choice(("mitred", "lapped", "welded"))}"']
    parts.append(f'encapsulation = "{chance.choice(("silicone pour", "film", "air gap"))}"')
    if "welded" not in parts[0]:
        fasteners = ("screw M5", "screw M6", "tapping screw 5.5", "rivet 4.8 stainless")
        parts.append(f'corner_fastener = "{chance.choice(fasteners)}"')
    if chance.random() < 0.6:
        parts.append(f'rail = "{chance.choice([row.name for row in shelf.rails])}"')
    if chance.random() < 0.3:
        parts.append(f'glass = "{chance.choice([row.name for row in shelf.sheets])}"')
    cut = f'cut = "{chance.choice(("whole", "half", "third"))}"' if " " not in cell[11:] else ""
    on = chance.choice(("by others", "timber", "post", "ground ballast", "roof ballast"))
    lines = "\n".join(parts)
    return f"""
order = {{ name = "Drawn {chance.randrange(10**6)}", units = "{units}", paper = "{paper}", panels = 3 }}
load = {{ cells = {chance.choice(CELLS)} }}
[cell]
name = "{cell}"
{cut}
[site]
{SITES[units]}{KIND[units]}
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "{chance.choice((10, 35, 60, 90))} deg"
[parts]
{lines}
[mounting]
on = "{on}"
""".encode()


def made(seed):
    """The first order of a seed that can be built."""
    chance, shelf = random.Random(seed), load_shelf()
    for _ in range(20):
        try:
            return desk.design(drawn_order(chance, shelf), "drawn.toml")
        except OrderError:
            continue
    raise AssertionError("no order of twenty could be built")


def drawings(pack):
    """Every drawing of a pack, in books and alone."""
    for leaf in pack.leaves:
        if isinstance(leaf, BookLeaf):
            yield from (b.drawing for page in leaf.book.pages for b in page.blocks if isinstance(b, Figure))
        elif isinstance(leaf, TemplateLeaf | DxfLeaf | SvgLeaf):
            yield leaf.drawing


@pytest.mark.parametrize("seed", SEEDS)
def test_no_words_lie_on_words_and_no_line_runs_through_any(seed):
    order = made(seed)
    pack, system = make_pack(order.design, order.quote), order.design.order.job.units
    found = [
        (drawing.name, overlaps(drawing, system), crossed(drawing, system)) for drawing in drawings(pack)
    ]
    assert len(found) > 20
    assert [each for each in found if each[1] or each[2]] == []
    room = figure_area(order.design.order.job.paper)
    for leaf in pack.leaves:
        for page in leaf.book.pages if isinstance(leaf, BookLeaf) else ():
            for block in page.blocks:
                if isinstance(block, Figure):
                    around = bounds(block.drawing, system)
                    assert around.width_mm / block.scale <= room.width_mm, block.drawing.name
                    assert around.height_mm / block.scale <= room.height_mm, block.drawing.name
