"""Laminating in a vacuum: pump, warm, press when the film is soft, hold until it has cured, cool.

The stack warms from its plate or oven like a body behind a film of heat:

    d(stack)/dt = (plate - stack) / lag,     lag = mass and heat of the stack / what reaches a square metre

A plate under a vacuum gives 50 W/m2K or so, an oven round a bag 15 to 25 (memory, no source): the shop's own
thermometer between film and back sheet, on a scrap laminate, tells better than this page. Glass 840 J/kgK,
film 2200, sheet 1200 (handbooks, memory).

Air has to leave before the film closes its ways: the pump runs for minutes while the film is still cold and
hard, and the press only comes down when it is soft. A press on hard film breaks cells over ribbon and
solder.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.enclosure.film import GEL_LEAST, GEL_MOST, MOST_GEL, Film, gel, per_min

Heater = Literal["plate", "oven"]
GIVES_W_M2K: dict[Heater, float] = {"plate": 50.0, "oven": 20.0}
PUMP_MIN = 6.0  #: cold, before the press [a film seller's guide, seen: about 6 min]
PUMPED_PA = 1000.0  #: 10 mbar: what the pump must reach; common practice
COOL_C = 60.0  #: the press opens below it; 60 degC: a maker's guide to vacuum bags (seen)
LUMP_MM = 0.1  #: that solder stands above a ribbon; common practice
AIM_GEL = 0.85  #: the middle of the window
SETTLED_K = 5.0  #: so near to the plate the hold begins
LONGEST_MIN = 240.0  #: a hold that nobody sits through
_STEP_MIN, _HALVINGS = 0.25, 14
_FROM_C = 23.0
_PRACTICE = "common practice of the trade, no source; the film's sheet decides"


@dataclass(frozen=True, slots=True)
class Stack:
    """What lies in the press."""

    glass_mm: float
    back_mm: float
    ribbon_mm: float  #: the highest ribbon with its solder coat


@dataclass(frozen=True, slots=True)
class Phase:
    """One line of the card."""

    words: str
    minutes: float
    from_c: float
    to_c: float
    pressed: bool


@dataclass(frozen=True, slots=True)
class Laminating:
    """The card, what comes of it, and whether that is sound."""

    film: Film
    plate_c: float
    heater: Heater
    phases: tuple[Phase, ...]
    gel: float
    press_c: float  #: of the film when the press comes down
    checks: tuple[Check, ...]

    @property
    def minutes(self) -> float:
        """From cold to cold. [min]"""
        return sum(phase.minutes for phase in self.phases)


def lag_min(stack: Stack, film: Film, heater: Heater) -> float:
    """Time in which the stack makes up all but 37 % of what it is colder than its plate. [min]"""
    heat = 2500 * 840 * stack.glass_mm + 950 * 2200 * 2 * film.thickness_mm + 1380 * 1200 * stack.back_mm
    return heat * 1e-3 / GIVES_W_M2K[heater] / 60


def warmed_c(minutes: float, from_c: float, plate_c: float, lag: float) -> float:
    """The stack after so long at its plate. [degC]"""
    return plate_c + (from_c - plate_c) * math.exp(-minutes / lag)


def warming_min(from_c: float, to_c: float, plate_c: float, lag: float) -> float:
    """Time until the stack has that heat; for ever where the plate does not have it. [min]"""
    if to_c <= from_c:
        return 0.0
    return lag * math.log((plate_c - from_c) / (plate_c - to_c)) if plate_c > to_c else math.inf


def hold_min(film: Film, plate_c: float, before_min: float, lag: float) -> float:
    """Hold after so much warming until the gel is that aimed at; the longest where it never is. [min]"""
    needed = -math.log(1 - AIM_GEL / MOST_GEL)
    short, long = 0.0, LONGEST_MIN
    for _ in range(_HALVINGS):
        middle = (short + long) / 2
        enough = _grown(film, plate_c, before_min + middle, lag) >= needed
        short, long = (short, middle) if enough else (middle, long)
    return long


def laminate(
    stack: Stack, film: Film, plate_c: float, *, heater: Heater = "plate", held_min: float | None = None
) -> Laminating:
    """The card for a plate or oven of that heat; the hold is reckoned where none is asked for.

    >>> made = laminate(Stack(4.0, 0.35, 0.24), Film(), 145.0)
    >>> [(phase.words, round(phase.minutes)) for phase in made.phases]
    [('pump', 6), ('warm', 2), ('press and warm', 9), ('hold', 13), ('cool', 4)]
    >>> round(made.gel, 2), all(check.passed for check in made.checks)
    (0.85, True)
    """
    if not plate_c > COOL_C:
        raise ValueError(f"a plate of {plate_c:g} degC melts no film")
    lag = lag_min(stack, film, heater)
    soft_c = min(film.soft_c, plate_c - SETTLED_K)
    near_c = plate_c - SETTLED_K
    to_soft = warming_min(_FROM_C, soft_c, plate_c, lag)
    to_hold = warming_min(soft_c, near_c, plate_c, lag)
    hold = hold_min(film, plate_c, to_soft + to_hold, lag) if held_min is None else held_min
    phases = (
        Phase("pump", PUMP_MIN, _FROM_C, _FROM_C, False),
        Phase("warm", to_soft, _FROM_C, soft_c, False),
        Phase("press and warm", to_hold, soft_c, near_c, True),
        Phase("hold", hold, near_c, plate_c, True),
        Phase("cool", warming_min(0.0, plate_c - COOL_C, plate_c - _FROM_C, lag), plate_c, COOL_C, True),
    )
    made = gel(film, _heats(plate_c, to_soft + to_hold + hold, lag))
    return Laminating(
        film, plate_c, heater, phases, made, soft_c, _checks(stack, film, plate_c, soft_c, made)
    )


def _heats(plate_c: float, minutes: float, lag: float) -> list[tuple[float, float]]:
    """Short times with their heat, from cold to the end of the hold."""
    steps = max(1, math.ceil(minutes / _STEP_MIN))
    step = minutes / steps
    return [(step, warmed_c((n + 0.5) * step, _FROM_C, plate_c, lag)) for n in range(steps)]


def _grown(film: Film, plate_c: float, minutes: float, lag: float) -> float:
    """Sum of k dt from cold. [-]"""
    return sum(per_min(film, at_c) * step for step, at_c in _heats(plate_c, minutes, lag))


def _checks(stack: Stack, film: Film, plate_c: float, press_c: float, made: float) -> tuple[Check, ...]:
    return (
        _check("film cured enough", GEL_LEAST, made, "-", "Hold it longer, or hotter."),
        _check("film not overcured", made, GEL_MOST, "-", "Hold it shorter, or less hot."),
        _check("film soft before the press comes down", film.soft_c, press_c, "degC", "Heat the plate more."),
        _check("plate no hotter than the film bears", plate_c, film.most_c, "degC", "Heat the plate less."),
        _check(
            "film thick enough over ribbon and solder",
            stack.ribbon_mm + LUMP_MM,
            film.thickness_mm,
            "mm",
            "Take thinner ribbon or thicker film, or lay the film twice behind.",
        ),
    )


def _check(rule: str, demand: float, limit: float, unit: str, cure: str) -> Check:
    return Check(rule, demand, limit, unit, _PRACTICE, cure, "enclosure")
