"""Which procedure: all that apply are gone through, the fittest is picked, and their spread is told.

The order of preference (common practice after IEC 60891:2021, whose guidance was not read): between curves
that stand round the target nothing need be assumed, so procedure 3; with measured coefficients procedure 1
where the light moves by a fifth at most, else procedure 2; without, crystalline cells go by procedure 4. A
procedure outside its bounds is kept for the spread, and taken only where none is within.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.curve.measured import Measured
from panewright.curve.moved.coefficients import Coefficients
from panewright.curve.moved.corrections import OneDiode, ends, move_1, move_2, move_4
from panewright.curve.moved.interpolation import move_3
from panewright.curve.moved.moved import STC, Moved, Procedure, Target, moved
from panewright.curve.points import PointsRead, Read
from panewright.errors import CurveError, Problem

_WORDS: dict[Procedure, str] = {
    "3": "the curves stand round the target, so nothing of the panel need be assumed",
    "1": "its coefficients are known and the light moves by a fifth at most",
    "2": "its coefficients are known, and procedure 1 does not bear the way",
    "4": "its coefficients were not measured and its cells are crystalline",
}
_MEASURED = ("measured curves", "the panel's own circuit")


@dataclass(frozen=True, slots=True)
class Given:
    """What there is to move by: one curve or more, and what is known of the panel."""

    curves: tuple[Measured, ...]  #: the first is the one to move; the others help
    coefficients: Coefficients | None = None
    one_diode: OneDiode | None = None

    def __post_init__(self) -> None:
        if not self.curves:
            raise ValueError("there is no curve to move")


@dataclass(frozen=True, slots=True)
class Gone:
    """One procedure gone through, and what its curve reads."""

    moved: Moved
    points: PointsRead


@dataclass(frozen=True, slots=True)
class Chosen:
    """The procedure taken, why, and all others beside it."""

    taken: Gone
    others: tuple[Gone, ...]
    why: str

    @property
    def all(self) -> tuple[Gone, ...]:
        """The one taken first."""
        return (self.taken, *self.others)

    def spread(self, name: str) -> float | None:
        """Greatest less least of a figure ('power_w', 'fill_factor' ...), as a share of that taken.

        Only procedures within their bounds count; None where there is nothing to compare.
        """
        within = [gone for gone in self.all if gone is self.taken or gone.moved.within]
        reads: list[Read | float | None] = [getattr(gone.points, name) for gone in within]
        values = [read.value if isinstance(read, Read) else read for read in reads if read is not None]
        if len(values) < 2 or reads[0] is None:
            return None
        return (max(values) - min(values)) / values[0]


def most_fitting(given: Given, target: Target = STC) -> Chosen:
    """The curve at the target by the fittest procedure; `CurveError` where none applies."""
    gone = [Gone(each, each.points) for each in _all(given, target)]
    if not gone:
        reason = "One curve alone, and nothing known of the panel: no procedure can move it."
        cure = "Give coefficients, or the number of crystalline cells in series, or a second curve."
        raise CurveError([Problem(reason, cure)])
    ranked = sorted(gone, key=lambda each: _rank(each, given))
    first = ranked[0]
    why = f"Procedure {first.moved.procedure}: {_WORDS[first.moved.procedure]}."
    if not first.moved.within:
        why = f"Procedure {first.moved.procedure}, outside its bounds: none of those that apply is within."
    return Chosen(first, tuple(ranked[1:]), why)


def _all(given: Given, target: Target) -> Iterator[Moved]:
    first = given.curves[0]
    if (first.irradiance_w_m2, first.cell_c) == (target.irradiance_w_m2, target.cell_c):
        still = moved(first, first.volts, first.amperes, target)
        yield Moved(still, "1", (), None)
        return
    if given.coefficients:
        yield move_1(first, given.coefficients, target)
        if ends(first).voc_v is not None:  # of a sweep that ends short of it the other figures are still told
            yield move_2(first, given.coefficients, target)
    if given.one_diode:
        yield move_4(first, given.one_diode, target)
    yield from _interpolated(given.curves, target)


def _interpolated(curves: Sequence[Measured], target: Target) -> Iterator[Moved]:
    """Procedure 3 by the curves given, where they are two or more and apart enough."""
    if len(curves) > 1:
        try:
            yield move_3(curves, target)
        except CurveError:  # of one condition: the other procedures are left
            return


def _rank(gone: Gone, given: Given) -> tuple[bool, int]:
    known = given.coefficients is not None and given.coefficients.beta_per_k.whence in _MEASURED
    order = ("3", "1", "2", "4") if known or given.one_diode is None else ("3", "4", "1", "2")
    return not gone.moved.within, order.index(gone.moved.procedure)
