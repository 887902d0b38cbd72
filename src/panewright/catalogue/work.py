"""A catalogue's work in parts, each a pure function of what it is handed, and who does them.

A part is sizes of as many columns and rows: those that differ in their glass alone, of one cell and of the
next, for cells of one format lie behind the same panes. Whoever does a part, and in which order they come
back, the rows are the same and stand in the order of the range.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from panewright.catalogue.family import Family, Member
from panewright.catalogue.row import Asked, Row, row_of
from panewright.circuit.hot import lit
from panewright.structure.space import compiled

Told = Callable[[int, int], None]  #: how many sizes are done, of how many
Stopping = Callable[[], bool]  #: whether somebody has called it off


_MANY = 300  #: sizes from which on the compiler is loaded: half a second for each process
_MOST_SIZES = 10  #: of a part, but all its glass: for all hands to be busy to the end


class Stopped(Exception):
    """Somebody called it off before it was done."""


@dataclass(frozen=True, slots=True)
class Part:
    """Some sizes, each with its order's text, and where each stands in the range."""

    number: int
    sizes: tuple[tuple[Member, str], ...]
    places: tuple[int, ...]


Done = tuple[int, tuple[Row, ...]]  #: the part's number and its rows
Crew = Callable[[Sequence[Part], Asked, Stopping], Iterable[Done]]  #: gives parts back as they are done


def parts_of(family: Family) -> tuple[Part, ...]:
    """All work of a range, the smallest panels first."""
    alike: dict[tuple[int, int], list[tuple[int, Member]]] = {}
    sizes = (each for layup in family.layups() for each in layup)
    for place, each in enumerate(sizes):
        alike.setdefault((each.columns, each.rows), []).append((place, each))
    most = max(1, _MOST_SIZES // len(family.glass)) * len(family.glass)
    shared = [each[n : n + most] for each in alike.values() for n in range(0, len(each), most)]
    return tuple(_part(family, number, each) for number, each in enumerate(shared))


def _part(family: Family, number: int, placed: list[tuple[int, Member]]) -> Part:
    places, members = zip(*placed, strict=True)
    return Part(number, tuple((each, family.text(each)) for each in members), places)


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
