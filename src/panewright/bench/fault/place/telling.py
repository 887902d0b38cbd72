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
    under, again = _load(setting)
    match setting.measurement:
        case "strip" if setting.then:
            there = of_cells(network, setting.then)
            return (
                f"Lay a mesh or film that takes {100 * setting.depth:.0f} % of the light over {part}, read "
                f"the current {under}, move it over {there}, and read again {again}."
            )
        case "strip":
            return (
                f"Read the current {under}, lay a mesh or film that takes "
                f"{100 * setting.depth:.0f} % of the light over {part}, and read again {again}."
            )
        case "cover":
            return f"Read the current {under}, cover {part} wholly, and read it again {again}."
        case "probe":
            held = f"Hold the panel at {setting.at_v:.1f} V" if setting.at_v > 0 else "Short the panel"
            held = "Leave the panel open" if setting.opened else held
            return f"{held} in full sun and set the needles across {part}."
        case "dull light":
            return f"Read the open voltage in dull light of about {DULL_W_M2:g} W/m2."
    stops = f" that stops at {setting.most_v:.0f} V" if setting.most_v else ""
    return (
        f"Cover the whole panel and push {setting.at_v:.2f} A through it from a supply{stops}, plus into "
        f"plus; read its volts.{' Where none flows, tell the volts at which it stops.' if stops else ''}"
    )


def _load(setting: Setting) -> tuple[str, str]:
    """Under what load the current is read, and the same said again."""
    if setting.load_ohm:
        return f"through the resistor of {setting.load_ohm:.3g} ohm", "through the same"
    if setting.shorted:
        return "with the panel shorted through the ammeter", "in the same way"
    return f"at {setting.at_v:.1f} V", "at the same voltage"


def asks(setting: Setting, network: Network) -> tuple[Ask, ...]:
    """What is to be read, in order; of two, the first over the second tells."""
    match setting.measurement:
        case "strip" if setting.then:
            first, then = (of_cells(network, cells) for cells in (setting.cells, setting.then))
            return Ask(f"current with the strip over {first}", "A"), Ask(f"current with it over {then}", "A")
        case "strip":
            return Ask("current with the strip", "A"), Ask("current without it", "A")
        case "cover":
            return Ask("current with the cover", "A"), Ask("current without it", "A")
        case "probe":
            across = Ask(f"voltage across {of_cells(network, setting.cells)}", "V")
            return (across,) if setting.shorted else (across, Ask("voltage across the panel", "V"))
        case "dull light":
            return (Ask("open voltage", "V"),)
    return (Ask("voltage in the dark", "V"),)
