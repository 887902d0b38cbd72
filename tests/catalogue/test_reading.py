"""A range's text becomes sizes, each the order that it is, or every mistake in it is told at once."""

from __future__ import annotations

import pytest

from panewright.catalogue.keys import MOST_SIZES
from panewright.catalogue.reading import parse_family
from panewright.errors import OrderError
from panewright.order.parse import parse_order


def mistakes(text, shelf):
    with pytest.raises(OrderError) as told:
        parse_family(text.encode("utf-8", "surrogatepass"), "r.toml", shelf)
    return {(problem.key, problem.line): problem for problem in told.value.problems}


def test_a_range_has_every_combination_and_glass_varies_fastest(small):
    members = [member for layup in small.layups() for member in layup]
    assert len(members) == small.size == 8
    assert [(each.cell, each.rows, each.glass) for each in members[:3]] == [
        ("156 mm poly", 3, "4 mm low-iron tempered"),
        ("156 mm poly", 3, "6 mm low-iron tempered"),
        ("156 mm poly", 6, "4 mm low-iron tempered"),
    ]


def test_every_size_is_an_order_that_a_person_could_have_written(small, shelf):
    for layup in small.layups():
        for member in layup:
            order = parse_order(small.text(member), "size", shelf)
            assert (order.cell.name, order.wishes.rows) == (member.cell, member.rows)
            assert order.wishes.in_series == member.columns * member.rows
            assert order.parts.sheet.name == member.glass


def test_every_mistake_is_told_at_once_where_it_stands(text, shelf):
    wrong = (
        text.replace('"125 mm mono"', '"125 mm mone", 7')
        .replace("columns = [2]", "columns = [2, 2, 0]")
        .replace('wind = "25 m/s"', 'wind = "25"')
        .replace("[load]", "[layuot]\nrows = 3\n[load]\ncells = 12")
    )
    found = mistakes(wrong, shelf)
    lines = wrong.splitlines()
    for key, words in (
        ("range.cells", "mone"),
        ("range.columns", "columns = [2, 2, 0]"),
        ("site.wind", 'wind = "25"'),
        ("layuot", "[layuot]"),
        ("load.cells", "cells = 12"),
    ):
        told = [(line, problem) for (name, line), problem in found.items() if name == key]
        assert told, key
        assert all(words in lines[line - 1] and each.reason and each.cure for line, each in told)


@pytest.mark.parametrize(
    ("was", "becomes", "key", "said"),
    [
        ("columns = [2]", "", "range.columns", "missing"),
        ("columns = [2]", "columns = 2", "range.columns", "list"),
        ("columns = [2]", "columns = []", "range.columns", "empty"),
        ("columns = [2]", "columns = [[2]]", "range.columns", "a list"),
        ("columns = [2]", "colums = [2]", "range.colums", "columns meant"),
        ("rows = [3, 6]", "rows = [3, 6.5]", "range.rows", "whole number"),
        ("rows = [3, 6]", "rows = [3, true]", "range.rows", "whole number"),
        ("quantities = [1, 10]", "quantities = [1, 2, 3, 4, 5, 6, 7]", "range.quantities", "up to 6"),
        ("quantities = [1, 10]", "quantities = [100000]", "range.quantities", "more than 1000"),
        ("[range]", "[rang]", "range", "[rang] meant"),
        ("[range]", '[parts]\nglass = "4 mm low-iron tempered"\n[range]', "parts.glass", "The range says it"),
        ("[range]", "[layout]\nstrings = 4\n[range]", "layout.strings", "cannot be shared"),
    ],
)
def test_a_mistake_has_its_place_reason_and_cure(text, shelf, was, becomes, key, said):
    found = mistakes(text.replace(was, becomes), shelf)
    told = [problem for (name, _), problem in found.items() if name == key]
    assert told
    assert any(said in problem.reason + problem.cure for problem in told)
    assert all(problem.cure and problem.file == "r.toml" for problem in told)


def test_a_huge_range_is_refused_before_anything_is_reckoned(text, shelf):
    lists = f"columns = {list(range(1, 16))}", f"rows = {list(range(1, 101))}"
    wide = text.replace("columns = [2]", lists[0]).replace("rows = [3, 6]", lists[1])
    told = [problem for (key, _), problem in mistakes(wide, shelf).items() if key == "range"]
    assert f"up to {MOST_SIZES}" in told[0].reason
    tall = text.replace("columns = [2]", "columns = [100]").replace("rows = [3, 6]", "rows = [200]")
    assert ("range.rows", text.splitlines().index("rows = [3, 6]") + 1) in mistakes(tall, shelf)
    long = text.replace("rows = [3, 6]", f"rows = {[3] * 100_000}")
    assert any("100000 entries" in problem.reason for problem in mistakes(long, shelf).values())


@pytest.mark.parametrize(
    "hostile",
    [
        "range = 3",
        "[range]\ncolumns = 1979-05-27\nrows = [nan]",
        "[range]\ncolumns = [9223372036854775807]\nrows = [-1]",
        f"[range]\ncolumns = [0x{'f' * 5000}]\nrows = [1]",
        '[range]\n"=cmd|x" = ["\\u202e"]\ncolumns = ["' + "x" * 3000 + '"]',
        "[range]\n" + "\n".join(f"k{n} = [1]" for n in range(300)),
        "[[range]]\ncolumns = [1]",
        "order = 3\nsite = [1]\n[range]\ncolumns = [2]\nrows = [2]",
        "[range]\ncolumns = [2]\nrows = [2]\n[site]\nwind = 1979-05-27T07:32:00Z\nsnow = { a = [inf] }",
    ],
)
def test_hostile_text_is_told_as_mistakes(shelf, hostile):
    found = mistakes(hostile, shelf)
    assert found
    assert len(found) < 60
    assert all(str(problem).isprintable() and len(str(problem)) < 2000 for problem in found.values())
