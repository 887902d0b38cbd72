"""The table of letter widths, held against the font it was read from."""

from pathlib import Path

import font_source_sans_pro
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.lettering import ASCENT, CAPITAL, advances, text_width_mm


def face(name):
    return TTFont(Path(font_source_sans_pro.font_directory) / f"SourceSansPro-{name}.ttf")


@pytest.mark.parametrize(("name", "bold", "slack"), [("Regular", False, 0), ("Bold", True, 50)])
def test_every_letter_is_as_wide_as_in_the_font(name, bold, slack):
    font = face(name)
    glyphs, metrics = font.getBestCmap(), font["hmtx"]
    for letter, width in advances(bold).items():
        if letter in "\u2009\u202f":  # set as the no-break space
            continue
        real = metrics[glyphs[ord(letter)]][0]
        assert abs(width - real) <= (0 if ord(letter) < 127 else slack), letter


def test_capitals_are_as_tall_as_in_the_font():
    font = face("Regular")
    assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == CAPITAL
    assert font["glyf"]["l"].yMax / font["head"].unitsPerEm == pytest.approx(ASCENT, abs=0.005)


def test_figures_are_all_equally_wide():
    for bold in (False, True):
        assert len({text_width_mm(digit, 10, bold) for digit in "0123456789"}) == 1


@given(st.text(max_size=40), st.text(max_size=40), st.floats(0.5, 100))
def test_words_side_by_side_are_as_long_as_both(one, other, height):
    both = text_width_mm(one, height) + text_width_mm(other, height)
    assert text_width_mm(one + other, height) == pytest.approx(both)
