"""What else protects an array: needed or not, why, and which article says so. One family at a time.

Articles are recalled but for 690.9; numbers move from print to print. Where an article asks for equipment it
means listed equipment, and the office that inspects has the last word.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from panewright.wire.laid import Family

SCHOTTKY_V, SILICON_V = 0.45, 0.8  #: drop of a blocking diode at its current; common practice, no source
_PLAIN_JOIN = 2  # strings that a branch connector joins
_GUARD_V, _ARC_V, _TOUCH_V, _EXTRA_LOW_V = 60.0, 80.0, 60.0, 120.0


@dataclass(frozen=True, slots=True)
class Protected:
    """What of an array decides."""

    family: Family
    strings: int
    cold_v: float  #: of the longest string
    on_building: bool
    controller: bool  #: between panels and battery; False: joined straight
    string_fuses: bool  #: whether any string needs one


@dataclass(frozen=True, slots=True)
class Need:
    """One thing: needed or not, why, by which article."""

    thing: str
    needed: bool
    why: str
    article: str


def blocking_w(string_a: Sequence[float], drop_v: float = SCHOTTKY_V) -> float:
    """What blocking diodes cost while strings give these currents, one diode each. [W]

    >>> blocking_w([8.0, 8.0])
    7.2
    """
    return drop_v * sum(string_a)


def needs(array: Protected) -> tuple[Need, ...]:
    """Everything that may be asked for, needed or not."""
    return (*_anywhere(array), *(_by_nec(array) if array.family == "NEC" else _by_iec(array)))


def _anywhere(array: Protected) -> tuple[Need, ...]:
    """What physics asks for, whichever family."""
    night = "at night the battery would discharge through the panels"
    diode = night if not array.controller else "the controller keeps current from flowing back"
    many = array.string_fuses or array.strings > _PLAIN_JOIN
    box = "strings meet at fuses or at bars" if many else "two strings or one meet without a box"
    feeds = "a battery can drive thousands of amperes into a short; the fuse sits at its plus terminal"
    by_nec = array.family == "NEC"
    return (
        Need("blocking diodes", not array.controller, diode, "no article; physics"),
        Need("combiner box", many, box, "NEC 690.4, 690.9" if by_nec else "IEC 62548, 7.2"),
        Need("fuse at the battery", True, feeds, "NEC 240.21(H)" if by_nec else "IEC 60364-4-43"),
    )


def _by_nec(array: Protected) -> tuple[Need, ...]:
    built, volts = array.on_building, array.cold_v
    where = "on or in a building" if built else "apart from buildings"
    fault = built or array.strings > _PLAIN_JOIN
    arc = built and volts >= _ARC_V
    high = volts > _GUARD_V
    return (
        Need(
            "disconnect of the panels", True, "panels cannot be switched off: their circuit must be", "690.13"
        ),
        Need("disconnect of the battery", high, f"{volts:.0f} V; above 60 V it has its own", "706.15"),
        Need("isolator at the controller", True, "so that it can be exchanged with no arc", "690.15"),
        Need("frames earthed", True, "metal that can be touched, at any voltage", "690.43, 690.45"),
        Need("guard against faults to earth", fault, f"{array.strings} strings {where}", "690.41(B)"),
        Need("guard against arcs", arc, f"{volts:.0f} V {where}; asked from 80 V at buildings", "690.11"),
        Need("rapid shutdown", built, f"{where}: those who fight fires", "690.12"),
        Need("listed panels", True, "hand-built panels are not: ask before building", "690.4(B)"),
    )


def _by_iec(array: Protected) -> tuple[Need, ...]:
    touch, extra_low = array.cold_v > _TOUCH_V, array.cold_v <= _EXTRA_LOW_V
    volts = f"{array.cold_v:.0f} V"
    lightning = "on a building with lightning protection, or at the end of a long run: by the risk"
    return (
        Need(
            "disconnect of the panels", True, "breaks direct current under load", "IEC 60364-7-712, 712.537"
        ),
        Need("disconnect of the battery", True, "so that work on it begins without voltage", "IEC 62485-2"),
        Need("frames earthed", touch, f"{volts}; asked above 60 V, wise always", "IEC 62548, 6.4"),
        Need("watch on insulation", not extra_low, f"{volts}; asked above 120 V", "IEC 62548, 6.4"),
        Need("guard against arcs", False, "no article asks for it; IEC 63027 says how one is built", "none"),
        Need("rapid shutdown", False, "no article asks for it; a country may", "none"),
        Need("guard against surges", array.on_building, lightning, "IEC 60364-7-712, 712.443"),
        Need("double insulation", not extra_low, f"{volts}; asked above 120 V", "IEC 60364-7-712, 712.412"),
    )
