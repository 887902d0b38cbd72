"""The book of an array that was really planned: every panel by its serial, every figure the plan's."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from panewright.drawing.drawing import Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.sheet import Figure
from panewright.pack.array_book import pages
from panewright.pack.array_book.book import array_book
from panewright.pack.array_book.drawn.energy import CAUSE_WORDS, month_bars
from panewright.pack.array_book.listings import energy_listing, strings_listing
from panewright.pack.array_book.saying import kwh
from panewright.paper.pdf import book_pdf
from panewright.units import show
from planned import plan


@pytest.fixture(scope="module")
def found():
    return plan()


@pytest.fixture(scope="module")
def book(found):
    return array_book(found)


def test_its_pages_are_clean_and_tell_battery_range_and_turns(book):
    titles = [page.title for page in book.pages]
    assert {pages.BANK, pages.SURE, pages.COST, pages.ASSUMED} <= set(titles)
    for page in book.pages:
        for block in page.blocks:
            if isinstance(block, Figure):
                assert overlaps(block.drawing) == (), page.title
                assert crossed(block.drawing) == (), page.title


def test_figures_in_print_are_the_plans(found, book):
    words = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(book_pdf(book))).pages)
    words = words.replace("\u00a0", "\u2009")
    likely = found.likely
    for figure in (found.year.kwh, likely.low_kwh, likely.high_kwh, found.turns.kwh):
        assert show(figure, "kWh") in words
    assert f"{100 * found.balance.served_share:.1f}\u2009%" in words
    for leg in found.legs:
        assert show(leg.chosen.taken.drop_v, "V", digits=2) in words
    for placed in found.panels:
        assert placed.serial in words


def test_causes_beside_the_months_are_those_of_the_table(found):
    """Cold cells give more than their rating: what heat takes in summer is less what it gives in winter."""
    named = [item.words for item in month_bars(found).items if isinstance(item, Text)]
    lost = found.year.lost_kwh()
    assert lost["heat"].min() < 0 < lost["heat"].sum()
    for cause, months in lost.items():
        assert named[named.index(CAUSE_WORDS[cause]) + 1] == kwh(float(months.sum()))


def test_lists_add_up_to_the_year_and_name_each_wired_panel_once(found):
    listing = energy_listing(found)
    given = [column.name for column in listing.columns].index("given")
    assert sum(row[given] for row in listing.rows) == pytest.approx(found.year.kwh, abs=1e-4)
    named = ", ".join(row[3] for row in strings_listing(found).rows)
    assert sorted(named.split(", ")) == sorted(p.serial for s in found.strings() for p in s)
