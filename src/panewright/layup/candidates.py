"""Every sensible way to lay strings of cells on a pane: columns by rows, and the diodes each allows.

A string fills whole columns: its number of cells is columns times rows, no place stays empty. A pin of
the order holds whatever else would be sensible; pins that cannot be met are a person's mistake and
are told with the cure.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from panewright.cell.kind import CellKind
from panewright.cell.shape import Shape
from panewright.errors import OrderError, Problem
from panewright.layup.columns import lanes, reachable_substrings
from panewright.layup.layup import Plan
from panewright.layup.room import Room, end_margin_mm, gap_mm, side_margin_mm

LONGEST_ASPECT = 8.0  #: of the cell field; more slender panels only where nothing else is left


@dataclass(frozen=True, slots=True)
class Pins:
    """What an order pins of its lay-up; None leaves it open."""

    columns: int | None = None
    rows: int | None = None
    substrings: int | None = None
    cell_gap_mm: float | None = None
    string_gap_mm: float | None = None
    side_margin_mm: float | None = None
    end_margin_mm: float | None = None


@lru_cache(maxsize=256)
def candidates(
    kind: CellKind,
    in_series: int,
    strings: int = 1,
    pins: Pins | None = None,
    room: Room | None = None,
) -> tuple[Plan, ...]:
    """All plans for `strings` strings of `in_series` cells (strips, where the cells are cut).

    Raises `OrderError` where no plan meets the pins.
    """
    pins, room = pins or Pins(), room or Room()
    if in_series < 1 or strings < 1:
        raise ValueError(f"a panel has a cell and a string or more, got {in_series} and {strings}")
    found = tuple(_plans(kind, in_series, strings, pins, room))
    if not found:
        raise OrderError([_why_none(in_series, strings, pins)])
    if pins.columns or pins.rows:
        return found
    tidy = tuple(plan for plan in found if plan.rows > 1 or plan.columns_a_string <= 2)
    sensible = tuple(plan for plan in tidy if _slender(plan, strip_shape(kind)) <= LONGEST_ASPECT)
    return sensible or tidy


def strip_shape(kind: CellKind) -> Shape:
    """Width and length of the strips that lie on the pane, one of `parts` equal parts of the cell."""
    if kind.parts == 1:
        return kind.shape
    return replace(kind.shape, length_mm=kind.shape.length_mm / kind.parts)


def _plans(kind: CellKind, in_series: int, strings: int, pins: Pins, room: Room) -> Iterator[Plan]:
    shape = strip_shape(kind)
    for per_string in (n for n in range(1, in_series + 1) if in_series % n == 0):
        columns, rows = per_string * strings, in_series // per_string
        if pins.columns not in (None, columns) or pins.rows not in (None, rows):
            continue
        for substrings in reachable_substrings(per_string):
            if pins.substrings in (None, substrings):
                bare = _bare_plan(shape, (columns, rows, in_series, strings, substrings), pins, room)
                yield _with_margins(bare, shape, pins, room)


def _bare_plan(shape: Shape, counts: tuple[int, int, int, int, int], pins: Pins, room: Room) -> Plan:
    """A plan without margins yet."""
    gap = gap_mm(shape)
    return Plan(
        *counts,
        cell_gap_mm=gap if pins.cell_gap_mm is None else pins.cell_gap_mm,
        string_gap_mm=gap if pins.string_gap_mm is None else pins.string_gap_mm,
        side_margin_mm=0.0,
        end_margin_mm=0.0,
        bus_width_mm=room.bus_width_mm,
    )


def _with_margins(plan: Plan, shape: Shape, pins: Pins, room: Room) -> Plan:
    """A pinned side margin alone holds for the ends as well; open ones make the pane whole millimetres."""
    side = side_margin_mm(room, shape) if pins.side_margin_mm is None else pins.side_margin_mm
    end = pins.side_margin_mm if pins.end_margin_mm is None else pins.end_margin_mm
    if pins.side_margin_mm is None:
        side += _to_whole_mm(plan.columns * shape.width_mm + (plan.columns - 1) * plan.string_gap_mm)
    if end is None:
        end = end_margin_mm(room, shape, plan.rows, lanes(plan))
        end += _to_whole_mm(plan.rows * shape.length_mm + (plan.rows - 1) * plan.cell_gap_mm)
    return replace(plan, side_margin_mm=side, end_margin_mm=end)


def _to_whole_mm(length_mm: float) -> float:
    """Half of what is missing to the next whole millimetre. [mm]"""
    return (math.ceil(length_mm - 1e-9) - length_mm) / 2


def _slender(plan: Plan, shape: Shape) -> float:
    """How many times as long as wide the field of cells is."""
    wide = plan.columns * (shape.width_mm + plan.string_gap_mm)
    high = plan.rows * (shape.length_mm + plan.cell_gap_mm)
    return max(wide, high) / min(wide, high)


def _why_none(in_series: int, strings: int, pins: Pins) -> Problem:
    """Which pin cannot be met, and what could be written instead."""
    cells = in_series * strings
    counts = [n for n in range(1, in_series + 1) if in_series % n == 0]
    if pins.columns and pins.rows and pins.columns * pins.rows != cells:
        reason = (
            f"{pins.columns} columns of {pins.rows} are {pins.columns * pins.rows} places for {cells} cells."
        )
        return Problem(
            reason, f"Every place holds a cell: {_layouts(counts, in_series, strings)}.", key="layout.rows"
        )
    if pins.columns and (pins.columns % strings or pins.columns // strings not in counts):
        reason = f"{cells} cells in {strings} string(s) do not fill {pins.columns} columns."
        cure = f"Write {_listed(n * strings for n in counts)} columns."
        return Problem(reason, cure, key="layout.columns", value=str(pins.columns))
    if pins.rows and in_series % pins.rows:
        reason = f"A string of {in_series} cells does not fill columns of {pins.rows}."
        return Problem(reason, f"Write {_listed(counts)} rows.", key="layout.rows", value=str(pins.rows))
    return _why_no_diodes(counts, in_series, strings, pins)


def _why_no_diodes(counts: list[int], in_series: int, strings: int, pins: Pins) -> Problem:
    allowed = [
        n for n in counts if pins.columns in (None, n * strings) and pins.rows in (None, in_series // n)
    ]
    reached = sorted({count for n in allowed for count in reachable_substrings(n)})
    reason = (
        f"{pins.substrings} bypass diodes a string cannot be reached: a diode's wire leaves only where a bus "
        "joins two columns at the end of the leads, so each substring takes an even number of columns."
    )
    cure = f"Write {_listed(reached)}, or change the number of columns."
    return Problem(reason, cure, key="layout.bypass_diodes", value=str(pins.substrings))


def _layouts(counts: list[int], in_series: int, strings: int) -> str:
    return _listed(f"{n * strings} x {in_series // n}" for n in counts)


def _listed(choices: Iterable[object]) -> str:
    words = [str(choice) for choice in choices]
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]
