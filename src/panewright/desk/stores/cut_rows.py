"""The rows of a cutting plan: one bar, sheet or spool each, and what is cut from it in which order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from panewright.desk.stores.cut_plan import Plan, Units
from panewright.desk.stores.racks import BOUGHT, Source

if TYPE_CHECKING:
    from panewright.cutting.plan import BarCut
    from panewright.cutting.sheets.sheet_plan import SheetCut
    from panewright.cutting.spools import SpoolCut
    from panewright.ledger.stores.cuts import PieceCut


@dataclass(frozen=True, slots=True)
class Row:
    """One bar, sheet or spool of a plan, and all that is cut from it."""

    number: int  #: from 1
    form: Literal["bar", "sheet", "spool"]
    source: Source
    pieces: tuple[PieceCut, ...]  #: in the order in which they are cut; neighbours alike stand together
    rests: tuple[tuple[float, float | None], ...]  #: length and width of what goes back into the rack
    cut: BarCut | SheetCut | SpoolCut


def rows(plan: Plan) -> tuple[Row, ...]:
    """Every bar, sheet and spool, numbered through."""
    return tuple(_numbered(plan))


def part_units(plan: Plan, item: str) -> Units:
    """In which bars, sheets and rests of a part are told: inches where every piece of it is."""
    if not plan.inches:
        return plan.units
    whose = {piece.order for row in rows(plan) if row.source.item == item for piece in row.pieces}
    return "us" if whose <= set(plan.inches) else plan.units


def _numbered(plan: Plan) -> Iterator[Row]:
    number = 0
    for item, bars in plan.together.bars:
        for bar in bars.bars:
            number += 1
            rests = ((bar.kept.length_mm, None),) if bar.kept else ()
            source = _source(plan, item, bar.name, ("bar", bar.bar_mm, None))
            yield Row(number, "bar", source, _of_bar(item, bar), rests, bar)
    for item, sheets in plan.together.sheets:
        for sheet in sheets.sheets:
            number += 1
            source = _source(
                plan, item, sheet.sheet.name, ("sheet", sheet.sheet.width_mm, sheet.sheet.height_mm)
            )
            sides = tuple((each.width_mm, each.height_mm) for each in sheet.kept)
            yield Row(number, "sheet", source, _of_sheet(item, sheet), sides, sheet)
    for item, spools in plan.together.spools:
        for spool in spools.spools:
            number += 1
            source = _source(plan, item, spool.spool.name, ("spool", spool.spool.length_mm, None))
            left = (
                ((spool.left_mm, None),) if spool.left_mm and source.mark else ()
            )  # a lot's spool stays stock
            yield Row(number, "spool", source, _of_spool(item, spool), left, spool)


Sold = tuple[Literal["bar", "sheet", "spool"], float, float | None]
"""Form, length and width of what is to be bought."""

_UNITS = {"bar": "bar", "sheet": "square metre", "spool": "metre"}


def _source(plan: Plan, item: str, key: str, sold: Sold) -> Source:
    """Where a row comes from; what is still to be bought has no place yet."""
    found = next((each for each in plan.there if (each.item, each.key) == (item, key)), None)
    form, length_mm, width_mm = sold
    return found or Source(key or BOUGHT, form, item, length_mm, width_mm, unit=_UNITS[form])


def _of_bar(item: str, bar: BarCut) -> tuple[PieceCut, ...]:
    return _runs([(each.order, item, each.name, each.length_mm, None) for each in bar.pieces])


def _of_sheet(item: str, sheet: SheetCut) -> tuple[PieceCut, ...]:
    return _runs(
        [(p.order, item, p.name, p.width_mm, p.height_mm) for p in (each.panel for each in sheet.panels)]
    )


def _of_spool(item: str, spool: SpoolCut) -> tuple[PieceCut, ...]:
    from panewright.ledger.stores.cuts import PieceCut

    return tuple(PieceCut(p.order, item, p.name, p.length_mm, None, n) for p, n in spool.pieces)


def _runs(pieces: list[tuple[str, str, str, float, float | None]]) -> tuple[PieceCut, ...]:
    """Neighbours alike as one line with their number."""
    from itertools import groupby

    from panewright.ledger.stores.cuts import PieceCut

    return tuple(PieceCut(*kind, len(list(run))) for kind, run in groupby(pieces))
