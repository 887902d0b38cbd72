"""The next measurement: which one is expected to tell most, how to do it, and what each outcome means.

Every candidate's reading is foretold for everything that is still believed, place by place and strength by
strength. The one whose reading is expected to tell most (`information`) comes first; of those that tell
alike, the quickest. Only what the bench has at hand is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import inf
from typing import Literal

import numpy as np

from panewright.bench.fault.place import candidates
from panewright.bench.fault.place.belief import State, weighted
from panewright.bench.fault.place.expected import Expected, What, corrected, learnt, what
from panewright.bench.fault.place.information import bits
from panewright.bench.fault.place.outcome import Outcome, outcomes
from panewright.bench.fault.place.probe import across, numbers, within_panel
from panewright.bench.fault.place.setting import AtHand, Measurement, Meters, Setting
from panewright.bench.fault.place.strip import HELD, Lines, along, lines, ratios
from panewright.bench.fault.place.telling import Ask, asks, how
from panewright.bench.fault.place.whole import DARK_PART, SUPPLY_PART, dark_v, dull_v
from panewright.bench.fault.wording import IN_REACH
from panewright.circuit.place import CellAt

Lies = Literal["closed", "open"]
MINUTES: dict[Measurement, float] = {
    "probe": 1.0, "cover": 2.0, "strip": 3.0, "dull light": 5.0, "dark current": 10.0
}  #: common practice  # fmt: skip
LEAST_BITS = 0.05  #: what is expected to tell less is not worth a reading
_ALIKE = 0.1  # bits by which two measurements tell alike
_ODD, _ODD_WIDER = 0.02, 6.0  # share of readings that go wrong, and how much wider these scatter
_PROBED = (0.45, 0.9)  # of the panel's open voltage, beside shorted and open
Cells = tuple[CellAt, ...]
METERS = Meters()
EVERYTHING = AtHand()


@dataclass(frozen=True, slots=True)
class Advice:
    """One measurement that may come next."""

    setting: Setting
    how: str  #: one sentence
    asks: tuple[Ask, ...]  #: what is to be read, in this order
    outcomes: tuple[Outcome, ...]
    expected_bits: float
    minutes: float
    beside: float | None = None  #: of two readings what the second is expected to be [A, V]

    @property
    def measurement(self) -> Measurement:
        """What sort it is."""
        return self.setting.measurement

    @property
    def at_v(self) -> float:
        """Terminal voltage at which it is read; of dark current the current pushed in. [V, A]"""
        return self.setting.at_v

    @property
    def cells(self) -> tuple[CellAt, ...]:
        """Shaded, or probed across."""
        return self.setting.cells

    @property
    def depth(self) -> float:
        """Share of the light that the strip takes."""
        return self.setting.depth


def advise(
    state: State, lies: Lies, most: int = 3, *, hand: AtHand = EVERYTHING, meters: Meters = METERS
) -> tuple[Advice, ...]:
    """The measurements that tell most, of a closed panel or an open lay-up; none where none tells."""
    weights = np.array([spot.weights for spot in state.spots])
    found: dict[What, tuple[float, Expected]] = {}
    for each in _candidates(state, lies, hand, meters):
        expected = corrected(each, state.learning)
        told = bits(expected.mean, expected.sigma, weights)
        key = what(each.setting)
        if told > LEAST_BITS and told > found.get(key, (0.0,))[0]:
            found[key] = told, expected
    ranked = sorted(
        found.values(),
        key=lambda pair: (-round(pair[0] / _ALIKE), MINUTES[pair[1].setting.measurement], -pair[0]),
    )
    return tuple(_advice(state, told, each) for told, each in ranked[:most])


def after(state: State, setting: Setting, read: tuple[float, ...], meters: Meters = METERS) -> State:
    """What is believed after its readings, one for each of what is asked of it."""
    asked = asks(setting, state.foretold.network)
    if len(read) != len(asked) or not all(np.isfinite(read)):
        raise ValueError(f"{len(asked)} readings are asked for, each a number, got {read}")
    if len(read) == 2 and read[1] == 0:
        raise ValueError(f"{asked[1].words} cannot be 0, as it is what the first is held against")
    seen = read[0] / read[1] if len(read) == 2 else read[0]
    plain = _expected(state, setting, meters)
    expected = corrected(plain, state.learning)
    off = (seen - expected.mean) / expected.sigma
    odd = np.exp(-0.5 * (off / _ODD_WIDER) ** 2) / _ODD_WIDER
    likely = ((1 - _ODD) * np.exp(-0.5 * off**2) + _ODD * odd) / expected.sigma
    weights = np.array([spot.weights for spot in state.spots]) * likely
    if weights.sum() <= 0:  # a reading that fits nothing tells nothing
        return replace(state, measured=state.measured + 1)
    return replace(
        state,
        spots=weighted(state.spots, weights),
        measured=state.measured + 1,
        learning=learnt(plain, seen, state.learning),
    )


def hides(state: State, lies: Lies, *, hand: AtHand = EVERYTHING, meters: Meters = METERS) -> str:
    """What is told where no measurement tells the place; empty while one does."""
    if state.located or advise(state, lies, 1, hand=hand, meters=meters):
        return ""
    first = state.places[0]
    fits = [spot for spot in state.spots if spot.kind == first.kind and spot.odds > 0.3 * first.odds]
    if lies == "closed" and len(fits) > 1:
        within = IN_REACH.get(first.kind.key, "") if first.kind else ""
        return (
            f"No measurement on the closed panel tells which of {len(fits)} places it is. With the lay-up "
            f"open, needles across parts of it would. {within}"
        ).rstrip()
    if not (hand.load and hand.supply):
        return "Nothing that is at hand tells more; a load that holds a voltage, or a supply, might."
    return "No measurement known here tells more: the fault is too small beside the errors of the meters."


def _candidates(state: State, lies: Lies, hand: AtHand, meters: Meters) -> Iterator[Expected]:
    if lies == "open":
        yield from _probes(state, hand, meters)
    yield from _strips(state, hand, meters)
    yield _expected(state, Setting("dull light"), meters)
    if hand.supply:
        foretold = state.foretold
        pushed = Setting("dark current", at_v=DARK_PART * foretold.isc_a, most_v=SUPPLY_PART * foretold.voc_v)
        yield _expected(state, pushed, meters)


def _probes(state: State, hand: AtHand, meters: Meters) -> Iterator[Expected]:
    cells = list(numbers(state))
    held = [(share * state.foretold.voc_v, 0.0) for share in _PROBED] if hand.load else []
    for at_v, load_ohm in ((0.0, 0.0), *held, (0.0, inf)):
        inside = within_panel(state, state.foretold.voc_v if load_ohm else at_v)
        for first, last in candidates.parts(state):
            setting = Setting("probe", tuple(cells[first : last + 1]), at_v=at_v, load_ohm=load_ohm)
            yield across(inside, setting, state, meters)


def _strips(state: State, hand: AtHand, meters: Meters) -> Iterator[Expected]:
    kept: dict[tuple[Cells, float], Lines] = {}

    def under(over: Cells, depth: float) -> Lines:
        shade = (over, depth if over else 0.0)
        if shade not in kept:
            kept[shade] = lines(state, *shade, hand.resistors_ohm)
        return kept[shade]

    plain = under((), 0.0)
    held = plain.volts.tolist() if hand.load else [0.0]
    loads = [*((k, volt, 0.0) for k, volt in enumerate(held))]
    loads += [(HELD + n, 0.0, ohm) for n, ohm in enumerate(plain.ohms)]
    for over, then, depth in _shades(state):
        second = under(then, depth)
        mean, own, alike = ratios(second, under(over, depth), meters)
        sort: Measurement = "cover" if depth == 1.0 else "strip"
        for k, volt, ohm in loads:
            setting = Setting(sort, over, depth, volt, ohm, then=then)
            yield Expected(setting, mean[..., k], own[..., k], alike[..., k], second.amps[..., k])


def _shades(state: State) -> Iterator[tuple[Cells, Cells, float]]:
    """Over which cells a strip or cover is laid, over which then, and how deep it is."""
    cells = list(numbers(state))

    def of(part: candidates.Stretch) -> Cells:
        return tuple(cells[part[0] : part[1] + 1])

    for part, depth in product(candidates.parts(state), candidates.depths(state)):
        yield of(part), (), depth
    for (one, other), depth in product(candidates.pairs(state), candidates.deeper(state)):
        yield of(one), of(other), depth
    for row in candidates.rows(state):
        yield (candidates.row_cells(state, row)[0],), (), 1.0


def _expected(state: State, setting: Setting, meters: Meters) -> Expected:
    match setting.measurement:
        case "dull light":
            return dull_v(state, setting, meters)
        case "dark current":
            return dark_v(state, setting, meters)
        case "probe":
            held = state.foretold.voc_v if setting.opened else setting.at_v
            return across(within_panel(state, held), setting, state, meters)
    ohms = (setting.load_ohm,) if setting.load_ohm else ()
    second = lines(state, setting.then, setting.depth if setting.then else 0.0, ohms)
    told = ratios(second, lines(state, setting.cells, setting.depth, ohms), meters)
    mean, own, alike = (along(second, each, setting) for each in told)
    return Expected(setting, mean, own, alike, second.at(setting))


def _advice(state: State, told: float, expected: Expected) -> Advice:
    setting, beside = expected.setting, expected.beside
    weights = np.array([spot.weights for spot in state.spots])
    return Advice(
        setting,
        how(setting, state.foretold.network),
        asks(setting, state.foretold.network),
        outcomes(state, expected),
        told,
        MINUTES[setting.measurement],
        None if beside is None else float((beside * weights).sum() / weights.sum()),
    )
