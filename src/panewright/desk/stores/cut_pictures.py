"""A bar and a sheet of a cutting plan as pictures for a page, from the geometry that the paper has."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.cutting.bars.laid import Laid
    from panewright.cutting.plan import BarCut
    from panewright.cutting.sheets.sheet_plan import SheetCut
    from panewright.desk.stores.cut_plan import Plan
    from panewright.desk.stores.cut_rows import Row

_SCREEN_LETTER_MM = 4.6  #: on a sheet 130 mm wide, as a telephone shows it
_WIDE_PX, _NARROW_PX, _LETTER_PX, _SIGN_PX = 700.0, 300.0, 7.6, 20.0


def picture(row: Row, plan: Plan) -> str:
    """A row as a picture; '' for a spool."""
    if row.form == "bar":
        return bar_picture(row.cut, plan)  # type: ignore[arg-type]
    from panewright.desk.stores.cut_rows import part_units

    return sheet_picture(row.cut, part_units(plan, row.source.item)) if row.form == "sheet" else ""  # type: ignore[arg-type]


def sheet_picture(cut: SheetCut, units: str) -> str:
    """A sheet as on paper, with letters for a screen."""
    from panewright.pack.figures.sheets import sheet_figure
    from panewright.paper import screen

    figure = sheet_figure(cut, 1, units, _SCREEN_LETTER_MM)
    return screen.picture(figure.drawing, units)


def bar_picture(bar: BarCut, plan: Plan) -> str:
    """A bar in shares of its length, so that its letters stay as large on every screen."""
    from panewright.cutting.bars.laid import laid_out

    laid = laid_out(bar, plan.tools.saw)
    drawn = [_box("whole", 0.0, 100.0)]
    for each in laid.pieces:
        drawn += _piece(each, plan.units_of(each.piece.order), of=laid.bar_mm)
    if bar.kept:
        rest = 100 * laid.rest_from_mm / laid.bar_mm
        drawn.append(_box("keep", rest, 100.0))
        if (100 - rest) / 100 * _NARROW_PX > 5 * _LETTER_PX:
            drawn.append(_text("keep", (rest + 100) / 2, ""))
    return f'<svg class="barcut" width="100%" height="52" aria-hidden="true">{"".join(drawn)}</svg>'


def _piece(laid: Laid, units: str, *, of: float) -> Iterator[str]:
    number = f"{laid.number}"
    words = f"{number}: {laid.piece.order} {_short(laid.piece.length_mm, units)}"
    left, right = 100 * laid.left_mm / of, 100 * laid.right_mm / of
    yield _box("piece", left, right)
    share, middle = (right - left) / 100, (left + right) / 2
    if len(words) * _LETTER_PX < share * _WIDE_PX - 8:
        yield _text(words, middle, "wide")
        yield _text(number, middle, "narrow") if share * _NARROW_PX > _SIGN_PX else ""
    elif share * _NARROW_PX > _SIGN_PX:
        yield _text(number, middle, "")
    elif share * _WIDE_PX > _SIGN_PX:
        yield _text(number, middle, "wide")


def _box(look: str, left: float, right: float) -> str:
    return f'<rect class="{look}" x="{left:.3f}%" y="4" width="{right - left:.3f}%" height="44"/>'


def _text(words: str, middle: float, look: str) -> str:
    return f'<text class="{look}" x="{middle:.3f}%" y="32">{escape(words)}</text>'


def _short(length_mm: float, units: str) -> str:
    from panewright.pack.pages.cutting import sides

    return sides(length_mm, None, units).split(" (")[0]
