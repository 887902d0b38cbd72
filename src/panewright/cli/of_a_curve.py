"""Which measured panel a command asks of: said by every command in the same words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from panewright.cli.of_a_shop import PATH


def of_a_curve(command: Callable[..., Any]) -> Callable[..., Any]:
    """The order, the curve, how light and heat were known, and what its columns are."""
    files = click.argument("files", metavar="[ORDER] CURVE", nargs=-1, type=PATH)
    bench = click.option(
        "--bench", type=PATH, help="A file that says how light and heat were known, and the instruments."
    )
    mapping = click.option(
        "--mapping", type=PATH, help="Read the columns as this file says, kept by `curve --keep`."
    )
    return files(bench(mapping(command)))


def parted(files: tuple[Path, ...], serial: str) -> tuple[Path | None, Path]:
    """The order, where one is named, and the curve."""
    if len(files) > 2 or not files or (len(files) == 1 and not serial):
        raise click.UsageError("Name the order and the curve; with --serial the curve alone.")
    return (files[0] if len(files) == 2 else None), files[-1]
