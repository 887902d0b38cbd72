"""The row of letters is that of the font."""

from pathlib import Path

import font_source_sans_pro
import pytest
from fontTools.ttLib import TTFont

from panewright.drawing.letters import runs, unprinted


@pytest.mark.parametrize("face", ["Regular", "Semibold", "Bold"])
def test_the_row_is_what_each_face_has(face):
    font = TTFont(str(Path(font_source_sans_pro.font_directory) / f"SourceSansPro-{face}.ttf"))
    assert {letter for first, last in runs() for letter in range(first, last + 1)} == set(font.getBestCmap())


@pytest.mark.parametrize("words", ["Łódź, Ağrı", "Ελλάδα", "Жуковка", "½ Ω\u2009m² × 3", "'=+-@"])
def test_what_prints_is_not_told(words):
    assert unprinted(words) == ""


@pytest.mark.parametrize("words", ["田中", "한국", "שלום", "ไทย", "☀", "🔆"])
def test_what_prints_as_boxes_is_told(words):
    assert unprinted(f"a {words} b") == "".join(dict.fromkeys(words))
