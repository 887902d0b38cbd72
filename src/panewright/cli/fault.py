"""`panewright fault`: what is likely wrong with a measured panel, where, and what to measure next."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from panewright.cli.of_a_curve import of_a_curve, parted
from panewright.cli.of_a_shop import PATH, of_a_shop
from panewright.cli.plainly import told_plainly

if TYPE_CHECKING:
    from panewright.desk.fault.found import PanelFound, Tell
    from panewright.desk.rating.by_command import Asked

Lies = Literal["closed", "open"]


@click.command()
@of_a_curve
@click.option("--open", "is_open", is_flag=True, help="The lay-up lies open: needles reach every cell.")
@click.option(
    "--read",
    "read",
    multiple=True,
    metavar="N: VALUES",
    help="What a measurement that was proposed gave: '1: 3.21 3.55'; once for each, in their order.",
)
@click.option("--serial", default="", help="This serial as it was built, by the records of --shop.")
@click.option("--spares", "lot", default="", help="With --serial: cells of this lot may go in its place.")
@click.option("--by", default="", help="Who looks; with --serial finding, curve and --bench are kept.")
@click.option("--mended", default="", help="Keep with SERIAL what was done to it; no CURVE.")
@click.option("--to", "folder", type=PATH, help="Write drawings of the lay-up there, the spot on them.")
@click.option("--json", "as_json", is_flag=True, help="Print everything for a program to read.")
@of_a_shop
def fault(
    files: tuple[Path, ...],
    bench: Path | None,
    mapping: Path | None,
    is_open: bool,
    read: tuple[str, ...],
    serial: str,
    lot: str,
    by: str,
    mended: str,
    folder: Path | None,
    as_json: bool,
    shop: Path | None,
    records: str,
) -> None:
    """Say what is likely wrong with a measured panel, as odds, and which measurement would tell where.

    CURVE and --bench are as for `rate`. Answers 0 where it is not called faulty, else 1.
    """
    if mended.strip():
        _mended((files, serial, by), mended, (shop, records))
        return
    order, curve = parted(files, serial)
    if lot and (order is not None or not serial):
        raise click.UsageError("Spares are of the shop's records: name --serial and the curve alone.")
    lies: Lies = "open" if is_open else "closed"
    with told_plainly():
        from panewright.desk.fault import by_command
        from panewright.desk.rating.by_command import Asked
        from panewright.desk.records import place as places

        asked = Asked(curve, bench, {}, mapping, serial, places.place(shop, records).folder)
        made = _made(order, asked, (by_command.tells_of(read, lies), lies), (shop, records, by, lot))
        _tell(made, as_json)
        if folder is not None:
            click.echo(f"Drawn in {folder}: {', '.join(by_command.write(made, folder))}", err=as_json)
    sys.exit(1 if made.finding.called else 0)


def _made(
    order: Path | None,
    asked: Asked,
    how: tuple[tuple[Tell, ...], Lies],
    shop: tuple[Path | None, str, str, str],
) -> PanelFound:
    from panewright.desk.fault import by_command, kept
    from panewright.desk.records import place as places
    from panewright.desk.shop.who import Who

    folder, records, by, lot = shop
    if order is not None:
        return by_command.of_order(order, asked, *how)
    with places.opened(places.place(folder, records)) as ledger:
        made = by_command.of_serial(ledger, asked, *how, lot)
        if by.strip():
            kept.keep(ledger, made, by_command.files_of(asked), Who.now(by.strip()))
        return made


def _mended(named: tuple[tuple[Path, ...], str, str], words: str, shop: tuple[Path | None, str]) -> None:
    """What was done, kept as a repair of the panel."""
    files, serial, by = named
    if files or not serial or not by.strip():
        raise click.UsageError("--mended is of a panel in the records: name --serial and --by, and no file.")
    with told_plainly():
        from panewright.desk.fault.kept import keep_mended
        from panewright.desk.records import place as places
        from panewright.desk.shop.who import Who

        with places.opened(places.place(*shop)) as ledger:
            keep_mended(ledger, serial, None, {"words": words}, Who.now(by.strip()))
    click.echo(f"Kept with {serial}: mended. Rate it again.")


def _tell(made: PanelFound, as_json: bool) -> None:
    from panewright.desk.fault import lines, recorded
    from panewright.paper.record import json_bytes

    told = recorded.of_finding(made)
    if as_json:
        click.echo(json_bytes(told).decode().rstrip("\n"))
        return
    for line in lines.lines(told):
        click.echo(line)
