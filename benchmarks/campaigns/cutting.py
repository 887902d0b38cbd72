"""Random cutting jobs of 200 pieces: every plan sound, at the linear programme's bound or proven, in 5 s.

Each tenth job is a small one, which CP-SAT solves again by a model of another kind: every piece is put into
a bar by itself, no patterns.
"""

from __future__ import annotations

import math
import time
from collections import Counter
from random import Random

from ortools.sat.python import cp_model

from campaigns.found import Found, Worst
from panewright.cutting.bars import cut_bars
from panewright.cutting.piece import Piece
from panewright.cutting.plan import CutPlan

PIECES, SMALL, BAR_MM, KERF_MM, TRIM_MM = 200, 14, 6000.0, 3.0, 5.0
SECONDS = 5.0
KINDS = ("rails", "few sizes", "large and small", "near thirds", "to the tenth")


def campaign(count: int, seed: int) -> Found:
    """Jobs of five kinds in turn."""
    chance, worst = Random(seed), Worst({"seconds over the limit": 0.0})
    counts: Counter[str] = Counter()
    failures: dict[str, str] = {}
    longest = 0.0
    for number in range(count):
        small, kind = number % 10 == 9, KINDS[number % len(KINDS)]
        pieces = job(chance, kind, SMALL if small else PIECES)
        begin = time.process_time()
        plan = cut_bars(pieces, BAR_MM, KERF_MM, TRIM_MM)
        took = time.process_time() - begin
        longest = max(longest, took)
        worst.see("seconds over the limit", max(0.0, took - SECONDS), f"{kind}, job {number}")
        counts["proven" if plan.proven else "not proven"] += 1
        wrong = fault(pieces, plan) or (small and fewest(pieces) != len(plan.bars) and "not the fewest bars")
        if wrong or not plan.proven:
            failures.setdefault(wrong or "not proven", f"{wrong or 'not proven'}: {kind}\n{pieces}")
    notes = (f"The longest took {longest:.2f} s of the processor",)
    against = "its bound; small ones a model of single pieces in CP-SAT"
    return Found(
        "cutting plans", against, count, dict(counts), worst.deviations(), tuple(failures.values()), notes
    )


def job(chance: Random, kind: str, count: int) -> list[Piece]:
    """Pieces of one kind of job."""
    if kind == "few sizes":
        sizes = [float(chance.randint(300, 2600)) for _ in range(12)]
        lengths = [chance.choice(sizes) for _ in range(count)]
    elif kind == "large and small":
        lengths = [
            float(chance.choice((chance.randint(2200, 3800), chance.randint(120, 700)))) for _ in range(count)
        ]
    elif kind == "near thirds":
        lengths = [float(chance.randint(1700, 2400)) for _ in range(count)]
    elif kind == "to the tenth":
        lengths = [chance.randint(3000, 25000) / 10 for _ in range(count)]
    else:
        lengths = [float(chance.randint(400, 1900)) for _ in range(count)]
    return [Piece(f"{length:g}", length, number) for length, number in sorted(Counter(lengths).items())]


def fault(pieces: list[Piece], plan: CutPlan) -> str:
    """What is wrong with a plan; nothing where it is sound."""
    cut = Counter(piece.length_mm for bar in plan.bars for piece in bar.pieces)
    if cut != Counter({piece.length_mm: piece.quantity for piece in pieces}):
        return "pieces are missing or cut twice"
    for bar in plan.bars:
        used = sum(p.length_mm for p in bar.pieces) + (len(bar.pieces) - 1) * KERF_MM + 2 * TRIM_MM
        if used > BAR_MM + 1e-6:
            return "a bar is overfilled"
    if len(plan.bars) > first_fit(pieces):
        return "more bars than by first fit"
    return "" if plan.bound_mm <= plan.bought_mm + 1e-6 else "the bound lies above the plan"


def first_fit(pieces: list[Piece]) -> int:
    """Bars by first fit, the longest first, in plain words."""
    left: list[float] = []
    for length in sorted((p.length_mm for p in pieces for _ in range(p.quantity)), reverse=True):
        place = next((i for i, room in enumerate(left) if length + KERF_MM <= room + 1e-9), None)
        if place is None:
            left.append(BAR_MM - 2 * TRIM_MM + KERF_MM)
            place = len(left) - 1
        left[place] -= length + KERF_MM
    return len(left)


def fewest(pieces: list[Piece]) -> int:
    """Fewest bars by a model that puts every piece into a bar by itself."""
    sizes = [round((p.length_mm + KERF_MM) * 1000) for p in pieces for _ in range(p.quantity)]
    room = round((BAR_MM - 2 * TRIM_MM + KERF_MM) * 1000)
    model, bars = cp_model.CpModel(), first_fit(pieces)
    used = [model.NewBoolVar("") for _ in range(bars)]
    put = [[model.NewBoolVar("") for _ in range(bars)] for _ in sizes]
    for row in put:
        model.AddExactlyOne(row)
    for bar in range(bars):
        model.Add(sum(size * row[bar] for size, row in zip(sizes, put, strict=True)) <= room * used[bar])
        if bar:
            model.AddImplication(used[bar], used[bar - 1])
    model.Add(sum(used) >= math.ceil(sum(sizes) / room))
    model.Minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    if solver.Solve(model) != cp_model.OPTIMAL:
        raise RuntimeError("the oracle found no best plan")
    return round(solver.ObjectiveValue())
