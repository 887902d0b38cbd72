"""What a column of a curve's file, or a line above it, can hold, and by which names.

The likely sizes tell one unit from another and judge no panel. They are of the greatest figure of a column,
from a cut cell to a panel built by hand (common practice, no source). Between them lies a gap, so that no
figure is likely in both volts and millivolts, or in both amperes and milliamperes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from panewright.intake.quantity import Quantity, telling

#: One for each column group, where columns stand side by side
OF_A_POINT = ("voltage_v", "current_a", "power_w", "load_ohm", "shunt_v")
#: may hold for all points alike, in SI
GIVEN = ("irradiance_w_m2", "cell_c", "back_c", "air_c", "shunt_ohm", "capacity_f", "cells")

QUANTITIES: Mapping[str, Quantity] = MappingProxyType(
    {
        each.name: each
        for each in (
            Quantity("voltage_v", "voltage", "voltage", 0.3, 200.0),
            Quantity("current_a", "current", "current", 0.03, 29.9),
            Quantity("power_w", "power", "power", 0.01, 2000.0),
            Quantity("load_ohm", "resistance of the load", "resistance", 0.005, 1e5),
            Quantity("shunt_v", "voltage over the shunt", "voltage", 1e-3, 2.0),
            Quantity("shunt_ohm", "resistance of the shunt", "resistance", 1e-5, 10.0),
            Quantity("capacity_f", "capacitance of the load", "capacitance", 1e-5, 20.0),
            Quantity("irradiance_w_m2", "irradiance", "light", 15.0, 1600.0),
            Quantity("cell_c", "heat of the cell", "heat", 5.0, 80.0),
            Quantity("back_c", "heat at the back", "heat", 5.0, 80.0),
            Quantity("air_c", "heat of the air", "heat", -30.0, 45.0),
            Quantity("time", "time", "time"),
            Quantity("date", "date"),
            Quantity("sweep", "number of the sweep"),
            Quantity("stage", "what the load does"),
            Quantity("serial", "serial"),
            Quantity("remark", "remark"),
            Quantity("isc_a", "short-circuit current", "current", 0.03, 29.9),
            Quantity("voc_v", "open-circuit voltage", "voltage", 0.2, 200.0),
            Quantity("cells", "cells in series", "", 1, 200),
        )
    }
)
#: what only a line of its own says, no column
OF_A_LINE = frozenset({"isc_a", "voc_v", "cells", "shunt_ohm", "capacity_f"})


@dataclass(frozen=True, slots=True)
class Book:
    """The names of all quantities, ready to be looked up."""

    whole: Mapping[str, str]  #: letters of a name without its gaps -> quantity
    parts: tuple[tuple[int, frozenset[str], str], ...]  #: length, words and quantity of each name
    bare: Mapping[str, str]  #: a word that is a name by itself wherever it stands
    other: Mapping[str, str]  #: a word of another thing -> which
    before: frozenset[str]
    after: frozenset[str]
    idle: frozenset[str]
    of_cells: tuple[str, ...]  #: how a word begins that says that a heat is the cells' own
    cells: frozenset[str]  #: such words, whole
    up: frozenset[str]
    down: frozenset[str]


@cache
def book() -> Book:
    """The names as both tables of names keep them."""
    lots = tomllib.loads(files("panewright.intake").joinpath("names.toml").read_text("utf-8"))
    own = tomllib.loads(files("panewright.intake.curves").joinpath("names.toml").read_text("utf-8"))
    taken = {name: lots[name] for name in ("irradiance_w_m2", "cell_c", "isc_a", "voc_v")}
    taken |= {name: own[name] for name in QUANTITIES if name in own}
    said = [(each.split(), name) for name, table in taken.items() for some in table.values() for each in some]
    parts = ((sum(map(len, words)), frozenset(telling(words)), name) for words, name in said)
    bare = dict.fromkeys(lots["bare"]["current"], "current_a")
    bare |= dict.fromkeys(lots["bare"]["voltage"], "voltage_v")
    other = {word: why for why, words in own["other"].items() for word in words}
    when = own["when"]
    return Book(
        {"".join(telling(words)): name for words, name in reversed(said)},
        tuple(sorted(part for part in parts if part[0] > 2)),
        bare,
        other,
        frozenset(when["before"]),
        frozenset(when["after"]),
        frozenset(own["idle"]["words"]),
        tuple(own["of_cells"]["stems"]),
        frozenset(own["of_cells"]["words"]),
        frozenset(own["way"]["up"]),
        frozenset(own["way"]["down"]),
    )
