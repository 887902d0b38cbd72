"""What the lines of a file say of one sweep, put together; what a person gave goes before it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from panewright.intake.curves.blocks import Block
from panewright.intake.curves.facts import Fact, last
from panewright.intake.curves.mapping import CLOCK, Columns, CurveMapping
from panewright.intake.curves.moments import Moment, moment
from panewright.intake.curves.quantity import GIVEN, QUANTITIES
from panewright.intake.curves.sweeps import Said

_AROUND = (*GIVEN, "isc_a", "voc_v")  # may be read before and after


def said_of(block: Block, columns: Columns, mapping: CurveMapping, rows: NDArray[np.int64]) -> Said:
    """What holds of the sweep that stands in some rows of a block, by their places."""
    facts = block.facts
    during = {name: fact.value for name in _AROUND if (fact := last(facts, name)) and np.isfinite(fact.value)}
    words = tuple(fact.text for fact in facts if fact.quantity == "remark")
    row = int(rows[0])
    began = _began(block, columns, row)
    return Said(
        {**during, **mapping.given},
        _when(facts, "before"),
        _when(facts, "after"),
        _serial(block, columns, row),
        began.whole,
        (*words, *_remarks(block, columns, rows)),
        began.day,
    )


def _when(facts: Iterable[Fact], when: str) -> dict[str, float]:
    """What was read before, or after."""
    told = tuple(facts)
    return {
        name: fact.value
        for name in _AROUND
        if name in QUANTITIES and (fact := last(told, name, when)) and np.isfinite(fact.value)
    }


def _serial(block: Block, columns: Columns, row: int) -> str:
    for each in columns:
        if each.quantity == "serial":
            return block.columns[each.column - 1][row].strip()
    return next((fact.text for fact in reversed(block.facts) if fact.quantity == "serial"), "")


def _remarks(block: Block, columns: Columns, rows: NDArray[np.int64]) -> Iterator[str]:
    """What is remarked beside the points, each with its row."""
    for each in columns:
        if each.quantity == "remark":
            texts = block.columns[each.column - 1]
            yield from (
                f"row {block.row_numbers[row]}: {texts[row].strip()}" for row in rows if texts[row].strip()
            )


def _began(block: Block, columns: Columns, row: int) -> Moment:
    """When a sweep began: by its own columns of date and clock, else by the lines above."""
    parts = [last(block.facts, name) for name in ("date", "time")]
    found = [fact.moment for fact in parts if fact and fact.moment]
    for each in columns:
        if each.quantity == "date" or (each.quantity == "time" and each.unit == CLOCK):
            own = moment(block.columns[each.column - 1][row])
            found += [own] if own else []
    together = Moment()
    for part in found:
        together = replace(
            together,
            day=together.day if part.day is None else part.day,
            clock_s=together.clock_s if part.clock_s is None else part.clock_s,
        )
    return together
