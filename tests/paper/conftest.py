"""Drawings and books that the rooms' own tests set."""

import math

import pytest

from panewright.check import Check
from panewright.drawing.chart import Chart, Mark, Series, draw_chart
from panewright.drawing.drawing import Arc, Dimension, Drawing, Path, Text, box
from panewright.drawing.sheet import (
    Book,
    Caution,
    Fields,
    Figure,
    Heading,
    Numbers,
    Page,
    Step,
    Steps,
    Table,
    Verdicts,
    Words,
)


def lopsided_drawing(side="sunny side down", words="cell 1"):
    """A pane with three cells, none of which would look the same turned over or round."""
    cells = [(20.0, 30.0), (179.75, 30.0), (20.0, 189.75)]
    return Drawing(
        "lopsided lay-up",
        (
            box(0, 0, 700, 900, "pane", True),
            *(box(x, y, x + 156.75, y + 156.75, "cell", True) for x, y in cells),
            Path(((98.375, 25), (98.375, 350)), "ribbon"),
            Arc((650, 850), 4, "hole"),
            Arc((350, 450), 60, "rail", 20, 130),
            Text((98.375, 100), words, 20, "number", "centre", bold=True),
            Text((690, 450), "long side", 15, "text", "centre", 90),
            Dimension((0, 0), (700, 0), -30, 15),
            Dimension((0, 0), (0, 900), 30, 15),
            Dimension((20, 30), (176.75, 30), -40, 15, "x", "typ."),
        ),
        side,
    )


def sample_chart():
    xs = tuple(n / 4 for n in range(92))
    ys = tuple(max(-1.0, 9.8 * (1 - 1e-8 * (math.exp(x / 22 * math.log(1e8)) - 1))) for x in xs)
    lines = (Series(xs, ys, "STC, 25 °C"), Series(xs, tuple(0.9 * y for y in ys), "14 May", "measured"))
    mark = Mark(18.2, 9.1, "166 W at 18.2 V")
    return draw_chart(Chart("Current against voltage", "voltage, V", "current, A", lines, (mark,)), 160, 90)


def every_block(words="plain words"):
    """One block of each kind, with the same words in every place that bears words."""
    checks = (
        Check("glass deflection in wind gust", 8.1, 6.6, "mm", "EN 16612", words),
        Check(words, 1200.0, None, "Pa", words, words),
        Check("rail bending", 61.0, 110.0, "MPa", words),
    )
    return (
        Heading(words),
        Words(words, "lead"),
        Words(words),
        Words(words, "small"),
        Numbers(((words, "167\u2009W"), ("pane", "700 × 900\u2009mm"))),
        Verdicts(checks),
        Table((words, "count"), ((words, "3"), (words,)), (3, 1), ("left", "right"), words),
        Steps((Step(words, words, words, words, 12, words), Step(words, words))),
        Fields(((words, "V"), (words, ""))),
        Caution(words),
        Figure(lopsided_drawing(), 10, words),
        Figure(sample_chart(), 1),
    )


def sample_book(words="plain words", paper="A4", units="metric", stamp=""):
    pages = (
        Page(words, every_block(words), "sunny side up"),
        Page("Second page", (Words("short"),), "seen from the bench, sunny side down"),
    )
    return Book(words, words, "k3f9a2qx", paper, pages, units, stamp, lopsided_drawing())


@pytest.fixture
def lopsided():
    return lopsided_drawing()


@pytest.fixture
def make_lopsided():
    return lopsided_drawing


@pytest.fixture
def make_book():
    return sample_book
