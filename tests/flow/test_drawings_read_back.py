"""Drawings of the examples read back by outside readers: every file clean, every length right to 0.01 mm."""

import io
import math
from functools import lru_cache

import ezdxf
import pdfplumber
import pytest

import examples
from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Arc, Dimension, Text
from panewright.drawing.drawing import Path as Line
from panewright.drawing.sheet import Figure
from panewright.layup.drawn.figure import cell_outline
from panewright.layup.drawn.spacer import comb_outline, combs
from panewright.pack.bench import told
from panewright.pack.figures.frame import CROSS
from panewright.pack.figures.jig_cards import card_drawing, card_room, cards_of
from panewright.pack.leaf import DxfLeaf
from panewright.pack.pages.frame import kinds
from panewright.paper.leaf import render
from panewright.paper.svg import frame
from panewright.paper.template import BORDER_MM, CARD_MM
from panewright.paper.tile import MARGIN_MM, tiling
from panewright.structure.corners.clip_cut import clip_cut

EXAMPLES = examples.NAMES
PRINTED = ["fence", "frost-sensor", "jetty"]  # inches on Letter, a small one, a large one
MM = 72 / 25.4
NEAR_MM = 0.01


def made(name):
    return examples.made(name).design, examples.packed(name)


def dxf_leaves(name):
    return [leaf for leaf in made(name)[1].leaves if isinstance(leaf, DxfLeaf)]


@lru_cache(maxsize=40)  # an example has five
def text(leaf):
    return render(leaf).decode("utf-8")


def document(leaf):
    return ezdxf.read(io.StringIO(text(leaf)))


def per_mm(name):
    return 1.0 if made(name)[0].order.job.units == "metric" else 1 / 25.4


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_file_for_machines_is_clean_and_its_dimensions_say_what_they_measure(name):
    for leaf in dxf_leaves(name):
        read = document(leaf)
        audit = read.audit()
        assert (audit.errors, audit.fixes) == ([], []), leaf.name
        asked = [item.length_mm for item in leaf.drawing.items if isinstance(item, Dimension)]
        found = list(read.modelspace().query("DIMENSION"))
        assert len(found) == len(asked)
        for dimension, length in zip(found, asked, strict=True):
            assert dimension.get_measurement() / per_mm(name) == pytest.approx(length, abs=NEAR_MM)
            assert drawn_figure(dimension) / per_mm(name) == pytest.approx(length, abs=NEAR_MM)


def drawn_figure(dimension):
    """The number in the words that stand on a dimension."""
    words = [part.plain_text() for part in dimension.virtual_entities() if part.dxftype() == "MTEXT"]
    return float(words[0].split()[0])


def outlines(leaf, layer, scale):
    """Closed outlines of a layer, in millimetres."""
    found = document(leaf).modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
    return [[(x / scale, y / scale) for x, y in line.get_points("xy")] for line in found if line.closed]


def circles(leaf, scale):
    found = document(leaf).modelspace().query('CIRCLE[layer=="hole"]')
    return [(c.dxf.center.x / scale, c.dxf.center.y / scale, 2 * c.dxf.radius / scale) for c in found]


def size(outline):
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("name", EXAMPLES)
def test_pane_and_combs_have_the_sizes_of_the_lay_up(name):
    design, pack = made(name)
    layup, scale = design.layup, per_mm(name)
    (pane,) = outlines(pack.leaf("glass.dxf"), "pane", scale)
    assert size(pane) == pytest.approx((layup.pane_width_mm, layup.pane_height_mm), abs=NEAR_MM)
    found = outlines(pack.leaf("spacer.dxf"), "border", scale)
    assert len(found) == len(combs(layup))
    for outline, comb in zip(found, combs(layup), strict=True):
        low = min(y for _, y in outline)
        for (x, y), wanted in zip(outline, comb_outline(comb), strict=True):
            assert math.dist((x, y - low), wanted) < NEAR_MM


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_hole_of_the_frame_is_where_the_plan_has_it(name):
    design, pack = made(name)
    plan, scale = design.structural.frame, per_mm(name)
    leaf = pack.leaf("frame.dxf")
    rails = sorted(outlines(leaf, "rail", scale), key=lambda line: -max(y for _, y in line))
    found = circles(leaf, scale)
    assert len(rails) == 4
    seat, upright = plan.rail.seat_mm, plan.rail.upright_mm
    for outline, piece in zip(rails, plan.pieces, strict=True):
        assert size(outline) == pytest.approx((piece.length_mm, seat + upright), abs=NEAR_MM)
        heel = max(y for _, y in outline) - upright
        for hole in piece.holes:
            across = hole.across_mm if hole.leg == "upright" else -hole.across_mm
            wanted = (hole.along_mm, heel + across, hole.diameter_mm)
            assert hole.slot_mm or any(math.dist(wanted, each) < NEAR_MM for each in found), hole


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_clips_holes_are_apart_as_the_rails_are(name):
    design, pack = made(name)
    clip = clip_cut(design.structural.frame)
    found = sorted(x for x, _, _ in circles(pack.leaf("clip.dxf"), per_mm(name)))
    first, second = clip.legs
    assert clip.kind == "sawn"
    wanted = sorted([*first.holes_mm, *(-at for at in second.holes_mm)])
    assert found == pytest.approx(wanted, abs=NEAR_MM)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_file_for_machines_has_its_title_block(name):
    design, _ = made(name)
    for leaf in dxf_leaves(name):
        said = [text.plain_text() for text in document(leaf).modelspace().query("TEXT")]
        assert {"drawing", "order", "revision", "scale", "units", "material", "seen", "tolerance"} <= set(
            said
        )
        assert design.revision in said
        assert "1 : 1" in said


@lru_cache(maxsize=4)
def pages(name, file):
    return pdfplumber.open(io.BytesIO(render(made(name)[1].leaf(file)))).pages


def points_on(page):
    """Ends of all lines and corners of all outlines on a page, from its upper left, by hundredths. [mm]"""
    found = {}
    for thing in page.lines + page.curves + page.rects:
        for x, y in thing.get("pts", ()):
            found.setdefault((round(100 * x / MM), round(100 * y / MM)), []).append((x / MM, y / MM))
    return found


def has(point, points):
    column, row = round(100 * point[0]), round(100 * point[1])
    near = (points.get((column + a, row + b), ()) for a in (-1, 0, 1) for b in (-1, 0, 1))
    return any(abs(point[0] - x) < NEAR_MM and abs(point[1] - y) < NEAR_MM for some in near for x, y in some)


def corners(drawing, layer):
    return [
        p for item in drawing.items if isinstance(item, Line) and item.layer == layer for p in item.points
    ]


def wanted_points(name, file):
    """What a hand works to: corners of cells and combs, crosses of holes."""
    design, pack = made(name)
    if file == "template.pdf":
        wide = design.layup.pane_width_mm
        cells = (cell_outline(cell.shape, cell.centre) for cell in design.layup.cells)
        return [(wide - x, y) for line in cells for x, y in line]
    drawing = pack.leaf(file).drawing
    layers = ("border", "centre") if file == "jig.pdf" else ("border",)
    return [point for layer in layers for point in corners(drawing, layer)]


@pytest.mark.parametrize("file", ["template.pdf", "jig.pdf", "spacer.pdf"])
@pytest.mark.parametrize("name", PRINTED)
def test_full_size_sheets_and_tiles_are_true(name, file):
    design, pack = made(name)
    drawing, system, paper = pack.leaf(file).drawing, design.order.job.units, design.order.job.paper
    seen, plan = frame(drawing, 1.0, system), tiling(frame(drawing, 1.0, system), paper)
    sheet, *tiles = pages(name, file)
    wanted = wanted_points(name, file)
    left, there = (sheet.width / MM - seen.width_mm) / 2, points_on(sheet)
    assert len(wanted) > 10
    for x, y in wanted:
        assert has((left + x - seen.left, BORDER_MM + seen.top - y), there), (x, y)
    if file == "jig.pdf":
        return  # cards in the stead of tiles
    assert len(tiles) == len(plan.tiles)
    for tile, page in zip(plan.tiles, tiles, strict=True):
        window, there = tile.window, points_on(page)
        for x, y in wanted:
            if window.left < x < window.right and window.bottom < y < window.top:
                assert has((MARGIN_MM + x - window.left, MARGIN_MM + window.top - y), there), (x, y)


@pytest.mark.parametrize("file", ["jig.pdf", "spacer.pdf"])
@pytest.mark.parametrize("name", PRINTED)
def test_every_sheet_has_both_check_bars_and_its_tolerance(name, file):
    for page in pages(name, file):
        lengths = [line["width"] / MM for line in page.lines]
        assert any(abs(length - 100.0) < NEAR_MM for length in lengths)
        assert any(abs(length - 101.6) < NEAR_MM for length in lengths)
        words = page.extract_text()
        assert ("crosses" if file == "jig.pdf" else "cut along") in words


@pytest.mark.parametrize("name", PRINTED)
def test_a_jigs_cards_are_true_hold_every_hole_once_and_no_sheet_is_without_one(name):
    design, pack = made(name)
    frame_, sheets, system = design.structural.frame, pack.leaf("jig.pdf").cards, design.order.job.units
    room = card_room(design.order.job.paper)
    cards = [card for names, piece in kinds(frame_) for card in cards_of(names, piece, room, system)]
    for names, piece in kinds(frame_):
        held = [hole for card in cards if card.names == names for hole in card.holes]
        assert len(held) == len(piece.holes)
        assert set(held) == set(piece.holes)
    crosses = [[p for item in sheet.items if _is_cross(item) for p in item.points] for sheet in sheets]
    assert all(crosses)
    lines = 2 + 1  # of a hole: its cross, and the line to its figure
    assert sum(map(len, crosses)) == 2 * lines * sum(len(card.holes) for card in cards)
    edge = MARGIN_MM + CARD_MM
    for points, page in zip(crosses, pages(name, "jig.pdf")[1:], strict=True):
        there = points_on(page)
        assert all(has((edge + x, edge - y), there) for x, y in points)
        assert all(0 <= x <= room.width_mm and 0 <= -y <= room.height_mm for x, y in points)


@pytest.mark.parametrize("name", PRINTED)
def test_a_card_lies_where_its_words_say(name):
    """From the edge that is named to the cross is what the hole's own figure says from the datum."""
    design = made(name)[0]
    frame_, system = design.structural.frame, design.order.job.units
    room = card_room(design.order.job.paper)
    for names, piece in kinds(frame_):
        for card in cards_of(names, piece, room, system):
            drawn = card_drawing(card, frame_, system, 3.2)
            outline = next(item for item in drawn.items if isinstance(item, Line) and item.layer == "border")
            left, right = (side(x for x, _ in outline.points) for side in (min, max))
            rings = {
                round(item.centre[0], 6)
                for item in drawn.items
                if isinstance(item, Arc) and item.layer == "hole"
            }
            words = " ".join(item.words for item in drawn.items if isinstance(item, Text))
            if "right edge flush" in words:
                off = piece.length_mm - right
            else:
                off = card.start - left
                assert card.start == 0 or told(card.start, system) in words
            assert rings == {round(hole.along_mm - off, 6) for hole in card.holes if not hole.slot_mm}


def _is_cross(item):
    return isinstance(item, Line) and item.layer == CROSS and len(item.points) == 2


@pytest.mark.parametrize("name", PRINTED)
def test_the_jig_has_every_hole_of_every_kind_of_rail(name):
    design, pack = made(name)
    plan, drawing = design.structural.frame, pack.leaf("jig.pdf").drawing
    strips = kinds(plan)
    holes = sum(len(piece.holes) for _, piece in strips)
    round_ones = [item for item in drawing.items if isinstance(item, Arc) and item.layer == "hole"]
    slots = [item for item in drawing.items if isinstance(item, Line) and item.layer == "hole"]
    assert len(round_ones) + len(slots) == holes
    for _, piece in strips:
        places = {round(hole.along_mm, 3) for hole in piece.holes if not hole.slot_mm}
        assert places <= {round(item.centre[0], 3) for item in round_ones}


@pytest.mark.parametrize("name", PRINTED)
def test_the_glass_shops_pane_is_drawn_at_its_scale(name):
    design, pack = made(name)
    book = pack.leaf("glass.pdf").book
    drawn = next(b for page in book.pages for b in page.blocks if isinstance(b, Figure))
    first = pages(name, "glass.pdf")[0]
    wide, high = (each / drawn.scale for each in (design.layup.pane_width_mm, design.layup.pane_height_mm))
    found = [(thing["width"] / MM, thing["height"] / MM) for thing in first.rects + first.curves]
    assert any(math.dist(each, (wide, high)) < NEAR_MM for each in found)
    assert bounds(drawn.drawing).width_mm > design.layup.pane_width_mm


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_glass_shop_is_told_size_square_heating_and_edge_and_no_customer(name):
    design, _ = made(name)
    words = " ".join(page.extract_text() for page in pages(name, "glass.pdf")).replace("\u00a0", " ")
    customer = design.order.job.customer
    assert not customer or customer not in words
    assert "D1 and D2" in words
    assert "edges" in words
    tempered = design.structural.pane.sheet.treatment == "tempered"
    assert ("nothing after: it bursts" in " ".join(words.split())) == tempered
    assert ("agree with the shop" in words) == (not tempered)
