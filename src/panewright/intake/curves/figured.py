"""A table of a curve's file with the figures of its columns, and which of its rows go together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.intake.curves.blocks import Block
from panewright.intake.curves.mapping import Columns, CurveMapping, Taken
from panewright.intake.curves.quantity import book
from panewright.intake.written import Figures

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class FiguredTable:
    """A block, its columns and their figures."""

    block: Block
    columns: Columns
    read: dict[Taken, Figures]
    mapping: CurveMapping


def idle_rows(table: FiguredTable) -> Mask:
    """Rows in which the log calls the load idle."""
    idle = np.zeros(len(table.block), dtype=bool)
    for each in table.columns:
        if each.quantity == "stage":
            texts = table.block.columns[each.column - 1]
            off = {text for text in set(texts) if text.strip().casefold() in book().idle}
            idle |= np.fromiter((text in off for text in texts), bool, len(texts))
    return idle


def rows_of_each(table: FiguredTable) -> dict[tuple[str, ...], NDArray[np.int64]]:
    """The rows of every number of sweep and every serial that columns say; all of them where none does."""
    keys = [
        table.block.columns[each.column - 1] for each in table.columns if each.quantity in ("sweep", "serial")
    ]
    if not keys:
        return {(): np.arange(len(table.block))}
    labels = list(zip(*keys, strict=True))
    order = {label: place for place, label in enumerate(dict.fromkeys(labels))}
    number = np.fromiter((order[label] for label in labels), np.int64, len(labels))
    return {label: np.flatnonzero(number == place) for label, place in order.items()}
