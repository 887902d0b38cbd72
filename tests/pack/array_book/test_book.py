"""The book of an array: the plan's figures on clean pages, cautions where they apply, same bytes again."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from invented_plans import Invented, made, pumping
from panewright.array.worth import shown
from panewright.check import Check
from panewright.drawing.drawing import Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.sheet import Caution, Figure, Numbers, Steps, Table, Words
from panewright.pack.array_book import cautions, pages
from panewright.pack.array_book.book import array_book, array_leaves, revision
from panewright.pack.array_book.tables import account, causes_table
from panewright.pack.leaf import DxfLeaf, SvgLeaf
from panewright.paper.pdf import book_pdf
from panewright.units import show

ASKED = {
    "boathouse": Invented(1, 2, columns=2, generator=False),
    "twenty in four strings": Invented(4, 5, 2, columns=5, spare=1, most_v=250.0),
    "no battery": Invented(2, 3, bank=False, loads=0, columns=3, on="open ground"),
    "NEC, US units": Invented(3, 6, family="NEC", units="us", paper="Letter", columns=6, currency="USD"),
}


@pytest.fixture(scope="module", params=ASKED.values(), ids=ASKED.keys())
def plan(request):
    return made(request.param)


@pytest.fixture(scope="module")
def book(plan):
    return array_book(plan)


@pytest.fixture(scope="module")
def content(book):
    return book_pdf(book)


@pytest.fixture(scope="module")
def printed(content):
    return [page.extract_text() for page in PdfReader(io.BytesIO(content)).pages]


def page(book, title):
    return next(each for each in book.pages if each.title == title)


def test_no_figure_has_words_on_words_or_lines_through_them(book):
    figures = [block for each in book.pages for block in each.blocks if isinstance(block, Figure)]
    assert len(figures) >= 4
    for figure in figures:
        assert overlaps(figure.drawing, book.units) == (), figure.drawing.name
        assert crossed(figure.drawing, book.units) == (), figure.drawing.name


def test_drawings_that_leave_the_book_are_as_clean(plan):
    leaves = [leaf for leaf in array_leaves(plan) if isinstance(leaf, SvgLeaf | DxfLeaf)]
    assert len(leaves) >= 4
    for leaf in leaves:
        assert overlaps(leaf.drawing, plan.site.named.units) == (), leaf.name
        assert crossed(leaf.drawing, plan.site.named.units) == (), leaf.name


def test_the_first_page_has_the_plans_figures(plan, printed):
    first = printed[0].replace("\u00a0", "\u2009")
    assert show(plan.year.kwh, "kWh") in first
    assert shown(plan.per_kwh, plan.site.named.currency) in first
    assert revision(plan) in first
    assert plan.site.named.name in first


def test_the_same_plan_prints_the_same_bytes(plan, content):
    assert book_pdf(array_book(plan)) == content
    assert b"CreationDate" not in content


def test_the_book_can_be_had_on_either_paper(plan):
    other = "Letter" if plan.site.named.paper == "A4" else "A4"
    book = array_book(plan, other)
    box = PdfReader(io.BytesIO(book_pdf(book))).pages[0].mediabox
    assert float(box.width) * 25.4 / 72 == pytest.approx(210.0 if other == "A4" else 215.9, abs=0.1)
    assert book.revision == revision(plan)


def test_the_revision_follows_text_and_panels(plan):
    typed = replace(plan, site=replace(plan.site, text=plan.site.text + "# more\n"))
    ends = replace(plan, site=replace(plan.site, text=plan.site.text.replace("\n", "\r\n")))
    first = replace(plan.panels[0], known_by="measured on 2027-01-01")
    measured = replace(plan, panels=(first, *plan.panels[1:]))
    assert len({revision(plan), revision(typed), revision(measured)}) == 3
    assert revision(ends) == revision(plan)  # how lines end is the editor's affair


def test_cautions_stand_where_they_apply(plan, book):
    def said(title):
        return [block.words for block in page(book, title).blocks if isinstance(block, Caution)]

    assert cautions.BEFORE in said(pages.WORK)
    assert cautions.LISTED in said(pages.WORK)
    assert (cautions.BANK in said(pages.WORK)) == (plan.site.bank is not None)
    roof = said(pages.stand_title(plan, 0))
    assert (cautions.ROOF in roof) == plan.site.rules.on_building
    if plan.balance:
        assert cautions.BANK in said(pages.BANK)


def test_the_batterys_fuse_goes_in_last_of_all_that_is_wired(plan, book):
    blocks = page(book, pages.WORK).blocks
    titles = [step.title for block in blocks if isinstance(block, Steps) for step in block.steps]
    cautioned = [type(block) for block in blocks].index(Caution)
    assert cautioned < [type(block) for block in blocks].index(Steps)
    if plan.site.bank:
        begins = ("Lay", "Mount", "String", "Join", "Wire")
        wired = [n for n, title in enumerate(titles) if title.startswith(begins)]
        fuse = next(n for n, title in enumerate(titles) if "the battery's fuse" in title and "Last" in title)
        assert max(wired) < fuse < len(titles) - 1
    else:
        assert not any("battery" in title for title in titles)
    assert titles[-1].startswith("Uncover the panels")


def test_each_string_is_measured_before_it_is_joined_and_the_book_says_what_to_expect(plan, book):
    steps = [s for block in page(book, pages.WORK).blocks if isinstance(block, Steps) for s in block.steps]
    expected = [step.expect for step in steps if step.expect]
    volts = [sum(placed.plate.voc_v for placed in string) for string in plan.strings()]
    assert len(expected) == len(volts)
    assert all(show(volt, "V") in words for words, volt in zip(expected, volts, strict=True))


def test_many_strings_are_measured_by_a_list_to_tick_between_the_steps():
    plan = made(Invented(12, 2, 2, columns=6))
    blocks = page(array_book(plan), pages.WORK).blocks
    kinds = [type(block) for block in blocks if isinstance(block, Steps | Table)]
    assert kinds == [Steps, Table, Steps]
    first, listed, last = (block for block in blocks if isinstance(block, Steps | Table))
    assert listed.ticks
    assert [row[0] for row in listed.rows] == list("ABCDEFGHIJKL")
    assert last.first == len(first.steps) + 1
    assert last.steps[-1].title.startswith("Uncover")


WEIRD = "\u202eboat \x00 \u7530 <b> & #let | `x` \n\t" + "W" * 80
BASE = Invented(3, 2, columns=3)
ODD = {
    "strange words": lambda: made(replace(BASE, name=WEIRD, serial=WEIRD + "{}")),
    "no wires told": lambda: replace(made(BASE), legs=(), metres={}),
    "no fuse fits": lambda: replace(
        made(BASE), fuses=tuple(replace(f, size_a=None) for f in made(BASE).fuses)
    ),
    "no voltage in the cold": lambda: replace(made(BASE), cold_v=None, thresholds=()),
    "nothing but panels": lambda: replace(
        made(replace(BASE, bank=False, loads=0)), checks=(), beside=None, likely=None, turns=None, said=()
    ),
    "one choice of sizes": lambda: replace(made(BASE), front=made(BASE).front[:1]),
    "deep cold without coefficients": lambda: made(replace(BASE, coldest_c=-55.0, known=False)),
}


@pytest.mark.parametrize("make", ODD.values(), ids=ODD.keys())
def test_odd_arrays_make_clean_books_too(make):
    book = array_book(make())
    for figure in (block for each in book.pages for block in each.blocks if isinstance(block, Figure)):
        assert overlaps(figure.drawing, book.units) == (), figure.drawing.name
        assert crossed(figure.drawing, book.units) == (), figure.drawing.name
    assert len(PdfReader(io.BytesIO(book_pdf(book))).pages) >= len(book.pages)


def test_a_pump_has_its_page_with_the_water_of_every_month():
    plan = pumping(Invented(1, 2, columns=2))
    book = array_book(plan)
    hours = plan.pumped.flow_m3_h.sum()  # of light, for it gives one cubic metre in each
    assert 4000 < hours < 5000
    text = "\n".join(each.extract_text() for each in PdfReader(io.BytesIO(book_pdf(book))).pages)
    assert f"{hours:.0f}\u00a0m³ of water a year" in text
    drawing = next(block for block in page(book, pages.PUMP).blocks if isinstance(block, Figure)).drawing
    said = [item.words for item in drawing.items if isinstance(item, Text)]
    july = plan.year.hours.by_month(plan.pumped.flow_m3_h)[6] / 31
    assert f"{july:.1f}" in said
    assert pages.BANK not in {each.title for each in book.pages}


def test_water_is_told_in_gallons_where_units_are_us():
    plan = pumping(Invented(1, 2, columns=2, family="NEC", units="us"))
    first = dict(
        next(block for block in array_book(plan).pages[0].blocks if isinstance(block, Numbers)).pairs
    )
    gallons = plan.pumped.flow_m3_h.sum() * 264.172052  # in a cubic metre, NIST SP 811
    assert float(first["Water a year"].split("\u2009")[0]) == pytest.approx(gallons, rel=2e-3)
    assert first["Water a year"].endswith("gal")


def test_letters_that_print_as_boxes_are_told_on_the_first_page():
    first = array_book(ODD["strange words"]()).pages[0]
    assert any("U+7530" in block.words for block in first.blocks if isinstance(block, Words))


def test_the_table_of_causes_adds_up_to_what_is_given(plan):
    table = causes_table(plan)
    year = [float(cell) for cell in table.rows[-1][1:]]
    assert year[0] - sum(year[1:-1]) == pytest.approx(year[-1], abs=0.06 * len(year) + 4)
    assert year[-1] == pytest.approx(plan.year.kwh, abs=0.6)


def test_rows_of_the_account_are_differences_of_the_years_own_figures(plan):
    rows = list(account(plan))
    taken = sum(size for *_, size in rows if size is not None)
    assert plan.year.light_w.sum() / 1000 + taken == pytest.approx(plan.year.kwh, rel=1e-9)


def test_strings_stand_in_their_table_as_in_the_plan(plan, book):
    table = next(block for block in page(book, pages.STRINGS).blocks if isinstance(block, Table))
    serials = [", ".join(placed.serial for placed in string) for string in plan.strings()]
    assert [row[2] for row in table.rows] == serials


def test_what_is_broken_is_stamped_on_every_page(plan):
    check = Check("invented limit", 2.0, 1.0, "V", "invented", "Change it.")
    broken = array_book(replace(plan, checks=(*plan.checks, check)))
    assert broken.stamp == "NOT PROVEN"
    assert array_book(replace(plan, checks=())).stamp == ""


def test_without_a_battery_the_book_asks_for_nothing_of_one():
    book = array_book(made(ASKED["no battery"]))
    assert pages.BANK not in {each.title for each in book.pages}
    tables = [block for block in page(book, pages.NEEDS).blocks if isinstance(block, Table)]
    things = [row[0] for table in tables for row in table.rows]
    assert not any("battery" in thing for thing in things)


def test_every_page_is_in_the_sites_units():
    content = book_pdf(array_book(made(ASKED["NEC, US units"])))
    whole = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
    assert "AWG" in whole
    assert "mm²" not in whole
    assert "°F" in whole
