"""A catalogue of a thousand sizes, read, reckoned and written: seconds on two cores, processor time for each.

`python benchmarks/catalogue_speed.py`; ends with 1 where it takes longer than was asked. Not among the lines
of `run.py`, which keeps to one core.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from row import Row

from panewright.desk.catalogue import catalogue, write_catalogue

RANGE = Path(__file__).with_name("catalogue.toml")
_MOST_S, _PROCESSES = 30.0, 2


def rows() -> Iterator[Row]:
    """The whole range by two processes, their start counted, to files of every form."""
    before, began = _spent_s(), time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        made = catalogue(RANGE.read_bytes(), RANGE.name, processes=_PROCESSES)
        write_catalogue(made, Path(folder) / "catalogue")
    took_s, spent_s = time.perf_counter() - began, _spent_s() - before
    each_ms = 1000 * spent_s / len(made.rows)
    yield Row(
        f"catalogue of {len(made.rows)} sizes, {_PROCESSES} processes ({each_ms:.0f} ms of processor each)",
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
