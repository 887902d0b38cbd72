"""What to cut for a carton and how it is packed."""

from __future__ import annotations

from panewright.crate.carton import Carton
from panewright.crate.crated import Crated
from panewright.drawing.sheet import Block, Heading, Words
from panewright.pack.bench import Bench
from panewright.pack.crate_told import loads_told
from panewright.pack.figures.crate import thin_words
from panewright.pack.pages.table import words_table
from panewright.pack.steps.carton import carton_steps


def carton_blocks(bench: Bench, crated: Crated, carton: Carton) -> tuple[Block, ...]:
    """Pieces of one carton, then the steps."""
    held = loads_told(crated)
    return (
        Heading("To cut for one carton" if crated.crates > 1 else "To cut"),
        Words(f"{held[0].upper()}{held[1:]}, all made alike."),
        words_table(("Piece", "Pieces", "Of", "Long", "Wide"), _rows(bench, carton)),
        Words(_of_board(bench, carton), "small"),
        Heading("How to pack"),
        carton_steps(bench, crated),
    )


def _rows(bench: Bench, carton: Carton) -> tuple[tuple[str, ...], ...]:
    units = bench.design.order.job.units
    return tuple(
        (
            each.name,
            f"{each.count} ×",
            f"{'board' if each.stuff == 'card' else each.stuff} {thin_words(each.thick_mm, units)}",
            bench.size(each.long_mm),
            bench.size(each.wide_mm),
        )
        for each in carton.boards
    )


def _of_board(bench: Bench, carton: Carton) -> str:
    """Which board, where the folds are, and how much paper."""
    tray, lid = bench.size(carton.inside.up_mm), bench.size(carton.lid_wall_mm)
    return (
        f"Board: {carton.board.name}, flutes upright in the long walls. Tray: folds {tray} from each edge. "
        f"Lid: folds {lid} from each edge. Paper to fill what is hollow: {bench.say(carton.fill_kg, 'kg')}."
    )
