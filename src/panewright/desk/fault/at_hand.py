"""What the bench has beside a meter, as it is told; where nobody tells, what the readings themselves show.

A panel that was swept had something that holds a voltage. One that was read with a meter alone had resistors,
and these are told by their readings. A supply is assumed with the former; both are said.
"""

from __future__ import annotations

from panewright.bench.fault.place.setting import AtHand
from panewright.bench.fault.readings import Points
from panewright.desk.rating.typed import Typed

_SWEPT = 10  # readings from which on it is a sweep
_OFF = 0.03  # of Voc and Isc: nearer to an axis it is no load


def at_hand(told: Typed, points: Points) -> tuple[AtHand, str]:
    """What there is, and what was assumed of it in one sentence."""
    if told.at_hand is not None:
        return told.at_hand, ""
    if points.voltage_v.size >= _SWEPT:
        return AtHand(), _assumed("a load that holds a voltage, and a supply")
    loads = _loads(points)
    words = ", ".join(["a meter", *(f"{ohm:.3g} ohm" for ohm in loads)])
    return AtHand(False, False, loads), _assumed(words)


def _assumed(words: str) -> str:
    return f"Taken to be at hand: {words}. What there is can be told beside the curve (bench.has)."


def _loads(points: Points) -> tuple[float, ...]:
    """The resistors with which a panel was read. [ohm]"""
    volts, amps = points.voltage_v, points.current_a
    loaded = (volts > _OFF * volts.max()) & (amps > _OFF * amps.max())
    return tuple(sorted({float(f"{v / i:.3g}") for v, i in zip(volts[loaded], amps[loaded], strict=True)}))
