"""Compiles ahead what great catalogues and whole lots run, so that the first one is as quick as the next.

`python benchmarks/compile_ahead.py`, about two minutes; `make` does it once when it sets up. What is compiled
is kept in the user's cache by the text of its functions, see `panewright.compiling`. The compiler takes
1.1 GB of memory for the solver of many panels; a lot that is matched with its code at hand takes 0.4 GB.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

import lots
from panewright.catalogue.carriage import travels
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import part_done, parts_of
from panewright.circuit.trials import Trials, currents_a, most_power, voltages_v
from panewright.shelf.load import load_shelf

_RANGE = Path(__file__).with_name("catalogue.toml")


def main() -> None:
    """What both are made of."""
    great_range()
    two_panels()


def two_panels() -> None:
    """Two panels of eight cells at once, in all the ways in which many are asked."""
    cells = lots.lot((2, 8), 1)
    trials = Trials(lots.network(lots.diodes(cells, 0), 2), cells)
    most_power(trials)
    currents_a(trials, np.zeros(1))
    voltages_v(trials, np.zeros(1))


def great_range() -> None:
    """The first part of a great range, as one of its processes does it."""
    shelf = load_shelf()
    family = parse_family(_RANGE.read_bytes(), _RANGE.name, shelf)
    part_done(parts_of(family)[0], Asked(shelf, family.quantities, travels, many=True))


if __name__ == "__main__":
    main()
