"""The cell: named from the shelf, or described in full; whole or cut; how its lot scatters."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import hypot

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import impossible
from panewright.cell.shape import area_mm2
from panewright.order.answers import Answers
from panewright.order.schema import CELL_IN_FULL, CELL_NEEDS
from panewright.order.sections.named import pick
from panewright.shelf.key import Value
from panewright.shelf.parts import cell
from panewright.shelf.reading import Reading
from panewright.shelf.shelf import Shelf

_CUTS = {"whole": 1, "half": 2, "third": 3}


def read_cell(answers: Answers, shelf: Shelf) -> CellKind | None:
    """The [cell] section; None only where a mistake has been told."""
    parts = _parts(answers)
    described = [key.name for key in CELL_IN_FULL if answers.given(f"cell.{key.name}")]
    name = answers.sound_word("cell.name")
    if described:
        kind = _in_full(answers, shelf, name)
    elif answers.given("cell.name"):
        kind = pick(answers, "cell.name", shelf.cells)
    else:
        cure = 'Add the name of a shelf cell, such as name = "156 mm poly", or describe the cell in full.'
        answers.wrong("cell.name", "The order does not say which cell.", cure)
        kind = None
    spread = answers.sound_number("cell.spread")
    return replace(kind, parts=parts, spread=spread) if kind else None


def _parts(answers: Answers) -> int:
    """Into how many strips each cell is cut, said as a number or as a word."""
    count, cut = answers.sound_count("cell.parts"), answers.sound_word("cell.cut")
    if count and cut and _CUTS[cut] != count:
        answers.wrong(
            "cell.cut", f"parts = {count} and cut = {cut} contradict each other.", "Keep one of them."
        )
    if not answers.given("cell.parts") and not answers.given("cell.cut"):
        answers.assume("cell.cut", "whole", "cells are used as bought unless the order cuts them")
        return 1
    return count or _CUTS.get(cut or "", 1)


def _in_full(answers: Answers, shelf: Shelf, name: str | None) -> CellKind | None:
    """A cell described in full; a shelf cell cannot be described anew under its own name."""
    if name and any(name.lower() == row.name.lower() for row in shelf.cells):
        cure = "Drop the description, or give the cell another name."
        answers.wrong("cell.name", "This cell stands on the shelf, yet it is described here too.", cure)
        return None
    for key in CELL_NEEDS:
        because = (
            "some cells carry plus on the sunny side: look."
            if key == "front"
            else "the cell is described here."
        )
        answers.needs(f"cell.{key}", because)
    before = len(answers.problems)
    for key, reason, cure in _contradictions(answers):
        answers.wrong(f"cell.{key}", reason, cure)
    if len(answers.problems) > before or any(answers.faulty(f"cell.{key.name}") for key in CELL_IN_FULL):
        return None
    return _possible(answers, cell(name or "cell of the order", _described(answers)))


def _described(answers: Answers) -> Reading:
    """Every value of a described cell, defaults taken where it says nothing."""
    if not answers.given("cell.circle"):
        answers.assumed_open("cell.circle", "none", "no circle given: the wafer is a full rectangle")
    values: dict[str, Value] = {}
    for key in CELL_IN_FULL:
        if key.name == "circle" and not answers.given("cell.circle"):
            continue
        measured = key.kind not in ("choice", "count")
        dotted = f"cell.{key.name}"
        values[key.name] = (
            answers.number(dotted)
            if measured
            else answers.count(dotted)
            if key.kind == "count"
            else answers.word(dotted)
        )
    return Reading(values)


def _contradictions(answers: Answers) -> Iterator[tuple[str, str, str]]:
    """Figures that no cell can have at once: key, reason, cure."""
    said = {key.name: answers.sound_number(f"cell.{key.name}") for key in CELL_IN_FULL}
    width, length, circle = said["width"], said["length"], said["circle"]
    if width and length and circle:
        if circle <= max(width, length):
            yield (
                "circle",
                "The circle is smaller than the wafer's side.",
                "Give the diameter of the ingot, not its radius.",
            )
        elif circle >= hypot(width, length):
            yield "circle", "The circle is wider than the diagonal and clips no corner.", "Leave circle out."
    busbars, each = said["busbars"], said["busbar_width"] or 0.1
    if width and busbars and busbars * each > width / 2:
        yield "busbars", "The busbars cover half of the cell or more.", "Check busbars and busbar_width."


def _possible(answers: Answers, kind: CellKind) -> CellKind | None:
    reasons = impossible(kind.nameplate, area_mm2(kind.shape))
    for reason in reasons:
        cure = (
            "Check isc, voc, imp and vmp against the cell's data sheet, and that they are of one whole cell."
        )
        answers.wrong(_blamed(reason), reason, cure)
    return None if reasons else kind


def _blamed(reason: str) -> str:
    """The key that a reason speaks of first."""
    words = reason.lower()
    names = ("isc_per_k", "voc_per_k", "isc", "voc", "imp", "vmp")
    found = {name: words.find(name) for name in names if name in words}
    return f"cell.{min(found, key=found.__getitem__)}" if found else "cell"
