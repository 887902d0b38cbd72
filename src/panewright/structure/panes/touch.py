"""One hand, one knee on the glass: forces on a small square, apart from wind and snow.

Nobody walks on a panel. But someone leans over it to reach the next one, and someone who mends the roof
kneels where there is nothing else to kneel on. Each acts alone, with the own weight of the pane and without
wind or snow: nobody works there in a storm.

| touch | ASCE | EN |
|---|---|---|
| hand | 0.5 kN on 100 mm (common practice, no source) | the same |
| knee | 300 lbf (table 4.3-1, roofs a worker goes on [A]) | 1.0 kN (table 6.10, category H [E]) |

Both books' own squares are for floors and roofs: 2.5 ft in ASCE [A], 50 mm in EN [E]. A knee is neither so
wide nor so narrow. 100 mm is taken for both, the square that a German rule for glass under workers has [D].

[A] ASCE 7-16 table 4.3-1 and 4.4 (recalled). [E] EN 1991-1-1 6.3.4 and 6.3.1.2(5) (recalled).
[D] DIN 18008-6 (recalled). Durations: EN 16612 loads by persons, 30 s once and 5 min (recalled).
"""

from __future__ import annotations

from panewright.climate.site import Family
from panewright.glass.load import PatchLoad
from panewright.units import POUND_FORCE_N

SIDE_MM = 100.0  #: of a hand or a knee
_HAND_N, _HAND_S = 500.0, 30.0
_KNEE_N = {"ASCE": 300 * POUND_FORCE_N, "EN": 1000.0}
_KNEE_S = 300.0
_VARIABLE_FACTOR = 1.5  # EN 1990 table A1.2(B)


def touches(family: Family) -> tuple[PatchLoad, ...]:
    """A hand and a knee by one family; EN each at service level and factored.

    >>> [(touch.name, round(touch.force_n)) for touch in touches("ASCE")]
    [('one hand', 500), ('one knee', 1334)]
    """
    service = (_touch("one hand", _HAND_N, _HAND_S), _touch("one knee", _KNEE_N[family], _KNEE_S))
    return service if family == "ASCE" else (*service, *(_factored(touch) for touch in service))


def _touch(name: str, force_n: float, duration_s: float) -> PatchLoad:
    return PatchLoad(name, force_n, SIDE_MM, duration_s, factored=False)


def _factored(touch: PatchLoad) -> PatchLoad:
    force_n = _VARIABLE_FACTOR * touch.force_n
    return PatchLoad(f"{touch.name}, factored", force_n, touch.side_mm, touch.duration_s, factored=True)
