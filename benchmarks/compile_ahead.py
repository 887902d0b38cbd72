"""Compiles ahead what great catalogues, whole lots and years of arrays run: the first is as quick as any.

`python benchmarks/compile_ahead.py`, about two minutes; `make` does it once when it sets up. What it makes
is kept in the user's cache by the text of its functions, see `panewright.compiling`. The compiler takes
1.1 GB of memory for the solver of many panels; a lot that is matched with its code at hand takes 0.4 GB.
"""

from __future__ import annotations

import sys
from multiprocessing import get_context
from pathlib import Path

import numpy as np

import lots
from panewright.array.loops import stored_loops
from panewright.array.member import Member
from panewright.array.stored import Demand, Supply, Told
from panewright.array.wiring import Input, Row
from panewright.array.year import Span, year_of
from panewright.battery.bank import Bank, store_of
from panewright.battery.load import Battery
from panewright.catalogue.carriage import travels
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import part_done, parts_of
from panewright.circuit.chords.law import law_of
from panewright.circuit.trials import Trials, currents_a, most_power, voltages_v
from panewright.shelf.load import load_shelf
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Place, Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings
from panewright.sky.shadow.things import Post

_RANGE = Path(__file__).with_name("catalogue.toml")


def main() -> None:
    """What all are made of, on two cores: they share nothing."""
    apart = get_context("spawn").Process(target=a_year)
    apart.start()
    great_range()
    two_panels()
    apart.join()
    sys.exit(apart.exitcode)


def two_panels() -> None:
    """Two panels of eight cells at once, in all the ways in which many are asked."""
    cells = lots.lot((2, 8), 1)
    trials = Trials(lots.network(lots.diodes(cells, 0), 2), cells)
    most_power(trials)
    currents_a(trials, np.zeros(1))
    voltages_v(trials, np.zeros(1))


def a_year() -> None:
    """Two panels of eight cells and a post, at the hours of an invented year."""
    cells = lots.diodes(lots.lot((2, 8), 1), 0)
    law = law_of(lots.network(cells, 1), lots.network(cells, 1))
    shapes = tuple((0.2 * k, 0.0, 0.2 * k + 0.15, 0.15) for k in range(len(cells)))
    places = [Pane((2.0 * k, 0.0, 0.0), Plane(30, 180), shapes) for k in range(2)]
    panels = tuple(Member(f"{k}", law, place, 9.0) for k, place in enumerate(places))
    wires, around = (Input((Row((0,)), Row((1,)))),), Surroundings((Post(0.5, -1.0, 2.0, 0.2),))
    year_of(clear_year(Place(43.0, 5.0), (15.0,) * 12), around, panels, wires, (Span(0.0, 9.0, (3.0,)),))
    store, none = store_of(Bank(Battery("agm", 12.0), 10.0)), np.zeros(1)
    supply, demand = (
        Supply(none, np.array([10.0, 15.0]), np.zeros((1, 2)), 9.0),
        Demand(none, 0.0, 0.5, 0.8, 0.6),
    )
    stored_loops()["through"](store, supply, demand, 0.8, Told(*np.zeros((len(Told._fields), 1))))


def great_range() -> None:
    """The first part of a great range, as one of its processes does it."""
    shelf = load_shelf()
    family = parse_family(_RANGE.read_bytes(), _RANGE.name, shelf)
    part_done(parts_of(family)[0], Asked(shelf, family.quantities, travels, many=True))


if __name__ == "__main__":
    main()
