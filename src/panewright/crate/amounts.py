"""What one crate takes: plywood, foam, battens, screws; and which bars and sheets are bought for all."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from panewright.crate.bought import Bought, Sold, bought, used
from panewright.crate.box import Crate
from panewright.crate.carton import Carton
from panewright.crate.pads import foam_boards
from panewright.crate.timber import Board, Screw, Section
from panewright.shelf.shelf import Sundry
from panewright.units import MM

Of = Literal["plywood", "batten", "foam", "crate screw", "carton", "void fill"]


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of one stuff for one crate, the offcuts not counted."""

    of: Of
    count: float  #: square metres, metres, kilograms, or pieces
    thick_mm: float = 0.0  #: of a screw how wide it is
    wide_mm: float = 0.0  #: of a batten; how long a screw is
    name: str = ""  #: of a foam, a board for cartons; the size of a screw in words
    sold: tuple[Sold, ...] = ()  #: bars or sheets of it for all crates; none where it is sold as it is cut


def amounts(crate: Crate | Carton, crates: int = 1, wood: Sequence[Sundry] = ()) -> tuple[Amount, ...]:
    """Everything that goes into one of so many crates alike."""
    shell = _card(crate) if isinstance(crate, Carton) else _wood(crate, crates, used(crate.boards, wood))
    return (*shell, *_foam(crate), *_screws(crate))


def screws(crate: Crate | Carton) -> dict[Screw, int]:
    """Screws of one crate, by size."""
    sums: dict[Screw, int] = defaultdict(int)
    for each in crate.joints:
        sums[each.screw] += each.count
    return dict(sorted(sums.items(), key=lambda pair: pair[0].long_mm))


def _wood(crate: Crate, crates: int, wood: tuple[Sundry, ...]) -> Iterator[Amount]:
    sums: dict[tuple[Of, float, float], float] = defaultdict(float)
    for board in crate.boards:
        if board.stuff == "softwood":
            thin, wide = Section(board.wide_mm, board.thick_mm).sides_mm
            sums["batten", thin, wide] += board.count * board.long_mm * MM
        if board.stuff == "plywood":
            sums["plywood", board.thick_mm, 0.0] += _area_m2(board)
    plans = bought(crate.boards, crates, wood)
    for (of, thick, wide), count in sums.items():
        yield Amount(of, count, thick, wide, "", _sold(plans, thick, wide))


def _sold(plans: Sequence[Bought], thick_mm: float, wide_mm: float) -> tuple[Sold, ...]:
    """Bars or sheets of one size, longer bars behind them; none where a board is larger than a sheet."""
    found = (each for each in plans if each.of(thick_mm, wide_mm) and not (each.asked and not wide_mm))
    return next(((*each.sold, *each.asked) for each in found), ())


def _card(carton: Carton) -> Iterator[Amount]:
    yield Amount("carton", carton.card_m2, carton.board.thick_mm, 0.0, carton.board.name)
    yield Amount("void fill", carton.fill_kg)


def _foam(crate: Crate | Carton) -> Iterator[Amount]:
    """Pads of each side's foam; the blocks between frames of the densest, as their mass is counted."""
    *pads, blocks = foam_boards(crate.yard, crate.stack, crate.cushions)
    densest = max((each.foam for each in crate.cushions), key=lambda foam: foam.density_kg_m3)
    named = [each.foam.name for each in crate.cushions]
    sums: dict[tuple[str, float], float] = defaultdict(float)
    for board, name in zip((*pads, blocks), (*named, densest.name), strict=True):
        sums[name, board.thick_mm] += _area_m2(board)
    for (name, thick), area in sums.items():
        yield Amount("foam", area, thick, 0.0, name)


def _screws(crate: Crate | Carton) -> Iterator[Amount]:
    for screw, number in screws(crate).items():
        yield Amount("crate screw", number, screw.wide_mm, screw.long_mm, screw.name)


def _area_m2(board: Board) -> float:
    return board.count * board.long_mm * board.wide_mm * MM**2
