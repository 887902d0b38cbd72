"""`panewright chart`: many panels on control charts, and when to stop and look."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from panewright.cli.of_a_shop import of_a_shop
from panewright.cli.plainly import told_plainly


@click.command()
@click.option("--order", default="", help="Of this order alone.  [default: all panels]")
@click.option(
    "--good",
    default=0,
    type=click.IntRange(0, 500),
    help="So many of the first that passed make the limits.  [default: 20, of fewer the first half]",
)
@click.option("--peel", default="", help="Write down joints peeled from one sample: '2.1 1.9 2.4' N/mm.")
@click.option("--serial", default="", help="Of which panel; with --peel.")
@click.option("--by", default="", help="Who peeled them; with --peel.")
@of_a_shop
def chart(order: str, good: int, peel: str, serial: str, by: str, shop: Path | None, records: str) -> None:
    """Chart the shop's panels: rating, string Voc and joint pull, and say when to stop and look.

    Answers 0 where every run is as it should be, else 1.
    """
    if peel and not (serial.strip() and by.strip()):
        raise click.UsageError("--peel is kept with a panel: name it by --serial, and who by --by.")
    with told_plainly():
        from panewright.desk.charts import charted, kept, told
        from panewright.desk.records import place as places
        from panewright.desk.shop.who import Who

        with places.opened(places.place(shop, records)) as ledger:
            if peel:
                kept.keep_pulls(ledger, {"serial": serial, "pulls": peel}, Who.now(by.strip()))
            made = charted.charts(kept.for_charts(ledger, order), good)
        for each in made:
            for line in told.lines(each):
                click.echo(line)
    sys.exit(1 if any(each.stop for each in made) else 0)
