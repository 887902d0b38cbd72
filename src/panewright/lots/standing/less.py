"""A lot without some of its cells: those that lie in panels already, or broke."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import fields, replace

import numpy as np

from panewright.lots.standing.standing import Standing


def without(lot: Standing, marks: Collection[str]) -> Standing:
    """The other cells as they stand; what was learned of the whole lot stays."""
    gone = set(marks)
    stays = np.array([mark not in gone for mark in lot.marks], dtype=bool)
    if stays.all():
        return lot
    arrays = {
        each.name: getattr(lot, each.name)[stays]
        for each in fields(Standing)
        if isinstance(getattr(lot, each.name), np.ndarray) and getattr(lot, each.name).size == stays.size
    }
    kept = tuple(mark for mark in lot.marks if mark not in gone)
    suspects = tuple(each for each in lot.suspects if each.mark not in gone)
    return replace(lot, marks=kept, cells=lot.cells.at(stays), suspects=suspects, **arrays)
