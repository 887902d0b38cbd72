"""Whether strings and controller, battery and rules bear each other, at record cold and in the hottest hour.

Cold counts with the cells as cold as the air before the sun warms them, heat with the hottest cells. A
panel whose coefficient nobody knows is taken by the table of factors, which stays above common silicon. The
battery's absorption voltage is that of its own heat, from `battery.window`.

[690.7] NEC 690.7(A): factors (seen), 600 V at one- and two-family dwellings, 1000 V at other buildings,
        1500 V apart from buildings (recalled).
[62548] IEC 62548: the same factors, 1000 V at buildings, 1500 V elsewhere (recalled).
[690.8] NEC 690.8(A) and IEC 62548: 1.25 Isc (seen).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from panewright.array.plate import String
from panewright.battery.controller import input_window
from panewright.battery.load import Controller
from panewright.battery.window import Window
from panewright.check import Check
from panewright.enclosure.rating import cold_voc_v
from panewright.wire.laid import Family
from panewright.wire.rules import greatest_of_panels_a

THROWN_AWAY_MOST = 1.6  #: Vmp against a battery's usual voltage, direct; common practice, no source
_TABLE_ENDS_C = -40.0
_DWELLING_V, _BUILDING_V, _OPEN_V = 600.0, 1000.0, 1500.0


@dataclass(frozen=True, slots=True)
class Extremes:
    """Where the array stands, at its coldest and hottest."""

    family: Family
    coldest_c: float  #: record low of the air
    hottest_cell_c: float
    dwelling: bool = True  #: on a house for one or two families
    on_building: bool = True


@dataclass(frozen=True, slots=True)
class Port:
    """A controller's input, with the battery behind it."""

    controller: Controller
    window: Window
    most_a: (
        float  #: short-circuit current that the input bears, or its rating where the sheet names one alone
    )
    battery_v: float  #: nominal
    takes_v: tuple[float, ...]  #: nominal voltages of batteries that it charges
    lost_v: float = 0.0  #: in wires, fuses and blocking diodes at the working current


def string_cold_v(string: String, coldest_c: float) -> float | None:
    """Open-circuit voltage of a string in record cold; None where the factors end and one is needed. [V]"""
    if coldest_c < _TABLE_ENDS_C and any(plate.voc_per_k is None for plate in string):
        return None
    return sum(cold_voc_v(plate.voc_v, coldest_c, plate.voc_per_k) for plate in string)


def string_hot_v(string: String, cell_c: float) -> float:
    """Voltage at which a string works in the hottest hour. [V]"""
    return sum(plate.hot_vmp_v(cell_c) for plate in string)


def input_checks(strings: Sequence[String], port: Port, extremes: Extremes) -> tuple[Check, ...]:
    """Every limit of the strings at one input."""
    if not strings or not all(strings):
        raise ValueError("an input has a string or more, and each string a panel or more")
    found = (
        *_cold_checks(strings, port, extremes),
        _hot_check(strings, port, extremes),
        _current_check(strings, port, extremes.family),
        _battery_check(port),
    )
    return (*found, _thrown_away_check(strings, port)) if port.controller.kind == "direct" else found


def _cold_checks(strings: Sequence[String], port: Port, extremes: Extremes) -> tuple[Check, ...]:
    volts = [string_cold_v(string, extremes.coldest_c) for string in strings]
    cold_v = None if None in volts else max(volt for volt in volts if volt is not None)
    label_v = min(plate.system_v for string in strings for plate in string)
    source = "NEC 690.7(A)" if extremes.family == "NEC" else "IEC 62548 (recalled)"
    rules_v = rules_most_v(extremes)
    most_v = port.controller.most_v
    return (
        _check("controller bears every string on the coldest morning", cold_v, most_v, source),
        _check("strings stay under the highest voltage of the rules", cold_v, rules_v, source),
        _check("strings stay under the system voltage of the labels", cold_v, label_v, source),
    )


def _check(rule: str, cold_v: float | None, limit_v: float, source: str) -> Check:
    """Not covered where the factors for cold end."""
    unknown = "State the panels' own coefficients: the table of factors ends at -40 °C."
    cure = unknown if cold_v is None else "Put fewer panels in series."
    limit = None if cold_v is None else limit_v
    return Check(rule, math.nan if cold_v is None else cold_v, limit, "V", source, cure, "array")


def rules_most_v(extremes: Extremes) -> float:
    """Highest voltage between conductors that the family allows. [V] [690.7] [62548]"""
    if not extremes.on_building:
        return _OPEN_V
    return _DWELLING_V if extremes.family == "NEC" and extremes.dwelling else _BUILDING_V


def _hot_check(strings: Sequence[String], port: Port, extremes: Extremes) -> Check:
    return Check(
        rule="hottest string finishes the charge",
        demand=input_window(port.controller, port.window).least_v + port.lost_v,
        limit=min(string_hot_v(string, extremes.hottest_cell_c) for string in strings),
        unit="V",
        source="absorption voltage, controller and wire against Vmp of hot cells: physics",
        cure="Put more panels or cells in series, or shorten the run.",
        room="array",
    )


def _current_check(strings: Sequence[String], port: Port, family: Family) -> Check:
    return Check(
        rule="controller bears the strings' current",
        demand=greatest_of_panels_a(sum(_string_isc_a(string) for string in strings)),
        limit=port.most_a,
        unit="A",
        source="1.25 Isc: NEC 690.8(A)" if family == "NEC" else "1.25 Isc: IEC 62548 (recalled)",
        cure="Put fewer strings on this input, or more panels in series in each.",
        room="array",
    )


def _string_isc_a(string: String) -> float:
    return max(plate.isc_a for plate in string)  # behind bypass diodes the strongest panel's can flow


def _battery_check(port: Port) -> Check:
    return Check(
        rule="bank's volts beside the nearest that the controller charges",
        demand=min((abs(port.battery_v - volts) for volts in port.takes_v), default=port.battery_v),
        limit=0.5,  # 12.8 V is no 12 V, but a sheet's 24 is another's 24.0
        unit="V",
        source="the controller's sheet",
        cure=f"The bank has {port.battery_v:g} V, the controller charges {_listed(port.takes_v)}: take "
        "another of them.",
        room="array",
    )


def _listed(volts: Sequence[float]) -> str:
    return " or ".join(f"{each:g} V" for each in volts) or "none"


def _thrown_away_check(strings: Sequence[String], port: Port) -> Check:
    held_v = input_window(port.controller, port.window).usual_v + port.lost_v
    return Check(
        rule="voltage that a direct controller throws away",
        demand=max(sum(plate.vmp_v for plate in string) for string in strings) / held_v,
        limit=THROWN_AWAY_MOST,
        unit="-",
        source="common practice, no source",
        cure="Put fewer panels in series and more side by side, or take a controller that seeks their best.",
        room="array",
    )


@dataclass(frozen=True, slots=True)
class Threshold:
    """A voltage from which on more is asked."""

    above_v: float
    what: str
    article: str


#: recalled, but for 690.7
_THRESHOLDS: dict[Family, tuple[Threshold, ...]] = {
    "NEC": (
        Threshold(
            30.0, "where people can reach them, conductors lie in a raceway or behind guards", "690.31(A)"
        ),
        Threshold(50.0, "live parts are guarded against touch", "110.27(A)"),
        Threshold(
            60.0, "a two-wire system has its earthing and the battery its own disconnect", "250.162, 706.15"
        ),
        Threshold(80.0, "arcs are watched for, on and in buildings", "690.11"),
        Threshold(100.0, "a battery of a dwelling may not be higher", "706.20(B)"),
        Threshold(600.0, "not at dwellings for one or two families", "690.7(A)"),
    ),
    "IEC": (
        Threshold(60.0, "live parts are guarded against touch, even in the dry", "IEC 60364-4-41, 414.4.5"),
        Threshold(
            120.0,
            "no longer extra-low voltage: double insulation, tests of insulation",
            "IEC 60364-4-41, 414",
        ),
        Threshold(1000.0, "not at buildings", "IEC 62548"),
    ),
}


def thresholds_passed(volts: float, family: Family) -> tuple[Threshold, ...]:
    """What the family asks on top at this voltage, lowest first; never both families.

    >>> [each.above_v for each in thresholds_passed(104.0, "IEC")]
    [60.0]
    """
    return tuple(each for each in _THRESHOLDS[family] if volts > each.above_v)
