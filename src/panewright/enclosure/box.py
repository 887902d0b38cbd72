"""The junction box: what it must be rated for, and how its leads and their ends are treated.

A box for a panel is tested to IEC 62790 (EN 50548 before): shut to dust and jets where it is outdoors, its
plastic proof against sun and glowing wire, its clamp tried by pulling. What is asked of it here is told
from the panel's own figures; the box's own label must say as much.

Proof against dust and jets is IP65: IEC 62790 asks for IP55 at least (memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.enclosure.bypass import CURRENT_FACTOR

LEAST_IP = "IP65"
PLUGS = (
    "Plugs and sockets of one make and series only: others fit, and burn.",
    "Never join or part them under load: the arc does not go out.",
    "Keep caps on them until they are joined; a panel in light is live.",
)
BARE = (
    "The leads end bare: a ferrule on each, and a cap over it until it goes into its screw terminal.",
    "Never join or part them under load: the arc does not go out.",
    "Cover the panel before a cap comes off: in light it is live.",
)


@dataclass(frozen=True, slots=True)
class BoxAsk:
    """What must stand on the box."""

    volts: float
    amps: float
    around_c: float  #: the panel's back beside it
    sheds_w: float  #: all diodes at work


def box_ask(system_v: float, isc_a: float, around_c: float, sheds_w: float) -> BoxAsk:
    """The least that the box's label should state.

    >>> box_ask(35.0, 8.55, 82.0, 8.6).amps
    10.6875
    """
    return BoxAsk(system_v, CURRENT_FACTOR * isc_a, around_c, sheds_w)
