"""How strong a fault must be to be called: below that, such readings cannot show it.

The readings of a panel with the fault are foretold without scatter, at the same loads and with the same
errors as those that were read, and weighed against healthy and all other single faults. The strength at
which the panel would just be called faulty is found by halving. Scatter moves it both ways.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from panewright.bench.fault.evidence import Prepared, prepared, weigh
from panewright.bench.fault.finding import CALLED_UNDER, of_groups
from panewright.bench.fault.foretold import Curves, Foretold, Wrong
from panewright.bench.fault.kinds import Key, Kind
from panewright.bench.fault.readings import Points
from panewright.bench.fault.size import Size, size_of
from panewright.bench.fault.wording import WORDS
from panewright.cell.root import Array

_RUNGS, _HALVINGS = 9, 3  # of the range of strengths, in equal ratios


@dataclass(frozen=True, slots=True)
class TooSmall:
    """The size from which on a kind of fault would be called, by such readings of this panel."""

    key: Key
    size: Size | None  #: None where not even the strongest would be
    cost_share: float  #: of Pmp, at that size

    @property
    def words(self) -> str:
        """One sentence."""
        if self.size is None:
            return f"{WORDS[self.key].capitalize()} would not be called by such readings, however strong."
        more = "or less" if self.key == "shunt" else "or more"
        return (
            f"{WORDS[self.key].capitalize()} would be called from {self.size.value:.2g} {self.size.unit} "
            f"{more}, where it costs {100 * self.cost_share:.1f} % of Pmp."
        )


def too_small(by: Prepared, points: Points, under: float = CALLED_UNDER) -> tuple[TooSmall, ...]:
    """Of every kind that comes in strengths."""
    singles = tuple(each for each in by.supposed if each.group != "two faults")
    alone = prepared(by.foretold, singles)
    graded = {  # a crack is called from where a shade is
        kind: each.wrong
        for each in singles
        for kind in each.wrong.kinds
        if kind.graded and kind.key != "cracked cell"
    }
    return tuple(_least(alone, points, under, kind, wrong) for kind, wrong in graded.items())


def _least(by: Prepared, points: Points, under: float, kind: Kind, wrong: Wrong) -> TooSmall:
    def called(strength: float) -> bool:
        read = as_read(by.foretold, replace(wrong, strengths=(strength,)), points)
        return of_groups(weigh(by, read)).get("healthy", 0.0) < under

    weak, strong = (kind.most, kind.least) if kind.key == "shunt" else (kind.least, kind.most)
    at = _least_called(called, weak, strong)
    if at is None:
        return TooSmall(kind.key, None, 0.0)
    cost = by.foretold.cost_share(replace(wrong, strengths=(at,)))
    return TooSmall(kind.key, size_of(kind, by.foretold.scale, (at, at, at)), cost)


def _least_called(called: Callable[[float], bool], weak: float, strong: float) -> float | None:
    """From weak to strong the first that is called: a dead short may hide again, as heat lowers Voc too."""
    ladder = np.geomspace(weak, strong, _RUNGS).tolist()
    first = next((k for k, each in enumerate(ladder) if called(each)), None)
    if not first:
        return None if first is None else ladder[0]
    low, high = ladder[first - 1], ladder[first]
    for _ in range(_HALVINGS):
        middle = float(np.sqrt(low * high))
        low, high = (low, middle) if called(middle) else (middle, high)
    return float(high)


def as_read(foretold: Foretold, wrong: Wrong, points: Points) -> Points:
    """The same readings of the panel with that wrong, at the same loads, without scatter."""
    curves = foretold.curves([wrong])
    share_v, share_i = points.voltage_v / foretold.voc_v, points.current_a / foretold.isc_a
    volts, amps = _met(curves, np.arctan2(share_i, share_v), foretold)
    return replace(points, voltage_v=volts, current_a=amps)


def _met(curves: Curves, angles: Array, foretold: Foretold) -> tuple[Array, Array]:
    """Where lines of load meet the curve, told by their angle from no current to no voltage."""
    v, i = curves.voltage_v[0], curves.current_a[0]
    along = np.arctan2(i / foretold.isc_a, v / foretold.voc_v)
    return np.interp(angles, along, v), np.interp(angles, along, i)
