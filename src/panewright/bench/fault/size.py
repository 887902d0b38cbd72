"""How strong a fault is, in the units a maker measures in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from panewright.bench.fault.foretold import Wrong
from panewright.bench.fault.kinds import Key, Kind, Scale

_PERCENT = 100.0


@dataclass(frozen=True, slots=True)
class Size:
    """Of one kind: the likeliest strength, and the bounds that hold 95 of 100."""

    key: Key
    unit: str  #: '%' of the light, or 'ohm'
    value: float
    low: float
    high: float

    @property
    def words(self) -> str:
        """As a person reads it: '20 % less light (18 to 22 %)'.

        >>> Size("weak cell", "%", 20.1, 18.0, 22.4).words
        '20 % less light on it (18 to 22 %)'
        """
        what = {
            "weak cell": " less light on it", "cracked cell": " of it gone", "dimmed": " less light",
            "resistance": " more in the way", "shunt": " beside the cell",
        }.get(self.key, "")  # fmt: skip
        value, low, high = (f"{each:.{self._digits}g}" for each in (self.value, self.low, self.high))
        return f"{value} {self.unit}{what} ({low} to {high} {self.unit})"

    @property
    def _digits(self) -> int:
        """As many as part the bounds, three at most."""
        return 2 if f"{self.low:.2g}" != f"{self.high:.2g}" else 3


def sizes(wrong: Wrong, told: Sequence[tuple[float, float, float]], scale: Scale) -> tuple[Size, ...]:
    """Of all kinds that come in strengths; `told` has the likeliest and bounds of each of these."""
    graded = [kind for kind in wrong.kinds if kind.graded]
    return tuple(size_of(kind, scale, each) for kind, each in zip(graded, told, strict=True))


def size_of(kind: Kind, scale: Scale, told: tuple[float, float, float]) -> Size:
    """A strength with its bounds, out of the panel's own scale.

    The likeliest strength may lie at an end of its range, beyond the middle 95 of 100: the bounds reach it.
    """
    unit, times = {
        "resistance": ("ohm", scale.panel_ohm),
        "shunt": ("ohm", scale.cell_ohm),
    }.get(kind.key, ("%", _PERCENT))
    value, low, high = (times * each for each in told)
    return Size(kind.key, unit, value, min(low, value), max(high, value))
