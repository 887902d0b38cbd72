"""`panewright buy`: what accepted orders lack, what was ordered, what came, and what can leave when."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import click

from panewright.cli.day import DAY
from panewright.cli.of_a_shop import PATH, of_a_shop
from panewright.cli.plainly import told_plainly

_BY = click.option("--by", required=True, help="Who says so.")


@click.group()
def buy() -> None:
    """Buy for all accepted orders together: what is missing, from whom, by when, and what can leave when."""


@buy.command()
@click.argument("order")
@click.option("--promised", type=DAY, help="The day promised to the customer.")
@click.option("--state", default="accepted", show_default=True, help="accepted, delivered or called off.")
@_BY
@of_a_shop
def promise(
    order: str, promised: datetime | None, state: str, by: str, shop: Path | None, records: str
) -> None:
    """Say where ORDER stands; only accepted orders are bought for."""
    with told_plainly():
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying

        with desk.opened(desk.place(shop, records)) as ledger:
            kept = buying.promise(ledger, order, state, _day(promised), _who(by))
        click.echo(f"{kept.order} is {kept.state}{f', promised {kept.promised}' if kept.promised else ''}.")


@buy.command("list")
@click.option("--date", "day", type=DAY, help="As of which day.  [default: today]")
@click.option("--to", "folder", type=PATH, help="Write pages, a workbook and a plain list there, too.")
@of_a_shop
def list_(day: datetime | None, folder: Path | None, shop: Path | None, records: str) -> None:
    """Print what is missing, supplier by supplier, and what can leave when."""
    with told_plainly():
        from panewright.desk.folder import write_all
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying

        with desk.opened(desk.place(shop, records)) as ledger:
            found = buying.to_buy(ledger, today=_day(day) or datetime.now(UTC).date())
        for line in buying.told(found):
            click.echo(line)
        if folder is not None:
            files = buying.written(found)
            write_all(folder, files)
            click.echo(f"{folder} holds {', '.join(files)}.")


@buy.command("order")
@click.argument("supplier")
@click.argument("number")
@click.option("--date", "day", type=DAY, help="The day of ordering.  [default: today]")
@_BY
@of_a_shop
def order_(
    supplier: str, number: str, day: datetime | None, by: str, shop: Path | None, records: str
) -> None:
    """Write down as ordered, under NUMBER, everything that is to buy from SUPPLIER."""
    with told_plainly():
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying

        today = _day(day) or datetime.now(UTC).date()
        with desk.opened(desk.place(shop, records)) as ledger:
            lines = buying.order_from(ledger, supplier, number, _who(by), today=today)
        for line in lines:
            click.echo(f"{number}/{line.line}  {line.goods.amount:f} {line.goods.unit} {line.goods.item}")


@buy.command()
@click.argument("number")
@click.argument("line", type=int)
@click.argument("amount")
@click.option("--lot", default="", help="The mark of the lot it is kept under.")
@_BY
@of_a_shop
def came(number: str, line: int, amount: str, lot: str, by: str, shop: Path | None, records: str) -> None:
    """AMOUNT of LINE of the goods NUMBER came in; it may be a part."""
    with told_plainly():
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying
        from panewright.desk.stores.shelved import amount_of

        with desk.opened(desk.place(shop, records)) as ledger:
            left = buying.receive(ledger, number, line, amount_of(amount), _who(by), lot)
        click.echo(f"{left.to_come:f} {left.goods.unit} {left.goods.item} are still to come.")


@buy.command()
@click.argument("number")
@click.argument("line", type=int)
@_BY
@of_a_shop
def back(number: str, line: int, by: str, shop: Path | None, records: str) -> None:
    """What came in last of LINE of the goods NUMBER is taken back.

    It is on order again, unless the line is over.
    """
    with told_plainly():
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying

        with desk.opened(desk.place(shop, records)) as ledger:
            left = buying.take_back(ledger, number, line, _who(by))
        over = f" {number}/{line} is over: nothing of it is on order." if left.ended else ""
        click.echo(f"{left.to_come:f} {left.goods.unit} {left.goods.item} are still to come.{over}")


@buy.command()
@click.argument("number")
@click.argument("line", type=int)
@click.option("--reason", required=True, help="Why nothing more will come.")
@_BY
@of_a_shop
def over(number: str, line: int, reason: str, by: str, shop: Path | None, records: str) -> None:
    """Nothing more will come of LINE of the goods NUMBER."""
    with told_plainly():
        from panewright.desk.records import place as desk
        from panewright.desk.stores import buying

        with desk.opened(desk.place(shop, records)) as ledger:
            buying.end(ledger, number, line, reason, _who(by))
        click.echo(f"{number}/{line} is over.")


def _day(given: datetime | None) -> date | None:
    return given.date() if given else None


def _who(by: str) -> Any:
    from panewright.desk.shop.who import Who

    return Who.now(by)
