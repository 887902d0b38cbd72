"""Plug and socket of a string: current, voltage, and the conductor that fits.

Both halves are of one make and type: halves that only seem to fit burn. They are never pulled apart under
load. A pair adds a little resistance, which is counted with the wire.

[62852] IEC 62852, connectors of panels; NEC 690.33 (recalled). Resistance: sheets of makers, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.wire.ampacity import CONTINUOUS_FACTOR
from panewright.wire.laid import Family
from panewright.wire.rules import greatest_of_panels_a
from panewright.wire.sizes import Size


@dataclass(frozen=True, slots=True)
class Connector:
    """A pair by its sheet."""

    rated_a: float
    rated_v: float
    least_mm2: float
    most_mm2: float
    ohm: float = 0.0005  #: of a pair that is well crimped

    def __post_init__(self) -> None:
        if min(self.rated_a, self.rated_v, self.least_mm2) <= 0 or self.most_mm2 < self.least_mm2:
            raise ValueError(f"a connector bears a current and a voltage and takes some sizes, got {self}")
        if not self.ohm >= 0:
            raise ValueError(f"a pair resists 0 ohm or more, got {self.ohm}")


def connector_checks(
    connector: Connector, size: Size, isc_a: float, cold_v: float, family: Family
) -> tuple[Check, ...]:
    """What the string asks of its connectors; they are crimped on copper alone."""
    by_nec = family == "NEC"
    source = "NEC 690.33 (recalled)" if by_nec else "IEC 62852 (recalled)"
    asked_a = greatest_of_panels_a(isc_a) * (CONTINUOUS_FACTOR if by_nec else 1.0)
    return (
        _check("connectors carry the string's current", asked_a, connector.rated_a, "A", source),
        _check("connectors bear the string's voltage", cold_v, connector.rated_v, "V", source),
        _check(
            "conductor fits its connectors", size.area_mm2, _takes_mm2(connector, size), "mm2", "their sheet"
        ),
    )


def _takes_mm2(connector: Connector, size: Size) -> float | None:
    """Largest section; None for one that is too thin to be crimped, or no copper. [mm2]"""
    return connector.most_mm2 if size.metal == "copper" and size.area_mm2 >= connector.least_mm2 else None


def _check(rule: str, demand: float, limit: float | None, unit: str, source: str) -> Check:
    return Check(rule, demand, limit, unit, source, "Take connectors that are made for it.", "wire")
