"""`panewright tables`: the shelf's tables written out, for a shop to put its own prices in."""

from __future__ import annotations

from pathlib import Path

import click

from panewright.cli.plainly import told_plainly


@click.command()
@click.option(
    "--to", "folder", type=click.Path(path_type=Path), help="Where they go.  [default: ~/panewright/shelf]"
)
def tables(folder: Path | None) -> None:
    """Write the shelf's tables, to put own prices, suppliers and carriers in. Writes over nothing.

    A shop goes by the tables in its folder `shelf`; any command goes by those that --shelf names. A table
    that is not there is the one that comes with the program, so keep only those you change.
    """
    with told_plainly():
        from panewright.desk.own_shelf import own_folder, write_tables

        folder = folder or own_folder()
        click.echo(f"{folder}: {', '.join(write_tables(folder))}")
        click.echo("Every price in them is invented: change what you buy, take out the tables you do not.")
