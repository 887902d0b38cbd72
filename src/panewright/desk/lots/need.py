"""How many cells to buy, asked without an offer: so many good ones, what each step loses, how sure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.errors import Problem, SheetError
from panewright.lots.buying.needed import Needed, chance_enough, needed
from panewright.lots.buying.rate import Rate
from panewright.shelf.key import Fault, Key

MOST_GOOD = 1_000_000
_COUNT = re.compile(r"(\d{1,7})\s+of\s+(\d{1,7})")
_LOST = Key("", "lost", "share", "", "2 %", least="0 %", most="99 %")
_SURE = Key("", "sure", "share", "", "95 %", least="50 %", most="99.999 %")
_BESIDE = 3  #: numbers of cells told on either side, so that one sees what a cell more brings


@dataclass(frozen=True, slots=True)
class Need:
    """What is asked, and the answer."""

    good: int
    steps: tuple[Rate, ...]
    sure: float
    pack: int
    told: Needed
    around: tuple[tuple[int, float], ...]  #: cells bought, and the chance that they are enough


def rate_of(name: str, typed: str) -> Rate:
    """What a step loses, '2 %' or '3 of 100'; `Fault` where it is neither.

    >>> rate_of("soldering", "3 of 100").mean, rate_of("soldering", "2 %").mean
    (0.034653465346534656, 0.02)
    """
    counted = _COUNT.fullmatch(typed.strip())
    try:
        if counted:
            return Rate.counted(name, int(counted[1]), int(counted[2]))
        return Rate.known(name, float(_LOST.read(typed.strip() or "0 %")))
    except Fault:
        raise
    except ValueError as more:
        raise Fault("More are lost than there were.", 'Write it as "3 of 100".') from more


def need(good: int, lost: Sequence[str], sure: str = "95 %", pack: int = 1) -> Need:
    """The fewest cells to buy; every mistake in what is asked at once.

    Each loss is typed as '3 of 100', or with its step: 'soldering: 3 of 100'.
    """
    problems: list[Problem] = []
    steps = tuple(_steps(lost, problems))
    try:
        certain = float(_SURE.read(sure))
    except Fault as fault:
        problems.append(Problem(fault.reason, fault.cure, key="sure", value=sure[:40]))
    for name, value, most in (("good cells", good, MOST_GOOD), ("pack", pack, MOST_GOOD)):
        if not 1 <= value <= most:
            reason = "This number of cells is none."
            problems.append(Problem(reason, f"Write 1 to {most}.", key=name, value=str(value)))
    if problems:
        raise SheetError(problems)
    try:
        told = needed(good, steps, certain, pack)
    except ValueError as never:
        raise SheetError([Problem(f"{never}.", "See what is lost.", key="lost")]) from never
    around = range(max(good, told.cells - _BESIDE), told.cells + _BESIDE + 1)
    chances = tuple((cells, chance_enough(cells, good, steps)) for cells in around)
    return Need(good, steps, certain, pack, told, chances)


def _steps(lost: Sequence[str], problems: list[Problem]) -> Iterator[Rate]:
    for number, typed in enumerate(lost, 1):
        name, mark, words = typed.rpartition(":")
        try:
            yield rate_of(name.strip() if mark else f"step {number}", words)
        except Fault as fault:
            problems.append(Problem(fault.reason, fault.cure, key="lost", value=typed[:60]))


def told(asked: Need) -> Iterator[str]:
    """The answer in words, and what a cell more or less brings."""
    found = asked.told
    cells = (
        f"{found.bought} cells in {found.packs} packs of {asked.pack}"
        if asked.pack > 1
        else f"{found.cells} cells"
    )
    yield f"For {asked.good} good cells, enough with {100 * asked.sure:.5g} %: buy {cells}."
    for step in asked.steps:
        basis = (
            "taken as known"
            if step.tried is None
            else f"by {step.lost:g} of {step.tried:g}, itself uncertain"
        )
        yield f"  {step.name} loses {step.mean:.2%} ({basis})"
    yield f"They are enough with a chance of {found.sure:.2%}; {found.left:.1f} good ones are expected."
    yield from (f"  of {cells:6} cells: {chance:8.2%}" for cells, chance in asked.around)
