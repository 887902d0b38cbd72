"""Every rule of a carton; its foam is judged as a crate's."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.crate.carton import LASTING, STACKED_MM, Carton
from panewright.crate.proof import ROOM, foam_checks, lifted

_CARRIERS = "limits of the board's grade on the shelf (Rule 41, recalled)"


def carton_checks(carton: Carton, most_hand_kg: float) -> tuple[Check, ...]:
    """Foam of every side, the board's grade, what stands on it, weight."""
    goods = carton.stack.panel.goods
    foam = (check for cushion in carton.cushions for check in foam_checks(cushion, goods))
    return (*foam, *_board(carton), lifted("carton", carton.gross_kg, most_hand_kg, goods))


def _board(carton: Carton) -> Iterator[Check]:
    board, fewer = (
        carton.board,
        f"Take fewer {carton.stack.panel.goods}s to a carton, a heavier board, or a crate.",
    )
    yield Check("mass of the carton", carton.gross_kg, board.most_kg, "kg", _CARRIERS, fewer, ROOM)
    yield Check(
        "length, width and depth of the carton",
        carton.sides_mm,
        board.most_sides_mm,
        "mm",
        _CARRIERS,
        fewer,
        ROOM,
    )
    lid = next(each for each in carton.boards if each.name.startswith("lid"))
    sheet = "sheet as it is sold, on the shelf"
    for way, is_mm, limit_mm in (
        ("long", lid.long_mm, board.sheet_long_mm),
        ("wide", lid.wide_mm, board.sheet_wide_mm),
    ):
        yield Check(f"lid of the carton out of one sheet, {way}", is_mm, limit_mm, "mm", sheet, fewer, ROOM)
    yield Check(
        "carton under others like it",
        carton.stacked_n,
        carton.crush_n,
        "N",
        f"McKee 1963 (recalled); stacked {STACKED_MM / 1000:g} m high, {LASTING:g} times: common practice",
        fewer,
        ROOM,
    )
