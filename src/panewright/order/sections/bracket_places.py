"""Brackets where the order wants each of them: a list of lengths in one line."""

from __future__ import annotations

from itertools import pairwise

from panewright.order.answers import Answers
from panewright.units import UnitError, read

_KEY = "parts.bracket_places"
_FEWEST, _MOST = 2, 12
_WRITE = 'Write them with units and commas, such as "150 mm, 800 mm, 1450 mm".'


def read_places(answers: Answers) -> tuple[float, ...] | None:
    """Places from a long rail's left end in order [mm]; None where the order leaves them out or is wrong."""
    text = answers.sound_word(_KEY)
    if text is None:
        return None
    _alone(answers)
    try:
        places = tuple(read(one.strip(), "size") for one in text.split(","))
    except UnitError as mistake:
        answers.wrong(_KEY, mistake.reason, _WRITE)
        return None
    flaw = _flaw(places, answers.sound_count("parts.brackets"))
    if flaw:
        answers.wrong(_KEY, *flaw)
        return None
    return places


def _alone(answers: Answers) -> None:
    """Places say all; a distance from the end besides would say it twice."""
    reason = "bracket_places says where every bracket stands."
    answers.bars("parts.bracket_from_end", reason, "Drop bracket_from_end, or drop bracket_places.")


def _flaw(places_mm: tuple[float, ...], count: int | None) -> tuple[str, str] | None:
    """Reason and cure, where such brackets cannot be."""
    number = len(places_mm)
    if not _FEWEST <= number <= _MOST:
        return f"A long rail has {_FEWEST} to {_MOST} brackets, not {number}.", _WRITE
    if count is not None and count != number:
        return f"brackets = {count}, and {number} places are written.", "Drop brackets, or write as many."
    if places_mm[0] < 0 or any(after <= before for before, after in pairwise(places_mm)):
        return "Places run from the rail's left end to its right, each past the last.", _WRITE
    return None
