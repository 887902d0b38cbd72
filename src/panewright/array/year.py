"""A year of an array, hour by hour, and where its energy goes.

What is lost is told in the order in which the maker decides on it, each as what the next figure is less:

    light      the panels' ratings in the light that falls on them
    slant      what their faces throw back of light that comes aslant
    dirt       dirt, and what age took
    heat       heat, and dim light
    shade      shadows and snow
    together   panels that are worked at one current or voltage, not each at its own
    wire       wires and blocking diodes

Each is the difference of two figures that are reckoned by themselves; that wires take what the currents in
them say is a test.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from panewright.array.field import Asked, Given, Room
from panewright.array.loops import field_loops
from panewright.array.member import Member
from panewright.array.moments import Moments, moments
from panewright.array.steps import Lit, dome_of, steps_of
from panewright.array.wiring import Input, Wired, wired
from panewright.circuit.chords import panel
from panewright.circuit.chords.panels import Panels, panels_of
from panewright.circuit.chords.part import ROOM
from panewright.sky.hours import YEAR_HOURS, Floats, Hours
from panewright.sky.shadow.shade import Surroundings

CAUSES = ("slant", "dirt", "heat", "shade", "together", "wire")
_PARTS = 24  # of a year, between which progress is told
_FULL_SUN = 1000.0
Progress = Callable[[float], None]


@dataclass(frozen=True)
class Span:
    """Voltages between which an input seeks its greatest power, and those at which its current is told."""

    least_v: float = 0.0
    most_v: float = 1e6
    held_v: tuple[float, ...] = ()


@dataclass(frozen=True)
class Year:
    """What an array gives, in the mean of every hour; 8760 rows. [W]"""

    hours: Hours
    light_w: Floats  #: by panel: its rating in the light that falls on it
    faced_w: Floats
    clean_w: Floats
    open_w: Floats
    alone_w: Floats
    panel_w: Floats  #: as it is worked
    input_w: Floats  #: by input
    held_v: Floats  #: (input, voltage)
    held_a: Floats  #: (hour, input, voltage): mean of the hour
    steps: int  #: moments that were looked at

    @property
    def kwh(self) -> float:
        """Energy at the inputs over the year."""
        return float(self.input_w.sum() / 1000)

    def month_kwh(self) -> Floats:
        """Energy at the inputs by month."""
        return self.hours.by_month(self.input_w.sum(axis=1)) / 1000

    def lost_kwh(self) -> dict[str, Floats]:
        """What each cause takes, by month."""
        chain = (
            self.light_w,
            self.faced_w,
            self.clean_w,
            self.open_w,
            self.alone_w,
            self.panel_w,
            self.input_w,
        )
        sums = [self.hours.by_month(each.sum(axis=1)) / 1000 for each in chain]
        return {cause: sums[k] - sums[k + 1] for k, cause in enumerate(CAUSES)}


def year_of(
    hours: Hours,
    around: Surroundings,
    members: Sequence[Member],
    inputs: Sequence[Input],
    spans: Sequence[Span],
    told: Progress = lambda _: None,
) -> Year:
    """The year; `told` hears what share of it is done."""
    at = moments(hours, around, members)
    told(0.1)
    sees = [dome_of(member, around) for member in members]
    lit = steps_of(hours, members, at, sees)
    told(0.2)
    panels = panels_of([member.law for member in members], sees)
    given = worked(panels, wired(inputs, len(members)), lit, spans, lambda share: told(0.2 + 0.8 * share))
    return gathered(hours, members, at, lit, spans, given)


def worked(panels: Panels, wires: Wired, lit: Lit, spans: Sequence[Span], told: Progress) -> Given:
    """What the field gives at each step, on two threads."""
    count, inputs = lit.steps.cell_c.shape[0], len(spans)
    held = np.array([span.held_v for span in spans], dtype=float).reshape(inputs, -1)
    asked = Asked(np.array([s.least_v for s in spans]), np.array([s.most_v for s in spans]), held)
    given = _given(count, panels.number, len(wires.wire_ohm), inputs, held.shape[1])
    work_out, ends, done = field_loops()["work_out"], np.linspace(0, count, _PARTS + 1).astype(int), 0

    def part(k: int) -> None:
        room = _room(panels.number, len(wires.wire_ohm))
        work_out(panels.law, panels.tables, wires, lit.steps, asked, ends[k], ends[k + 1], room, given)

    with ThreadPoolExecutor(2) as pool:
        for _ in pool.map(part, range(_PARTS)):
            done += 1
            told(done / _PARTS)
    return given


def _given(steps: int, panels: int, rows: int, inputs: int, held: int) -> Given:
    shapes = ((panels,), (panels,), (panels,), (rows,), (inputs,), (inputs,), (inputs, held))
    return Given(*(np.zeros((steps, *shape)) for shape in shapes))


def _room(panels: int, rows: int) -> Room:
    return Room(
        np.zeros((panels, ROOM)),
        np.zeros((panels, ROOM)),
        np.zeros(panels, dtype=np.int64),
        np.zeros((rows, ROOM)),
        np.zeros((rows, ROOM)),
        np.zeros(rows, dtype=np.int64),
        np.zeros((panel.ROWS, ROOM)),
        np.zeros(rows),
        *(np.zeros(ROOM) for _ in range(4)),
    )


def gathered(
    hours: Hours, members: Sequence[Member], at: Moments, lit: Lit, spans: Sequence[Span], given: Given
) -> Year:
    """Means of the hours from the steps; panels in no string give nothing, though alone they would."""
    rated = np.array([member.rated_w for member in members]) / _FULL_SUN

    def hourly(each: Floats) -> Floats:
        total = np.zeros((YEAR_HOURS, *each.shape[1:]))
        np.add.at(total, at.hour, each * at.share.reshape(-1, *(1,) * (each.ndim - 1)))
        return total

    return Year(
        hours,
        hourly(rated * lit.plane_w_m2),
        hourly(rated * lit.faced_w_m2),
        hourly(rated * lit.steps.open_w_m2),
        hourly(given.open_w),
        hourly(given.alone_w),
        hourly(given.panel_w),
        hourly(given.input_v * given.input_a),
        np.array([span.held_v for span in spans], dtype=float).reshape(len(spans), -1),
        hourly(given.held_a),
        int(at.hour.size),
    )
