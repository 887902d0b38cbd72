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
        _fuse(
            n,
            family,
            isc_a[n],
            min(ampacity_a, *(plate.fuse_a for plate in string)),
            math.inf if battery_feeds_back else all_a - isc_a[n],
        )
        for n, string in enumerate(strings)
    )


@dataclass(frozen=True, slots=True)
class Fusing:
    """What decides on string fuses before panels are in strings."""

    family: Family
    isc_a: tuple[float, ...]  #: of each panel
    fuse_a: tuple[float, ...]  #: of each panel: largest series fuse
    ampacity_a: float = math.inf  #: of the thickest wire that a string may have

    def fuses(self, rows: Sequence[Sequence[int]]) -> tuple[StringFuse, ...]:
        """Of the strings at one input, each by the numbers of its panels."""
        own_a = [max(self.isc_a[p] for p in row) for row in rows]
        all_a = sum(own_a)
        return tuple(
            _fuse(n, self.family, own_a[n], self._bears_a(row), all_a - own_a[n])
            for n, row in enumerate(rows)
        )

    def _bears_a(self, row: Sequence[int]) -> float:
        return min(self.ampacity_a, *(self.fuse_a[p] for p in row))

    def lacking(self, rows: Sequence[Sequence[int]]) -> float:
        """How many strings at one input lack a fuse that fits, and how far; 0 where all have theirs."""
        if len(rows) < 2:
            return 0.0
        unfit = (fuse for fuse in self.fuses(rows) if fuse.needed and fuse.size_a is None)
        return sum(1.0 + max(0.0, fuse.least_a / fuse.most_a - 1.0) for fuse in unfit)

    def needed(self, rows: Sequence[Sequence[int]]) -> bool:
        """Whether a string at this input needs a fuse."""
        return any(fuse.needed for fuse in self.fuses(rows))

    def may_lie(self, panel: int, rows: int) -> bool:
        """Whether a panel may lie in one of so many strings at all: beside the meekest, whatever its string.

        A string is no meeker and bears no more than any panel in it, so what breaks this breaks every string.
        """
        others = sorted(amps for p, amps in enumerate(self.isc_a) if p != panel)
        bears_a = self._bears_a((panel,))
        alone = _fuse(0, self.family, self.isc_a[panel], bears_a, sum(others[: rows - 1]))
        return not alone.needed or any(alone.least_a <= size <= bears_a for size in SIZES_A)

    def room(self, panel: int) -> float:
        """The largest fuse that a panel bears against its own current."""
        return self.fuse_a[panel] / self.isc_a[panel]


def _fuse(number: int, family: Family, own_a: float, bears_a: float, others_a: float) -> StringFuse:
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
