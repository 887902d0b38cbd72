"""Whose records a command asks: said by every command in the same words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

PATH = click.Path(path_type=Path)


def of_a_shop(command: Callable[..., Any]) -> Callable[..., Any]:
    """Which shop's records: said by every command in the same words."""
    shop = click.option(
        "--shop", envvar="PANEWRIGHT_SHOP", type=PATH, help="The shop's folder.  [default: ~/panewright]"
    )
    records = click.option(
        "--records",
        envvar="PANEWRIGHT_RECORDS",
        default="",
        help="A database's URL.  [default: SHOP/shop.db]",
    )
    return shop(records(command))
