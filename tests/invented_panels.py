"""Invented panels whose cells scatter by two in a hundred, with joints of copper; of no real maker."""

import dataclasses
from random import Random

from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.chords.law import COOL_C, WARM_C, law_of
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass

CELL = CellModel(Diode(9.0, 2e-10, 0.0272, 0.004, 30.0, 0.003, -18.0, 3.4), 1.16, 5e-4, 24336.0)
SCHOTTKY = Bypass("Schottky 15 A 45 V", 5e-6, 0.02698, 0.01, 15.0, 45.0)


@dataclasses.dataclass(frozen=True)
class Made:
    """One of them."""

    cells: int = 60
    parts: int = 3
    strings: int = 1
    beside: object = SCHOTTKY
    blocking: object = None
    seed: int = 1
    scatter: float = 0.02  #: of light; of dark current a factor of two if there is any

    def models(self):
        chance = Random(self.seed)
        for _ in range(self.cells):
            dark = chance.uniform(0.5, 2) if self.scatter else 1.0
            stc = dataclasses.replace(
                CELL.stc, light_a=9 * chance.gauss(1, self.scatter), saturation_a=2e-10 * dark
            )
            yield dataclasses.replace(CELL, stc=stc)

    def network(self, lights, cell_c):
        cells = [diode_at(model, light, cell_c) for model, light in zip(self.models(), lights, strict=True)]
        copper = 1 + 0.00393 * (cell_c - 25)
        each = self.cells // self.parts
        parts = [
            Substring(tuple(cells[k : k + each]), (0.001 * copper,) * each, self.beside)
            for k in range(0, self.cells, each)
        ]
        a_string = self.parts // self.strings
        strings = [
            String(tuple(parts[k : k + a_string]), 0.01, self.blocking)
            for k in range(0, self.parts, a_string)
        ]
        return Network(tuple(strings), 0.02 * copper)

    def law(self):
        full = [1000.0] * self.cells
        return law_of(self.network(full, COOL_C), self.network(full, WARM_C))
