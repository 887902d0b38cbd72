"""Invented curves for examples and tests, seeded: no figure here was measured on anything.

What real files have in common is in them (common practice, no source): a load's log idles between its
steps, a capacitor's sweep is dense at one end, a fast sweep differs up and down, clouds pass, meters end at
their range. `python tests/intake/curves/invented_curves.py` writes the examples anew.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

Column = NDArray[np.float64]
EXAMPLES = Path(__file__).parents[3] / "examples" / "curves"
CELLS = 36
DIODE = Diode(light_a=4.62, saturation_a=4e-9, ideality_v=0.0277, series_ohm=0.006, shunt_ohm=25.0)
AT_W_M2 = 812.0
VOC_V = CELLS * key_points(DIODE).voc_v


def amperes(volts: Column, irradiance_w_m2: Column | float = AT_W_M2) -> Column:
    """Current of the invented panel of 36 cells at its terminals; light moves it one for one. [A]"""
    at_once = current_a(DIODE, np.asarray(volts) / CELLS)
    return np.asarray(at_once + DIODE.light_a * (np.asarray(irradiance_w_m2) / AT_W_M2 - 1))


def sweep(points: int, up_to_v: float = 22.5) -> tuple[Column, Column]:
    """A clean sweep of the invented panel from short circuit past open circuit."""
    volts = np.linspace(-0.02, up_to_v, points)
    return volts, amperes(volts)


def comma(value: float, places: int) -> str:
    """A figure with a decimal comma."""
    return f"{value:.{places}f}".replace(".", ",")


def bench_load() -> bytes:
    """An electronic load's log: idle rows, steps of current, two rounds, a reference cell beside."""
    chance = np.random.default_rng(41)
    lines = [
        "Invented log of an electronic load; nothing here was measured",
        "Panel,0042,,,,",
        "Cells in series,36,,,,",
        "Date,2026-05-04,,,,",
        "Time,Stage,Set (A),U (V),I (A),E (W/m2),Cell temp (C)",
    ]
    second = 11 * 3600 + 41 * 60

    def row(stage: str, asked: float, volts: float, light: float) -> str:
        clock = f"{second // 3600:02d}:{second // 60 % 60:02d}:{second % 60:02d}"
        drawn = max(float(amperes(np.array([volts]), light)[0]), 0.0) if stage == "on" else 0.0
        shown = volts + 0.004 * chance.normal()
        read = drawn + 0.002 * chance.normal()
        return f"{clock},{stage},{asked:.2f},{shown:.3f},{read:.3f},{light:.0f},41.{second % 7}"

    for round_ in range(2):
        light = AT_W_M2 - 6.0 * round_
        for _ in range(8):
            lines.append(row("off", 0.0, VOC_V, light))
            second += 1
        for volts in np.linspace(VOC_V - 0.01, 0.08, 44):
            asked = float(amperes(np.array([volts]), light)[0])
            lines.append(row("on", max(asked, 0.0), float(volts), light + 0.8 * chance.normal()))
            second += 1
    return ("\n".join(lines) + "\n").encode()


def capacitor() -> bytes:
    """A capacitor charged by the panel: time in ms, the current as millivolts over a shunt, German habits."""
    chance = np.random.default_rng(42)
    lines = [
        "Erfundene Kondensatorkennlinie, nichts davon wurde gemessen",
        "Prüfling: 0042",
        "Datum: 04.05.2026; Uhrzeit: 12:05:30",
        "Einstrahlung vorher: 806 W/m²; Einstrahlung nachher: 798 W/m²",
        "Zelltemperatur: 42,5 °C",
        "Zellen in Reihe: 36",
        "Shunt: 10 mOhm",
        "t [ms];U [V];U_Shunt [mV]",
    ]
    volts, step_s, farad = -0.01, 2e-4, 0.0047
    for place in range(260):
        drawn = float(amperes(np.array([volts]), 802.0)[0])
        shown = volts + 0.006 * chance.normal()
        over = 10 * (drawn + 0.004 * chance.normal())
        lines.append(f"{comma(1e3 * step_s * place, 1)};{comma(shown, 3)};{comma(over, 2)}")
        volts += drawn * step_s / farad
    return ("\r\n".join(lines) + "\r\n").encode("cp1252")


def charged() -> bytes:
    """The same capacitor by a logger of one channel: time and voltage alone."""
    chance = np.random.default_rng(45)
    lines = [
        "Invented; nothing here was measured",
        "Serial: 0042",
        "Date: 2026-05-04",
        "Irradiance: 802 W/m2",
        "Cell temp: 42.5 C",
        "Capacitor: 4.7 mF",
        "t [ms],U [V]",
    ]
    volts, step_s, farad = -0.01, 2e-4, 0.0047
    for place in range(260):
        lines.append(f"{1e3 * step_s * place:.1f},{volts + 0.006 * chance.normal():.3f}")
        for _ in range(20):
            volts += float(amperes(np.array([volts]), 802.0)[0]) * step_s / 20 / farad
    return ("\n".join(lines) + "\n").encode()


def two_ways() -> bytes:
    """One voltage, current up and down side by side, a load's signs, and the cells' own charge in between."""
    chance = np.random.default_rng(43)
    lines = [
        "# Invented; nothing here was measured. Swept up and down within 20 ms each.",
        "# Serial: 0043",
        "# Isc before: 4.60 A",
        "# Irradiance: 81.2 mW/cm2",
        "# Cell temperature: 105 F",
        "# Cells in series: 36",
        "# V, I up, I down",
    ]
    volts = np.linspace(-0.1, 22.0, 70)
    charge = 0.12 * np.exp((volts - 17) / CELLS / 0.05)  # current of the cells' own charge at that speed [A]
    for v, own, extra in zip(volts, amperes(volts), charge, strict=True):
        up, down = (own + turn * extra + 0.002 * chance.normal() for turn in (-1, 1))
        lines.append(f"{v:.3f}, {-up:.4f}, {-down:.4f}")
    lines.append("# Isc after: 4.58 A")
    return ("\n".join(lines) + "\n").encode()


def cloudy() -> bytes:
    """Three blocks with tabs: the meter ends at 4 A in the first, a cloud in the second; bad fields."""
    chance = np.random.default_rng(44)
    lines = ["Invented; nothing here was measured", "Module: 0044", "Date: 5/24/2026"]
    for nth, (light, hour) in enumerate(((812, "13:02"), (805, "13:05"), (640, "13:09")), start=1):
        lines += [
            "",
            f"Sweep {nth}",
            f"Time: {hour}",
            f"Irradiance before: {light} W/m2",
            "Module temp: 38.5 °C",
        ]
        lines += ["Voltage (V)\tCurrent (A)\tIrr. (W/m²)\tRemark"]
        volts = np.linspace(0.3, 21.2, 36)
        for place, v in enumerate(volts):
            now = light * (0.86 if nth == 2 and 14 <= place < 22 else 1.0) + 1.5 * chance.normal()
            drawn = float(amperes(np.array([v]), now)[0]) + 0.003 * chance.normal()
            drawn = min(drawn, 4.0) if nth == 1 else drawn
            lines.append(f"{v:.2f}\t{drawn:.3f}\t{now:.0f}\t{'hand shook' if place == 9 else ''}")
        lines[-20] = lines[-20].replace("\t", "\tOL", 1).partition("OL")[0] + "OL\t810\t"
        lines.append(f"Irradiance after: {light - 3 * nth} W/m2")
    return ("\n".join(lines) + "\n").encode()


FILES = {
    "bench-load.csv": bench_load,
    "kondensator.csv": capacitor,
    "charged.csv": charged,
    "two-ways.csv": two_ways,
    "cloudy.tsv": cloudy,
}


def write() -> None:
    """Write the examples anew."""
    EXAMPLES.mkdir(exist_ok=True)
    for name, made in FILES.items():
        (EXAMPLES / name).write_bytes(made())


if __name__ == "__main__":
    write()
