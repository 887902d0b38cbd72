"""A catalogue's work part by part, each a pure function of what it is handed, and who does them.

Whoever does a part, and in which order they come back, the rows are the same and stand in the order of the
range.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from panewright.catalogue.family import Family
from panewright.catalogue.part import Part, parts_of
from panewright.catalogue.row import Asked, Row, row_of
from panewright.circuit.hot import lit
from panewright.structure.space import compiled

Told = Callable[[int, int], None]  #: how many sizes are done, of how many
Stopping = Callable[[], bool]  #: whether somebody has called it off


_MANY = 300  #: sizes from which on the compiler is loaded: half a second for each process


class Stopped(Exception):
    """Somebody called it off before it was done."""


Done = tuple[int, tuple[Row, ...]]  #: the part's number and its rows
Crew = Callable[[Sequence[Part], Asked, Stopping], Iterable[Done]]  #: gives parts back as they are done


def part_done(part: Part, asked: Asked) -> Done:
    """One part, done here; of a great range with frames and hot spots solved by compiled loops."""
    if asked.many:
        compiled.load()
        lit.load()
    return part.number, tuple(row_of(member, text, asked) for member, text in part.sizes)


def here(parts: Sequence[Part], asked: Asked, stopping: Stopping) -> Iterator[Done]:
    """All parts one after the other in this process."""
    for part in parts:
        if stopping():
            return
        yield part_done(part, asked)


def _never() -> bool:
    return False


def _nobody(_done: int, _of: int) -> None:
    return None


def rows_of(
    family: Family, asked: Asked, crew: Crew = here, told: Told = _nobody, stopping: Stopping = _never
) -> tuple[Row, ...]:
    """Every row of a range, in its order; `Stopped` where somebody called it off."""
    asked = replace(asked, many=family.size >= _MANY)
    parts, count = parts_of(family), 0
    found: dict[int, tuple[Row, ...]] = {}
    told(0, family.size)
    for number, rows in crew(parts, asked, stopping):
        found[number] = rows
        count += len(rows)
        told(count, family.size)
        if stopping():
            break
    if len(found) < len(parts):
        raise Stopped
    placed: dict[int, Row] = {}
    for part in parts:
        placed.update(zip(part.places, found[part.number], strict=True))
    return tuple(placed[place] for place in range(len(placed)))
