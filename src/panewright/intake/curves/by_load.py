"""The current of a table that bears none: by the voltage over a shunt, over a load, or into a capacitor."""

from __future__ import annotations

import numpy as np

from panewright.intake.curves.charging import current_by_charge
from panewright.intake.curves.facts import last
from panewright.intake.curves.figured import FiguredTable, idle_rows, rows_of_each
from panewright.intake.curves.mapping import Taken, of_group
from panewright.intake.curves.sweeps import Column


def current_by_load(table: FiguredTable, nth: int) -> tuple[Column, Taken]:
    """The current by what it does: voltage over the load, or over a shunt."""
    shunt, load = (of_group(table.columns, name, nth) for name in ("shunt_v", "load_ohm"))
    if shunt is not None:
        said = last(table.block.facts, "shunt_ohm")
        ohm = said.value if said else table.mapping.given["shunt_ohm"]
        return table.read[shunt].values / ohm, shunt
    volts = of_group(table.columns, "voltage_v", nth)
    assert volts is not None  # refused before
    if load is None:
        return _by_charge(table, volts, nth)
    loads = table.read[load].values
    nothing = np.full(len(loads), np.nan)
    return np.divide(table.read[volts].values, loads, where=loads > 0, out=nothing), load


def _by_charge(table: FiguredTable, volts: Taken, nth: int) -> tuple[Column, Taken]:
    """The current into a capacitor, of each sweep by itself."""
    time = of_group(table.columns, "time", nth)
    assert time is not None  # refused before
    current = np.full(len(table.block), np.nan)
    over, when, idle = table.read[volts].values, table.read[time].values, idle_rows(table)
    size_f = farad(table)
    for rows in rows_of_each(table).values():
        own = rows[~idle[rows]]
        current[own] = current_by_charge(over[own], when[own], size_f)
    return current, time


def charged(table: FiguredTable) -> bool:
    """Whether its currents are told by a capacitor's voltage."""
    return not {each.quantity for each in table.columns if each.settled} & {
        "current_a",
        "load_ohm",
        "shunt_v",
    }


def farad(table: FiguredTable) -> float:
    """What a person gave goes before what the file says."""
    said = last(table.block.facts, "capacity_f")
    given = table.mapping.given.get("capacity_f")
    if given is not None:
        return given
    assert said is not None  # refused before
    return said.value
