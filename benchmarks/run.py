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
import cutting_speed
import ledger_speed
import lot_reading
import lot_speed
import matching_speed
import pane_against_calculix
import panels_against_ngspice
import whole_process
from row import NotRun, Row

MODULES = (
    whole_process,
    ledger_speed,
    pane_against_calculix,
    panels_against_ngspice,
    circuit_speed,
    cells_against_pvlib,
    cutting_speed,
    lot_reading,
    lot_speed,
    matching_speed,
)
_LINE = "{:76} {:>10} {:>10} {:>9}  {:16} {:9} {}"


def measured(modules: tuple[ModuleType, ...] = MODULES) -> Iterator[Row | NotRun]:
    """All lines; those of a module whose program is missing are one line that says so."""
    for module in modules:
        program = getattr(module, "NEEDS", None)
        if program and shutil.which(program) is None:
            yield NotRun(module.__name__, program)
        else:
            yield from module.rows()


def told(row: Row | NotRun) -> str:
    """One line of the table."""
    if isinstance(row, NotRun):
        return _LINE.format(row.what, "NOT RUN", "", "", "", "", f"{row.program} is not installed")
    ratio = "" if row.ratio is None else f"{row.ratio:.3g} x"
    peer = "" if row.peer_s is None else time_words(row.peer_s)
    return _LINE.format(
        row.what, time_words(row.ours_s), peer, ratio, _asked(row), row.verdict, row.peer
    ).rstrip()


def _asked(row: Row) -> str:
    limit = "" if row.most_s is None else f"{row.most_s:g} s"
    times = "" if row.least_ratio is None else f"{row.least_ratio:g} x"
    return " ".join(part for part in (limit, times) if part)


def time_words(seconds: float) -> str:
    """A time with three figures.

    >>> time_words(1.5), time_words(0.0123), time_words(3.2e-5)
    ('1.50 s', '12.3 ms', '32.0 us')
    """
    for factor, unit in ((1.0, "s"), (1e3, "ms")):
        if seconds * factor >= 1:
            return f"{seconds * factor:#.3g} {unit}"
    return f"{seconds * 1e6:#.3g} us"


def main() -> int:
    """Print the table; the exit status."""
    clock.one_core()
    print(_LINE.format("what", "ours", "peer", "ratio", "asked", "", "peer is").rstrip())
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
