"""What moved while a curve was taken: a figure read before and after, as two numbers and their difference."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from panewright.curve.swept.runs import Rest

_WORDS = {
    "irradiance_w_m2": ("irradiance", "W/m2"),
    "isc_a": ("Isc", "A"),
    "voc_v": ("Voc", "V"),
    "cell_c": ("heat of the cell", "degC"),
    "back_c": ("heat at the back", "degC"),
}
_LIGHT = ("irradiance_w_m2", "isc_a")  # both go with the light


@dataclass(frozen=True, slots=True)
class SweepDrift:
    """One figure before and after a sweep. Light and Isc move the current one for one, heat moves Voc."""

    quantity: str  #: with its unit: isc_a, irradiance_w_m2, voc_v, cell_c, back_c
    before: float
    after: float
    seconds: float | None = None  #: between the two; None where not known
    how: str = "read before and after"
    where: str = ""  #: of which sweep

    @property
    def change(self) -> float:
        """After less before, in the quantity's unit."""
        return self.after - self.before

    @property
    def share(self) -> float:
        """The change as a share of the mean of both; of heats this means nothing."""
        middle = (self.after + self.before) / 2
        return self.change / middle if middle else 0.0

    @property
    def said(self) -> str:
        """The quantity in words."""
        return _WORDS[self.quantity][0]

    @property
    def of_light(self) -> bool:
        """Whether it tells that the light moved."""
        return self.quantity in _LIGHT

    def __str__(self) -> str:
        name, unit = _WORDS[self.quantity]
        share = f" ({self.share:+.1%})" if not self.quantity.endswith("_c") else ""
        over = f" in {self.seconds:.3g} s" if self.seconds else ""
        told = f"{self.before:.4g} to {self.after:.4g} {unit}"
        return f"{name} went from {told}{over}{share}, {self.how}"


def drifts(
    before: Mapping[str, float], after: Mapping[str, float], rests: Sequence[Rest] = (), where: str = ""
) -> tuple[SweepDrift, ...]:
    """Every figure that was read twice: by a person, and by the rests of the sweep itself.

    >>> print(drifts({"isc_a": 4.6}, {"isc_a": 4.5})[0])
    Isc went from 4.6 to 4.5 A (-2.2%), read before and after
    """
    typed = [
        SweepDrift(name, before[name], after[name], where=where)
        for name in _WORDS
        if name in before and name in after
    ]
    return (*typed, *_of_rests(rests, where))


def _of_rests(rests: Sequence[Rest], where: str) -> Iterator[SweepDrift]:
    """From the first rest to the last, at open and at short circuit."""
    for at, quantity in (("open", "voc_v"), ("short", "isc_a")):
        same = [each for each in rests if each.at == at]
        if len(same) > 1:
            first, last = same[0], same[-1]
            times = first.time_s, last.time_s
            seconds = times[1] - times[0] if times[0] is not None and times[1] is not None else None
            yield SweepDrift(quantity, first.value, last.value, seconds, "by the rests of the log", where)
