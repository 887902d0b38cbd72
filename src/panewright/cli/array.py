"""`panewright array`: finished panels wired at a site, through the year and through the bank."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from panewright.cli.of_a_shop import PATH, of_a_shop
from panewright.cli.plainly import told_plainly


@click.command()
@click.argument("site_file", metavar="FILE", type=PATH)
@click.option("--to", "folder", type=PATH, help="Write the report, the book and its lists there too.")
@of_a_shop
def array(site_file: Path, folder: Path | None, shop: Path | None, records: str) -> None:
    """Plan the array that FILE tells: strings, limits, wires, fuses, energy, bank, money.

    Panels by their serials are looked up in the records of --shop. How far it is stands on standard error.
    Answers 0 where every check holds, else 1.
    """
    with told_plainly():
        from panewright.desk.arrays import by_command
        from panewright.desk.arrays.lines import lines
        from panewright.desk.records import place as places

        with _progress() as told:
            made = by_command.plan(site_file, places.place(shop, records), told)
        for line in lines(made):
            click.echo(line)
        if folder is not None:
            click.echo(f"\nThe array's papers lie in {folder}: {', '.join(by_command.write(made, folder))}")
    sys.exit(0 if made.proven else 1)


@contextmanager
def _progress() -> Iterator[Callable[[float, str], None]]:
    """Each stage in a line on standard error, once; how far it is, where a person sees it."""
    seen, watched = [""], sys.stderr.isatty()

    def told(share: float, words: str) -> None:
        if words != seen[0] and words != "done":
            click.echo(f"{100 * share:3.0f} %  {words}", err=True)
        elif watched and words != "done":
            click.echo(f"\r{100 * share:3.0f} %", nl=False, err=True)
        seen[0] = words

    yield told
    if watched:
        click.echo("", err=True)
