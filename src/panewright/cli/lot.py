"""`panewright lot`: what a lot of measured cells is, and what may be wrong in its table."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

import click

from panewright.cli.plainly import told_plainly

_PATH = click.Path(path_type=Path)


@click.group()
def lot() -> None:
    """Lots of measured cells: read their tables, see how they stand."""


@lot.command()
@click.argument("file", type=_PATH)
@click.option("--mapping", type=_PATH, help="Read the columns as this file says, kept by --keep before.")
@click.option(
    "--keep", type=_PATH, help="Write what the columns are taken for, to be changed and used again."
)
@click.option(
    "--cell", default="", help="The kind of cell, by its name on the shelf.  [default: the nearest]"
)
@click.option("--to", type=_PATH, help="Write every cell as it stands: a CSV or XLSX file.")
def read(file: Path, mapping: Path | None, keep: Path | None, cell: str, to: Path | None) -> None:
    """Read a table of cells: columns with reasons, bad rows, how the cells spread, which are suspected.

    Answers 0 where every row was read and no cell is suspected, else 1.
    """
    with told_plainly():
        from panewright.desk.folder import write_all, write_new
        from panewright.desk.lots import listed, stood, table, told

        kept = table.mapping_text(mapping) if mapping else ""
        looked = table.look(table.file_bytes(file), file.name, kept, str(mapping))
        _tell(told.of_table(looked))
        if keep:
            write_new(keep, looked.text.encode())
            click.echo(f"{keep} keeps them: change it where it is wrong, and name it with --mapping.")
        rows = looked.read()
        _tell(told.of_rows(rows))
        lot_now = stood.stand(rows, cell)
        _tell(told.of_lot(lot_now))
        if to:
            write_all(to.parent, {to.name: listed.content(lot_now, to.name)})
            click.echo(f"{to} lists every cell.")
    sys.exit(1 if rows.bad or lot_now.suspects else 0)


def _tell(lines: Iterable[str]) -> None:
    for line in lines:
        click.echo(line)
