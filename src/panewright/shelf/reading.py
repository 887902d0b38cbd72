"""One row of a table against its columns: the values that can be read, and a fault for each that cannot."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from panewright.shelf.key import Fault, Key, Value, nearest


@dataclass(frozen=True, slots=True)
class Reading:
    """What a row says: sound values by key, and what is wrong by key."""

    values: dict[str, Value] = field(default_factory=dict)
    faults: dict[str, Fault] = field(default_factory=dict)

    def number(self, name: str, instead: float = 0.0) -> float:
        """A measured value, or what stands instead of one left out."""
        value = self.values.get(name)
        return float(value) if isinstance(value, int | float | Decimal) else instead

    def word(self, name: str, instead: str = "") -> str:
        """A text or choice, or what stands instead of one left out."""
        value = self.values.get(name)
        return value if isinstance(value, str) else instead


def read_row(raw: Mapping[str, object], keys: Iterable[Key]) -> Reading:
    """Every key of a row read, unknown and missing keys told. Defaults are left to the caller."""
    known = {key.name: key for key in keys}
    reading = Reading()
    for name, value in raw.items():
        try:
            if name not in known:
                raise Fault(f"There is no key {name[:60]} here.{nearest(name, known)}", _listed(known))
            reading.values[name] = known[name].read(value)
        except Fault as fault:
            reading.faults[name] = fault
    for key in known.values():
        if key.required and key.name not in raw:
            reading.faults[key.name] = Fault(f"{key.name} is missing.", f"Add {key.assignment()}.")
    return reading


def _listed(known: Mapping[str, Key]) -> str:
    return f"The keys here are {', '.join(known)}."
