"""The commands. Each reads, calls one function of the desk, writes, and says what happened.

Exit status: 0 every check holds, 1 some check fails, 2 the order or a file is wrong.
"""

from __future__ import annotations

import atexit
import gc
import os
import sys
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from panewright.cli.array import array
from panewright.cli.buy import buy
from panewright.cli.catalogue import catalogue
from panewright.cli.chart import chart
from panewright.cli.curve import curve
from panewright.cli.day import DAY
from panewright.cli.fault import fault
from panewright.cli.ledger import ledger
from panewright.cli.lot import lot
from panewright.cli.of_a_shop import goes_by_named, of_a_shop
from panewright.cli.plainly import told_plainly as _told_plainly
from panewright.cli.rate import rate
from panewright.cli.tables import tables

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.price.actuals import Actuals

# One panel is many small sums: more threads cost more than they bring. To be said before numpy is opened.
# The number of threads also changes last digits, and the same order shall give the same bytes.
os.environ["OPENBLAS_NUM_THREADS"] = "1"

_PATH = click.Path(path_type=Path)
OWN_FIGURES = click.option(
    "--shop",
    type=_PATH,
    callback=goes_by_named,
    help="Price it by what broke and how long steps took in the shop of this folder.",
)
ORDER_FILE = click.argument("order_file", metavar="ORDER", type=click.Path(path_type=Path))


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="panewright", message="Panewright %(version)s")
@click.option(
    "--shelf",
    envvar="PANEWRIGHT_SHELF",
    type=_PATH,
    help="Own tables: prices, suppliers, carriers.  [default: SHOP/shelf, else the packaged ones]",
)
def cli(shelf: Path | None) -> None:
    """Design, prove and document hand-built photovoltaic panels, one order at a time.

    The numbers are an aid to judgement, not a certificate. Hand-built panels are not listed or
    certified: local code and a licensed person decide where they may be used.
    """
    if shelf is not None:
        from panewright.desk.own_shelf import go_by

        go_by(shelf)
    _leave_circles()


@cli.command()
@ORDER_FILE
@click.option("--json", "as_json", is_flag=True, help="Print the whole design for a program to read.")
@OWN_FIGURES
def design(order_file: Path, as_json: bool, shop: Path | None) -> None:
    """Design the panel of ORDER and print the verdict. Writes nothing."""
    with _told_plainly():
        from panewright import desk

        made = desk.design(_read(order_file), order_file.name, _own_figures(shop))
        click.echo(desk.as_json(made) if as_json else desk.verdict(made), nl=not as_json)
    sys.exit(0 if made.design.proven else 1)


@cli.command()
@ORDER_FILE
@click.option("--to", "folder", type=click.Path(path_type=Path), help="Where the pack goes.  [default: pack]")
@OWN_FIGURES
def pack(order_file: Path, folder: Path | None, shop: Path | None) -> None:
    """Design the panel of ORDER and write its build pack: book, template, drawings, lists, label."""
    folder = folder or Path("pack")
    with _told_plainly():
        from panewright import desk

        made = desk.design(_read(order_file), order_file.name, _own_figures(shop))
        written = desk.write_pack(made, folder)
        click.echo(desk.verdict(made))
        click.echo(f"The pack lies in {folder}: {', '.join(written)}")
    sys.exit(0 if made.design.proven else 1)


@cli.command()
@ORDER_FILE
@click.option("--json", "as_json", is_flag=True, help="Print it for a program to read.")
def crate(order_file: Path, as_json: bool) -> None:
    """Say how the panels of ORDER travel: crates, foam, what to saw, which carrier. Writes nothing."""
    with _told_plainly():
        from panewright import desk
        from panewright.desk.orders import crated

        made = desk.design(_read(order_file), order_file.name)
        found = crated.crated(made)
        click.echo(crated.crate_json(found) if as_json else crated.crate_words(made, found), nl=False)
    sys.exit(0 if made.design.proven and found.proven else 1)


@cli.command()
@ORDER_FILE
@click.option("--to", "file", type=_PATH, help="Where the quote goes.  [default: quote.pdf]")
@click.option("--date", "day", type=DAY, help="The day of the quote; left to be written by hand without it.")
@click.option("--sent", is_flag=True, help="It went to the customer: keep it in the records of --shop.")
@click.option("--by", default="", help="Who says so; with --sent.")
@OWN_FIGURES
def quote(
    order_file: Path, file: Path | None, day: datetime | None, sent: bool, by: str, shop: Path | None
) -> None:
    """Write the quote of ORDER to send: figures, price in several numbers, tax, deposit, days, terms."""
    file = file or Path("quote.pdf")
    if sent and (shop is None or not by.strip()):
        raise click.UsageError("--sent keeps it in a shop's records: name them by --shop, and who by --by.")
    with _told_plainly():
        from panewright import desk

        made = desk.design(_read(order_file), order_file.name, _own_figures(shop))
        written = datetime.now(UTC) if sent and day is None else day  # what is kept has a day
        told = desk.write_quote(made, file, written.date() if written else None)
        click.echo("\n".join((*told, f"The quote lies in {file}")))
        if sent and written is not None:
            _keep_sent(made, order_file, written, (shop, by))
    sys.exit(0 if made.design.proven else 1)


def _keep_sent(made: Made, order_file: Path, day: datetime, shop_and_by: tuple[Path | None, str]) -> None:
    """Keep in the records that the quote went out."""
    from panewright.desk.orders import offered
    from panewright.desk.records import place as records
    from panewright.desk.shop.who import Who

    shop, by = shop_and_by
    with records.opened(records.place(shop)) as ledger:
        kept = offered.sent_by_command(ledger, made, _read(order_file), day.date(), Who.now(by))
    click.echo(
        f"Order {kept.order}, version {kept.order_version}: a quote of {kept.total:f} {kept.currency} went "
        f"out, revision {kept.revision}; it stands until {kept.until}."
    )


@cli.command()
@ORDER_FILE
@click.option("--to", "folder", type=_PATH, help="Where the papers go.  [default: kit]")
@OWN_FIGURES
def kit(order_file: Path, folder: Path | None, shop: Path | None) -> None:
    """Write what a kit of ORDER needs on paper: packing list, and assembly book with a figure a step."""
    folder = folder or Path("kit")
    with _told_plainly():
        from panewright import desk

        ordered = desk.design(_read(order_file), order_file.name, _own_figures(shop))
        made, said = desk.as_kit(ordered), desk.sold_otherwise(ordered)
        written = ", ".join(desk.write_kit(made, folder))
        click.echo("\n".join((*said, *desk.boxes(made), f"The kit's papers lie in {folder}: {written}")))
    sys.exit(0 if made.design.proven else 1)


@cli.command()
@click.argument("order_files", metavar="ORDER...", nargs=-1, required=True, type=_PATH)
@click.option(
    "--shop", type=_PATH, callback=goes_by_named, help="Cut first from what lies in the shop of this folder."
)
@click.option("--to", "folder", type=_PATH, help="Write the plan there too: pages and a list.")
@click.option(
    "--buy-sheets", "sheets", is_flag=True, help="Buy whole sheets for all fronts that may be cut from one."
)
def cut(order_files: tuple[Path, ...], shop: Path | None, folder: Path | None, sheets: bool) -> None:
    """Plan the cutting for every ORDER at once: rails from bars, fronts from sheets, ribbon from spools.

    Every stage is told on standard error. Answers 0 where every order is proven and in the plan, and no
    plan costs less, else 1.
    """
    with _told_plainly():
        from panewright import desk
        from panewright.desk.stores import cut_by_command as command

        files = [(file.name, desk.read(file)) for file in order_files]
        plan = command.plan(files, shop, partial(click.echo, err=True), buys_sheets=sheets)
        click.echo(command.words(plan), nl=False)
        if folder is not None:
            click.echo(f"The plan lies in {folder}: {', '.join(command.write(plan, folder))}")
    sys.exit(0 if command.sure(plan) else 1)


@cli.command()
@click.argument("order_file", metavar="[FILE]", required=False, type=click.Path(path_type=Path))
def new(order_file: Path | None) -> None:
    """Print a commented order to start from, or write it to FILE (never over a file that is there)."""
    with _told_plainly():
        from panewright import desk

        if order_file is None:
            click.echo(desk.new_order(), nl=False)
        else:
            desk.write_new_order(order_file)
            click.echo(f"{order_file} is ready to fill in. Then: panewright design {order_file}")


@cli.command("open")
@of_a_shop
@click.option("--port", default=8410, show_default=True, type=click.IntRange(1024, 65_534))
@click.option("--tablets", is_flag=True, help="Let tablets in this building in, by a pass phrase, over TLS.")
@click.option("--plain", is_flag=True, help="With --tablets: without TLS, after a warning.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
def open_(shop: Path | None, records: str, port: int, tablets: bool, plain: bool, no_browser: bool) -> None:
    """Open the shop: orders, panels, steps and records as pages, on this computer."""
    gc.enable()  # this one runs all day
    with _told_plainly():
        from panewright.cli.open import open_shop
        from panewright.desk.own_shelf import hold
        from panewright.desk.records.place import place

        hold()  # a table that is wrong is told here, not on every page
        open_shop(place(shop, records), port, tablets=tablets, plain=plain, browser=not no_browser)


def _leave_circles() -> None:
    """No looking for circles among the many small records: not while a command runs, nor as it ends.

    It ends within seconds and gives all back at once; the looking costs a fifth of its time, for nothing.
    """
    gc.disable()
    click.get_current_context().call_on_close(gc.enable)  # whoever calls a command from Python goes on
    atexit.register(gc.freeze)


def _read(order_file: Path) -> bytes:
    from panewright import desk

    return desk.read(order_file)


def _own_figures(shop: Path | None) -> Actuals | None:
    """What a shop's records say; nothing is read where none is named."""
    if shop is None:
        return None
    from panewright.desk.records import by_command
    from panewright.desk.records.place import place

    return by_command.actuals(place(shop))


cli.add_command(catalogue)
cli.add_command(ledger)
cli.add_command(buy)
cli.add_command(lot)
cli.add_command(curve)
cli.add_command(tables)
cli.add_command(rate)
cli.add_command(fault)
cli.add_command(chart)
cli.add_command(array)
