"""The next measurement: which one is expected to tell most, how to do it, and what each outcome means.

Every candidate's reading is foretold for everything that is still believed, place by place and strength by
strength. The one whose reading is expected to tell most (`information`) comes first; of those that tell
alike, the quickest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from panewright.bench.fault.place import candidates
from panewright.bench.fault.place.belief import State, weighted
from panewright.bench.fault.place.information import bits
from panewright.bench.fault.place.outcome import Outcome, outcomes
from panewright.bench.fault.place.probe import numbers, readings, within_panel
from panewright.bench.fault.place.setting import Measurement, Meters, Setting
from panewright.bench.fault.place.strip import lines, ratios
from panewright.bench.fault.place.telling import Ask, asks, how
from panewright.bench.fault.place.whole import DARK_PART, dark_v, dull_v
from panewright.bench.fault.wording import IN_REACH
from panewright.cell.root import Array
from panewright.circuit.place import CellAt

Lies = Literal["closed", "open"]
MINUTES: dict[Measurement, float] = {
    "probe": 1.0, "cover": 2.0, "strip": 3.0, "dull light": 5.0, "dark current": 10.0
}  #: common practice  # fmt: skip
LEAST_BITS = 0.05  #: what is expected to tell less is not worth a reading
_ALIKE = 0.1  # bits by which two measurements tell alike
_ODD, _ODD_WIDER = 0.02, 6.0  # share of readings that go wrong, and how much wider these scatter
_PROBED = (0.0, 0.45, 0.9, 1.0)  # of the panel's open voltage
METERS = Meters()
Expected = tuple[Setting, Array, Array]  #: with the reading's mean and deviation, (spots, strengths)


@dataclass(frozen=True, slots=True)
class Advice:
    """One measurement that may come next."""

    setting: Setting
    how: str  #: one sentence
    asks: tuple[Ask, ...]  #: what is to be read, in this order
    outcomes: tuple[Outcome, ...]
    expected_bits: float
    minutes: float

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


def advise(state: State, lies: Lies, most: int = 3, meters: Meters = METERS) -> tuple[Advice, ...]:
    """The measurements that tell most, of a closed panel or an open lay-up; none where none tells."""
    weights = np.array([spot.weights for spot in state.spots])
    found: dict[tuple[Measurement, tuple[CellAt, ...]], tuple[float, Expected]] = {}
    for each in _candidates(state, lies, meters):
        told = bits(each[1], each[2], weights)
        key = each[0].measurement, each[0].cells
        if told > LEAST_BITS and told > found.get(key, (0.0,))[0]:
            found[key] = told, each
    ranked = sorted(
        found.values(), key=lambda pair: (-round(pair[0] / _ALIKE), MINUTES[pair[1][0].measurement], -pair[0])
    )
    return tuple(_advice(state, told, each) for told, each in ranked[:most])


def after(state: State, advice: Advice, read: tuple[float, ...], meters: Meters = METERS) -> State:
    """What is believed after its readings, one for each of `advice.asks`."""
    if len(read) != len(advice.asks) or not all(np.isfinite(read)):
        raise ValueError(f"{len(advice.asks)} readings are asked for, each a number, got {read}")
    if len(read) == 2 and read[1] == 0:
        raise ValueError(f"{advice.asks[1].words} cannot be 0, as it is what the first is held against")
    seen = read[0] / read[1] if len(read) == 2 else read[0]
    _, mean, sigma = _expected(state, advice.setting, meters)
    off = (seen - mean) / sigma
    odd = np.exp(-0.5 * (off / _ODD_WIDER) ** 2) / _ODD_WIDER
    likely = ((1 - _ODD) * np.exp(-0.5 * off**2) + _ODD * odd) / sigma
    weights = np.array([spot.weights for spot in state.spots]) * likely
    if weights.sum() <= 0:  # a reading that fits nothing tells nothing
        return replace(state, measured=state.measured + 1)
    return State(state.foretold, weighted(state.spots, weights), state.measured + 1)


def hides(state: State, lies: Lies, meters: Meters = METERS) -> str:
    """What is told where no measurement tells the place; empty while one does."""
    if state.located or advise(state, lies, 1, meters):
        return ""
    first = state.places[0]
    fits = [spot for spot in state.spots if spot.kind == first.kind and spot.odds > 0.3 * first.odds]
    if lies == "closed" and len(fits) > 1:
        within = IN_REACH.get(first.kind.key, "") if first.kind else ""
        return (
            f"No measurement on the closed panel tells which of {len(fits)} places it is. With the lay-up "
            f"open, needles across parts of it would. {within}"
        ).rstrip()
    return "No measurement known here tells more: the fault is too small beside the errors of the meters."


def _candidates(state: State, lies: Lies, meters: Meters) -> Iterator[Expected]:
    if lies == "open":
        yield from _probes(state, meters)
    yield from _strips(state, meters)
    yield _expected(state, Setting("dull light"), meters)
    amps = DARK_PART * state.foretold.isc_a
    yield _expected(state, Setting("dark current", at_v=amps), meters)


def _probes(state: State, meters: Meters) -> Iterator[Expected]:
    cells = list(numbers(state))
    for share in _PROBED:
        at_v = share * state.foretold.voc_v
        inside = within_panel(state, at_v)
        for first, last in candidates.parts(state):
            setting = Setting("probe", tuple(cells[first : last + 1]), at_v=at_v)
            yield (setting, *readings(inside, (first, last), at_v, meters))


def _strips(state: State, meters: Meters) -> Iterator[Expected]:
    plain, cells = lines(state, (), 0.0), list(numbers(state))
    shades = [
        (tuple(cells[first : last + 1]), depth)
        for first, last in candidates.parts(state)
        for depth in candidates.depths(state)
    ]
    shades += [((candidates.row_cells(state, row)[0],), 1.0) for row in candidates.rows(state)]
    for over, depth in shades:
        mean, sigma = ratios(plain, lines(state, over, depth), meters)
        sort: Measurement = "cover" if depth == 1.0 else "strip"
        for k, volt in enumerate(plain.volts.tolist()):
            yield Setting(sort, over, depth, volt), mean[..., k], sigma[..., k]


def _expected(state: State, setting: Setting, meters: Meters) -> Expected:
    match setting.measurement:
        case "dull light":
            return (setting, *dull_v(state, meters))
        case "dark current":
            return (setting, *dark_v(state, setting.at_v, meters))
        case "probe":
            every = numbers(state)
            part = every[setting.cells[0]], every[setting.cells[-1]]
            return (setting, *readings(within_panel(state, setting.at_v), part, setting.at_v, meters))
    plain = lines(state, (), 0.0)
    mean, sigma = ratios(plain, lines(state, setting.cells, setting.depth), meters)
    k = int(np.argmin(np.abs(plain.volts - setting.at_v)))
    return setting, mean[..., k], sigma[..., k]


def _advice(state: State, told: float, expected: Expected) -> Advice:
    setting, mean, sigma = expected
    return Advice(
        setting,
        how(setting, state.foretold.network),
        asks(setting, state.foretold.network),
        outcomes(state, mean, sigma),
        told,
        MINUTES[setting.measurement],
    )
