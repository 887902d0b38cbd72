"""What a page asks the desk for: a drawing whose cells can be touched, and the documents by name."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from panewright import desk
from panewright.layup.drawn.figure import bench_view, cell_outline
from panewright.pack.pack import make_pack
from panewright.panel.what_if import CellState
from panewright.paper.leaf import render

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def made():
    path = EXAMPLES / "jetty.toml"
    return desk.design(path.read_bytes(), path.name)


def cells_of(picture):
    return {
        int(g.get("data-cell")): g
        for g in ElementTree.fromstring(picture).iter(f"{SVG}g")
        if g.get("data-cell")
    }


def corners(group):
    numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", group.find(f"{SVG}path").get("d"))]
    return {(round(x, 2), round(-y, 2)) for x, y in zip(numbers[::2], numbers[1::2], strict=True)}


@pytest.mark.parametrize("side", ["front", "bench"])
def test_every_cell_of_the_lay_up_is_one_group_with_its_number(made, side):
    found = cells_of(desk.drawing(made, side))
    assert list(found) == [cell.number for cell in made.design.layup.cells]
    seventh = made.design.layup.cells[6]
    assert found[7].get("class") == "cell"
    assert found[7].get("id") == "cell-7"
    assert found[7].get("data-row") == str(seventh.row + 1)


def test_from_the_front_each_cell_lies_where_the_lay_up_has_it(made):
    found = cells_of(desk.drawing(made, "front"))
    for cell in made.design.layup.cells:
        wanted = {(round(x, 2), round(y, 2)) for x, y in cell_outline(cell.shape, cell.centre)}
        assert corners(found[cell.number]) == wanted


def test_the_bench_sees_the_mirror_image(made):
    wide = made.design.layup.pane_width_mm
    front, bench = (cells_of(desk.drawing(made, side)) for side in ("front", "bench"))
    for number, group in front.items():
        mirrored = {(round(wide - x, 1), round(y, 1)) for x, y in corners(group)}
        assert mirrored == {(round(x, 1), round(y, 1)) for x, y in corners(bench[number])}


@pytest.mark.parametrize("side", ["front", "bench"])
def test_a_picture_brings_no_style_of_its_own(made, side):
    picture = desk.drawing(made, side)
    for forbidden in ("style=", "<style", "<script", " fill=", " stroke=", "href"):
        assert forbidden not in picture


def test_every_class_of_a_picture_is_in_the_style_sheet(made):
    rules = desk.drawing_style()
    for element in ElementTree.fromstring(desk.drawing(made, "bench")).iter():
        tag, look = element.tag.removeprefix(SVG), element.get("class", "")
        if tag in {"path", "circle", "text"}:
            assert f".drawn {tag}.{look.split()[0]}" in rules
            assert "filled" not in look or f".drawn {tag}.{look.replace(' ', '.')}" in rules


def test_cells_bear_the_classes_they_are_given_and_nothing_slips_out_of_them(made):
    found = cells_of(desk.drawing(made, "front", {7: "warms", 8: '"><script>'}))
    assert found[7].get("class") == "cell warms"
    assert found[8].get("class") == 'cell "><script>'
    assert found[9].get("class") == "cell"


def test_the_words_of_a_picture_are_those_of_the_paper(made):
    printed = bench_view(made.design.layup)
    wanted = {item.words for item in printed.items if type(item).__name__ == "Text"}
    texts = {text.text for text in ElementTree.fromstring(desk.drawing(made, "bench")).iter(f"{SVG}text")}
    assert texts == wanted


def test_the_desk_sees_a_touched_panel(made):
    seen = desk.what_if(made, {7: CellState(shade=0.5)})
    assert seen.lost_w > 50
    assert seen.cells[6].role == "warms"


def test_papers_are_the_leaves_of_the_pack_and_give_their_bytes(made):
    papers = desk.papers(made)
    pack = make_pack(made.design, made.quote)
    assert [paper.name for paper in papers] == [leaf.name for leaf in pack.leaves]
    label = next(paper for paper in papers if paper.name == "label.svg")
    assert (label.kind, label.media) == ("Label", "image/svg+xml")
    assert label.content() == render(pack.leaf("label.svg"))
