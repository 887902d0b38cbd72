"""The earth bond: every rail tied to one bolt, through the anodising.

Anodised aluminium is glass to a meter. A toothed washer bites through it; under a plain one the metal must
be bared and greased. Measured with 2.5 times the label's fuse, no part of the frame may be more than 0.1
ohm from the earth bolt [61730]. A corner counts as one contact on each of its rails, the bolt as one; rails
add the resistance of their metal.

[61730] IEC 61730-2 MST 13, continuity of equipotential bonding (memory): 2.5 times the overcurrent
    protection for two minutes, 0.1 ohm. The same 0.1 ohm stands in IEC 60950-1 2.6.3 (seen). A contact
    under a toothed washer on bared aluminium, tightened, old: 5 milliohm; a welded corner none (memory, no
    source). Aluminium 6060: 3.3e-8 ohm m (memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.units import MM

FUSE_FACTOR = 2.5
LIMIT_OHM = 0.1
CONTACT_OHM = 5e-3
ALUMINIUM_OHM_M = 3.3e-8


@dataclass(frozen=True, slots=True)
class Frame:
    """What the current has to cross."""

    round_mm: float  #: length of all rails
    metal_mm2: float  #: cross-section of one
    welded: bool


@dataclass(frozen=True, slots=True)
class Earth:
    """The bond, as it should be."""

    test_a: float
    ohm: float  #: from the bolt to the far side of the frame
    volts: float  #: over it in the test
    contacts: int
    checks: tuple[Check, ...]


def earth(frame: Frame, fuse_a: float) -> Earth:
    """From the bolt to the rail across, by the worse way round.

    >>> bond = earth(Frame(4400.0, 170.0, welded=False), 15.0)
    >>> bond.test_a, bond.contacts, round(1000 * bond.ohm, 1), round(bond.volts, 2)
    (37.5, 5, 25.4, 0.95)
    """
    contacts = 1 if frame.welded else 5  # the bolt, and two corners of two rails each on the way across
    metal = ALUMINIUM_OHM_M * frame.round_mm / 2 * MM / (frame.metal_mm2 * MM**2)
    ohm = contacts * CONTACT_OHM + metal
    test_a = FUSE_FACTOR * fuse_a
    return Earth(test_a, ohm, test_a * ohm, contacts, (_bond(ohm),))


def _bond(ohm: float) -> Check:
    return Check(
        rule="earth bond to the farthest rail",
        demand=ohm,
        limit=LIMIT_OHM,
        unit="ohm",
        source="IEC 61730-2 MST 13 (memory); contacts bared under toothed washers",
        cure="Bare each corner under a toothed washer, or give each rail its own earth lead.",
        room="enclosure",
    )
