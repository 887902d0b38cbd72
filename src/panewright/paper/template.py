"""A drawing to work over at full size: one large sheet, then tiles for a small printer.

Nothing is scaled anywhere. Every page carries a bar of 100 mm and one of 4 inches to prove it with a rule.
"""

from __future__ import annotations

from typing import Any, TypedDict, Unpack

from panewright.drawing.bounds import Bounds
from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import PAPERS, Paper, tile_area
from panewright.paper.svg import frame, svg
from panewright.paper.tile import MARGIN_MM, Tile, tile_drawings, tiling
from panewright.paper.words import SIDES, printable, shortened

BORDER_MM = 12.0  #: round the drawing on the large sheet
STRIP_MM = 36.0  #: under it, for words and check bars
_LARGEST_MM = 5080.0  # the longest side that the file format knows: 14400 points
CARD_MM = 2.0  # round the cards of a sheet
_BARS_MM = 190.0  # a sheet narrower than this has no room for bars beside the words


class Masthead(TypedDict, total=False):
    """What stands on every sheet, and the paper of the tiles: A4 in metric units if nothing is said."""

    order: str
    revision: str
    paper: Paper
    system: str
    stamp: str
    note: str
    cards: tuple[Drawing, ...]


def template_data(drawing: Drawing, **said: Unpack[Masthead]) -> dict[str, Any]:
    """The large sheet and all tiles, or sheets of cards in their stead, as dicts, lists, text and numbers."""
    paper, system = said.get("paper", "A4"), said.get("system", "metric")
    seen = frame(drawing, 1.0, system)
    tiles = tiling(seen, paper)
    pictures = zip(tiles.tiles, tile_drawings(drawing, tiles, system), strict=True)
    cards = said.get("cards", ())
    return {
        "title": shortened(printable(drawing.name), 34.0, 8.5),
        "order": shortened(printable(said.get("order", "")), 58.0, 8.5),
        "revision": shortened(printable(said.get("revision", "")), 19.0, 8.5),
        "side": SIDES[drawing.side],
        "stamp": shortened(printable(said.get("stamp", "")), 40.0, 10.0),
        "note": shortened(printable(said.get("note", "")), 61.0, 7.5),
        "sheet": _sheet(drawing, seen, system),
        "width": PAPERS[paper].width_mm,
        "height": PAPERS[paper].height_mm,
        "margin": MARGIN_MM,
        "rows": tiles.rows,
        "columns": tiles.columns,
        "tiles": [] if cards else [_tile(tile, part, system) for tile, part in pictures],
        "cards": [_card(card, paper, system) for card in cards],
    }


def _sheet(drawing: Drawing, seen: Bounds, system: str) -> dict[str, Any] | None:
    """The page that shows all of the drawing; None where it is longer than any page may be: tiles serve."""
    width = max(seen.width_mm + 2 * BORDER_MM, _BARS_MM)
    height = seen.height_mm + 2 * BORDER_MM + STRIP_MM
    if max(width, height) > _LARGEST_MM:
        return None
    left = (width - seen.width_mm) / 2
    return {
        "width": width,
        "height": height,
        "left": left,
        "top": BORDER_MM,
        "picture": _picture(drawing, seen, system),
    }


def _card(card: Drawing, paper: Paper, system: str) -> dict[str, Any]:
    """A sheet of cards, whose upper left corner is at 0."""
    room = tile_area(paper)
    return _picture(
        card, Bounds(-CARD_MM, -room.height_mm + CARD_MM, room.width_mm - CARD_MM, CARD_MM), system
    )


def _tile(tile: Tile, part: Drawing, system: str) -> dict[str, Any]:
    return {"row": tile.row, "column": tile.column, **_picture(part, tile.window, system)}


def _picture(drawing: Drawing, window: Bounds, system: str) -> dict[str, Any]:
    return {
        "svg": svg(drawing, 1.0, system, window=window),
        "width": window.width_mm,
        "height": window.height_mm,
        "alt": printable(" ".join((drawing.name, drawing.side)).strip()),
    }
