"""What a controller brings from an array's year to the bank's terminals, and what is lost on the way.

By a converter the greatest power of every input comes through its efficiency; by a switch the current comes
that the strings give at the bank's own voltage. In either case a current bounds it, and a run leads to the
bank. What `stored.through` then finds at the terminals closes an account of every hour, in the order in which
things lie on the way:

    converter  what the converter heats; or
    clamp      what the strings could give at their best and do not at the bank's voltage, and
    switch     what the switch drops
    run        what the run to the bank heats
    limit      what passes the controller's greatest current
    held back  what a full bank does not take
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.array.stored import Supply, Told
from panewright.array.year import Year
from panewright.battery.bank import Bank
from panewright.battery.converter import Converter, Switch
from panewright.sky.hours import YEAR_HOURS, Floats

_NONE = np.array([0.0, 1.0])  # voltages where no current is told
_ROUNDING_W, _SLIGHT_V = 1e-9, 1e-6


@dataclass(frozen=True)
class Way:
    """Controllers and the run behind them: one for all inputs, or for each its own."""

    controllers: tuple[Converter, ...] | tuple[Switch, ...]
    run_ohm: float = 0.0  #: out and back, to the bank

    def __post_init__(self) -> None:
        if not self.controllers or len({type(each) for each in self.controllers}) > 1:
            raise ValueError("inputs have one controller or more, all converters or all switches")
        if not 0 <= self.run_ohm < np.inf:
            raise ValueError(f"a run has a resistance of 0 ohm or more, got {self.run_ohm}")

    @property
    def most_a(self) -> float:
        """Of all controllers."""
        return sum(each.most_a for each in self.controllers)


def supply_of(year: Year, way: Way, bank: Bank) -> Supply:
    """What comes to the bank's terminals in every hour, as `stored.through` asks for it.

    `ValueError` where controllers and inputs do not go together, or the year tells no current at the bank's
    voltages: ask for them by `battery.converter.held_volts`.
    """
    if len(way.controllers) not in (1, year.input_w.shape[1]):
        raise ValueError(f"{year.input_w.shape[1]} inputs have one controller or each its own: {way}")
    if isinstance(way.controllers[0], Converter):
        power, _ = _through_converters(year, way, bank)
        return Supply(power, _NONE, np.zeros((YEAR_HOURS, _NONE.size)), way.most_a)
    volts, amps = _at_bank(year, way, bank)
    return Supply(np.zeros(YEAR_HOURS), volts, amps, way.most_a)


def own_w(year: Year, way: Way) -> Floats:
    """What controllers draw from the bank in hours in which nothing comes: to be added to the load. [W]"""
    rest = year.input_w.sum(axis=1) <= _ROUNDING_W
    return np.where(rest, sum(each.own_w for each in way.controllers), 0.0)


def lost_w(year: Year, way: Way, bank: Bank, told: Told) -> dict[str, Floats]:
    """What each cause takes between the inputs and the bank's terminals, hour by hour. [W]

    With what is used they add up to the inputs' greatest power, to 1e-9 of it in every hour.
    """
    supply, greatest = supply_of(year, way, bank), year.input_w.sum(axis=1)
    if isinstance(way.controllers[0], Converter):
        power, out = _through_converters(year, way, bank)
        passed = np.minimum(power, way.most_a * told.volt)
        own = {"converter": greatest - out, "run": out - power, "limit": power - passed}
        return {**own, "held back": passed - told.used_wh}
    drop = _drop_v(way)
    free = np.array(
        [np.interp(v, supply.held_v, row) for v, row in zip(told.volt, supply.held_a, strict=True)]
    )
    passed = np.minimum(free, way.most_a)
    panels_v = (
        told.volt + drop + way.run_ohm * free
    )  # pulses of the free current, shorter where it is bounded
    return {
        "clamp": greatest - panels_v * free,
        "switch": drop * passed,
        "run": way.run_ohm * free * passed,
        "limit": panels_v * (free - passed),
        "held back": told.volt * passed - told.used_wh,
    }


def _through_converters(year: Year, way: Way, bank: Bank) -> tuple[Floats, Floats]:
    """Power at the bank, its current taken at its usual voltage, and at the converters' ends. [W]"""
    converters = [each for each in way.controllers if isinstance(each, Converter)]
    each = year.input_w if len(converters) > 1 else year.input_w.sum(axis=1, keepdims=True)
    out = np.sum([one.out_w(each[:, k]) for k, one in enumerate(converters)], axis=0)
    if way.run_ohm == 0:
        return out, out
    ohm, volt = way.run_ohm, bank.window.usual_v
    amps = 2 * out / (volt + np.sqrt(volt**2 + 4 * ohm * out))  # of (V + I R) I = P
    return np.asarray(volt * amps), out


def _at_bank(year: Year, way: Way, bank: Bank) -> tuple[Floats, Floats]:
    """Voltages at the bank's terminals, and the strings' current at each in every hour. [V, A]"""
    volts = year.held_v[0] if year.held_v.size else year.held_v.ravel()
    window = bank.window
    if volts.size < 2 or not (year.held_v == volts).all():
        raise ValueError("behind a switch every input tells its current at the same voltages, two or more")
    amps, drop = year.held_a.sum(axis=1), _drop_v(way)
    reach = volts[-1] - drop - way.run_ohm * float(amps[:, -1].max())
    if not (volts[0] - drop <= window.empty_v + _SLIGHT_V and reach >= window.absorption_v - _SLIGHT_V):
        raise ValueError(
            f"the bank passes {window.empty_v:g} to {window.absorption_v:g} V, and currents are told at "
            f"{volts[0] - drop:g} to {reach:g} V of it"
        )
    if way.run_ohm == 0:
        return volts - drop, amps
    grid = np.linspace(volts[0] - drop, reach, volts.size)
    behind = volts - drop - way.run_ohm * amps
    return grid, np.array([np.interp(grid, own, row) for own, row in zip(behind, amps, strict=True)])


def _drop_v(way: Way) -> float:
    """Of the switches: the mean, each weighed by its current."""
    switches: Sequence[Switch] = [each for each in way.controllers if isinstance(each, Switch)]
    return sum(each.drop_v * each.most_a for each in switches) / way.most_a
