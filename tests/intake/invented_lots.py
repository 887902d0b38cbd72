"""Invented lots of cells for examples and tests, seeded: no figure here was measured on anything.

What real lots have in common is in them (common practice, no source): a good cell is better in both current
and voltage; a tenth leaks, some of those badly; some are chipped; the lamp warms up, sags and wanders, and
the cells grow warm on the bench. `python tests/intake/invented_lots.py` writes the examples anew.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO, StringIO
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import CellModel, diode_at

Column = NDArray[np.float64]
EXAMPLES = Path(__file__).parents[2] / "examples" / "lots"


@dataclass(frozen=True, slots=True)
class Lot:
    """Cells as they are at STC, and the light and heat in which each was read."""

    cells: tuple[CellModel, ...]
    chipped: NDArray[np.bool_]
    irradiance_w_m2: Column
    cell_c: Column

    def lit(self, place: int) -> Diode:
        """A cell in the light and heat of its reading."""
        return diode_at(self.cells[place], float(self.irradiance_w_m2[place]), float(self.cell_c[place]))

    def points(self, place: int) -> KeyPoints:
        """Isc, Voc and maximum power of a cell as it was read."""
        return key_points(self.lit(place))


def lot(count: int, seed: int, isc_a: float = 9.1) -> Lot:
    """A lot of cells of one kind."""
    chance = np.random.default_rng(seed)
    good = chance.normal(0, 1, count)  # lifetime: lifts the current and the voltage together
    light = isc_a * (1 + 0.008 * good + 0.004 * chance.normal(0, 1, count))
    chipped = chance.random(count) < 0.05
    light *= np.where(chipped, 1 - chance.uniform(0.01, 0.05, count), 1.0)
    leaks = chance.random(count) < 0.1
    shunt = np.where(leaks, 1.5 * chance.lognormal(0, 0.8, count), 40 * chance.lognormal(0, 0.5, count))
    saturation = 2.5e-9 * np.exp(-0.25 * good + 0.12 * chance.normal(0, 1, count))
    series = 0.003 * chance.lognormal(0, 0.15, count)
    figures = zip(light, saturation, series, shunt, strict=True)
    cells = tuple(CellModel(_diode(*map(float, each)), 1.12, 0.0005, 24336.0) for each in figures)
    return Lot(cells, chipped, _lamp(count, chance), _bench(count, chance))


def _diode(light_a: float, saturation_a: float, series_ohm: float, shunt_ohm: float) -> Diode:
    return Diode(light_a, saturation_a, 0.0283, series_ohm, shunt_ohm, 0.1 / shunt_ohm, -18.0, 3.4)


def _lamp(count: int, chance: np.random.Generator) -> Column:
    """A lamp that warms up, sags by three in a hundred over the day, and wanders."""
    along = np.linspace(0, 1, count)
    wander = np.convolve(chance.normal(0, 0.003, count + 20), np.ones(20) / np.sqrt(20), "valid")[:count]
    return 985 * (1 - 0.03 * along - 0.04 * np.exp(-along / 0.03) + wander)


def _bench(count: int, chance: np.random.Generator) -> Column:
    return 24 + 8 * np.sqrt(np.linspace(0, 1, count)) + chance.normal(0, 0.6, count)


def us_csv(cells: int = 160, seed: int = 1) -> bytes:
    """Commas, milliamps with marks of thousands, degrees Fahrenheit, one reading a cell."""
    made, chance = lot(cells, seed), np.random.default_rng(seed + 100)
    rows: list[list[str]] = [["Lot 7 from the barn roof, bench lamp. INVENTED FIGURES for demonstration."]]
    rows.append(["Cell #", "Isc (mA)", "Voc (mV)", "Imp (mA)", "Vmp (mV)", "Light (W/m2)", "Temp (degF)"])
    rows[-1] += ["Bin", "Notes"]
    for place in range(cells):
        at = made.points(place)
        own = [at.isc_a * 1e3, at.voc_v * 1e3, at.imp_a * 1e3, at.vmp_v * 1e3, made.irradiance_w_m2[place]]
        read = [value * chance.normal(1, 0.002) for value in own]
        fahrenheit = made.cell_c[place] * 9 / 5 + 32
        note = 'chip, 1/4" at the edge' if made.chipped[place] else ""
        shown = [
            f"{read[0]:,.0f}",
            f"{read[1]:.1f}",
            f"{read[2]:,.0f}",
            *(f"{value:.1f}" for value in read[3:]),
        ]
        rows.append(
            [f"B{place + 1:03d}", *shown, f"{fahrenheit:.1f}", "A" if at.power_w > 4.0 else "B", note]
        )
    rows[40][1], rows[71][2], rows[102][6] = "OL", "n/a", "warm"
    return _csv(rows, ",").encode("utf-8-sig")


def continental_csv(cells: int = 120, seed: int = 2) -> bytes:
    """Semicolons, decimal commas, titles, units below the header, two readings a cell, a mean at the end."""
    made, chance = lot(cells, seed, 8.6), np.random.default_rng(seed + 100)
    rows = [["Los 14/2: Zellen aus der Scheune"], ["Halogenlampe, Messung vom 3. November"]]
    rows.append(["ERFUNDENE WERTE zur Vorführung (invented figures)"])
    rows.append(["Zelle Nr.", "Isc 1", "Isc 2", "Uoc 1", "Uoc 2", "Strom bei 0,5 V", "Einstrahlung"])
    rows[-1] += ["Temperatur", "Klasse", "Bemerkung"]
    rows.append(["", "[A]", "[A]", "[mV]", "[mV]", "[A]", "[W/m²]", "[°C]", "", ""])
    table = []
    for place in range(cells):
        at = made.points(place)
        true = [at.isc_a, at.isc_a, at.voc_v * 1e3, at.voc_v * 1e3, float(current_a(made.lit(place), 0.5))]
        read = [value * chance.normal(1, 0.004 if value < 100 else 0.001) for value in true]
        table.append(read)
        shown = [_comma(value, 3 if value < 100 else 1) for value in read]
        light, heat = _thousands(made.irradiance_w_m2[place]), _comma(made.cell_c[place], 1)
        note = "Ecke ab; ca. 0,5 cm²" if made.chipped[place] else ""
        rows.append([str(place + 1), *shown, light, heat, "I" if at.isc_a > 8.1 else "II", note])
    rows[20][3], rows[33][2], rows[57][0] = "leer", "", ""
    rows.insert(60, [""] * 10)
    mean = np.mean(table, axis=0)
    rows.append(["Mittelwert", *(_comma(value, 3 if value < 100 else 1) for value in mean)] + [""] * 4)
    return _csv(rows, ";").encode("cp1252")


def workbook(cells: int = 140, seed: int = 3) -> bytes:
    """A workbook: current at half a volt only, light, heat; a title over all columns, some bad rows."""
    import xlsxwriter

    made, chance, out = lot(cells, seed, 9.4), np.random.default_rng(seed + 100), BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.set_properties({"created": datetime(2020, 1, 1), "comments": "Invented figures"})
    sheet, day = book.add_worksheet("cells"), book.add_format({"num_format": "yyyy-mm-dd hh:mm"})
    sheet.merge_range("A1:F1", "Lot R-3, tester at 0.5 V. INVENTED FIGURES for demonstration.", None)
    sheet.write_row("A3", ["Cell ID", "I @ 0.5 V [A]", "Irradiance [W/m2]", "Temp [°C]", "Date", "Remarks"])
    for place in range(cells):
        amperes = float(current_a(made.lit(place), 0.5)) * chance.normal(1, 0.003)
        figures = [
            round(amperes, 3),
            round(float(made.irradiance_w_m2[place]), 1),
            round(float(made.cell_c[place]), 1),
        ]
        sheet.write_row(3 + place, 0, ["" if place == 66 else f"R3-{place + 1:04d}", *figures])
        sheet.write_datetime(3 + place, 4, datetime(2020, 11, 3, 9 + place // 60, place % 60), day)
        sheet.write_string(3 + place, 5, "edge chip" if made.chipped[place] else "")
    sheet.write_formula("B12", "=B11*C12/C11", None, "")
    sheet.write_formula("B25", "=B24/F24", None, "#DIV/0!")
    sheet.write_datetime("B40", datetime(2020, 5, 9), day)
    sheet.write_string("B55", "broken")
    sheet.write_string("B81", "OL")
    book.add_worksheet("notes").write("A1", "Reference cell out of the same box.")
    book.close()
    return out.getvalue()


def _csv(rows: list[list[str]], mark: str) -> str:
    out = StringIO()
    csv.writer(out, delimiter=mark, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _comma(value: float, digits: int) -> str:
    return f"{value:.{digits}f}".replace(".", ",")


def _thousands(value: float) -> str:
    return f"{value:,.1f}".translate(str.maketrans(",.", ".,"))


MADE = {"barn-roof.csv": us_csv, "scheune.csv": continental_csv, "half-a-volt.xlsx": workbook}

if __name__ == "__main__":
    EXAMPLES.mkdir(parents=True, exist_ok=True)
    for name, make in MADE.items():
        (EXAMPLES / name).write_bytes(make())
