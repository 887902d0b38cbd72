"""Random cutting jobs of 200 pieces: every plan sound, at the linear programme's bound or proven, in 5 s.

Six kinds are cut from bars of 6 m; the seventh from bars of 4 and of 6 m with a price for each, and six
remnants that cost nothing; the eighth from the same where money is length, so that plans differ by single
millimetres. Of these two a share may stay unproven, or take longer.

Each tenth job is a small one, which CP-SAT solves again by a model of another kind: every piece is put into
a bar by itself, no patterns.
"""

from __future__ import annotations

import math
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise
from random import Random

from ortools.sat.python import cp_model

from campaigns.found import Found, Worst
from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw
from panewright.cutting.plan import CutPlan

PIECES, SMALL, BAR_MM, KERF_MM, TRIM_MM = 200, 14, 6000.0, 3.0, 5.0
SECONDS = 5.0
KINDS = ("rails", "few sizes", "large and small", "near thirds", "to the tenth")
MITRED, PRICED, BY_LENGTH = "mitred rails", "from racks and shop", "from racks and shop by length"
ALL = (*KINDS, MITRED, PRICED, BY_LENGTH)
SAW = Saw(KERF_MM, TRIM_MM)
IN_DOUBT = 0.1  #: share of jobs from racks and shop that may stay unproven, and that may take longer
DECIDED, ENDLESS = "small, decided by the model", "small, the model came to no end"
UNDECIDED = 0.25  #: share of small jobs that CP-SAT may leave open: a quarter are by length, its hardest
PEER_EFFORT = 5.0  #: CP-SAT's own count of work, some 20 s; by length it would go on for hours at single mm


def campaign(count: int, seed: int) -> Found:
    """Jobs of all kinds in turn."""
    chance, worst = (
        Random(seed),
        Worst(
            {
                "seconds over the limit": 0.0,
                "share not proven, from racks": IN_DOUBT,
                "share over the limit, from racks": IN_DOUBT,
                "share of small ones without end in the model": UNDECIDED,
            }
        ),
    )
    tally = _Tally()
    for number in range(count):
        kind = ALL[number % len(ALL)]
        small = number % 10 == 9
        pieces = job(chance, kind, SMALL if small else PIECES)
        bars = stock(chance, kind)
        begin = time.process_time()
        plan = cut_from(pieces, bars, SAW)
        tally.see(f"{kind}, job {number}", plan, time.process_time() - begin, racks=len(bars) > 1)
        wrong = fault(pieces, plan, bars) or (small and tally.beside_the_model(pieces, bars, plan))
        if not wrong and not plan.proven and len(bars) == 1:
            wrong = "not proven"
        if wrong:
            tally.failures.setdefault(wrong, f"{wrong}: {kind}\n{pieces}\n{bars}")
    return tally.found(count, worst)


@dataclass(slots=True)
class _Tally:
    """What was seen of all jobs."""

    counts: Counter[str] = field(default_factory=Counter)
    failures: dict[str, str] = field(default_factory=dict)
    times: list[tuple[float, str]] = field(default_factory=list)
    from_racks: list[tuple[float, bool]] = field(default_factory=list)

    def see(self, what: str, plan: CutPlan, took: float, *, racks: bool) -> None:
        """One plan."""
        self.counts[
            f"{'proven' if plan.proven else 'not proven'}{' from racks and shop' if racks else ''}"
        ] += 1
        if racks:
            self.from_racks.append((took, plan.proven))
        else:
            self.times.append((took, what))

    def beside_the_model(self, pieces: list[Piece], bars: list[Bar], plan: CutPlan) -> str:
        """Whether the model of single pieces finds a cheaper plan; one that comes to no end is counted."""
        found, decided = cheapest_found(pieces, bars, PEER_EFFORT)
        self.counts[DECIDED if decided else ENDLESS] += 1
        return "a cheaper plan exists" if plan.proven and found < cost(plan) - 1e-3 else ""

    def found(self, count: int, worst: Worst) -> Found:
        """All of it."""
        longest, what = max(self.times)
        worst.see("seconds over the limit", max(0.0, longest - SECONDS), what)
        racks = self.from_racks or [(0.0, True)]
        doubt = sum(not proven for _, proven in racks) / len(racks)
        late = sum(took > SECONDS for took, _ in racks) / len(racks)
        worst.see("share not proven, from racks", doubt, "all of them")
        worst.see("share over the limit, from racks", late, "all of them")
        small = self.counts[DECIDED] + self.counts[ENDLESS]
        worst.see(
            "share of small ones without end in the model",
            self.counts[ENDLESS] / max(small, 1),
            "all of them",
        )
        notes = (
            f"The longest took {longest:.2f} s of the processor, from racks and shop {max(racks)[0]:.2f} s",
        )
        against = "its bound; small ones a model of single pieces in CP-SAT"
        return Found(
            "cutting plans",
            against,
            count,
            dict(self.counts),
            worst.deviations(),
            tuple(self.failures.values()),
            notes,
        )


def stock(chance: Random, kind: str) -> list[Bar]:
    """What a kind of job is cut from."""
    if kind not in (PRICED, BY_LENGTH):
        return [Bar(BAR_MM)]
    free, prices = (Decimal(0), ("27.40", "19.80")) if kind == PRICED else (None, (None, None))
    shop = [Bar(mm, price and Decimal(price)) for mm, price in zip((BAR_MM, 4000.0), prices, strict=True)]
    return shop + [Bar(float(chance.randint(600, 3500)), free, 1, "rack", remnant=True) for _ in range(6)]


def job(chance: Random, kind: str, count: int) -> list[Piece]:
    """Pieces of one kind of job."""
    if kind in (PRICED, BY_LENGTH):
        kind = chance.choice(KINDS)
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
    ends = 2 if kind == MITRED else 0
    return [Piece(f"{length:g}", length, number, ends) for length, number in sorted(Counter(lengths).items())]


def fault(pieces: list[Piece], plan: CutPlan, bars: Sequence[Bar] = (Bar(BAR_MM),)) -> str:
    """What is wrong with a plan; nothing where it is sound."""
    cut = Counter((piece.length_mm, piece.mitred_ends) for bar in plan.bars for piece in bar.pieces)
    if cut != Counter({(piece.length_mm, piece.mitred_ends): piece.quantity for piece in pieces}):
        return "pieces are missing or cut twice"
    for bar in plan.bars:
        ends = TRIM_MM if bar.from_remnant else 2 * TRIM_MM
        if sum(taken(p) for p in bar.pieces) - KERF_MM + ends > bar.bar_mm + 1e-3:
            return "a bar is overfilled"
    for (length_mm, remnant), times in Counter((bar.bar_mm, bar.from_remnant) for bar in plan.bars).items():
        if times > sum(b.have or 10**6 for b in bars if (b.length_mm, b.remnant) == (length_mm, remnant)):
            return "a bar that is not there"
    if len(bars) == 1 and len(plan.bars) > first_fit(pieces):
        return "more bars than by first fit"
    bound = plan.bound_mm if plan.bound_cost is None else float(plan.bound_cost)
    return "" if bound <= cost(plan) + 1e-6 else "the bound lies above the plan"


def cost(plan: CutPlan) -> float:
    """Of a plan; without prices its length."""
    return plan.bought_mm if plan.cost is None else float(plan.cost)


def taken(piece: Piece) -> float:
    """Length with its cut: square, or at 45 degrees at both ends."""
    return piece.length_mm + KERF_MM * (math.sqrt(2) if piece.mitred_ends else 1)


def first_fit(pieces: list[Piece], bar_mm: float = BAR_MM) -> int:
    """Bars by first fit, the longest first, in plain words; the longest pieces may need a longer bar."""
    left: list[float] = []
    for length in sorted((taken(p) for p in pieces for _ in range(p.quantity)), reverse=True):
        place = next((i for i, room in enumerate(left) if length <= room + 1e-9), None)
        if place is None:
            left.append(max(bar_mm - 2 * TRIM_MM + KERF_MM, length))
            place = len(left) - 1
        left[place] -= length
    return len(left)


def first_fit_cost(pieces: list[Piece], bars: Sequence[Bar]) -> float:
    """Cost of first fit, the longest first, all remnants begun first; one length bought, the cheaper plan."""
    rack = [bar for bar in bars if bar.remnant]
    return min(_fit_cost(pieces, rack, bar) for bar in bars if not bar.remnant)


def _fit_cost(pieces: list[Piece], rack: Sequence[Bar], bought: Bar) -> float:
    """First fit from the rack, then from bars of one length; a piece longer than it has no place: inf."""
    left = [bar.length_mm - TRIM_MM + KERF_MM for bar in rack]
    room, used = bought.length_mm - 2 * TRIM_MM + KERF_MM, [False] * len(rack)
    for length in sorted((taken(p) for p in pieces for _ in range(p.quantity)), reverse=True):
        place = next((i for i, rest in enumerate(left) if length <= rest + 1e-9), len(left))
        if place == len(left):
            if length > room + 1e-9:
                return math.inf
            left.append(room)
            used.append(True)
        left[place] -= length
        used[place] = True
    costs = [bar.length_mm if bar.price is None else float(bar.price) for bar in rack]
    each = bought.length_mm if bought.price is None else float(bought.price)
    costs += [each] * (len(left) - len(rack))
    return sum(cost for cost, taken_ in zip(costs, used, strict=True) if taken_)


def fewest(pieces: list[Piece]) -> int:
    """Fewest bars by a model that puts every piece into a bar by itself."""
    return round(least_cost(pieces, [Bar(BAR_MM, Decimal(1))]))


def least_cost(pieces: list[Piece], bars: list[Bar]) -> float:
    """The least cost by the same; without prices the least length."""
    found, decided = cheapest_found(pieces, bars)
    if not decided:
        raise RuntimeError("the oracle found no best plan")
    return found


def cheapest_found(pieces: list[Piece], bars: list[Bar], effort: float = math.inf) -> tuple[float, bool]:
    """The cheapest plan that model finds with so much work, and whether it is the best; inf for none."""
    sizes = [round(taken(p) * 1000) for p in pieces for _ in range(p.quantity)]
    model, given, costs = cp_model.CpModel(), [], []
    for bar in bars:
        most = first_fit(pieces, bar.length_mm) if bar.have is None else bar.have
        room = round((bar.length_mm - TRIM_MM * (1 if bar.remnant else 2) + KERF_MM) * 1000)
        used = [model.NewBoolVar("") for _ in range(most)]
        for one, next_one in pairwise(used):
            model.AddImplication(next_one, one)
        given += [(each, room) for each in used]
        costs += [round((bar.length_mm if bar.price is None else float(bar.price)) * 100)] * most
    put = [[model.NewBoolVar("") for _ in given] for _ in sizes]
    for row in put:
        model.AddExactlyOne(row)
    for bar, (each, room) in enumerate(given):
        model.Add(sum(size * row[bar] for size, row in zip(sizes, put, strict=True)) <= room * each)
    model.Add(sum(room * each for each, room in given) >= sum(sizes))
    model.Minimize(sum(cost * each for cost, (each, _) in zip(costs, given, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = effort
    status = solver.Solve(model)
    found = solver.ObjectiveValue() / 100 if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else math.inf
    return found, status == cp_model.OPTIMAL
