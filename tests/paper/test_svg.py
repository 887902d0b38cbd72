"""An SVG is read back: places to 0.01 mm, sizes in mm, words as words."""

import re
from typing import get_args
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.drawing import Arc, Drawing, Layer, Path, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.pack.leaf import SvgLeaf
from panewright.paper.ink import INKS, PAPER
from panewright.paper.leaf import render
from panewright.paper.svg import frame, svg

NS = "{http://www.w3.org/2000/svg}"


def read(drawing, **how):
    return ElementTree.fromstring(svg(drawing, **how))


def corners(path):
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d"))]
    return [(x, -y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


def test_every_cell_is_where_the_drawing_has_it(lopsided):
    cells = read(lopsided).findall(f"{NS}g[@class='cell']/{NS}path")
    wanted = [item for item in lopsided.items if isinstance(item, Path) and item.layer == "cell"]
    assert len(cells) == len(wanted) == 3
    for found, item in zip(cells, wanted, strict=True):
        for (x, y), (wx, wy) in zip(corners(found), item.points, strict=True):
            assert abs(x - wx) < 0.01
            assert abs(y - wy) < 0.01


@given(st.floats(-9999, 9999), st.floats(-9999, 9999))
def test_any_point_reads_back_within_a_tenth_of_a_micrometre(x, y):
    drawing = Drawing("p", (Path(((x, y), (0, 0)), "cell"),))
    (bx, by), _ = corners(read(drawing).find(f"{NS}g/{NS}path"))
    assert abs(bx - x) <= 0.0001
    assert abs(by - y) <= 0.0001


@pytest.mark.parametrize("scale", [1.0, 2.5, 10.0])
def test_the_picture_is_as_large_as_the_drawing_over_the_scale(lopsided, scale):
    root = read(lopsided, scale=scale)
    view = [float(n) for n in root.get("viewBox").split()]
    assert float(root.get("width").removesuffix("mm")) * scale == pytest.approx(view[2], abs=0.001 * scale)
    assert float(root.get("height").removesuffix("mm")) * scale == pytest.approx(view[3], abs=0.001 * scale)
    assert view[2] == pytest.approx(frame(lopsided, scale).width_mm, abs=0.001)


def test_line_weights_are_widths_on_paper_at_any_scale(lopsided):
    for scale in (1.0, 10.0):
        group = read(lopsided, scale=scale).find(f"{NS}g[@id='cell']")
        assert float(group.get("stroke-width")) == pytest.approx(INKS["cell"].width_mm * scale)


def test_the_side_is_told(lopsided):
    assert read(lopsided).find(f"{NS}desc").text == "sunny side down"


def test_group_names_are_unique_and_carry_the_layer(lopsided):
    groups = read(lopsided).findall(f"{NS}g")
    names = [group.get("id") for group in groups]
    assert len(set(names)) == len(names)
    assert all(group.get("class") in get_args(Layer) for group in groups)
    assert "cell" in names


def test_items_stay_back_to_front():
    drawing = Drawing("d", (box(0, 0, 1, 1, "cell"), box(0, 0, 1, 1, "pane"), box(0, 0, 1, 1, "cell")))
    groups = [group.get("id") for group in read(drawing).findall(f"{NS}g")]
    assert groups == ["cell", "pane", "cell-2"]


@pytest.mark.parametrize("words", ["<b>&amp;</b>", "]]><script>", "\"'", "a\x00b\ud800", "=1+1", "漢字 😀"])
def test_typed_words_are_words_and_nothing_else(words):
    root = read(Drawing(words, (Text((0, 0), words, 3),)))
    assert [child.tag.removeprefix(NS) for child in root] == ["title", "g"]
    shown = root.find(f"{NS}g/{NS}text").text
    assert shown == words.replace("\x00", "").replace("\ud800", "")


def test_nothing_outside_is_asked_for(lopsided):
    words = svg(lopsided).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|href|url\(|@import|<style|<script", words)


def test_an_arc_ends_where_its_angles_say():
    d = read(Drawing("a", (Arc((10, 20), 5, "rail", 0, 90),))).find(f"{NS}g/{NS}path").get("d")
    assert d == "M15 -20A5 5 0 0 0 10 -25"
    d = read(Drawing("a", (Arc((10, 20), 5, "rail", 90, 0),))).find(f"{NS}g/{NS}path").get("d")
    assert d == "M10 -25A5 5 0 1 0 15 -20"


def test_the_same_drawing_gives_the_same_letters(lopsided, make_lopsided):
    assert svg(lopsided) == svg(make_lopsided())


@pytest.mark.parametrize("scale", [0, -1, float("nan"), float("inf")])
def test_a_scale_that_is_none_is_refused(lopsided, scale):
    with pytest.raises(ValueError, match="scale"):
        svg(lopsided, scale)


def luminance(colour):
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_words_on_every_layer_have_a_contrast_of_seven_to_one():
    for layer, ink in INKS.items():
        assert (luminance(PAPER) + 0.05) / (luminance(ink.letters) + 0.05) >= 7, layer


def test_numbers_stay_readable_on_a_filled_cell():
    fill = luminance(INKS["cell"].fill)
    assert (fill + 0.05) / (luminance(INKS["number"].letters) + 0.05) >= 7


def test_every_layer_has_its_look():
    assert set(INKS) == set(get_args(Layer))


def test_words_of_a_file_that_leaves_the_house_keep_their_length_in_another_face():
    drawing = Drawing("Label", (Text((4.0, -5.0), "Live whenever light falls on it.", 3.0, bold=True),))
    (fitted,) = re.findall(r"<text[^>]*>", svg(drawing, fitted=True))
    length = text_width_mm("Live whenever light falls on it.", 3.0, bold=True)
    assert f'textLength="{length:.4f}'[:18] in fitted
    assert 'lengthAdjust="spacingAndGlyphs"' in fitted
    assert "textLength" not in svg(drawing)
    leaf = render(SvgLeaf("label.svg", drawing)).decode()
    assert "textLength" in leaf
