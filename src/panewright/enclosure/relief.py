"""Leads: what a pull may be, how tight a bend.

[62444] Cable glands with strain relief hold a pull by the cable's diameter: table of EN 50262 type A, now
    IEC 62444 (seen in a gland maker's guide): 30 N for 4 to 8 mm, 42 N for 8 to 11 mm.
[60947] A conductor in its terminal: IEC 60947-1 table 5 (seen): 60 N for 4 mm2, 80 N for 6 mm2.
[50618] Solar lead to EN 50618 as a maker sells it (seen): 5.6 mm over all at 4 mm2, 6.1 mm at 6 mm2; bent no
        tighter than 4 diameters where it is fixed, 5 where it moves.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check

_GLAND_N = ((4.0, 0.0), (8.0, 30.0), (11.0, 42.0), (16.0, 55.0), (23.0, 70.0))  # diameter up to [62444]
_TERMINAL_N = ((1.5, 40.0), (2.5, 50.0), (4.0, 60.0), (6.0, 80.0), (10.0, 90.0), (16.0, 100.0))  # [60947]
_OUTER_MM = ((2.5, 5.0), (4.0, 5.6), (6.0, 6.1), (10.0, 7.1))  # [50618]; 2.5 mm2 from memory
FIXED_BEND, MOVING_BEND = 4.0, 5.0  #: diameters [50618]
TESTED_N = 50.0  #: the shop's own pull, about 5 kg


@dataclass(frozen=True, slots=True)
class Relief:
    """One lead."""

    area_mm2: float
    outer_mm: float
    pull_n: float  #: that its clamp must hold
    terminal_n: float  #: that its terminal must hold alone
    bend_mm: float  #: least inner radius, fixed
    moving_bend_mm: float


def relief(area_mm2: float) -> Relief:
    """What a solar lead of that copper asks for.

    >>> lead = relief(4.0)
    >>> lead.outer_mm, lead.pull_n, lead.terminal_n, round(lead.bend_mm, 1)
    (5.6, 30.0, 60.0, 22.4)
    """
    outer_mm = _least(_OUTER_MM, area_mm2)
    return Relief(
        area_mm2,
        outer_mm,
        _least(_GLAND_N, outer_mm),
        _least(_TERMINAL_N, area_mm2),
        FIXED_BEND * outer_mm,
        MOVING_BEND * outer_mm,
    )


def _least(table: tuple[tuple[float, float], ...], size: float) -> float:
    """The row that reaches so far."""
    for most, found in table:
        if size <= most:
            return found
    raise ValueError(f"the table ends at {table[-1][0]:g}, asked for {size:g}")


def pull_check(lead: Relief, tested_n: float = TESTED_N) -> Check:
    """The pull that the bench tries is no less than the standard's."""
    return Check(
        rule="pull on the lead's clamp",
        demand=lead.pull_n,
        limit=tested_n,
        unit="N",
        source="EN 50262 type A, by the cable's diameter; the bench's own pull",
        cure="Pull harder at the bench.",
        room="enclosure",
    )
