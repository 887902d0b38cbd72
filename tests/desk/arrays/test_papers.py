"""The papers of an array by their names."""

from __future__ import annotations

import io

import ezdxf
import pytest

from invented_plans import Invented, made
from panewright.desk.arrays.papers import documents_of, kind_of, makers_of
from panewright.pack.array_book.book import revision


@pytest.fixture(scope="module")
def plan():
    return made(Invented(2, 2, columns=2, stands=2))


@pytest.fixture(scope="module")
def papers(plan):
    return documents_of(plan)


def test_each_paper_begins_as_its_kind_does(papers):
    begins = {".pdf": b"%PDF", ".svg": b"<svg", ".dxf": b"  0\nSECTION", ".xlsx": b"PK", ".csv": b""}
    for name, content in papers.items():
        kind = name[name.rindex(".") :]
        assert content.lstrip(b"\xef\xbb\xbf").startswith(begins[kind]), name
        assert len(content) > 100
    assert {"array.pdf", "array.xlsx", "single-line.svg", "single-line.dxf", "stand-2.svg"} <= set(papers)


def test_papers_made_again_are_the_same_bytes(plan, papers):
    again = documents_of(plan)
    assert again == papers
    assert makers_of(plan)["array.pdf"]() == papers["array.pdf"]


def test_the_drawing_for_programs_has_every_serial_once(plan, papers):
    read = ezdxf.read(io.StringIO(papers["single-line.dxf"].decode()))
    words = [entity.dxf.text for entity in read.modelspace().query("TEXT")]
    assert [words.count(placed.serial) for placed in plan.panels] == [1, 1, 1, 1]


def test_a_drawing_alone_says_whose_it_is_and_of_which_state(plan, papers):
    for name in ("single-line", "stand-1"):
        read = ezdxf.read(io.StringIO(papers[f"{name}.dxf"].decode()))
        words = [entity.dxf.text for entity in read.modelspace().query("TEXT")]
        assert revision(plan) in words
        assert any(plan.site.named.name in line for line in words)
        assert ("NOT PROVEN" in words) == (not plan.proven)
        assert (b"NOT PROVEN" in papers[f"{name}.svg"]) == (not plan.proven)


def test_every_paper_has_words_for_what_it_is(papers):
    kinds = [kind_of(name) for name in papers]
    assert len(set(kinds)) == len(kinds)
    assert not any("." in kind for kind in kinds)
