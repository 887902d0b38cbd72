"""`panewright rate`: a measured panel at standard conditions, how sure, and the verdict."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from panewright.cli.day import DAY
from panewright.cli.of_a_curve import of_a_curve, parted
from panewright.cli.of_a_shop import PATH, of_a_shop
from panewright.cli.plainly import told_plainly

if TYPE_CHECKING:
    from datetime import datetime

    from panewright.desk.rating.by_command import Asked
    from panewright.desk.rating.rated import PanelRated

_WORDS = (
    ("light_by", "light.by"),
    ("light", "light.reading"),
    ("heat_by", "heat.by"),
    ("heat", "heat.reading"),
)


@click.command()
@of_a_curve
@click.option("--light-by", default="", help="'reference cell', 'clear sky' ...; goes before the file.")
@click.option("--light", default="", help="What it read: '85.7 mV', '851 W/m2'.  [default: as CURVE says]")
@click.option("--heat-by", default="", help="'back sensor', 'Voc itself' ...; goes before the file.")
@click.option("--heat", default="", help="What it read: '45.4 C'.  [default: as CURVE says]")
@click.option("--day", type=DAY, help="When it was measured.  [default: as the files say]")
@click.option("--serial", default="", help="Rate this serial as it was built, by the records of --shop.")
@click.option("--by", default="", help="Who measured it; with --serial it is kept in the records.")
@click.option("--set-aside", "aside", default="", help="Why SERIAL's newest rating counts no more; no CURVE.")
@click.option("--to", "folder", type=PATH, help="Write the test report there: a PDF.")
@click.option("--json", "as_json", is_flag=True, help="Print everything for a program to read.")
@of_a_shop
def rate(
    files: tuple[Path, ...],
    bench: Path | None,
    light_by: str,
    light: str,
    heat_by: str,
    heat: str,
    day: datetime | None,
    mapping: Path | None,
    serial: str,
    by: str,
    aside: str,
    folder: Path | None,
    as_json: bool,
    shop: Path | None,
    records: str,
) -> None:
    """Rate a measured panel: quality, figures at STC with their bands, budget, label, verdict.

    CURVE is a table of sweeps (CSV, XLSX) or a meter's readings (TOML). ORDER is what the panel was built
    by; with --serial the records know it. Answers 0 where it passes, else 1.
    """
    if aside.strip():
        _set_aside((files, serial, by), aside, (shop, records))
        return
    order, curve = parted(files, serial)
    typed = {"light_by": light_by, "light": light, "heat_by": heat_by, "heat": heat}
    words = {key: typed[name] for name, key in _WORDS if typed[name].strip()}
    words |= {"day": f"{day:%Y-%m-%d}"} if day else {}
    with told_plainly():
        from panewright.desk.rating import by_command, papers
        from panewright.desk.records import place as places

        house = places.place(shop, records).folder
        asked = by_command.Asked(curve, bench, words, mapping, serial, house)
        made = _made(order, asked, (shop, records, by))
        _tell(made, as_json)
        if folder is not None:
            click.echo(f"The report lies in {folder}: {papers.write(made, folder)}", err=as_json)
    sys.exit(0 if made.rating.verdict == "pass" else 1)


def _set_aside(named: tuple[tuple[Path, ...], str, str], why: str, shop: tuple[Path | None, str]) -> None:
    """The newest rating of a serial that counts."""
    files, serial, by = named
    if files or not serial or not by.strip():
        raise click.UsageError("--set-aside is of a kept rating: name --serial and --by, and no file.")
    with told_plainly():
        from panewright.desk.rating.aside import newest, set_aside
        from panewright.desk.records import place as places
        from panewright.desk.shop.who import Who

        with places.opened(places.place(*shop)) as ledger:
            set_aside(ledger, serial, newest(ledger, serial), why, Who.now(by.strip()))
    click.echo(f"The newest rating of {serial} is set aside. It stays in the records and counts no more.")


def _made(order: Path | None, asked: Asked, shop: tuple[Path | None, str, str]) -> PanelRated:
    """By the order, or by the records, which keep it where it is said who measured."""
    from panewright.desk.rating import by_command

    if order is not None:
        return by_command.of_order(order, asked)
    from panewright.desk.records import place as places

    folder, records, by = shop
    with places.opened(places.place(folder, records)) as ledger:
        return by_command.of_serial(ledger, asked, by)


def _tell(made: PanelRated, as_json: bool) -> None:
    from panewright.desk.rating import lines, recorded
    from panewright.paper.record import json_bytes

    if as_json:
        click.echo(json_bytes(recorded.of_rating(made)).decode().rstrip("\n"))
        return
    for line in lines.lines(made):
        click.echo(line)
