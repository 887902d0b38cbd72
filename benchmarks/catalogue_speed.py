"""A thousand sizes as rows of a catalogue: seconds on two cores, and processor time for each.

`python benchmarks/catalogue_speed.py`; ends with 1 where it takes longer than was asked. Not among the lines
of `run.py`, which keeps to one core.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from row import Row

from panewright.catalogue.crew import crew
from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import rows_of
from panewright.shelf.load import load_shelf

RANGE = Path(__file__).with_name("catalogue.toml")
_MOST_S, _PROCESSES = 30.0, 2


def rows() -> Iterator[Row]:
    """The whole range by two processes, their start counted."""
    shelf = load_shelf()
    family = parse_family(RANGE.read_bytes(), RANGE.name, shelf)
    before, began = _spent_s(), time.perf_counter()
    made = rows_of(family, Asked(shelf, family.quantities), crew(_PROCESSES))
    took_s, spent_s = time.perf_counter() - began, _spent_s() - before
    each_ms = 1000 * spent_s / len(made)
    yield Row(
        f"catalogue of {len(made)} sizes, {_PROCESSES} processes ({each_ms:.0f} ms of processor each)",
        took_s,
        most_s=_MOST_S,
    )


def _spent_s() -> float:
    """Processor time of this process and of those that have ended. [s]"""
    spent = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(each.ru_utime + each.ru_stime for each in spent)


def main() -> int:
    """Print the line; the exit status."""
    status = 0
    for row in rows():
        print(f"{row.what}: {row.ours_s:.1f} s of {row.most_s:g} s, {row.verdict}")
        status |= row.verdict == "TOO SLOW"
    return status


if __name__ == "__main__":
    sys.exit(main())
