"""How a pane's strength was reckoned, step by step, for the engineer who doubts it.

The same figures as in `verdict`, one row each: for ASTM E1300 the non-factored load, the glass type factor of
each part's duration, and the load that they let the combination be; for EN 16612 k_mod, the glass's own part
and what toughening adds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Sheet
from panewright.glass.strength import e1300, en16612
from panewright.glass.verdict.proof import Family


@dataclass(frozen=True, slots=True)
class Step:
    """One figure on the way."""

    words: str
    value: float
    unit: str


def strength_steps(
    sheet: Sheet, family: Family, load: PaneLoad, non_factored_pa: float | None
) -> tuple[Step, ...]:
    """Steps to the strength of one load; none where the book does not cover the sheet, or goes ply by ply."""
    if sheet.material != "glass":
        return ()
    if family == "EN":
        return tuple(_en(sheet, load))
    if non_factored_pa is None or sheet.plies or sheet.surface != "plain":
        return ()
    return tuple(_asce(sheet, load, non_factored_pa))


def _asce(sheet: Sheet, load: PaneLoad, non_factored_pa: float) -> Iterator[Step]:
    parts = load.parts or (load,)
    for part in parts:
        factor = e1300.type_factor(sheet.treatment, part.duration_s)
        if factor is None:
            return
        yield Step(f"glass type factor of {sheet.treatment} glass under {part.name}", factor, "-")
    use = e1300.combined_use(parts, non_factored_pa, sheet.treatment)
    if use:
        words = "load resistance: factor times non-factored load, parts by their shares"
        yield Step(words, load.pressure_pa / use, "Pa")
        yield Step(f"load in {load.name}", load.pressure_pa, "Pa")


def _en(sheet: Sheet, load: PaneLoad) -> Iterator[Step]:
    whole = en16612.strength_mpa(sheet.treatment, load.duration_s, sheet.surface)
    if whole is None:
        return
    own = en16612.own_part_mpa(load.duration_s, sheet.surface)
    yield Step(f"k_mod in {load.name}", en16612.k_mod(load.duration_s), "-")
    yield Step("the glass's own part, k_mod k_sp f_gk over 1.6", own, "MPa")
    yield Step("what toughening adds, f_bk less f_gk over 1.2", whole - own, "MPa")
    yield Step("design strength f_gd, both together", whole, "MPa")
