"""What a form says of a deal that is wished for."""

from __future__ import annotations

import re
from collections.abc import Mapping

from panewright.desk.deals.soldered import Soldered
from panewright.desk.deals.soldered import from_text as soldered_text
from panewright.desk.deals.wish import AIMS, Wish
from panewright.errors import Problem, SheetError


def wish_of(typed: Mapping[str, str]) -> Wish:
    """A wish as typed; every mistake in its numbers at once."""
    problems: list[Problem] = []
    numbers = {
        name: _whole(typed.get(name, ""), name, problems) for name in ("panels", "spares", "most_leaky")
    }
    aim = typed.get("aim", "watts")
    if aim not in AIMS:
        problems.append(Problem("There is no such aim.", "Choose one of the list.", key="aim"))
    soldered = _soldered(typed.get("soldered", ""), problems)
    steps = _steps(typed.get("steps", ""), problems) if aim == "money" else ()
    if problems:
        raise SheetError(problems)
    return Wish(
        aim,  # type: ignore[arg-type]
        " ".join(typed.get("rating", "").split())[:40] if aim in ("reach", "remainder") else "",
        steps,
        leaky=" ".join(typed.get("leaky", "").split())[:40],
        reverse=typed.get("reverse") == "yes",
        sure=" ".join(typed.get("sure", "").split())[:40] if aim != "watts" else "",
        reverse_most=" ".join(typed.get("reverse_most", "").split())[:40],
        soldered=soldered,
        **numbers,
    )


def freed(typed: Mapping[str, str]) -> frozenset[int]:
    """Numbers of open deals whose cells may be dealt again."""
    names = (name.removeprefix("free-") for name, said in typed.items() if said == "yes")
    return frozenset(int(name) for name in names if name.isdecimal() and len(name) < 10)


def _whole(typed: str, name: str, problems: list[Problem]) -> int:
    words = typed.strip()
    if not words:
        return 0
    if not words.isdecimal() or len(words) > 6:
        said = name.replace("_", " ")
        problems.append(Problem("This is no whole number.", "Write 0 or more.", key=said, value=words[:40]))
        return 0
    return int(words)


def _steps(typed: str, problems: list[Problem]) -> tuple[tuple[str, str], ...]:
    """A line for each step: '95 W = 80.00'."""
    found = []
    for line in filter(None, map(str.strip, typed.splitlines())):
        watts, mark, price = line.partition("=")
        if not (mark and watts.strip() and price.strip()):
            cure = "Write a line for each, such as 95 W = 80.00."
            problems.append(Problem("This is no price step.", cure, key="steps", value=line[:40]))
        found.append((watts.strip(), price.strip()))
    return tuple(found)


def _soldered(typed: str, problems: list[Problem]) -> Soldered:
    """A line for each string, its marks apart by commas; or the text that the command takes."""
    if "[[string]]" in typed:
        try:
            return soldered_text(typed, "soldered strings")
        except SheetError as mistake:
            problems += mistake.problems
            return ()
    lines = [re.split(r"\s*[,;\t]\s*", line.strip(" ,;")) for line in typed.splitlines()]
    return tuple(tuple(filter(None, line)) for line in lines if any(line))
