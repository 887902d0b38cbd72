"""Whose records a command asks: said by every command in the same words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

PATH = click.Path(path_type=Path)


def goes_by(_context: click.Context, _option: click.Parameter, shop: Path | None) -> Path | None:
    """The shop that was named, by whose own tables everything is reckoned from here on."""
    from panewright.desk.own_shelf import go_by_shop

    go_by_shop(shop)
    return shop


def goes_by_named(context: click.Context, option: click.Parameter, shop: Path | None) -> Path | None:
    """As `goes_by`; where no shop is named none is meant."""
    return goes_by(context, option, shop) if shop else None


def of_a_shop(command: Callable[..., Any]) -> Callable[..., Any]:
    """Which shop's records: said by every command in the same words."""
    shop = click.option(
        "--shop",
        envvar="PANEWRIGHT_SHOP",
        type=PATH,
        callback=goes_by,
        help="The shop's folder.  [default: ~/panewright]",
    )
    records = click.option(
        "--records",
        envvar="PANEWRIGHT_RECORDS",
        default="",
        help="A database's URL.  [default: SHOP/shop.db]",
    )
    return shop(records(command))
