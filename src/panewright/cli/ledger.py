"""`panewright ledger`: the records backed up, put back, looked over, written out, shown, and erased."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from pathlib import Path

import click

from panewright.cli.day import DAY
from panewright.cli.of_a_shop import PATH, of_a_shop
from panewright.cli.plainly import told_plainly


@click.group()
def ledger() -> None:
    """Look after the shop's records: back up, restore, check, export, show, find panels, erase."""


@ledger.command()
@click.argument("file", required=False, type=PATH)
@of_a_shop
def backup(file: Path | None, shop: Path | None, records: str) -> None:
    """Write all records and files to FILE, while the shop works on.  [default: SHOP/backups/NOW.zip]"""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        made = desk.backup(place(shop, records), file, at=datetime.now(UTC))
        click.echo(f"{made.path} holds {made.rows} rows and {made.files} files.")
        for digest in made.missing:
            click.echo(f"The file {digest[:12]} is missing, or is not what was kept.", err=True)
    sys.exit(1 if made.missing else 0)


@ledger.command()
@click.argument("file", type=PATH)
@of_a_shop
def restore(file: Path, shop: Path | None, records: str) -> None:
    """Put the backup FILE in the place of the records; what stands is moved aside, not destroyed."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        done = desk.restore(place(shop, records), file, at=datetime.now(UTC))
        click.echo(f"{done.rows} rows and {done.files} files are back.")
        if done.aside:
            click.echo(f"What stood before is kept: {done.aside}")


@ledger.command()
@of_a_shop
def check(shop: Path | None, records: str) -> None:
    """Look over every row and file. Answers 0 where all is sound, 1 where something is not."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        found = desk.check(place(shop, records))
        for fault in found.faults:
            click.echo(fault)
        if not found.faults:
            click.echo(f"{found.rows} rows and {found.files} files are sound.")
    sys.exit(1 if found.faults else 0)


@ledger.command()
@click.argument("folder", type=PATH)
@of_a_shop
def export(folder: Path, shop: Path | None, records: str) -> None:
    """Write every table as CSV and JSON, and all files, into a new FOLDER."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        rows = desk.export(place(shop, records), folder)
        click.echo(f"{folder} holds {rows} rows.")


@ledger.command()
@click.argument("serial")
@of_a_shop
def show(serial: str, shop: Path | None, records: str) -> None:
    """Print the whole life of the panel SERIAL."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        click.echo(desk.show(place(shop, records), serial), nl=False)


@ledger.command()
@click.argument("name", metavar="BATCH")
@of_a_shop
def batch(name: str, shop: Path | None, records: str) -> None:
    """Print every panel that holds, or once held, something of BATCH, or of the lot that bears this mark."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        _listed(desk.batch(place(shop, records), name))


@ledger.command()
@click.argument("name")
@click.option("--since", type=DAY, help="The first day that counts.")
@click.option("--until", type=DAY, help="The last day that counts.")
@of_a_shop
def instrument(
    name: str, since: datetime | None, until: datetime | None, shop: Path | None, records: str
) -> None:
    """Print every panel that the instrument NAME was used on, itself or its cells."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        days = (day.date() if day else None for day in (since, until))
        _listed(desk.instrument(place(shop, records), name, *days))


def _listed(lines: tuple[str, ...]) -> None:
    for line in lines or ("No panel.",):
        click.echo(line)


@ledger.command()
@click.argument("mark")
@of_a_shop
def customer(mark: str, shop: Path | None, records: str) -> None:
    """Print all that the records hold of the customer MARK, as JSON."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        click.echo(desk.customer(place(shop, records), mark), nl=False)


@ledger.command()
@click.argument("mark")
@click.option("--reason", required=True, help="Why: it is kept, without the customer's name.")
@click.option("--by", required=True, help="Who erases.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@of_a_shop
def erase(mark: str, reason: str, by: str, yes: bool, shop: Path | None, records: str) -> None:
    """Erase name, address, mail and phone of the customer MARK; the panels' technical record stays."""
    with told_plainly():
        from panewright.desk.records import by_command as desk
        from panewright.desk.records.place import place

        there = place(shop, records)
        if not yes:
            click.confirm(f"Erase the details of {mark} for good?", abort=True)
        done = desk.erase(there, mark, reason=reason, by=by, at=datetime.now(UTC))
        click.echo(f"The details of {mark} are erased, and taken out of {done.texts} texts.")
        click.echo("Papers already written still hold them, and so does every copy made before:")
        for copy in done.copies:
            click.echo(f"  {copy}")
        for number in done.numbers:
            click.echo(f"This number holds them, and stays: {number}")
        for name in done.arrays:
            click.echo(f"This array holds panels of theirs, and tells where they stand: {name}")
        if not done.overwritten:
            click.echo("Old bytes lie in the database until everybody who uses it now has closed it.")
        for name in done.files:
            click.echo(f"Look at this file: {name}")
