"""A DXF is read back: places, units, layers, closed outlines, and the figure of each dimension."""

import io
import re

import ezdxf
import pytest

from panewright.drawing.dimension import line_ends
from panewright.drawing.drawing import Dimension, Drawing, Path, Text
from panewright.paper.dxf import dxf


def read(content):
    return ezdxf.read(io.StringIO(content.decode("utf-8")))


def figures(document):
    """What stands on each dimension, as drawn."""
    found = []
    for dimension in document.modelspace().query("DIMENSION"):
        words = [part.plain_text() for part in dimension.virtual_entities() if part.dxftype() == "MTEXT"]
        found += words
    return found


@pytest.mark.parametrize(("units", "per_mm", "code"), [("metric", 1.0, 4), ("us", 1 / 25.4, 1)])
def test_cells_are_closed_and_where_the_drawing_has_them(lopsided, units, per_mm, code):
    document = read(dxf(lopsided, units))
    assert document.header["$INSUNITS"] == code
    cells = document.modelspace().query('LWPOLYLINE[layer=="cell"]')
    wanted = [item for item in lopsided.items if isinstance(item, Path) and item.layer == "cell"]
    assert len(cells) == 3
    for cell, item in zip(cells, wanted, strict=True):
        assert cell.closed
        for (x, y), (wx, wy) in zip(cell.get_points("xy"), item.points, strict=True):
            assert abs(x / per_mm - wx) < 0.01
            assert abs(y / per_mm - wy) < 0.01


def test_dimensions_say_their_own_length_in_millimetres(lopsided):
    assert figures(read(dxf(lopsided))) == ["700", "900", "156.75 typ."]


def test_dimensions_say_their_own_length_in_inches(lopsided):
    assert figures(read(dxf(lopsided, "us"))) == ["27.5591", "35.4331", "6.1713 typ."]


@pytest.mark.parametrize("units", ["metric", "us"])
def test_no_dimension_is_typed_over_or_scaled(lopsided, units):
    document = read(dxf(lopsided, units))
    lengths = [item.length_mm for item in lopsided.items if isinstance(item, Dimension)]
    for dimension, length in zip(document.modelspace().query("DIMENSION"), lengths, strict=True):
        assert dimension.dxf.text in ("", "<>")
        style = dimension.override()
        assert style.get("dimlfac") == 1.0
        per_mm = 1.0 if units == "metric" else 1 / 25.4
        assert dimension.get_measurement() == pytest.approx(length * per_mm)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_file_is_clean(lopsided, units):
    audit = read(dxf(lopsided, units)).audit()
    assert audit.errors == []
    assert audit.fixes == []


def test_layers_are_ours_and_only_those_in_use(lopsided):
    names = {layer.dxf.name for layer in read(dxf(lopsided)).layers} - {"0", "Defpoints"}
    assert names == {"pane", "cell", "ribbon", "hole", "rail", "number", "text", "dimension"}


def test_capitals_are_as_tall_as_on_paper(lopsided):
    texts = read(dxf(lopsided)).modelspace().query("TEXT")
    assert [text.dxf.height for text in texts] == pytest.approx([20 * 0.66, 15 * 0.66])


def test_the_same_drawing_gives_the_same_bytes(lopsided, make_lopsided):
    assert dxf(lopsided) == dxf(make_lopsided())
    assert dxf(lopsided, "us") == dxf(lopsided, "us")


def test_no_date_of_today_stands_in_the_file(lopsided):
    assert not re.search(rb"\n\s*\$TDCREATE\s*\n\s*40\s*\n24[6-9]\d{4}", dxf(lopsided))


@pytest.mark.parametrize("words", ["%%d 5", "^J", "a\n0\nEOF\n", "{\\P x}", "=1+1", "漢字"])
def test_typed_words_stay_words(words):
    document = read(dxf(Drawing(words, (Text((1, 2), words, 5),))))
    shown = document.modelspace().query("TEXT").first.plain_text()
    assert shown == words.replace("\n", " ").replace("%%", "% %")
    assert len(document.modelspace()) == 1


def test_other_units_are_refused(lopsided):
    with pytest.raises(ValueError, match="metric"):
        dxf(lopsided, "feet")


@pytest.mark.parametrize("axis", ["along", "x", "y"])
@pytest.mark.parametrize("offset", [25, -25])
@pytest.mark.parametrize("end", [(100, 40), (-100, 40), (30, -80)])
def test_a_dimension_line_lies_where_paper_has_it(axis, offset, end):
    dimension = Dimension((5, 7), (5 + end[0], 7 + end[1]), offset, 5, axis)
    entity = read(dxf(Drawing("d", (dimension,)))).modelspace().query("DIMENSION").first
    start, _, along, _ = line_ends(dimension)
    x, y = entity.dxf.defpoint.x - start[0], entity.dxf.defpoint.y - start[1]
    assert abs(x * along[1] - y * along[0]) < 1e-6  # on the line through both ends
    assert entity.get_measurement() == pytest.approx(dimension.length_mm)
