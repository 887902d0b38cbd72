"""`panewright lot`: what a lot of cells is, what may be wrong in it, which offer to take, what goes where."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

import click

from panewright.cli import lot_deal
from panewright.cli.plainly import told_plainly

_PATH = click.Path(path_type=Path)


@click.group()
def lot() -> None:
    """Lots of cells: read a table of measured ones, compare what is offered, say which cell goes where."""


@lot.command()
@click.argument("file", type=_PATH)
@click.option("--mapping", type=_PATH, help="Read the columns as this file says, kept by --keep before.")
@click.option(
    "--keep", type=_PATH, help="Write what the columns are taken for, to be changed and used again."
)
@click.option(
    "--cell", default="", help="The kind of cell, by its name on the shelf.  [default: the nearest]"
)
@lot_deal.light_option
@lot_deal.error_option
@click.option(
    "--to", type=_PATH, help="Write every cell as it stands, every row not read, every suspect: CSV or XLSX."
)
def read(
    file: Path,
    mapping: Path | None,
    keep: Path | None,
    cell: str,
    light: str,
    error: tuple[str, ...],
    to: Path | None,
) -> None:
    """Read a table of cells: columns with reasons, bad rows, how the cells spread, which are suspected.

    Answers 0 where every row was read and no cell is suspected, else 1.
    """
    with told_plainly():
        from panewright.desk.folder import write_all, write_new
        from panewright.desk.lots import listed, stood, table, told

        kept = table.mapping_text(mapping) if mapping else ""
        looked = table.look(table.file_bytes(file), file.name, kept, str(mapping), table.Beside(light, error))
        _tell(told.of_table(looked))
        if keep:
            write_new(keep, looked.text.encode())
            click.echo(f"{keep} keeps them: change it where it is wrong, and name it with --mapping.")
        rows = looked.read()
        _tell(told.of_rows(rows))
        lot_now = stood.stand(rows, cell)
        _tell(told.of_lot(lot_now))
        if to:
            files = listed.files(lot_now, rows, to.name)
            write_all(to.parent, files)
            click.echo(f"{to} lists every cell.")
            if others := ", ".join(name for name in files if name != to.name):
                click.echo(f"Beside it, what is not read or suspected: {others}.")
    sys.exit(1 if rows.bad or lot_now.suspects else 0)


@lot.command()
@click.argument("offers_file", metavar="OFFERS", type=_PATH)
@click.argument("order_file", metavar="ORDER", type=_PATH)
@click.option(
    "--panels", type=click.IntRange(1, 10_000), help="How many panels.  [default: as the order says]"
)
@click.option(
    "--seed", default=1, show_default=True, type=click.IntRange(0), help="Of the chance that is played with."
)
@click.option("--times", default=100, show_default=True, type=click.IntRange(20, 5000), help="Orders played.")
@click.option(
    "--caution",
    default=0.0,
    show_default=True,
    type=click.FloatRange(0, 10),
    help="How much bad luck counts.",
)
@click.option("--to", type=_PATH, help="Write the comparison: a CSV or XLSX file.")
def offers(
    offers_file: Path,
    order_file: Path,
    panels: int | None,
    seed: int,
    times: int,
    caution: float,
    to: Path | None,
) -> None:
    """Rank OFFERS of cells for the panels of ORDER by what a delivered watt costs, bad luck counted in."""
    with told_plainly():
        from panewright import desk
        from panewright.desk.folder import write_all
        from panewright.desk.lots import compared, offered, table

        made = desk.design(desk.read(order_file), order_file.name)
        text = desk.read(offers_file).decode("utf-8", "replace")
        asked = offered.asked(
            text,
            offers_file.name,
            made.design,
            panels,
            beside=lambda name: table.file_bytes(offers_file.parent / name),
        )
        found = compared.ranked(asked, seed, caution, times)
        _tell(compared.told(asked, found))
        if to:
            write_all(to.parent, {to.name: compared.content(found, to.name)})
            click.echo(f"{to} lists them.")


@lot.command()
@click.argument("good", type=click.IntRange(1, 1_000_000))
@click.option(
    "--lost",
    multiple=True,
    metavar="LOSS",
    help="What a step loses: 'soldering: 3 of 100' as counted, or '2 %' where it is known. Once for each.",
)
@click.option("--sure", default="95 %", show_default=True, help="That they are enough.")
@click.option(
    "--pack", default=1, show_default=True, type=click.IntRange(1, 1_000_000), help="Cells in a pack."
)
def need(good: int, lost: tuple[str, ...], sure: str, pack: int) -> None:
    """Say how many cells to buy so that GOOD ones are left after all that is lost."""
    with told_plainly():
        from panewright.desk.lots import need as needs

        _tell(needs.told(needs.need(good, lost, sure, pack)))


for _command in (lot_deal.match, lot_deal.swap, lot_deal.why, lot_deal.check):
    lot.add_command(_command)


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        click.echo(line)
