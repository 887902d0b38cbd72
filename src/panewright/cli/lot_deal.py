"""`panewright lot match`, `swap`, `why`, `check`: which cell goes where, what instead, why, how good."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from functools import reduce
from pathlib import Path
from typing import Any

import click

from panewright.cli.plainly import told_plainly

_PATH = click.Path(path_type=Path)
light_option = click.option(
    "--light",
    default="",
    help="The light they were read in where no column says it: STC of a seller's flash list, such as "
    "'850 W/m2', or unknown.",
)
error_option = click.option(
    "--error",
    multiple=True,
    metavar="NAME=SIZE",
    help="How far readings may be off, one deviation: current=0.5%, voltage=0.2%, light=1%, heat=1K, each "
    "with _gain for what all rows share; current_digit=10mA, voltage_digit=1mV, ammeter=20mohm; top, shunt, "
    "reverse.",
)


_WISHED = (  # what a deal is for, and what it may not do
    click.option(
        "--aim",
        type=click.Choice(["watts", "reach", "money", "remainder"]),
        default="watts",
        show_default=True,
        help="Most watts; most panels that reach --rating; most money by --step; --panels that reach "
        "--rating with the best cells left over.",
    ),
    click.option("--rating", default="", help="What a panel must give, such as '95 W'."),
    click.option(
        "--step", multiple=True, help="From so many watts on, this price: '95 W = 80.00'. Once for each."
    ),
    click.option(
        "--sure",
        default="",
        help="The chance with which each panel shall reach its rating or step: '90 %'.  "
        "[default: as reckoned]",
    ),
    click.option(
        "--panels",
        type=click.IntRange(0, 10_000),
        help="No more panels than these; 0: as many as there are cells for.  [default: as the order says]",
    ),
    click.option(
        "--spares", default=0, type=click.IntRange(0), help="Cells to keep back that fit any place."
    ),
    click.option(
        "--leaky-below", "leaky", default="", help="A cell with less shunt, such as '5 ohm', is leaky."
    ),
    click.option(
        "--most-leaky",
        default=0,
        type=click.IntRange(0),
        help="Leaky cells that one diode may span.  [default: 0]",
    ),
    click.option(
        "--reverse", is_flag=True, help="No cell where the others could break it down in the shade."
    ),
    click.option(
        "--reverse-most",
        default="",
        help="Nor where they could drive more through it in the dark, as '15 W'.",
    ),
)
_OF_LOT = (  # which cells there are, beside their readings
    click.option("--soldered", type=_PATH, help="Strings that are soldered already: a file of [[string]]."),
    click.option("--soldered-column", "column", default="", help="The same, by a column of CELLS."),
    click.option(
        "--leave-out", "left_out", multiple=True, metavar="MARK", help="A cell that is not to be used."
    ),
    click.option(
        "--leave-out-remark",
        "remarked",
        multiple=True,
        metavar="WORDS",
        help="Nor one whose remark has these words.",
    ),
    click.option(
        "--mapping", type=_PATH, help="Read the columns as this file says, kept by `lot read --keep`."
    ),
    click.option(
        "--cell", default="", help="The kind of cell, by its name on the shelf.  [default: the order's]"
    ),
    light_option,
    error_option,
)


_NAMED = ("soldered", "column", "left_out", "remarked", "mapping", "cell")  #: of them as a lot has them


def _with(options: tuple[Callable[[Any], Any], ...]) -> Callable[[Any], Any]:
    """A command with these options, told in this order."""
    return lambda command: reduce(lambda made, option: option(made), reversed(options), command)


@click.command()
@click.argument("order_file", metavar="ORDER", type=_PATH)
@click.argument("cells", metavar="CELLS", type=_PATH)
@_with(_WISHED)
@_with(_OF_LOT)
@click.option(
    "--seed",
    default=1,
    show_default=True,
    type=click.IntRange(0),
    help="Of the random deals it is held against.",
)
@click.option("--proof", type=_PATH, help="Write what proves the bound to this file, for `lot check`.")
@click.option("--to", "folder", type=_PATH, default="deal", show_default=True, help="Where its papers go.")
def match(
    order_file: Path, cells: Path, panels: int | None, proof: Path | None, folder: Path, **said: Any
) -> None:
    """Say which of CELLS goes to which place of ORDER's panels, and write the list to follow.

    Writes a list with drawings (PDF), the same as workbook and CSV, labels, a drawing of each panel, and
    deal.json, of which `lot swap` and `lot why` ask. Answers 0 where the panels are made that the order
    asks for, else 1.
    """
    with told_plainly():
        from panewright.desk.deals import by_command, told
        from panewright.desk.deals.wish import Wish
        from panewright.desk.folder import write_all
        from panewright.desk.lots import table

        by_command.refuse_exchanged(folder)
        beside = table.Beside(said.pop("light"), said.pop("error"))
        lot = by_command.Lot(cells, beside=beside, **{name: said.pop(name) for name in _NAMED})
        wish = Wish(steps=by_command.steps_of(said.pop("step")), **said)
        dealt = by_command.match(order_file, lot, wish, panels)
        files = dealt.files()
        write_all(folder, files)
        if proof is not None:
            write_all(proof.parent, {proof.name: dealt.proof()})
        _tell(told.of_deal(dealt.deal))
        _tell(by_command.told_left(dealt))
        click.echo(f"{folder} holds {', '.join(name for name in files if not name.endswith('.svg'))}.")
        wanted = dealt.design.order.job.panels if panels is None else panels or 1
    sys.exit(0 if len(dealt.deal.panels) >= wanted else 1)


@click.command()
@click.argument("deal", metavar="DEAL", type=_PATH)
@click.argument("mark")
@click.option(
    "--with", "into", default="", metavar="MARK", help="Put this one there, and write the papers anew."
)
@click.option("--because", default="", help="Why the cell is taken out; stands on the list.")
def swap(deal: Path, mark: str, into: str, because: str) -> None:
    """Rank what may take the place of cell MARK, which broke, and what each costs.

    DEAL is the folder that `lot match` wrote. Answers 1 where nothing that is left may go there.
    """
    with told_plainly():
        from panewright.desk.deals import by_command, swapping, told
        from panewright.desk.folder import write_all

        dealt, folder = by_command.opened(deal)
        found = swapping.broken(dealt.deal, dealt.matched, mark)
        after = by_command.swapped(dealt, mark, into, because) if into else None
        if after is not None:  # before anything is told: who reads only the first lines ends the command
            write_all(folder, after.files())
        click.echo(f"Cell {found.mark} sits in panel {found.panel}, place {found.place}.")
        if not found.instead:
            click.echo("Nothing that is left over may take its place.")
        for place, each in enumerate(found.instead[: swapping.MOST], start=1):
            click.echo(f"{place:3}. {each.mark}: {each.words}.")
        if after is not None:
            click.echo(told.swap_words(after.deal.swaps[-1]))
            click.echo(told.sentence(after.deal))
            click.echo(f"The papers in {folder} are written anew.")
            click.echo(f"Where the lot is matched again, add --leave-out {mark}.")
    sys.exit(0 if found.instead else 1)


@click.command()
@click.argument("deal", metavar="DEAL", type=_PATH)
@click.argument("mark")
def why(deal: Path, mark: str) -> None:
    """Say why cell MARK sits where it sits, or is left over. DEAL is the folder that `lot match` wrote."""
    with told_plainly():
        from panewright.desk.deals import by_command, told

        dealt, _ = by_command.opened(deal)
        click.echo(told.of_cell(dealt.deal, dealt.matched, mark))


@click.command()
@click.argument("deal", metavar="DEAL", type=_PATH)
@click.argument("proof", metavar="PROOF", type=_PATH)
def check(deal: Path, proof: Path) -> None:
    """Reckon again, from the cells' curves, that no deal of these cells comes to more than the bound told.

    DEAL is the folder that `lot match` wrote, PROOF the file of `lot match --proof`. Answers 1 where the
    bound is not proven.
    """
    with told_plainly():
        from panewright.desk.deals import by_command

        found = by_command.checked(deal, proof)
        click.echo(found.words)
        _tell(found.wrong)
        click.echo("The bound is proven." if found.holds else "The bound is NOT proven.")
    sys.exit(0 if found.holds else 1)


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        click.echo(line)
