"""Makes the invented measurements of `examples/bench`: a panel's own circuit, its light, its noise, its seed.

Run it to write them anew: `python tests/desk/rating/invented_bench.py`.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from panewright import desk
from panewright.circuit.damage import Fault, JointCold, damaged
from panewright.circuit.place import CellAt
from panewright.circuit.summed import Summed
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at

FOLDER = Path(__file__).parents[3] / "examples"
BENCH = FOLDER / "bench"
LIGHT_W_M2, CELL_C = 856.0, 46.0
GAIN = 0.985  #: the panel gives so much of the current that its circuit foretells
COLD_OHM, COLD_CELL = 0.35, 7
OHMS = (1.5, 3.9, 4.7, 6.8)


def curve():
    """The true curve of the invented panel in that light and heat, to a little past open circuit."""
    v, i = _traced(_sound())
    return v, GAIN * i


def faulty():
    """The curve of the same panel, as its circuit foretells it, with a cold joint after cell 7."""
    return _traced(damaged(_sound(), Fault(JointCold(COLD_OHM), CellAt(0, COLD_CELL))))


def _sound(light=LIGHT_W_M2):
    design = desk.design((FOLDER / "henhouse.toml").read_bytes(), "henhouse.toml").design
    return network_at(wired_of(design), light, CELL_C)


def _traced(network):
    """Voltages, rising, and currents."""
    amps = np.linspace(-0.12, 5.5, 5001)
    volts = Summed(amps).panel_v(network)
    lit = volts > -0.5
    return volts[lit][::-1], amps[lit][::-1]


def two_lights(seed: int = 53) -> str:
    """Two sweeps of the panel, one in less light and one in more than at STC, one after the other."""
    chance, rows = np.random.default_rng(seed), ["U (V),I (A),E (W/m2),Cell temp (C)"]
    for light in (820.0, 1090.0):
        v, i = _traced(_sound(light))
        for volt in np.linspace(0.1, v[-1], 40):
            amp = GAIN * float(np.interp(volt, v, i)) + chance.normal(0, 0.002)
            rows.append(f"{volt:.3f},{amp:.3f},{light:.0f},{CELL_C:.1f}")
    return "\n".join(rows) + "\n"


def sweep(seed: int = 51, of=None) -> str:
    """A load's log, with a reference cell as irradiance and a sensor behind the panel."""
    chance, (v, i) = np.random.default_rng(seed), of or curve()
    head = [
        "Invented sweep; nothing here was measured",
        "Panel,0051,,,",
        "Cells in series,36,,,",
        "Date,2026-06-20,,,",
        "Time,U (V),I (A),E (W/m2),Back temp (C)",
    ]
    at = np.concatenate((np.linspace(0.15, 0.72 * v[-1], 18), np.linspace(0.74 * v[-1], v[-1], 34)))
    rows = []
    for n, volt in enumerate(at):
        light = LIGHT_W_M2 * (1 + 0.002 * np.sin(n / 9))
        amp = float(np.interp(volt, v, i)) * light / LIGHT_W_M2 + chance.normal(0, 0.003)
        read = volt + chance.normal(0, 0.003)
        rows.append(f"12:40:{n % 60:02d},{read:.3f},{amp:.3f},{light:.0f},{CELL_C - 2.6 + 0.1 * (n % 3):.1f}")
    return "\n".join([*head, *rows]) + "\n"


def meter() -> str:
    """The same panel by a multimeter and resistors."""
    v, i = curve()
    low, high = float(np.interp(0, v, i)), float(np.interp(0, -i, v))
    lines = [
        "# Invented; nothing here was measured. The same panel by a multimeter and four resistors.",
        'serial = "0051"',
        "cells = 36",
        f'irradiance = "{LIGHT_W_M2:.0f} W/m2"',
        f'voc = "{high:.2f} V"',
        f'isc = "{low:.2f} A"',
        "",
        "[meter]",
        'volts = "0.5 % + 2 of 0.01 V"',
        'amps = "1.0 % + 2 of 0.01 A"',
        "",
        "[before]",
        f'irradiance = "{LIGHT_W_M2 + 1:.0f} W/m2"',
        "",
        "[after]",
        f'irradiance = "{LIGHT_W_M2 - 1:.0f} W/m2"',
    ]
    for ohm in OHMS:
        fine = np.linspace(0, high, 20_001)
        volt = fine[np.argmin(np.abs(fine / ohm - np.interp(fine, v, i)))]
        lines += ["", "[[load]]", f'resistor = "{ohm:g} ohm, 1 %"', f'volts = "{volt:.2f} V"']
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    (BENCH / "henhouse-sweep.csv").write_text(sweep())
    (BENCH / "henhouse-cold-joint.csv").write_text(sweep(52, faulty()))
    (BENCH / "henhouse-meter.toml").write_text(meter())
