"""How long a page waits for one touched cell: processor time of `what_if`, written and compiled.

Every panel is asked with no cell touched, one, twelve and all, each shaded and cracked by chance: the worst a
hand can do. A page's own taps are few kinds of shade, and quicker. Prints milliseconds, median of nine.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from random import Random
from statistics import median
from time import process_time

from panewright.circuit.line import LineOf, as_written
from panewright.circuit.line_compiled import as_compiled, load
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.panel.what_if import CellState, what_if
from panewright.shelf.load import load_shelf

EXAMPLES = Path(__file__).parents[1] / "examples"
WAYS: dict[str, LineOf] = {"written": as_written, "compiled": as_compiled}
HALVES = (
    ('name = "125 mm mono"', 'name = "125 mm mono"\ncut = "half"'),
    ("[layout]", "[layout]\nstrings = 2"),
)
PANELS = {"kiosk": (), "workshop": (), "jetty": (), "jetty, 2 strings of half cells": HALVES}


def designed(name: str, changes: tuple[tuple[str, str], ...]) -> Design:
    """An example, with some of its text changed."""
    text = (EXAMPLES / f"{name.split(',')[0]}.toml").read_text("utf-8")
    for old, new in changes:
        text = text.replace(old, new)
    shelf = load_shelf()
    return design_panel(parse_order(text, name, shelf), shelf)


def touched(cells: int, count: int, chance: Random) -> dict[int, CellState]:
    """So many cells, each in a state of its own."""
    picked = chance.sample(range(1, cells + 1), min(count, cells))
    return {number: CellState(chance.random(), chance.choice([0.0, 0.2])) for number in picked}


def taken_ms(work: Callable[[], object]) -> float:
    """Processor time of one call. [ms]"""
    times = []
    for _ in range(9):
        start = process_time()
        work()
        times.append(process_time() - start)
    return 1000 * median(times)


def main() -> None:
    """A row for each panel and number of touched cells."""
    load()
    for name, changes in PANELS.items():
        design = designed(name, changes)
        cells = len(design.layup.cells)
        for count in (0, 1, 12, cells):
            states = touched(cells, count, Random(1))
            took = {way: taken_ms(partial(what_if, design, states, of)) for way, of in WAYS.items()}
            said = ", ".join(f"{way} {ms:.1f} ms" for way, ms in took.items())
            print(f"{name}, {cells} cells, {count} touched: {said}")


if __name__ == "__main__":
    main()
