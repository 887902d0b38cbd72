"""What a shelf has to hold for an order to be designed: a row of each kind that the order leaves open."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.order.answers import Answers
from panewright.order.order import Parts
from panewright.shelf.shelf import Shelf

_DESCRIBE = ", or describe the part in full under this key"


def read_stocked(answers: Answers, shelf: Shelf, parts: Parts) -> None:
    """Tells each kind of part that the order leaves to the shelf and the shelf has none of."""
    for dotted, table, kind in _lacking(shelf, parts):
        if not answers.given(dotted):
            _tell(answers, dotted, table, kind, _DESCRIBE)
    if answers.sound_count("layout.bypass_diodes") and not shelf.bypasses:
        _tell(answers, "layout.bypass_diodes", "bypasses", "bypass diode", ", or leave this key out")


def _tell(answers: Answers, dotted: str, table: str, kind: str, otherwise: str) -> None:
    cure = f"Write a row into {table}.toml, take that file away so that the packaged one counts{otherwise}."
    answers.wrong(dotted, f"The shelf has no {kind}.", cure)


def _lacking(shelf: Shelf, parts: Parts) -> Iterator[tuple[str, str, str]]:
    """Key, table and kind of each part that is to be chosen from nothing."""
    fronts = any(row.part.material == parts.front for row in shelf.sheets)
    bonds = any(row.part.structural for row in shelf.sealants)
    poured, laminated = parts.encapsulation == "silicone pour", parts.encapsulation == "film"
    for there, dotted, table, kind in (
        (shelf.tabs, "parts.tab", "tabs", "tabbing ribbon"),
        (shelf.buses, "parts.bus", "buses", "bus ribbon"),
        (fronts, "parts.glass", "sheets", f"sheet of {parts.front}"),
        (shelf.rails, "parts.rail", "rails", "rail"),
        (bonds, "parts.sealant", "sealants", "structural silicone"),
        (shelf.pours or not poured, "parts.pour", "pours", "silicone to pour"),
        (shelf.films or not laminated, "parts.film", "films", "laminating film"),
        (shelf.backs, "parts.back", "backs", "back sheet or board"),
        (shelf.foams, "crate.foam", "foams", "foam for a crate"),
    ):
        if not there:
            yield dotted, table, kind
