"""Panels that reach a rating, beside a model of another kind that has ten times the time.

Every other round of the four kinds has lots of 240 to 400 cells, in panels as makers build them. Where ours
takes more than two minutes, which is twenty for the model and as much again begun with ours, the model is
not asked, and that is told. The model's time is not capped otherwise. All times are the processor's.
"""

from __future__ import annotations

import time
from collections import Counter
from dataclasses import dataclass, field, replace
from random import Random

import matching_model

from campaigns.found import Found
from campaigns.matching import KINDS, Drawn, cells, fault, soldered, sorted_w, standing, wiring
from panewright.lots.matching.asked import Asked, Limits, MostReaching, MostWatts, Reverse
from panewright.lots.matching.match import match
from panewright.lots.standing.standing import Standing

SIZES, LARGE = (60, 72, 84), (240, 320, 400)  #: cells of a lot
TIMES, MOST_S = 10, 120.0  #: the model's time, and ours at most for it to be asked


def job(chance: Random, kind: str, large: bool = False) -> tuple[Standing, Asked]:
    """A lot of one of the kinds, in panels so small that there are several; the aim is set afterwards."""
    seed, size = chance.randrange(10**6), chance.choice(LARGE if large else SIZES)
    drawn = Drawn(leaky=0.05, weak=0.04) if kind == "limits" else Drawn(imp=chance.choice((0.03, 0.04, 0.05)))
    lot = standing(cells(size, seed, drawn))
    small = {"parallel": (12, 2, 1), "limits": (24, 1, 2)}.get(kind, (12, 1, 2))
    network = wiring(*({"parallel": (36, 2, 1)}.get(kind, (36, 1, 2)) if large else small))
    joined = soldered(lot, 9 if large else 3, seed) if kind == "soldered" else ()
    limits = Limits(6.0, 1, Reverse(0.66)) if kind == "limits" else Limits()
    return lot, Asked(network, MostWatts(), limits, joined)


@dataclass(slots=True)
class Seen:
    """What was seen so far."""

    tried: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    failures: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def lot(self, kind: str, lot: Standing, asked: Asked) -> None:
        """One lot, for the mean of its sorted panels."""
        asked = replace(asked, aim=MostReaching(round(float(sorted_w(lot, asked).mean()), 1)))
        begin = time.process_time()
        matched = match(lot, asked)
        took = time.process_time() - begin
        told = (
            f"Lot {self.tried}, {kind}, {len(lot.marks)} cells: sorting {matched.sorted_score[0]:g} panels,"
            f" ours {len(matched.panels)} in {took:.1f} s, at most {matched.bound.value:g}"
        )
        most = len(matched.panels)
        if took > MOST_S:
            told += "; the model was not asked"
            self.counts["too long for the model"] += 1
        else:
            found = matching_model.beside(lot, asked, matched.made.strings, TIMES * took)
            told += (
                f"; the model in {TIMES * took:.0f} s {found.alone}; its tables accept {found.accepted} of"
                f" ours, and begun with them it finds {found.begun} in as much time again"
            )
            more = len(matched.panels) > found.alone
            self.counts["more panels than the model alone" if more else "as many as the model"] += 1
            most = max(found.alone, found.begun)
        self.notes.append(told)
        wrong = fault(matched) or ("fewer panels than the model" if most > len(matched.panels) else "")
        self.failures += [f"{wrong}: {told}"] if wrong else []
        self.tried += 1


def campaign(count: int, seed: int) -> Found:
    """Lots of four kinds in turn, small and large ones; stopped by hand it tells what it saw till then."""
    chance, seen = Random(seed), Seen()
    match(*job(Random(seed), KINDS[0]))  # compiles
    try:
        for number in range(count):
            kind, large = KINDS[number % len(KINDS)], number // len(KINDS) % 2 == 1
            seen.lot(kind, *job(chance, kind, large))
    except KeyboardInterrupt:
        seen.notes.append(f"Stopped by hand after {seen.tried} of {count} lots")
    against = "a model in CP-SAT with ten times the time"
    found = dict(seen.counts), (), tuple(seen.failures), tuple(seen.notes)
    return Found("panels at a rating", against, seen.tried, *found)
