"""Every example's book and files, as the maker sees them: clean figures, no page for one sentence."""

import io
import re
from functools import cache

import pytest
from pypdf import PdfReader

from examples import NAMES, packed
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.sheet import Figure
from panewright.pack.leaf import BookLeaf, DxfLeaf, SvgLeaf, TemplateLeaf
from panewright.paper.pdf import book_pdf

FEWEST_WORDS = 40  #: on a page without a figure; the head has a dozen


@cache
def pages(name):
    return tuple(page.extract_text() for page in PdfReader(io.BytesIO(book_pdf(book(name)))).pages)


def book(name):
    leaf = packed(name).leaf("book.pdf")
    assert isinstance(leaf, BookLeaf)
    return leaf.book


@pytest.mark.parametrize("name", NAMES)
def test_no_figure_of_an_example_has_words_on_words_or_lines_through_words(name):
    system = book(name).units
    drawings = [b.drawing for page in book(name).pages for b in page.blocks if isinstance(b, Figure)]
    leaves = packed(name).leaves
    drawings += [leaf.drawing for leaf in leaves if isinstance(leaf, TemplateLeaf | DxfLeaf | SvgLeaf)]
    assert len(drawings) > 10
    for drawing in drawings:
        assert overlaps(drawing, system) == (), drawing.name
        assert crossed(drawing, system) == (), drawing.name


@pytest.mark.parametrize("name", NAMES)
def test_every_page_is_worth_its_paper(name):
    for number, words in enumerate(pages(name), start=1):
        drawn = "scale" in words or "full size" in words
        assert drawn or len(words.split()) >= FEWEST_WORDS, f"page {number}: {words}"


@pytest.mark.parametrize("name", NAMES)
def test_the_verdict_keeps_to_one_page_and_says_where_to_read_on(name):
    first, *others = pages(name)
    assert "A panel in light is live" in first
    at = {title: next(n for n, words in enumerate(others, 2) if title in words) for title in LATER}
    for title, page in at.items():
        assert re.search(rf"{LATER[title]}[^\n]*: page {page}\b", first), title


LATER = {"What was assumed": "assumed", "Every check": "checks with their sources"}


def test_a_book_in_inches_tells_heat_mass_and_stress_in_its_own_units():
    for words in pages("fence"):
        for line in words.splitlines():
            assert not re.search(r"\d[\u00a0 ](kg|kPa|MPa)\b", line) or "23 kg" in line, line
            # a handbook's voltages stay at the heat it names
            assert not re.search(r"\d[\u00a0 ]°C", line) or re.search(
                r"AM1|per 12|voltages|usual cell|data sheets", line
            ), line
