"""Light on a tabbing ribbon that finds its way to the silicon after all.

Under a cover bonded to the cells, light which leaves the ribbon beyond the critical angle (sin = 1/n) is
thrown back whole by the cover's face and comes down a few millimetres off, on silicon.

- A flat ribbon is a mirror to most of the light and sends it straight out. Only what its rough solder
  scatters, 1 - 1/n^2 of it, comes back.
- A round wire turns light aside by twice the angle b at which it meets the surface; at a distance x from
  the middle sin b = x / r. Beyond half the critical angle the light is trapped, past 45 degrees it goes
  down to the silicon straight: 1 - sin(half the critical angle) in all.

With air behind the cover nothing is trapped, and only the wire's light that goes straight down counts:
1 - sin 45 degrees.

What solder reflects, 0.7, and how much of it is scattered by a flat ribbon, 0.2, are from memory; dull solder
reflects less.
"""

from __future__ import annotations

from math import asin, sin

SOLDER = 0.7  #: share of the light that bright solder reflects; from memory
ROUGH = 0.2  #: part of that which a flat ribbon scatters; from memory


def flat_recovered(index: float, reflected: float = SOLDER, scattered: float = ROUGH) -> float:
    """Share of the light on a flat ribbon that comes back; `index` is 1 where air lies before it. [-]

    >>> round(flat_recovered(1.48), 3)
    0.076
    """
    return reflected * scattered * (1 - 1 / index**2)


def round_recovered(index: float, reflected: float = SOLDER) -> float:
    """Share of the light on a round wire that comes back. [-]

    >>> round(round_recovered(1.48, reflected=1.0), 3), round(round_recovered(1.0, reflected=1.0), 3)
    (0.638, 0.293)
    """
    return reflected * (1 - sin(asin(1 / index) / 2))
