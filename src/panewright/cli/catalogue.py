"""`panewright catalogue`: a family of sizes becomes a price list."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from panewright.cli.of_a_shop import goes_by_named
from panewright.cli.plainly import told_plainly

_PATH = click.Path(path_type=Path)
_STOPPED = 130  # as a shell tells a command that was broken off


@click.command()
@click.argument("range_file", metavar="RANGE", type=_PATH)
@click.option("--to", "folder", type=_PATH, help="Where the price list goes.  [default: catalogue]")
@click.option(
    "--processes", type=click.IntRange(1, 64), help="How many work at it.  [default: one for each core]"
)
@click.option(
    "--cluster", default="", metavar="ADDRESS", help="A Dask scheduler whose workers do it instead."
)
@click.option(
    "--shop",
    type=_PATH,
    callback=goes_by_named,
    help="Price it by what broke and how long steps took in the shop of this folder.",
)
@click.option("--json", "as_json", is_flag=True, help="Print it for a program to read. Writes nothing.")
def catalogue(
    range_file: Path,
    folder: Path | None,
    processes: int | None,
    cluster: str,
    shop: Path | None,
    as_json: bool,
) -> None:
    """Design and price every size of RANGE, and write the price list: PDF, HTML, XLSX, CSV, JSON.

    RANGE is an order with a section [range]: lists of cells, columns, rows, glass.
    Exit status 0 where every size holds every check, 1 where some does not.
    """
    folder = folder or Path("catalogue")
    with told_plainly(), _broken_off():
        from panewright import desk
        from panewright.desk import catalogue as desk_catalogue
        from panewright.desk.records import by_command as desk_records
        from panewright.desk.records.place import place

        own = desk_records.actuals(place(shop)) if shop else None
        with _bar() as told:
            offer = desk_catalogue.catalogue(
                desk.read(range_file),
                range_file.name,
                own,
                processes=processes or _cores(),
                cluster=cluster,
                told=told,
            )
        if as_json:
            click.echo(desk_catalogue.as_json(offer), nl=False)
        else:
            written = desk_catalogue.write_catalogue(offer, folder)
            click.echo(desk_catalogue.told_in_short(offer))
            click.echo(f"The price list lies in {folder}: {', '.join(written)}")
    sys.exit(1 if offer.failing else 0)


def _cores() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def _broken_off() -> Iterator[None]:
    """Ctrl-C ends it in a sentence."""
    try:
        yield
    except KeyboardInterrupt:
        click.echo("Broken off: nothing was written.", err=True)
        sys.exit(_STOPPED)


@contextmanager
def _bar() -> Iterator[Callable[[int, int], None]]:
    """A bar of progress on standard error, where a person sees it."""
    if not sys.stderr.isatty():
        yield lambda _done, _of: None
        return
    with click.progressbar(length=1, label="Sizes", file=sys.stderr, show_pos=True) as bar:

        def told(done: int, of: int) -> None:
            bar.length = of
            bar.update(done - bar.pos)

        yield told
