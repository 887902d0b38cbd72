"""What is bought of wire and connectors.

A run is bought out and back, with a share for bends, ends and slips of the knife. A connector pair is a
plug and a socket. Every join of two panels takes a pair, and so does each of the two ends of a string.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from panewright.wire.sizes import Size

SLACK_SHARE = 0.1  #: on top of what is measured; common practice, no source
_WHOLE = 1e-9  # a length this little above a whole metre is that metre


@dataclass(frozen=True, slots=True)
class Laying:
    """Equal runs of one size."""

    size: Size
    one_way_m: float
    count: int = 1

    def __post_init__(self) -> None:
        if not (0 <= self.one_way_m < math.inf and self.count >= 0):
            raise ValueError(f"runs have a length and a number of 0 or more, got {self}")


def conductor_m(one_way_m: float, slack: float = SLACK_SHARE) -> float:
    """Single conductor of a run, out and back, with its slack. [m]

    >>> round(conductor_m(10.0), 9)
    22.0
    """
    return 2 * one_way_m * (1 + slack)


def metres_to_buy(layings: Iterable[Laying], slack: float = SLACK_SHARE) -> dict[str, int]:
    """Whole metres of single conductor by the size's name and metal; half of them in each colour.

    >>> from panewright.wire.sizes import METRIC
    >>> metres_to_buy([Laying(METRIC[5], 10.0, 2), Laying(METRIC[5], 1.5)])
    {'4\u2009mm² copper': 48}
    """
    metres: dict[str, float] = {}
    for laying in layings:
        name = f"{laying.size.name} {laying.size.metal}"
        metres[name] = metres.get(name, 0.0) + laying.count * conductor_m(laying.one_way_m, slack) / 2
    return {name: 2 * math.ceil(one - _WHOLE) for name, one in metres.items()}


def connector_pairs(panels_in_strings: Iterable[int]) -> int:
    """Pairs for strings of so many panels each: one a join, one at each end.

    >>> connector_pairs([4, 4])
    10
    """
    counts = tuple(panels_in_strings)
    if any(count < 1 for count in counts):
        raise ValueError(f"a string has a panel or more, got {counts}")
    return sum(count - 1 + 2 for count in counts)
