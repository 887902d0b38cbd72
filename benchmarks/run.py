"""Every benchmark, one table: `python benchmarks/run.py`.

Ours and the peer's times are of the same run, on one core, each the best of a few. Ends with 1 where
something asked for is too slow, or where a peer's program is missing and PEERS=none was not said.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from types import ModuleType

import cells_against_pvlib
import circuit_speed
import clock  # first: it sets the number of threads before numpy is loaded
import curve_reading
import cutting_speed
import ledger_speed
import lot_reading
import lot_speed
import matching_speed
import pane_against_calculix
import panels_against_ngspice
import whole_process
import year_speed
from row import NotRun, Row
from table import LINE, told

MODULES = (
    whole_process,
    ledger_speed,
    pane_against_calculix,
    panels_against_ngspice,
    circuit_speed,
    cells_against_pvlib,
    cutting_speed,
    curve_reading,
    lot_reading,
    lot_speed,
    matching_speed,
    year_speed,
)


def measured(modules: tuple[ModuleType, ...] = MODULES) -> Iterator[Row | NotRun]:
    """All lines; those of a module whose program is missing are one line that says so."""
    for module in modules:
        program = getattr(module, "NEEDS", None)
        if program and shutil.which(program) is None:
            yield NotRun(module.__name__, program)
        else:
            yield from module.rows()


def main() -> int:
    """Print the table; the exit status."""
    clock.one_core()
    print(LINE.format("what", "ours", "peer", "ratio", "asked", "", "peer is").rstrip())
    status = 0
    for row in measured():
        print(told(row), flush=True)
        if isinstance(row, NotRun):
            status |= os.environ.get("PEERS") != "none"
        else:
            status |= row.verdict == "TOO SLOW"
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
