"""Hours of a year one after the other: panels, bank, loads and generator at one pair of terminals.

In every hour one current balances all of them. The panels' current falls as the bank's voltage rises, and so
does what the loads leave of it; the bank's voltage rises with the current it gets: so there is one balance,
and halving cannot miss it. Above the absorption voltage the controller holds back, and what the panels could
have given is told as unused.
"""

from __future__ import annotations

from typing import NamedTuple

from panewright.battery.bank import Store
from panewright.battery.through import held_wh, hour_v, kept_share, taken_a
from panewright.cell.root import Array
from panewright.circuit.solver.sheet import Column

_ROUNDS, _BALANCED = 100, 1e-14  # of the capacity in amperes
_MOST_RATE = 1.0  # of the capacity in an hour: no load draws more
_FULL, _LEAST_KEPT = 1.0, 1e-3


class Supply(NamedTuple):
    """What comes to the bank's terminals."""

    power_w: Array  #: of each hour, behind a controller that seeks the greatest power; else zeros
    held_v: Array  #: voltages of the bank, rising
    held_a: Array  #: rows by hour: current of panels that are joined to the bank, at each; else zeros
    most_a: float  #: that the controller passes


class Demand(NamedTuple):
    """What is drawn, and what helps out."""

    load_w: Array  #: of each hour, at the bank's terminals
    generator_w: float  #: at the bank's terminals, 0 for none
    start: float  #: state of charge at which it is started
    stop: float  #: and stopped
    back: float  #: state of charge at which loads that were cut off come back


class Told(NamedTuple):
    """Every hour: states at its end, the rest over it."""

    charge: Array  #: state of charge
    volt: Array
    offered_wh: Array  #: the panels could have given, at the voltage that was
    used_wh: Array  #: they gave
    generator_wh: Array
    served_wh: Array
    missing_wh: Array  #: load that was not served
    bank_wh: Array  #: into the bank at its terminals; below 0 out of it
    held_wh: Array  #: change of what it holds
    lost_wh: Array  #: in the bank: resistance, gassing
    idle_wh: Array  #: lost by rest
    passed_ah: Array  #: discharged


def through(store: Store, supply: Supply, demand: Demand, charge: float, told: Told) -> float:
    """Write what happens in each hour, begun at a state of charge; the state at the end."""
    s, running, cut = charge, False, False
    for h in range(len(demand.load_w)):
        idle = min(store.idle_a / store.capacity_ah * s, s)
        told.idle_wh[h] = held_wh(store, s) - held_wh(store, s - idle)
        s -= idle
        running = demand.generator_w > 0.0 and (s < demand.stop if running else s < demand.start)
        cut = s < demand.back if cut else s <= store.lowest
        helped = demand.generator_w if running else 0.0
        wanted = 0.0 if cut and not running else demand.load_w[h]
        s, cut = _hour(store, supply, h, s, cut, helped, wanted, demand.load_w[h], told)
    return s


def _hour(
    store: Store,
    supply: Supply,
    h: int,
    s: float,
    cut: bool,
    helped: float,
    wanted: float,
    load: float,
    told: Told,
) -> tuple[float, bool]:
    """One hour; the state of charge at its end, and whether loads are cut off."""
    amps = balanced_a(store, supply, h, s, helped, wanted)
    volt, served = hour_v(store, s, amps), wanted
    if amps > 0.0 and volt > store.absorption_v:
        amps, volt = taken_a(store, s, store.absorption_v), store.absorption_v
    kept = kept_share(store, s, amps) if amps > 0.0 else 1.0
    if kept * amps > (_FULL - s) * store.capacity_ah:
        kept = max(kept, _LEAST_KEPT)
        amps = (_FULL - s) * store.capacity_ah / kept
        volt = hour_v(store, s, amps)
    left = max(s - store.lowest, 0.0) * store.capacity_ah
    if amps < -left or (amps < 0.0 and volt < store.empty_v):
        amps, cut = (-left if volt >= store.empty_v else 0.0), True
        volt = hour_v(store, s, amps)
        served = min(wanted, max(0.0, input_a(supply, h, volt) * volt + helped - amps * volt))
    used = amps * volt + served - helped
    if used < 0.0:
        helped, used = amps * volt + served, 0.0
    after = s + kept * amps / store.capacity_ah
    _write(store, supply, h, (s, after), (volt, amps, used, helped), (served, load), told)
    return after, cut


def _write(
    store: Store,
    supply: Supply,
    h: int,
    states: tuple[float, float],
    flow: tuple[float, float, float, float],
    loads: tuple[float, float],
    told: Told,
) -> None:
    volt, amps, used, helped = flow
    change = held_wh(store, states[1]) - held_wh(store, states[0])
    told.charge[h], told.volt[h] = states[1], volt
    told.offered_wh[h], told.used_wh[h] = max(input_a(supply, h, volt) * volt, used), used
    told.generator_wh[h] = helped
    told.served_wh[h], told.missing_wh[h] = loads[0], loads[1] - loads[0]
    told.bank_wh[h], told.held_wh[h], told.lost_wh[h] = amps * volt, change, amps * volt - change
    told.passed_ah[h] = max(-amps, 0.0)


def balanced_a(store: Store, supply: Supply, h: int, s: float, helped: float, wanted: float) -> float:
    """Current into the bank at which all that meets at its terminals is in balance. [A]

    What is left over falls with the bank's current, so it has one root; a straight line between two bounds
    that hold it leads there, the bound that stays put being weighed by half.
    """
    low, high = -_MOST_RATE * store.capacity_ah, store.most_a if store.may_charge else 0.0
    above = over(store, supply, h, s, helped, wanted, high)
    if above >= 0.0:
        return high
    below = over(store, supply, h, s, helped, wanted, low)
    if below <= 0.0:
        return low
    stayed = 0
    for _ in range(_ROUNDS):
        amps = (low * above - high * below) / (above - below)
        left = over(store, supply, h, s, helped, wanted, amps)
        if abs(left) <= _BALANCED * store.capacity_ah or high - low <= _BALANCED * store.capacity_ah:
            return amps
        if left > 0.0:
            low, below = amps, left
            above, stayed = (0.5 * above, 1) if stayed == 1 else (above, 1)
        else:
            high, above = amps, left
            below, stayed = (0.5 * below, -1) if stayed == -1 else (below, -1)
    return 0.5 * (low + high)


def over(store: Store, supply: Supply, h: int, s: float, helped: float, wanted: float, amps: float) -> float:
    """What would be left over at the terminals if the bank took so much. [A]"""
    volt = max(hour_v(store, s, amps), 0.1 * store.empty_v)
    return input_a(supply, h, volt) + (helped - wanted) / volt - amps


def input_a(supply: Supply, h: int, volt: float) -> float:
    """Current that the panels can give at a voltage of the bank. [A]"""
    if supply.power_w[h] > 0.0:
        return float(min(supply.power_w[h] / volt, supply.most_a))
    return min(at_volt(supply.held_v, supply.held_a[h], volt), supply.most_a)


def at_volt(volts: Column, amps: Column, volt: float) -> float:
    """Between currents that are known at rising voltages; the ends go on level. [A]"""
    last = len(volts) - 1
    if volt <= volts[0]:
        return amps[0]
    if volt >= volts[last]:
        return amps[last]
    k = 0
    while volts[k + 1] < volt:
        k += 1
    return amps[k] + (amps[k + 1] - amps[k]) * (volt - volts[k]) / (volts[k + 1] - volts[k])
