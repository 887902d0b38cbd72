"""A curve that was moved: where to, by which procedure, and whether the procedure bears it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from panewright.cell.root import Array
from panewright.check import Check
from panewright.curve.measured import Measured
from panewright.curve.moved.coefficients import STC_C, STC_W_M2
from panewright.curve.points import PointsRead, Read, read_points

Procedure = Literal["1", "2", "2 of 2009", "3", "4"]
LIGHT_SHARE = 0.2  #: procedure 1: light moved by no more (IEC 60891, recalled)


@dataclass(frozen=True, slots=True)
class Target:
    """Light and heat to move to; STC unless said otherwise."""

    irradiance_w_m2: float = STC_W_M2
    cell_c: float = STC_C

    def __post_init__(self) -> None:
        if not (0 < self.irradiance_w_m2 < np.inf and -273.15 < self.cell_c < np.inf):
            raise ValueError(f"a curve is moved to light above 0 W/m2 and heat above 0 K, got {self}")


STC = Target()


@dataclass(frozen=True, slots=True)
class Moved:
    """A curve in another light and heat."""

    curve: Measured
    procedure: Procedure
    checks: tuple[Check, ...]  #: whether the procedure was within what it is made for
    isc_a: (
        Read | None
    )  #: the measured short circuit, moved itself: a curve moved up begins right of zero volts

    @property
    def points(self) -> PointsRead:
        """The key points of the curve; Isc from the moved short circuit where the curve does not reach it."""
        read = read_points(self.curve)
        if self.isc_a is not None and (read.isc_a is None or read.isc_a.extrapolated):
            return replace(read, isc_a=self.isc_a)
        return read

    @property
    def within(self) -> bool:
        """Whether every bound of the procedure was kept."""
        return all(check.passed for check in self.checks)


def moved(like: Measured, v: Array, i: Array, target: Target) -> Measured:
    """The points at their new places, by rising voltage; points that fell together become one."""
    levels, place = np.unique(v, return_inverse=True)
    weight = np.bincount(place, weights=like.counts)
    means = np.bincount(place, weights=like.counts * i) / weight
    return replace(
        like,
        voltage_v=tuple(levels.tolist()),
        current_a=tuple(means.tolist()),
        irradiance_w_m2=target.irradiance_w_m2,
        cell_c=target.cell_c,
        repeats=tuple(int(count) for count in weight) if like.repeats or levels.size < v.size else (),
    )


def must_be_lit(measured: Measured) -> None:
    """A dark curve cannot be moved to light: `ValueError`."""
    if measured.irradiance_w_m2 <= 0:
        raise ValueError("a curve without light cannot be moved to another light")


def reaches_open(curve: Measured) -> Check:
    """Whether the moved points still reach the axis of zero current."""
    left = float(curve.amperes.min())
    most = float(curve.amperes.max())
    return Check(
        rule="moved curve reaches open circuit",
        demand=max(left, 0.0) / most if most > 0 else 1.0,
        limit=0.02,
        unit="of Isc",
        source="common practice: Voc is prolonged over 2 % of Isc at most",
        cure="Sweep past open circuit, or in more light: a dim curve ends short when it is moved up.",
        room="curve",
    )


def light_moved(measured: Measured, target: Target) -> Check:
    """How far the light was moved, against what procedure 1 is made for."""
    return Check(
        rule="light moved by procedure 1",
        demand=abs(target.irradiance_w_m2 / measured.irradiance_w_m2 - 1),
        limit=LIGHT_SHARE,
        unit="of the light measured",
        source="IEC 60891 (recalled)",
        cure="Measure in more sun, or take procedure 2.",
        room="curve",
    )
