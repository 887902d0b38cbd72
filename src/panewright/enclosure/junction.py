"""How hot a bypass diode gets in its box, and whether it cools down again when the shade leaves.

The type test heats the panel to 75 degC, drives Isc through all diodes for an hour, then 1.25 Isc [61215]:

    junction = 75 + Rth x I x V(junction),      V falls by some millivolts a kelvin

so the junction follows in one step. Rth is from junction to the air round the box, all diodes at work.

Then the shade leaves and the diode has to block its substring while still hot. A Schottky diode leaks, and
leaks more the hotter it is. It cools if the leak heats it less than the current did; left at the box's heat
it stays cool for ever if the line of cooling still meets the curve of heating [62979] [ST]:

    leak = leak100 (V / rated) exp(c (T - 100)),        e x c x Rth x V x leak(rest) <= 1

Rates of sheets are at the rated voltage; straight in proportion below it errs to the safe side (typical
curves grow five to ten times from a fifth of the rated voltage to all of it: memory).

[61215] IEC 61215-2 MQT 18.1 (memory; a laboratory's page: 75 degC and 1.25 Isc, seen).
[62979] IEC 62979:2017, thermal runaway of bypass diodes; its scope (seen): PN diodes need no such test.
[ST] A diode maker's note on the greatest junction temperature of Schottky diodes (seen): the leak at which
    it runs away is 1 / (V c Rth (1 - duty)), c = 0.055 a kelvin.
[DS] Data sheets of Schottky diodes for junction boxes (seen): 150 degC, and 200 degC for an hour forward
    without reverse; one in its box 160 degC at 12 A and 0.40 V in 75 degC, so 18 K/W; 0.50 V at 5 A and 25
    degC, 0.41 V at 125 degC; 0.57 and 0.52 V at 10 A.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.enclosure.bypass import CURRENT_FACTOR, Bypass, forward_v

TEST_C = 75.0
LEAK_TOLD_C = 100.0
LEAST_DROP_V = 0.1  #: no diode falls below


@dataclass(frozen=True, slots=True)
class Bypassing:
    """What one diode is asked to do."""

    isc_a: float  #: of its string, at STC
    round_c: float  #: air round the box: that of the test, or the panel's own heat at the place where hotter
    blocks_v: float  #: its substring, hot, when the shade has gone


@dataclass(frozen=True, slots=True)
class Junction:
    """What becomes of it."""

    at_isc_c: float
    at_most_c: float  #: at 1.25 Isc
    heat_w: float  #: of one diode at Isc
    leak_w: float  #: when the shade leaves, still as hot as at Isc
    slope: float  #: e c Rth V leak at rest: 1 is where it runs away
    checks: tuple[Check, ...]


def junction_c(bypass: Bypass, current_a: float, round_c: float) -> float:
    """Junction of a diode that carries a current in its box. [degC]

    >>> diode = Bypass("15 A", 1.2401e-5, 0.027, 8.123e-3, 15.0, 45.0)
    >>> round(junction_c(diode, 8.55, 75.0), 1)
    133.2
    """
    drift, rise = bypass.drift_v_k, bypass.sheds_k_w * current_a
    at_25c = forward_v(bypass, current_a) - 25.0 * drift
    straight = (round_c + rise * at_25c) / (1 - rise * drift)
    return max(straight, round_c + rise * LEAST_DROP_V)


def leak_a(bypass: Bypass, blocks_v: float, at_c: float) -> float:
    """Current through a blocking diode. [A]  [ST]"""
    share = min(1.0, blocks_v / bypass.reverse_v)
    return bypass.leaks_a * share * math.exp(bypass.leak_per_k * (at_c - LEAK_TOLD_C))


def runaway_leak_a(blocks_v: float, rth_k_w: float, per_k: float, blocking: float = 1.0) -> float:
    """Leak at which a diode that blocks for that share of the time begins to run away. [A]  [ST]

    >>> round(runaway_leak_a(15.0, 1.6 + 8.5, 0.055, blocking=0.5), 3)
    0.24
    """
    return 1 / (blocks_v * blocking * per_k * rth_k_w)


def judge_junction(bypass: Bypass, asked: Bypassing) -> Junction:
    """One diode in its box."""
    at_isc_c = junction_c(bypass, asked.isc_a, asked.round_c)
    at_most_c = junction_c(bypass, CURRENT_FACTOR * asked.isc_a, asked.round_c)
    heat = (at_isc_c - asked.round_c) / bypass.sheds_k_w
    leak = asked.blocks_v * leak_a(bypass, asked.blocks_v, at_isc_c)
    rest = leak_a(bypass, asked.blocks_v, asked.round_c)
    slope = math.e * rest / runaway_leak_a(asked.blocks_v, bypass.sheds_k_w, bypass.leak_per_k)
    checks = (
        *_hot(bypass, at_isc_c, at_most_c),
        _check("bypass diode cools when the shade leaves", leak, heat, "W", "IEC 62979, leak by its sheet"),
        _check("bypass diode's leak stays tame", slope, 1.0, "-", "heating meets cooling: IEC 62979"),
    )
    return Junction(at_isc_c, at_most_c, heat, leak, slope, checks)


def _hot(bypass: Bypass, at_isc_c: float, at_most_c: float) -> tuple[Check, Check]:
    source = "IEC 61215-2 MQT 18 (memory); heat shed by its sheet"
    return (
        _check("bypass diode's junction at Isc", at_isc_c, bypass.bears_c, "degC", source),
        _check("bypass diode's junction at 1.25 Isc", at_most_c, bypass.survives_c, "degC", source),
    )


def _check(rule: str, demand: float, limit: float, unit: str, source: str) -> Check:
    cure = "Take a stronger diode, or a box that sheds more heat: leads short, clamped to copper plates."
    return Check(rule, demand, limit, unit, source, cure, "enclosure")
