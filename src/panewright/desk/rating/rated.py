"""One panel rated: its design, its curve and what was typed, together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from panewright.bench.rate import of_design
from panewright.bench.rate.between import Between, between, filled
from panewright.bench.rate.checklist import checklist
from panewright.bench.rate.flags import Flag, flags
from panewright.bench.rate.known_cells import CellsKnown, cells_known
from panewright.bench.rate.own import own_curve
from panewright.bench.rate.rated import Rated, Taken, rate
from panewright.bench.rate.rating import Prediction, Rating, judge
from panewright.check import Check
from panewright.curve.measured import Measured
from panewright.curve.moved.choice import Given
from panewright.curve.moved.coefficients import STC_C, STC_W_M2
from panewright.curve.points import read_points
from panewright.desk.rating.measured import PanelRead
from panewright.desk.rating.sources import Shop, Sources, sources, unsaid
from panewright.desk.rating.typed import Typed
from panewright.errors import BenchError, Problem
from panewright.panel.electric.watts import wired_of

if TYPE_CHECKING:
    from panewright.panel.design import Design


@dataclass(frozen=True, slots=True)
class PanelRated:
    """Everything of one rating."""

    design: Design  #: as designed; of a serial as built
    serial: str
    as_built: bool
    day: date
    read: PanelRead
    told: Typed
    sources: Sources
    taken: Taken
    rated: Rated
    rating: Rating
    prediction: Prediction
    predicted: Measured  #: its own circuit's curve at STC
    flags: tuple[Flag, ...]
    safety: tuple[Check, ...]  #: insulation, earth, diodes

    @property
    def said(self) -> tuple[str, ...]:
        """What was done to the readings, in sentences."""
        known = self.prediction.cells.told
        return (*self._of_serial, known, *self.read.said, *self.sources.said, self.rated.chosen.why)

    @property
    def _of_serial(self) -> tuple[str, ...]:
        """Told where the file is of a panel that is none of the order's."""
        own = self.design.label.serials
        if not self.read.serial or self.read.serial in (*own, self.serial if self.as_built else ""):
            return ()
        return (f"LOOK: the file is of serial {self.read.serial}, the order's are {', '.join(own[:8])}.",)


@dataclass(frozen=True, slots=True)
class Panel:
    """Which panel: its design, and whether that is as built."""

    design: Design
    serial: str = ""
    as_built: bool = False
    measured: int = 0  #: of its cells, those with figures of their own

    @property
    def cells(self) -> CellsKnown:
        """How well they are known."""
        return cells_known(len(self.design.layup.cells), self.measured, self.design.order.cell.spread)


def rated(panel: Panel, read: PanelRead, told: Typed, shop: Shop) -> PanelRated:
    """The rating; a `PanewrightError` with every problem where there is none."""
    design, day = panel.design, told.day or read.day
    if day is None:
        reason = "The day it was measured is not known, and the file does not say it."
        no_day = Problem(reason, "Write day: '2026-06-20'.", key="day")
        raise BenchError([no_day, *unsaid(read, told)])
    by = of_design.known(design)
    assert by.coefficients is not None
    found = sources(read, told, shop, by.coefficients)
    curve, open_share = _curve(design, read, found)
    taken = Taken(
        given=Given((curve, *_others(read, told, found)), by.coefficients, by.one_diode),
        light=found.light,
        heat=found.heat,
        volts=found.volts,
        amps=found.amps,
        day=day,
        one_ammeter=told.one_ammeter,
        drift_share=read.drift_share,
        clipped=read.cleaned.clipped,
        between=open_share,
    )
    made, prediction = rate(taken), of_design.predicted(design, panel.cells)
    safety = checklist(of_design.asked(design), told.tried, told.wet)
    seen = flags(taken, made)
    rating = judge(made, prediction, told.rule, safety, flagged=seen)
    drawn = own_curve(wired_of(design), STC_W_M2, STC_C)
    told_flags = (*seen, *(Flag("quality of the sweep", each) for each in read.wrong))
    serial = panel.serial or read.serial
    return PanelRated(
        design, serial, panel.as_built, day, read, told, found, taken, made, rating, prediction, drawn,
        told_flags, safety,
    )  # fmt: skip


def _curve(design: Design, read: PanelRead, found: Sources) -> tuple[Measured, Between | None]:
    """The curve to rate; one of a meter filled between its readings."""
    curve = read.cleaned.curve
    if read.bounds is None:
        _must_reach(read)
        return curve, None
    cell_c = found.heat.cell_c(found.light.value_w_m2, curve.voltage_v[-1])
    like = own_curve(wired_of(design), found.light.value_w_m2, cell_c)
    return filled(curve, like), between(read.points, read.bounds)


def _must_reach(read: PanelRead) -> None:
    """A sweep of which the meter's range cut off short circuit cannot be moved, however far it was swept."""
    if read.cleaned.clipped and read_points(read.cleaned.curve).isc_a is None:
        lost = len(read.cleaned.left_out)
        reason = f"The meter's range cut {lost} points off; the rest does not reach short circuit."
        raise BenchError([Problem(reason, "Choose a wider range, and sweep again.", read.file)])


def _others(read: PanelRead, told: Typed, found: Sources) -> tuple[Measured, ...]:
    """The file's curves in other light, where its own irradiance is the light of all of them."""
    if told.light.reading is not None or found.light.how in ("clear sky", "own Isc"):
        return ()
    heat = found.heat
    if heat.how == "Voc itself":
        return ()
    return tuple(replace(each, cell_c=heat.cell_c(each.irradiance_w_m2)) for each in read.others)
