"""Where brackets go so that the pane's edge sags least: anywhere, not evenly spaced.

A frame alike both ways has its best places alike from both ends (looked for among those only). So half of the
places are free; an odd one sits in the middle. The search walks: every place in turn is tried on a grid
about where it is, all at once, and the grid closes in. Same frame, same places.

What sags is the edge as it is judged: on the bead's elastic hold where the silicone is structural, free
otherwise, with corners and brackets at their worse bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead
from panewright.structure.rails.beam import LineLoad, least_sag_from_end
from panewright.structure.rails.edge_load import Edges, split_at_45
from panewright.structure.space import compiled
from panewright.structure.space.conditions import Condition, Joint, conditions
from panewright.structure.space.figures import sag_mm
from panewright.structure.space.member import Array
from panewright.structure.space.ring import Build, stand_quarters
from panewright.structure.space.run import Run
from panewright.structure.space.space_frame import frame_build, frame_halves, outer_mm

LEAST_FROM_END_MM = 60.0  #: a bracket nearer to the corner meets the corner's own fixing; common practice
LEAST_APART_MM = 60.0  #: middle to middle: brackets of 40 mm, 20 mm between them; common practice
_GRID = np.arange(-2, 3)
_FIRST, _NEAR = 1 / 24, 1 / 40  # first step of the grid, as a share of the rail
_CLOSER = 2
_LAST_MM, _CLOSE_MM, _ABOUT_MM = 1.0, 3.0, 45.0  # the closest grid: of the best, of the near, of the usual
_ROUND_MM, _ROUND_ASPECT, _ROUND_GAP_MM = 200.0, 0.1, 8.0  # panes that share their usual places
_BEAD_MM = 8.0, 6.0  # bite and glue line of a middling bead
_SHEET = Sheet("middling", "glass", "tempered", "plain", 4.0, 4.0, 2500.0, 9e-6, 0.9)
_CROWDED = 0.5  # of an even spacing: nearer brackets would not share the load; common practice


@dataclass(frozen=True, slots=True)
class Question:
    """A frame whose brackets are looked for."""

    rail: Rail
    pane: Pane
    bead: Bead
    joint: Joint = "mitred"
    edges: Edges = ()  #: worst of these; none is the pane split at 45 degrees

    def length_mm(self, *, short: bool) -> float:
        """Of a long or a short rail, outside. [mm]"""
        return outer_mm(self.pane.short_mm if short else self.pane.long_mm, self.rail, self.bead)


Places = tuple[float, ...]  #: from a rail's left end [mm]
Frame = tuple[tuple[float, ...], tuple[float, ...]]  #: on the first halves of a long and of a short rail [mm]


@lru_cache(maxsize=256)
def best_places(question: Question, count: int, short_count: int = 0) -> tuple[Places, Places]:
    """Places on each long rail and on each short one, whole millimetres from the left end. [mm]

    Only rails that carry brackets count for the sag.
    """
    return _searched(question, (count, short_count), _LAST_MM)


def _searched(question: Question, counts: tuple[int, int], last_mm: float) -> tuple[Places, Places]:
    """The whole search, down to a grid of `last_mm`."""
    starts = [_start(question.length_mm(short=side == 1), counts[side]) for side in (0, 1)]
    return _settled(question, starts, counts, (_FIRST * question.length_mm(short=False), last_mm))


def usual_places(question: Question, count: int) -> Places:
    """Places about as good, without a search of their own: the best ones of a middling angle, as shares. [mm]

    Good enough to weigh many rails; the one that is taken gets its best.
    """
    return _settled(question, [_about(question, count), []], (count, 0), (0.0, _LAST_MM))[0]


@lru_cache(maxsize=256)
def near_places(question: Question, count: int) -> Places:
    """Best places on each long rail, looked for about the usual ones only. [mm]"""
    grid = _NEAR * question.length_mm(short=False), _CLOSE_MM
    starts = [_about(question, count), _start(question.length_mm(short=False), count)]
    sags = _sags(question, [(tuple(each), ()) for each in starts], (count, 0))
    begin = starts[0] if sags[0] <= 1.05 * sags[1] else starts[1]  # a middling angle may lead astray
    return _settled(question, [begin, []], (count, 0), grid)[0]


@lru_cache(maxsize=1024)
def _shares(question: Question, count: int) -> tuple[float, ...]:
    """Best places on the first half of a rail, as shares of its length."""
    places, length = _searched(question, (count, 0), _ABOUT_MM)[0], question.length_mm(short=False)
    return tuple(place / length for place in places[: count // 2])


def _about(question: Question, count: int) -> list[float]:
    """The usual places on the first half of a rail, kept in their room."""
    start = [share * question.length_mm(short=False) for share in _shares(_middling(question), count)]
    for place in range(len(start)):
        low, high = _room(question, start, (0, place), count)
        start[place] = min(max(start[place], low), high)
    return start


def _middling(question: Question) -> Question:
    """A plain angle and bead round a pane of about that size and shape, with about that gap."""
    pane, rail = question.pane, Rail("middling", "angle", 40.0, 40.0, 3.0, "6063-T6", 6000.0)
    long = max(_ROUND_MM, round(pane.long_mm / _ROUND_MM) * _ROUND_MM)
    aspect = max(_ROUND_ASPECT, round(pane.short_mm / pane.long_mm / _ROUND_ASPECT) * _ROUND_ASPECT)
    gap = max(_ROUND_GAP_MM, round(question.bead.gap_mm / _ROUND_GAP_MM) * _ROUND_GAP_MM)
    bead = Bead(question.bead.sealant, *_BEAD_MM, gap)
    thick = pane.sheet.nominal_mm  # it lifts the bolts; nothing else of the sheet counts here
    sheet = replace(_SHEET, nominal_mm=thick, thickness_mm=thick)
    return Question(rail, Pane(long, long * aspect, sheet), bead, question.joint)


def _settled(
    question: Question, at: list[list[float]], counts: tuple[int, int], grid_mm: tuple[float, float]
) -> tuple[Places, Places]:
    """The search from these places on the first halves of the rails, on grids from wide to close."""
    step, last = grid_mm
    known: dict[Frame, float] = {}
    while step > last / 2:
        for side in (0, 1):
            for place in range(len(at[side])):
                at[side] = _better(question, at, (side, place), step, counts, known)
        step /= _CLOSER
    return tuple(  # type: ignore[return-value]
        _whole([float(round(place)) for place in at[side]], question.length_mm(short=side == 1), counts[side])
        for side in (0, 1)
    )


def _start(length: float, count: int) -> list[float]:
    """Evenly spaced, the outer ones where an even beam sags least."""
    if count < 2:
        return []
    outer = least_sag_from_end(LineLoad(steps=((0.0, 1.0),)), count, LEAST_FROM_END_MM / length) * length
    between = (length - 2 * outer) / (count - 1)
    return [outer + between * number for number in range(count // 2)]


def _better(
    question: Question,
    at: list[list[float]],
    which: tuple[int, int],
    step: float,
    counts: tuple[int, int],
    known: dict[Frame, float],
) -> list[float]:
    """One place moved to where the frame sags least, on a grid about it; `known` is not asked again."""
    side, place = which
    low, high = _room(question, at[side], which, counts[side])
    tries = [
        [
            *at[side][:place],
            float(min(max(at[side][place] + shift * step, low), high)),
            *at[side][place + 1 :],
        ]
        for shift in _GRID
    ]
    frames = [(tuple(one), tuple(at[1])) if side == 0 else (tuple(at[0]), tuple(one)) for one in tries]
    asked = list(dict.fromkeys(frame for frame in frames if frame not in known))
    if asked:
        known.update(zip(asked, _sags(question, asked, counts).tolist(), strict=True))
    sags = np.array([known[frame] for frame in frames])
    return tries[int(np.argmin(sags.round(10 - int(np.floor(np.log10(sags.max()))))))]


def _room(question: Question, at: list[float], which: tuple[int, int], count: int) -> tuple[float, float]:
    """How far a place may move: to the end, its neighbours, the middle or its twin beyond."""
    side, place = which
    middle = question.length_mm(short=side == 1) / 2
    apart = max(LEAST_APART_MM, _CROWDED * 2 * middle / count)
    low = LEAST_FROM_END_MM if place == 0 else at[place - 1] + apart
    inner = middle - apart / (1 if count % 2 else 2)
    high = inner if place == len(at) - 1 else at[place + 1] - apart
    return low, max(low, high)


def _sags(
    question: Question, frames: list[Frame], counts: tuple[int, int]
) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Largest sag of each frame, of the rails that carry brackets. [mm]"""
    pane, rail, bead = question.pane, question.rail, question.bead
    build = frame_build(rail, pane, bead, "ASCE", question.joint)
    lengths = question.length_mm(short=False), question.length_mm(short=True)
    loads = question.edges or (split_at_45(pane, 1.0),)
    held = [
        (_whole(long, lengths[0], counts[0]), _whole(short, lengths[1], counts[1])) for long, short in frames
    ]
    halves = tuple(one for load in loads for one in frame_halves(rail, pane, bead, held, load))
    sag = _each_sag(build, halves, _ways(question)).reshape(len(loads), len(frames), 2).max(axis=0)
    carried = [side for side in (0, 1) if counts[side]]
    return np.asarray(sag[:, carried].max(axis=1))


def _each_sag(build: Build, halves: tuple[tuple[Run, Run], ...], ways: tuple[Condition, ...]) -> Array:
    """Largest sag of a long and of a short rail of each frame; axes (frames, sides). [mm]"""
    if compiled.loaded():
        return compiled.read_by_loops(build, halves, ways, sag_only=True).sag_mm
    stood = stand_quarters(build, halves, ways)
    return np.asarray(sag_mm(build, stood, halves[0], whole=False).max(axis=0))


def _ways(question: Question) -> tuple[Condition, ...]:
    """The edge as it is judged, at the worse bound of all else."""
    judged = "bead" if question.bead.sealant.structural else "free"
    return tuple(way for way in conditions(question.joint, question.bead) if way.sideways == judged)


def _whole(half: Sequence[float], length: float, count: int) -> tuple[float, ...]:
    """Places on a whole rail out of those on its first half."""
    middle = (length / 2,) if count % 2 else ()
    return (*half, *middle, *(length - place for place in reversed(half)))
