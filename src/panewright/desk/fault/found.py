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
from panewright.bench.fault.place.setting import AtHand, Setting
from panewright.bench.fault.place.telling import Ask, asks, how
from panewright.bench.fault.rework import Rework, Spare, rework
from panewright.bench.fault.shares import own_shares
from panewright.bench.fault.shares import told as told_before
from panewright.bench.fault.small import TooSmall, too_small
from panewright.bench.rate import of_design
from panewright.circuit.network import Network
from panewright.desk.fault import settings
from panewright.desk.fault.at_hand import at_hand
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
    """One further measurement, and what was read.

    What was done is told by its setting; of older records by the sentence that proposed it; at the command by
    the number of what is proposed there and then.
    """

    advice: int  #: from 1; 0 where the setting or the sentence tells
    readings: tuple[float, ...]
    lies: Lies = "closed"
    setting: Setting | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """The same as it was taken in."""

    setting: Setting
    how: str
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
    assumed: str = ""  #: what is taken to be at hand, where nobody told

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
    hand, assumed = at_hand(told, at)
    state, went = _after(begin(foretold, finding), tells, hand)
    open_yet = finding.called and state.located is None
    follows = advise(state, lies, hand=hand) if open_yet else ()
    why = hides(state, lies, hand=hand) if open_yet and not follows else ""
    serial = panel.serial or read.serial
    before = f"{told_before(shares, bool(told.shares))} {panel.cells.told}"
    spot = state.located if finding.called else None
    mend = rework(foretold, spot, spares, lies) if spot and spot.kind else None
    small = () if finding.called else too_small(by_curve, finding.points)
    return PanelFound(
        design, serial, finding, state, went, follows, lies, why, mend, small, read.wrong, before, assumed
    )


def _shares(told: Typed, foretold: Foretold) -> dict[Group, float]:
    """Of each group among panels, before any reading: as the shop says, else alike."""
    abreast = len(foretold.network.strings) > 1
    return own_shares(dict(told.shares), SHARES_ABREAST if abreast else SHARES)


def _after(state: State, tells: Sequence[Tell], hand: AtHand) -> tuple[State, tuple[Told, ...]]:
    """What is believed after every further reading."""
    went: list[Told] = []
    for nth, tell in enumerate(tells, start=1):
        setting = _setting(state, tell, nth, hand)
        _must_fit(asks(setting, state.foretold.network), tell, nth)
        state = after(state, setting, tell.readings)
        went.append(Told(setting, how(setting, state.foretold.network), tell.readings, state.words))
    return state, tuple(went)


def _setting(state: State, tell: Tell, nth: int, hand: AtHand) -> Setting:
    """What was done."""
    network, proposed = state.foretold.network, 0
    done = tell.setting or settings.of_sentence(tell.how, network)
    if done is None:
        told = advise(state, tell.lies, hand=hand)
        proposed = len(told)
        done = told[tell.advice - 1].setting if 1 <= tell.advice <= proposed else None
    if done is None or not settings.fits(done, network):
        cure = f"There are {proposed}." if proposed else "None is left: the place is found."
        problem = Problem(
            "No such measurement was proposed.", cure, key=f"told {nth}", value=f"{tell.advice}"
        )
        raise BenchError([problem])
    return done


def _must_fit(asked_for: Sequence[Ask], tell: Tell, nth: int) -> None:
    asked = ", then ".join(f"{each.words} in {each.unit}" for each in asked_for)
    said = " ".join(f"{each:g}" for each in tell.readings)
    if len(tell.readings) != len(asked_for) or not np.all(np.isfinite(tell.readings)):
        problem = Problem(
            "These are not the readings that were asked for.", f"Give {asked}.", key=f"told {nth}", value=said
        )
        raise BenchError([problem])
    if len(tell.readings) == 2 and tell.readings[1] == 0:
        cure = "Read both at the same voltage, with the panel in the sun."
        raise BenchError([Problem("The second cannot be 0.", cure, key=f"told {nth}", value=said)])
