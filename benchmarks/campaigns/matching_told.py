"""What is told of lots matched: how much of sorting's gap to the bound was closed, by kind of lot and aim.

A lot counts by its own share, and all lots of a kind and an aim together by the sum of their gaps. Where
sorting itself lies within a ten-thousandth of the bound nothing is to be gained that a meter shows: such lots
count like the others, and how many they are, and what was closed of their gaps, is told beside them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from campaigns.found import Deviation, Found
from campaigns.kept import Form

LEAST = 0.8  #: of sorting's gap
NOUGHT = 1e-4  #: of the bound: a gap so small is a hundredth of what the best meter reads
_AT_BEST, _MORE = "where sorting is at the bound itself", "where sorting makes fewer panels"
_HARDLY = "where sorting is within 0.01 % of the bound"
_MEAN = "mean share of sorting's gap left open: "
_LOT = "share of sorting's gap left open in the worst lot: "


@dataclass(frozen=True, slots=True)
class Answer:
    """One lot, matched for one aim; values are watts, money or panels, as the aim counts."""

    number: int  #: of the lot, which its chance hangs on
    kind: str
    how: str  #: the aim
    cells: int
    by_sorting: float
    ours: float
    bound: float
    closed: float  #: share of sorting's gap to the bound
    more_panels: bool  #: sorting makes fewer panels; its remainder does not compare
    seconds: float  #: of the processor
    wrong: str  #: what is wrong with it

    @property
    def what(self) -> str:
        """Kind and aim."""
        return f"{self.kind}, {self.how}"

    @property
    def where(self) -> str:
        """Which lot it is."""
        return f"lot {self.number} of {self.cells} cells"

    @property
    def gap(self) -> float:
        """From sorting to the bound."""
        return self.bound - self.by_sorting

    @property
    def counts(self) -> bool:
        """Whether there is a gap to be closed."""
        return not self.more_panels and self.gap > 1e-9 * abs(self.bound)

    @property
    def hardly(self) -> bool:
        """Whether there is a gap, but one that no meter shows."""
        return self.counts and self.gap <= NOUGHT * abs(self.bound)


def told_of(told: Sequence[Answer]) -> Found:
    """What was found of all of them."""
    longest = max(told, key=lambda each: each.seconds)
    groups = {what: [each for each in told if each.what == what] for what in sorted({e.what for e in told})}
    notes = [_note(what, group) for what, group in groups.items()]
    notes.append(
        f"The longest took {longest.seconds:.1f} s of the processor: {longest.what}, {longest.where}"
    )
    return Found(
        "lots matched",
        "plain sorting, a bound from prices that is reckoned again",
        len({each.number for each in told}),
        dict(Counter(_verdict(each) for each in told)),
        tuple(each for what, group in groups.items() for each in _left(what, group)),
        tuple(_wrong(told)),
        tuple(notes),
    )


def _note(what: str, group: Sequence[Answer]) -> str:
    """Least, middle and mean of lots, and of their gaps together."""
    shares = [each.closed for each in group if each.counts]
    more, hardly = sum(each.more_panels for each in group), [each for each in group if each.hardly]
    best = len(group) - len(shares) - more
    rest = [f"{n} {words}" for n, words in ((best, _AT_BEST), (more, _MORE)) if n]
    if hardly:
        rest.append(f"{len(hardly)} {_HARDLY} (of those gaps {together(hardly):.2f} closed)")
    if not shares:
        return f"{what}: " + ", ".join(rest)
    least, middle, mean = min(shares), float(np.median(shares)), float(np.mean(shares))
    figures = f"least {least:.2f}, middle {middle:.2f}, mean {mean:.2f} of {len(shares)} lots"
    return f"{what}: closed {', '.join([figures, f'{together(group):.2f} of all gaps together', *rest])}"


def together(group: Sequence[Answer]) -> float:
    """Share of the sum of gaps that is closed; no number where there is no gap."""
    open_ones = [each for each in group if each.counts]
    gaps = sum(each.gap for each in open_ones)
    return sum(each.ours - each.by_sorting for each in open_ones) / gaps if gaps else float("nan")


def _left(what: str, group: Sequence[Answer]) -> Iterator[Deviation]:
    """What is left open on the mean of lots, and in the worst of them."""
    shown = [each for each in group if each.counts]
    if shown:
        worst, mean = min(shown, key=lambda each: each.closed), float(np.mean([e.closed for e in shown]))
        yield Deviation(_MEAN + what, 1 - mean, 1 - LEAST, f"{len(shown)} lots")
        yield Deviation(_LOT + what, 1 - worst.closed, 1 - LEAST, worst.where)


def _wrong(told: Sequence[Answer]) -> Iterator[str]:
    """The first of each kind of fault."""
    first = {(each.wrong, each.kind): each for each in reversed(told) if each.wrong}
    for each in sorted(first.values(), key=lambda each: each.number):
        yield f"{each.wrong}: {each.what}, {each.where}: {each.by_sorting} {each.ours} {each.bound}"


def _verdict(each: Answer) -> str:
    """How one matching stands."""
    if each.more_panels:
        return "reach a rating with panels that sorting does not make"
    if each.closed == 1:
        return "at the bound"
    return "close four fifths of sorting's gap or more" if each.closed >= LEAST else "leave more open"


def _cells(told: Answer) -> tuple[object, ...]:
    values = (repr(value) for value in (told.by_sorting, told.ours, told.bound, told.closed))
    more = "yes" if told.more_panels else "no"
    return (told.number, told.kind, told.how, told.cells, *values, more, f"{told.seconds:.2f}", told.wrong)


def _read(line: Mapping[str, Any]) -> Answer:
    return Answer(
        int(line["lot"]),
        line["kind"],
        line["aim"],
        int(line["cells"]),
        float(line["by_sorting"]),
        float(line["ours"]),
        float(line["bound"]),
        float(line["closed"]),
        line["more_panels"] == "yes",
        float(line["processor_s"]),
        line["wrong"],
    )


_COLUMNS = (
    "lot", "kind", "aim", "cells", "by_sorting", "ours", "bound", "closed",
    "more_panels", "processor_s", "wrong",
)  # fmt: skip
FORM = Form("lots", _COLUMNS, _cells, _read)
