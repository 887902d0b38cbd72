"""Several figures in one line: each with its unit, or the unit once behind the last."""

from __future__ import annotations

import re
from collections.abc import Sequence

from panewright.order.answers import Answers
from panewright.units import UnitError, read_exact

_FIGURE = re.compile(r"[+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)")
_WITH_UNIT = re.compile(rf"(?:{_FIGURE.pattern})\s*(.*)")
_PART = re.compile(r"[;,]\s+|[;,]$|\s*\|\s*")
TWELVE = (1, 12)  #: one figure stands for all months

Bounds = tuple[float, float]


def parts(line: str) -> tuple[str, ...]:
    """Words between commas.

    >>> parts("0042, 0043 ,0044,")
    ('0042', '0043', '0044')
    """
    return tuple(each.strip() for each in line.split(",") if each.strip())


def figures(line: str, kind: str) -> tuple[float, ...]:
    """The numbers of a line, in the base unit of their kind; `UnitError` for the first that is none.

    >>> figures("1 2.5 4 degC", "temperature"), figures("10 A, 200 mA", "current")
    ((1.0, 2.5, 4.0), (10.0, 0.2))
    """
    texts = [each.strip() for each in _PART.split(line.strip()) if each.strip()]
    if len(texts) == 1:
        texts = _apart(texts[0])
    found = _WITH_UNIT.fullmatch(texts[-1]) if texts else None
    if found is None:
        return (float(read_exact(line, kind)),)  # tells what is wrong with it
    return tuple(
        float(read_exact(f"{each} {found.group(1)}" if _FIGURE.fullmatch(each) else each, kind))
        for each in texts
    )


def _apart(line: str) -> list[str]:
    """Figures with blanks between them, the last with what follows it."""
    words = line.split()
    count = next((n for n, word in enumerate(words) if not _FIGURE.fullmatch(word)), len(words))
    return [*words[: count - 1], " ".join(words[count - 1 :])] if count > 1 else [line]


def several(
    answers: Answers, dotted: str, kind: str, counts: Sequence[int], within: Bounds, cure: str
) -> tuple[float, ...] | None:
    """So many figures within bounds, one told for all where that is allowed; None where wrong or left out."""
    line = answers.sound_word(dotted)
    if line is None:
        return None
    try:
        found = figures(line, kind)
    except UnitError as mistake:
        answers.wrong(dotted, mistake.reason, f"{cure} The unit may stand once, behind the last figure.")
        return None
    if len(found) not in counts:
        many = " or ".join(str(count) for count in counts)
        answers.wrong(dotted, f"There are {len(found)} figures, not {many}.", cure)
        return None
    for number, figure in enumerate(found, 1):
        if not within[0] <= figure <= within[1]:
            reason = f"Figure {number} is {figure:g}; it lies from {within[0]:g} to {within[1]:g}."
            answers.wrong(dotted, reason, cure)
            return None
    return found if len(found) == max(counts) else found * max(counts)
