"""Faults sought from the first curve to the place, with noise: how many measurements it takes.

The panel's true circuit is solved exactly (`circuit.solve`, `circuit.inside`), in the true light and heat,
where the search foretells by sums in the light and heat that were read. The panel is off what is foretold of
it in Isc, Voc, resistance and shunts, each as far as a panel known by what went in is (`AS_BUILT`). Every
reading scatters by half a per cent, light drifts by three thousandths between two readings. A weak cell is
sought in a closed panel, any single fault in an open lay-up. Only panels that their curve calls faulty are
sought in: the others are told.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, isfinite, log1p, log2

import numpy as np

from campaigns.faulty import NOISE, Case, draw
from campaigns.found import Deviation, Found
from panewright.bench.fault.finding import find
from panewright.bench.fault.foretold import Foretold
from panewright.bench.fault.kinds import Group
from panewright.bench.fault.place.belief import Spot, begin
from panewright.bench.fault.place.next import Advice, Lies, advise, after
from panewright.bench.fault.place.whole import DULL_W_M2
from panewright.bench.fault.readings import AS_BUILT, Points
from panewright.cell.damage import Shaded
from panewright.circuit.damage import Fault, damaged
from panewright.circuit.inside import cell_states
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, DiodeAt, within
from panewright.circuit.solve import current_a, voltage_v
from panewright.circuit.trace import trace
from panewright.enclosure.bypass import Bypass

MORE = 3  #: measurements beyond halving
WANTED = 0.90  #: share of panels in which the place is found
STEADY = 0.003
_POINTS = 61
_PLACED: tuple[Group, ...] = ("lost voltage", "weak cell", "added resistance", "shunted cell")


@dataclass(frozen=True, slots=True)
class Sought:
    """One panel's search."""

    words: str
    lost: float  #: share of Pmp
    cells: int
    called: bool
    found: bool  #: the true place, within the measurements allowed
    wrong: bool  #: another place was named
    measured: int
    hidden: bool  #: the search ended by saying that nothing tells more

    @property
    def allowed(self) -> int:
        """Measurements."""
        return ceil(log2(self.cells)) + MORE


def campaign(count: int, seed: int) -> Found:
    """So many panels; every second one closed with a weak cell, the others open with any fault."""
    return told_of(searches(count, seed), count)


def searches(count: int, seed: int, first_one: int = 0) -> list[tuple[Lies, Sought]]:
    """Each panel has a chance of its own, by its number."""
    told: list[tuple[Lies, Sought]] = []
    for nth in range(first_one, first_one + count):
        chance = np.random.default_rng((seed, nth))
        lies: Lies = "closed" if nth % 2 == 0 else "open"
        group = "weak cell" if lies == "closed" else _PLACED[nth // 2 % len(_PLACED)]
        told.append((lies, seek(draw(chance, group, AS_BUILT), chance, lies)))
    return told


def told_of(searched: list[tuple[Lies, Sought]], count: int) -> Found:
    """What they found."""
    ways: tuple[Lies, ...] = ("closed", "open")
    told = {lies: [each for how, each in searched if how == lies] for lies in ways}
    deviations = tuple(_deviation(lies, each) for lies, each in told.items())
    notes = tuple(_note(lies, each) for lies, each in told.items())
    against = "the true place; circuits solved exactly"
    return Found("faults placed", against, count, {}, deviations, (), notes)


def _deviation(lies: Lies, told: list[Sought]) -> Deviation:
    called = [each for each in told if each.called]
    missed = 1 - float(np.mean([each.found for each in called])) if called else float("nan")
    return Deviation(f"{lies}: place not found", missed, 1 - WANTED, f"{len(called)} called faulty")


def _note(lies: Lies, told: list[Sought]) -> str:
    called = [each for each in told if each.called]
    found = [each for each in called if each.found]
    steps = np.mean([each.measured for each in found]) if found else 0.0
    return (
        f"{lies}: {len(found)} of {len(called)} found within the measurements allowed, {steps:.1f} on "
        f"average beside the curve; {sum(each.wrong for each in called)} named in a wrong place, "
        f"{sum(each.hidden for each in called)} said to be hidden; {len(told) - len(called)} more were too "
        "small to be called"
    )


def seek(case: Case, chance: np.random.Generator, lies: Lies) -> Sought:
    """The whole search on one panel."""
    foretold = Foretold(case.panel, case.irradiance_w_m2, case.cell_c)
    finding = find(foretold, _curve(case, chance))
    cells = sum(len(row.cells) for row in case.network.strings[0].substrings)
    if not finding.called:
        return Sought(case.words, case.lost, cells, False, False, False, 0, False)
    state, most, hidden = begin(foretold, finding), ceil(log2(cells)) + MORE, False
    while state.located is None and state.measured < most:
        best = advise(state, lies, 1)
        if not best:
            hidden = True
            break
        state = after(state, best[0].setting, _read(case, best[0], chance))
    there = state.located
    right = there is not None and _is(there, case)
    return Sought(
        case.words, case.lost, cells, True, right, there is not None and not right, state.measured, hidden
    )


def _is(spot: Spot, case: Case) -> bool:
    """Whether that is the place that was drawn."""
    true = CellAt(0, case.places[0])
    if isinstance(spot.place, DiodeAt):
        return spot.place.substring == within(case.sound, true)[0]
    return spot.place == true


def _curve(case: Case, chance: np.random.Generator) -> Points:
    curve = trace(case.network, _POINTS)
    v, i = (_noisy(np.array(each), chance) for each in (curve.voltage_v, curve.current_a))
    errors = NOISE * np.abs(v), NOISE * np.abs(i)
    return Points(v, i, *errors, case.irradiance_w_m2, case.cell_c, AS_BUILT)


def _noisy(true: np.ndarray, chance: np.random.Generator) -> np.ndarray:
    return np.asarray(true * (1 + NOISE * chance.normal(size=true.shape)))


def _read(case: Case, advice: Advice, chance: np.random.Generator) -> tuple[float, ...]:
    """What the meters show of the true panel."""

    def meter(true: float) -> float:
        return float(_noisy(np.array(true), chance))

    at_v = advice.at_v * (1 + NOISE * chance.normal())
    match advice.measurement:
        case "dull light":
            dull = DULL_W_M2 * (1 + 0.1 * chance.normal())
            return (meter(_open_v(case.at(dull, case.true_c), 0.0)),)
        case "dark current":
            pushed = _open_v(case.at(0.0, case.true_c), -advice.at_v)
            return (meter(min(pushed, advice.setting.most_v)),)
        case "probe":
            across, whole = _probed(case, advice, at_v)
            return (meter(across),) if advice.setting.shorted else (meter(across), meter(whole))
    again_v = advice.at_v * (1 + NOISE * chance.normal())
    light = case.true_w_m2 * (1 + STEADY * chance.normal())
    first, then = _shaded(case.at(light, case.true_c), advice, advice.cells), case.network
    with_it, without = _amps(first, again_v), _amps(_shaded(then, advice, advice.setting.then), at_v)
    return meter(with_it), meter(without)


def _shaded(network: Network, advice: Advice, cells: tuple[CellAt, ...]) -> Network:
    return damaged(network, *(Fault(Shaded(1.0, advice.depth), cell) for cell in cells))


def _open_v(network: Network, amps: float) -> float:
    return float(voltage_v(network, np.array([amps]))[0])


def _amps(network: Network, volt: float) -> float:
    return float(current_a(network, np.array([volt]))[0])


def _probed(case: Case, advice: Advice, at_v: float) -> tuple[float, float]:
    """Voltage across the part with its joints, and across the panel."""
    top = _open_v(case.network, 0.0)
    held = top if advice.setting.opened else min(at_v, top)
    numbers = {cell.number for cell in advice.cells}
    volts = _along(case.network, held)
    gone = case.places[0] if len(volts) < len(list(_cells(case.sound))) else 0
    placed = ((number + (0 < gone <= number), volt) for number, volt in enumerate(volts, start=1))
    return sum(volt for number, volt in placed if number in numbers), held


def _along(network: Network, held: float) -> list[float]:
    """Voltage of every cell with its joint; the gap of a joint that is off has what its row has left."""
    rows = network.strings[0].substrings
    joints = [ohm for row in rows for ohm in row.joints_ohm]
    volts = [
        state.voltage_v - (state.current_a * joint if isfinite(joint) else 0.0)
        for state, joint in zip(cell_states(network, held), joints, strict=True)
    ]
    first = 0
    for row in rows:
        for k, joint in enumerate(row.joints_ohm):
            if not isfinite(joint):
                amps = _amps(network, held)
                beside = row.bypass
                assert isinstance(beside, Bypass)
                row_v = -(beside.ideality_v * log1p(amps / beside.saturation_a) + beside.series_ohm * amps)
                volts[first + k] += row_v - sum(volts[first : first + len(row.cells)])
        first += len(row.cells)
    return volts


def _cells(network: Network) -> list[int]:
    return [k for row in network.strings[0].substrings for k, _ in enumerate(row.cells)]
