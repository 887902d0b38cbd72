"""What one crate takes: plywood and foam by area, battens by length, screws by number."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from panewright.crate.box import Crate
from panewright.crate.carton import Carton
from panewright.crate.crated import Crated
from panewright.crate.pads import foam_boards
from panewright.crate.timber import Board, Screw, Section, Stuff
from panewright.units import MM


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of one stuff in one thickness."""

    stuff: Stuff
    name: str  #: of a foam or a board for cartons; "" of wood
    thick_mm: float
    wide_mm: float  #: of a batten; 0 of a sheet
    count: float  #: metres of batten, square metres of sheet


def amounts(found: Crated) -> tuple[Amount, ...]:
    """Everything to saw and cut for one crate, the offcuts not counted."""
    sums: dict[tuple[Stuff, str, float, float], float] = defaultdict(float)
    shell = _card(found.crate) if isinstance(found.crate, Carton) else _wood(found.crate)
    for kind, one in (*shell, *_foam(found.crate)):
        sums[kind] += one
    return tuple(Amount(*kind, count) for kind, count in sums.items())


def screws(found: Crated) -> dict[Screw, int]:
    """Screws of one crate, by size."""
    sums: dict[Screw, int] = defaultdict(int)
    for each in found.crate.joints:
        sums[each.screw] += each.count
    return dict(sorted(sums.items(), key=lambda pair: pair[0].long_mm))


Kind = tuple[Stuff, str, float, float]


def _wood(crate: Crate) -> Iterator[tuple[Kind, float]]:
    for board in crate.boards:
        if board.stuff == "softwood":
            thin, wide = Section(board.wide_mm, board.thick_mm).sides_mm
            yield ("softwood", "", thin, wide), board.count * board.long_mm * MM
        if board.stuff == "plywood":
            yield ("plywood", "", board.thick_mm, 0.0), _area_m2(board)


def _card(carton: Carton) -> Iterator[tuple[Kind, float]]:
    yield ("card", carton.board.name, carton.board.thick_mm, 0.0), carton.card_m2


def _foam(crate: Crate | Carton) -> Iterator[tuple[Kind, float]]:
    """Pads of each side's foam; the blocks between frames of the densest, as their mass is counted."""
    *pads, blocks = foam_boards(crate.yard, crate.stack, crate.cushions)
    densest = max((each.foam for each in crate.cushions), key=lambda foam: foam.density_kg_m3)
    named = [each.foam.name for each in crate.cushions]
    for board, name in zip((*pads, blocks), (*named, densest.name), strict=True):
        yield ("foam", name, board.thick_mm, 0.0), _area_m2(board)


def _area_m2(board: Board) -> float:
    return board.count * board.long_mm * board.wide_mm * MM**2
