"""What to read at a step, as numbers: what is expected in this light and heat, and how far off is a fault.

A voltage of cells in series that is off by half a cell's own tells of a cell missing, shorted or turned
round. A current follows the light, which a maker reads to some ten per cent. Both bounds are common
practice, no source. Insulation: IEC 61215-2 MQT 03, as the step says.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from panewright.enclosure.bypass import forward_v
from panewright.pack.steps.cells import INSULATION_MOHM_M2, TEST_A
from panewright.pack.steps.expect import cells_voc_v, panel_isc_a, panel_voc_v
from panewright.panel.design import Design
from panewright.price.needs import diodes

LIGHT_W_M2, HEAT_C = 1000.0, 25.0
CURRENT_SHARE = 0.10
EARTH_OHM = 0.1
_DIODE_V = 0.2


@dataclass(frozen=True, slots=True)
class Asked:
    """One reading."""

    key: str
    words: str
    quantity: str
    unit: str
    expected: float | None = None
    least: float | None = None
    most: float | None = None
    by_light: bool = False  #: whether light and heat change what is expected

    def holds(self, value: float) -> bool:
        """Whether a reading lies within what is expected."""
        above = self.least is None or value >= self.least
        return above and (self.most is None or value <= self.most)


def step_key(title: str) -> str:
    """A step's name for the records.

    >>> step_key("Sort and cut the cells")
    'sort-and-cut-the-cells'
    """
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")


def asked(
    design: Design, step: str, light_w_m2: float = LIGHT_W_M2, heat_c: float = HEAT_C
) -> tuple[Asked, ...]:
    """The readings of one step, by its key, in this light and with cells of this heat."""
    plan = design.layup.plan
    match step:
        case "string-each-column-on-the-template":
            volts = cells_voc_v(design, plan.rows, light_w_m2, heat_c)
            names = ((f"column-{n}", f"Column {n}") for n in range(1, plan.columns + 1))
            return tuple(_voltage(design, key, words, volts, (light_w_m2, heat_c)) for key, words in names)
        case "solder-the-bus-ribbon" | "laminate":
            volts = cells_voc_v(design, plan.in_series, light_w_m2, heat_c)
            return (_voltage(design, "string", "Whole string", volts, (light_w_m2, heat_c)),)
        case "fit-the-bypass-diodes":
            return _diodes(design)
        case "check-polarity-and-current" | "measure-in-the-sun":
            return _in_light(design, light_w_m2, heat_c)
        case "check-the-insulation":
            return (_insulation(design),)
        case "close-the-back" | "fix-the-box-and-the-leads":
            return (Asked("earth", "Earth to every rail", "resistance", "ohm", most=EARTH_OHM, least=0.0),)
    return ()


def _voltage(design: Design, key: str, words: str, volts: float, at: tuple[float, float]) -> Asked:
    half = cells_voc_v(design, 1, *at) / 2
    return Asked(key, words, "voltage", "V", volts, volts - half, volts + half, by_light=True)


def _diodes(design: Design) -> tuple[Asked, ...]:
    bypass = design.electrical.bypass
    if bypass is None:
        return ()
    drop = forward_v(bypass, TEST_A)
    return tuple(
        Asked(f"diode-{n}", f"Diode {n}, forward", "voltage", "V", drop, drop - _DIODE_V, drop + _DIODE_V)
        for n in range(1, diodes(design) + 1)
    )


def _in_light(design: Design, light_w_m2: float, heat_c: float) -> tuple[Asked, ...]:
    volts, amps = panel_voc_v(design, light_w_m2, heat_c), panel_isc_a(design, light_w_m2, heat_c)
    low, high = (1 - CURRENT_SHARE) * amps, (1 + CURRENT_SHARE) * amps
    return (
        _voltage(design, "voc", "Voc", volts, (light_w_m2, heat_c)),
        Asked("isc", "Isc", "current", "A", amps, low, high, by_light=True),
    )


def _insulation(design: Design) -> Asked:
    frame = design.structural.frame
    area_m2 = frame.outer_width_mm * frame.outer_height_mm * 1e-6
    needed = math.ceil(INSULATION_MOHM_M2 / max(area_m2, 0.1))
    return Asked("insulation", "Leads to frame", "insulation resistance", "Mohm", least=float(needed))
