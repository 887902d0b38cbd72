"""A part by the name it has on the shelf."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from panewright.order.answers import Answers
from panewright.shelf.key import nearest
from panewright.shelf.shelf import Row

Part = TypeVar("Part")

_MOST_LISTED = 8


def pick(answers: Answers, dotted: str, rows: Sequence[Row[Part]]) -> Part | None:
    """The part with the name that stands at a key; a name the shelf lacks is told with the nearest one."""
    name = answers.raw.get(dotted)
    if not isinstance(name, str) or answers.faulty(dotted):
        return None
    wanted = _plain(name)
    if not wanted:
        answers.wrong(dotted, "Nothing is written here.", "Name a part of the shelf, or leave the key out.")
        return None
    for row in rows:
        if _plain(row.name) == wanted:
            return row.part
    names = [row.name for row in rows]
    if not names:
        answers.wrong(
            dotted, "The shelf's table for this has no row.", "Write one, or describe the part in full."
        )
        return None
    more = ", ..." if len(names) > _MOST_LISTED else ""
    cure = f"The shelf has {', '.join(names[:_MOST_LISTED])}{more}."
    answers.wrong(dotted, f"The shelf has no {name.strip()[:60]}.{nearest(name, names)}", cure)
    return None


def _plain(name: str) -> str:
    return "".join(name.lower().replace("×", "x").split())
