"""Whether a string needs a fuse of its own, and which.

A string in shade or with a short takes what the strings beside it give. A panel bears as much as its largest
series fuse says, a wire its ampacity. Where all others together give no more than both bear, no fuse is
needed. A battery that can feed back, without a controller between, always asks for one.

[690.9] NEC 690.9(A) and (B): others at 1.25 Isc each; a fuse carries 1.5625 Isc (seen).
[62548] IEC 62548, 6.5: others at Isc each; 1.5 Isc < fuse <= 2.4 Isc (recalled).
[60269-6] fuses for panels, 10 x 38 mm, up to 1000 V direct current: sizes recalled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from panewright.array.plate import String
from panewright.array.sign import sign_of
from panewright.check import Check
from panewright.wire.ampacity import needed_ampacity_a
from panewright.wire.laid import Family
from panewright.wire.rules import greatest_of_panels_a

SIZES_A = (2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 30.0)  #: [60269-6]
FUSE_V = 1000.0  #: direct current [60269-6]
IEC_LEAST, IEC_MOST = 1.5, 2.4  #: of Isc [62548]


@dataclass(frozen=True, slots=True)
class StringFuse:
    """What one string asks for."""

    string: int  #: its number, from 0
    reverse_a: float  #: what the others can drive into it
    bears_a: float  #: without a fuse: weakest panel or wire
    least_a: float  #: a fuse must be this large to carry the current
    most_a: float  #: and no larger, to protect
    size_a: float | None  #: as sold, the smallest that fits; None where none fits
    article: str

    @property
    def needed(self) -> bool:
        """Whether the string needs one."""
        return self.reverse_a > self.bears_a

    @property
    def why(self) -> str:
        """In a sentence."""
        if math.isinf(self.reverse_a):
            return "The battery can feed back into the string: a fuse is needed."
        if self.reverse_a == 0:
            return "No other string can drive current into it: no fuse is needed."
        verdict = "a fuse is needed" if self.needed else "no fuse is needed"
        others = f"The other strings can drive {self.reverse_a:.1f}\u2009A into this one"
        return f"{others}, it bears {self.bears_a:.1f}\u2009A: {verdict}."


def string_fuses(
    strings: Sequence[String], family: Family, ampacity_a: float, battery_feeds_back: bool = False
) -> tuple[StringFuse, ...]:
    """Each string's fuse; `ampacity_a` is what the strings' own wires carry where they lie."""
    isc_a = [max(plate.isc_a for plate in string) for string in strings]
    all_a = sum(isc_a)
    return tuple(
        _fuse(n, string, family, ampacity_a, math.inf if battery_feeds_back else all_a - isc_a[n])
        for n, string in enumerate(strings)
    )


def _fuse(number: int, string: String, family: Family, ampacity_a: float, others_a: float) -> StringFuse:
    own_a = max(plate.isc_a for plate in string)
    bears_a = min(ampacity_a, *(plate.fuse_a for plate in string))
    if family == "NEC":
        reverse_a, least_a, most_a = greatest_of_panels_a(others_a), needed_ampacity_a(own_a), bears_a
        fitting = [size for size in SIZES_A if least_a <= size <= most_a]
    else:
        reverse_a, least_a, most_a = others_a, IEC_LEAST * own_a, min(bears_a, IEC_MOST * own_a)
        fitting = [size for size in SIZES_A if least_a < size <= most_a]
    article = "NEC 690.9(A)" if family == "NEC" else "IEC 62548, 6.5"
    size_a = fitting[0] if fitting else None
    return StringFuse(number, reverse_a, bears_a, least_a, most_a, size_a, article)


def fuse_checks(fuses: Sequence[StringFuse], cold_v: float) -> tuple[Check, ...]:
    """The fuses that are needed fit between current and what they protect, and break the voltage."""
    needed = [fuse for fuse in fuses if fuse.needed]
    if not needed:
        return ()
    voltage = Check(
        rule="string fuses break the highest voltage",
        demand=cold_v,
        limit=FUSE_V,
        unit="V",
        source="IEC 60269-6, 10 x 38 mm (recalled)",
        cure="Put fewer panels in series.",
        room="array",
    )
    return (*(_size_check(fuse) for fuse in needed), voltage)


def _size_check(fuse: StringFuse) -> Check:
    offered = next((size for size in SIZES_A if size >= fuse.least_a), fuse.least_a)
    return Check(
        rule=f"fuse of string {sign_of(fuse.string)} carries the current and protects panel and wire",
        demand=offered if fuse.size_a is None else fuse.size_a,
        limit=fuse.most_a,
        unit="A",
        source=f"{fuse.article}, sizes as sold (recalled)",
        cure="Thicker wire where the wire is the weakest; the label's own fuse where one was taken for "
        "granted; else fewer strings side by side.",
        room="array",
    )
