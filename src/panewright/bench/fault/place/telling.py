"""A measurement in words: how it is done, and what is to be read."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.bench.fault.numbered import of_cells
from panewright.bench.fault.place.setting import Setting
from panewright.bench.fault.place.whole import DULL_W_M2
from panewright.circuit.network import Network


@dataclass(frozen=True, slots=True)
class Ask:
    """One reading that is asked for."""

    words: str
    unit: str


def how(setting: Setting, network: Network) -> str:
    """One sentence."""
    part = of_cells(network, setting.cells)
    match setting.measurement:
        case "strip":
            return (
                f"Read the current at {setting.at_v:.1f} V, lay a mesh or film that takes "
                f"{100 * setting.depth:.0f} % of the light over {part}, and read again at the same voltage."
            )
        case "cover":
            return (
                f"Read the current at {setting.at_v:.1f} V, cover {part} wholly, and read it again at the "
                "same voltage."
            )
        case "probe":
            held = f"Hold the panel at {setting.at_v:.1f} V" if setting.at_v > 0 else "Short the panel"
            return f"{held} in full sun and set the needles across {part}."
        case "dull light":
            return f"Read the open voltage in dull light of about {DULL_W_M2:g} W/m2."
    return (
        f"Cover the whole panel and push {setting.at_v:.2f} A through it from a supply, plus into plus; "
        "read its volts."
    )


def asks(setting: Setting, network: Network) -> tuple[Ask, ...]:
    """What is to be read, in order; of two, the first over the second tells."""
    match setting.measurement:
        case "strip":
            return Ask("current with the strip", "A"), Ask("current without it", "A")
        case "cover":
            return Ask("current with the cover", "A"), Ask("current without it", "A")
        case "probe":
            across = Ask(f"voltage across {of_cells(network, setting.cells)}", "V")
            return (across, Ask("voltage across the panel", "V")) if setting.at_v > 0 else (across,)
        case "dull light":
            return (Ask("open voltage", "V"),)
    return (Ask("voltage in the dark", "V"),)
