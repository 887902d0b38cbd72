"""What is wrong with one panel: the finding, what further readings told, and what to measure next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.finding import SHARES, SHARES_ABREAST, Finding, ready
from panewright.bench.fault.finding import found as by_finding
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.bench.fault.numbered import numbers_at
from panewright.bench.fault.place.belief import State, begin
from panewright.bench.fault.place.next import Advice, Lies, advise, after, hides
from panewright.bench.fault.rework import Rework, Spare, rework
from panewright.bench.fault.shares import own_shares
from panewright.bench.fault.shares import told as told_before
from panewright.bench.fault.small import TooSmall, too_small
from panewright.bench.rate import of_design
from panewright.circuit.network import Network
from panewright.desk.fault.points import points
from panewright.desk.rating.measured import PanelRead
from panewright.desk.rating.rated import Panel
from panewright.desk.rating.sources import Shop, sources
from panewright.desk.rating.typed import Typed
from panewright.errors import BenchError, Problem
from panewright.panel.design import Design
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at


@dataclass(frozen=True, slots=True)
class Tell:
    """One further measurement: which of those that were proposed, and what was read."""

    advice: int  #: from 1
    readings: tuple[float, ...]
    lies: Lies = "closed"


@dataclass(frozen=True, slots=True)
class Told:
    """The same as it was taken in."""

    advice: Advice
    readings: tuple[float, ...]
    words: tuple[str, ...]  #: what was believed after it


@dataclass(frozen=True, slots=True)
class PanelFound:
    """Everything of it."""

    design: Design
    serial: str
    finding: Finding
    state: State
    told: tuple[Told, ...]
    next: tuple[Advice, ...]  #: nothing where the panel is not called faulty, or the place is found
    lies: Lies
    hides: str  #: why no measurement tells more; empty while one does
    rework: Rework | None  #: of what was found in its place
    small: tuple[TooSmall, ...]  #: how strong a fault must be to be called, where none is
    doubts: tuple[str, ...] = ()  #: what is to be looked at in the file itself
    before: str = ""  #: what was taken for true before anything was read

    def odds_of_cells(self) -> dict[int, float]:
        """How likely each cell, by its number on the drawings, is where something is wrong."""
        found: dict[int, float] = {}
        for spot in self.state.places:
            for number in numbers_at(self.state.foretold.network, spot.place):
                found[number] = found.get(number, 0.0) + spot.odds
        return found


def found(
    panel: Panel,
    read: PanelRead,
    typed_and_shop: tuple[Typed, Shop],
    tells: Sequence[Tell] = (),
    lies: Lies = "closed",
    spares: Sequence[Spare] | None = None,
) -> PanelFound:
    """What the readings say, with which of the spares goes in; a `PanewrightError` with every problem."""
    design, (told, shop) = panel.design, typed_and_shop
    by = of_design.known(design).coefficients
    assert by is not None
    at = points(read, sources(read, told, shop, by), of_design.predicted(design, panel.cells))
    wired = wired_of(design)

    def circuit(irradiance_w_m2: float, cell_c: float) -> Network:
        return network_at(wired, irradiance_w_m2, cell_c)

    foretold = Foretold(circuit, at.irradiance_w_m2, at.cell_c)
    shares = _shares(told, foretold)
    by_curve = ready(foretold, shares)
    finding = by_finding(by_curve, at)
    state, went = _after(begin(foretold, finding), tells)
    open_yet = finding.called and state.located is None
    follows = advise(state, lies) if open_yet else ()
    why = hides(state, lies) if open_yet and not follows else ""
    serial = panel.serial or read.serial
    before = f"{told_before(shares, bool(told.shares))} {panel.cells.told}"
    spot = state.located if finding.called else None
    mend = rework(foretold, spot, spares, lies) if spot and spot.kind else None
    small = () if finding.called else too_small(by_curve, finding.points)
    return PanelFound(
        design, serial, finding, state, went, follows, lies, why, mend, small, read.wrong, before
    )


def _shares(told: Typed, foretold: Foretold) -> dict[Group, float]:
    """Of each group among panels, before any reading: as the shop says, else alike."""
    abreast = len(foretold.network.strings) > 1
    return own_shares(dict(told.shares), SHARES_ABREAST if abreast else SHARES)


def _after(state: State, tells: Sequence[Tell]) -> tuple[State, tuple[Told, ...]]:
    """What is believed after every further reading."""
    went: list[Told] = []
    for nth, tell in enumerate(tells, start=1):
        proposed = advise(state, tell.lies)
        if not 1 <= tell.advice <= len(proposed):
            cure = f"There are {len(proposed)}." if proposed else "None is left: the place is found."
            problem = Problem(
                "No such measurement was proposed.", cure, key=f"told {nth}", value=f"{tell.advice}"
            )
            raise BenchError([problem])
        advice = proposed[tell.advice - 1]
        _must_fit(advice, tell, nth)
        state = after(state, advice, tell.readings)
        went.append(Told(advice, tell.readings, state.words))
    return state, tuple(went)


def _must_fit(advice: Advice, tell: Tell, nth: int) -> None:
    asked = ", then ".join(f"{each.words} in {each.unit}" for each in advice.asks)
    said = " ".join(f"{each:g}" for each in tell.readings)
    if len(tell.readings) != len(advice.asks) or not np.all(np.isfinite(tell.readings)):
        problem = Problem(
            "These are not the readings that were asked for.", f"Give {asked}.", key=f"told {nth}", value=said
        )
        raise BenchError([problem])
    if len(tell.readings) == 2 and tell.readings[1] == 0:
        cure = "Read both at the same voltage, with the panel in the sun."
        raise BenchError([Problem("The second cannot be 0.", cure, key=f"told {nth}", value=said)])
