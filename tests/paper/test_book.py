"""A book is set and read back: words as typed, heads on every page, figures at their scale."""

import io
import re

import pdfplumber
import pytest
from pypdf import PdfReader

from panewright.check import Check
from panewright.drawing.drawing import Drawing, box
from panewright.drawing.sheet import Book, Figure, Page, Table, Verdicts, Words
from panewright.paper.book import book_data
from panewright.paper.pdf import book_pdf

HOSTILE = '#read("/etc/passwd") *x* <b>&amp; =1+1 $y$ `q` @r // c \u202e ~ [1]'
MM = 72 / 25.4


def texts(pdf):
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def plain(words):
    return re.sub(r"\s+", " ", words.replace("\u200b", "").replace("\u00a0", " "))


def test_the_same_book_gives_the_same_bytes(make_book):
    assert book_pdf(make_book(stamp="NOT PROVEN")) == book_pdf(make_book(stamp="NOT PROVEN"))


def test_typed_words_are_set_as_typed(make_book):
    whole = plain(" ".join(texts(book_pdf(make_book(HOSTILE)))))
    assert "root:" not in whole
    shown = plain(HOSTILE.replace("\u202e", ""))
    assert whole.count(shown) >= 10


@pytest.mark.parametrize(
    "words", ["x" * 300, "漢字 😀 ∮", "", " ", "Ωδ½ ±°²", "-", "1. one", "= head", "/ term: x"]
)
def test_any_words_can_be_set(make_book, words):
    book = make_book(words or "-")
    assert len(texts(book_pdf(book))) >= 3


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_nothing_runs_off_the_page(make_book, paper):
    with pdfplumber.open(io.BytesIO(book_pdf(make_book("W" * 120 + " and words", paper)))) as pdf:
        for page in pdf.pages:
            for letter in page.chars:
                assert letter["x0"] >= 15 * MM
                assert letter["x1"] <= page.width - 10 * MM
                assert letter["bottom"] <= page.height - 10 * MM


@pytest.mark.parametrize(("paper", "size"), [("A4", (210, 297)), ("Letter", (215.9, 279.4))])
def test_pages_are_of_the_paper_asked_for(make_book, paper, size):
    for page in PdfReader(io.BytesIO(book_pdf(make_book(paper=paper)))).pages:
        assert (page.mediabox.width / MM, page.mediabox.height / MM) == pytest.approx(size, abs=0.01)


def test_every_page_says_order_revision_page_and_side(make_book):
    pages = [plain(words) for words in texts(book_pdf(make_book("0042 Shed")))]
    for number, words in enumerate(pages, start=1):
        assert "0042 Shed" in words
        assert "revision k3f9a2qx" in words
        assert f"page {number} of {len(pages)}" in words
    assert all("sunny side up" in words for words in pages[1:-1])
    assert "seen from the bench, sunny side down" in pages[-1]


def test_a_stamp_stands_on_every_page(make_book):
    stamped = [plain(words) for words in texts(book_pdf(make_book(stamp="NOT PROVEN")))]
    assert all("NOT PROVEN" in words for words in stamped)
    assert not any("NOT PROVEN" in words for words in texts(book_pdf(make_book())))


def test_verdicts_say_word_share_and_cure(make_book):
    words = plain(" ".join(texts(book_pdf(make_book("take four millimetres")))))
    for said in (
        "TOO MUCH",
        "NOT COVERED",
        "holds",
        "123 %",
        "56 %",
        "8.10 mm",
        "of 6.60 mm",
        "no limit known",
    ):
        assert said in words


def test_customary_units_are_used_where_asked(make_book):
    words = plain(" ".join(texts(book_pdf(make_book(units="us")))))
    assert "25.1 psf" in words
    assert "5/16 in (8.10 mm)" in words


def test_a_share_just_over_the_limit_never_reads_as_one_hundred():
    check = Check("sag", 1.00001, 1.0, "mm", "L/300")
    data = book_data(Book("t", "o", "r", "A4", (Page("p", (Verdicts((check,)),)),)))
    shown = data["pages"][0]["blocks"][0]["checks"][0]
    assert (shown["word"], shown["percent"]) == ("TOO MUCH", "101\u00a0%")


@pytest.mark.parametrize("scale", [5.0, 7.5, 10.0])
def test_a_figure_is_set_at_its_scale(lopsided, scale):
    page = Page("p", (Figure(lopsided, scale),), "sunny side down")
    with pdfplumber.open(io.BytesIO(book_pdf(Book("t", "o", "r", "A4", (page,))))) as pdf:
        panes = [r for r in pdf.pages[0].rects + pdf.pages[0].curves if r["width"] > 40 * MM * 5 / scale]
        sizes = {(round(p["width"] / MM * scale, 1), round(p["height"] / MM * scale, 1)) for p in panes}
    assert (700.0, 900.0) in sizes


def test_a_figure_larger_than_the_page_is_refused():
    huge = Drawing("long rail", (box(0, 0, 3000, 50, "rail"),))
    with pytest.raises(ValueError, match=r"long rail at 1 : 10 .* draw it at 1 : 20"):
        book_pdf(Book("t", "o", "r", "A4", (Page("p", (Figure(huge, 10),)),)))


def test_a_table_longer_than_its_head_is_refused():
    table = Table(("one",), (("1", "2"),), (1,), ("left",), "parts")
    with pytest.raises(ValueError, match="parts"):
        book_pdf(Book("t", "o", "r", "A4", (Page("p", (table,)),)))


def test_a_long_table_repeats_its_head_on_every_page():
    rows = tuple((f"piece {n}", str(n)) for n in range(120))
    table = Table(("what to buy", "how many"), rows, (3, 1), ("left", "right"))
    pages = texts(book_pdf(Book("t", "o", "r", "A4", (Page("p", (table,)),))))
    assert len(pages) == 3
    assert all("what to buy" in words for words in pages)


def test_a_book_of_no_pages_is_refused():
    with pytest.raises(ValueError, match="one page"):
        book_pdf(Book("t", "o", "r", "A4", ()))


def test_printers_are_asked_not_to_scale(make_book):
    root = PdfReader(io.BytesIO(book_pdf(make_book()))).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_only_the_house_face_is_used_for_plain_words():
    pdf = book_pdf(Book("t", "o", "r", "A4", (Page("p", (Words("Ω ± ° ² ½ − × ≤"),)),)))
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        faces = {letter["fontname"].split("+")[-1] for page in opened.pages for letter in page.chars}
    assert all(face.startswith("SourceSansPro") for face in faces)


def test_no_date_stands_in_the_file(make_book):
    info = PdfReader(io.BytesIO(book_pdf(make_book()))).metadata
    assert info.creation_date is None
    assert info.modification_date is None


def test_tick_boxes_are_five_millimetres(make_book):
    with pdfplumber.open(io.BytesIO(book_pdf(make_book()))) as pdf:
        boxes = [r for page in pdf.pages for r in page.rects if abs(r["width"] - r["height"]) < 0.01]
    assert sum(abs(r["width"] / MM - 5.0) < 0.01 for r in boxes) == 2  # one for each step


def test_a_cover_shows_title_order_and_a_drawing_that_fits(make_book):
    first, *_ = texts(book_pdf(make_book("0042 Shed")))
    assert plain(first).count("0042 Shed") >= 3  # head twice, and large
    assert "scale 1 : " in first


def test_a_long_order_name_ends_in_dots_in_the_head_and_leaves_the_page_number_whole(make_book):
    for words in texts(book_pdf(make_book("a long name " * 12))):
        assert "…" in words
        assert re.search(r"page \d of \d", words)


def test_rules_that_run_over_pages_have_their_head_on_each():
    checks = tuple(Check(f"rule number {n}", 1.0, 2.0, "mm", "physics") for n in range(60))
    pages = texts(book_pdf(Book("Build book", "1", "A", "A4", (Page("Rules", (Verdicts(checks),)),))))
    told = [page for page in pages if "rule number" in page]
    assert len(told) >= 3
    assert all(page.count("rule and its source") == 1 for page in told)
    assert sum(page.count("rule number") for page in told) == 60
