"""In which light a table's cells were read, where no column says it: asked of a person, never guessed.

Without the light a table tells which cell is better, and nothing of how good the lot is. A seller's flash
list is of full sun, most of a maker's own tables are not: which of the two it is stands in no figure.
"""

from __future__ import annotations

from panewright.errors import Problem, SheetError
from panewright.intake.mapping import LIGHT_CURE, UNKNOWN, Mapping
from panewright.intake.measure import UNITS
from panewright.intake.quantity import QUANTITIES
from panewright.intake.written import figures

STC = "STC"
STC_LIGHT_W_M2, STC_CELL_C = 1000.0, 25.0
_LIGHT = QUANTITIES["irradiance_w_m2"]


def in_light(mapping: Mapping, words: str, file: str = "", key: str = "light") -> Mapping:
    """A mapping with what a person says of the light; `SheetError` where that is none.

    >>> in_light(Mapping(()), "stc").given
    {'irradiance_w_m2': 1000.0, 'cell_c': 25.0}
    >>> in_light(Mapping(()), "0.85 kW/m2").given, in_light(Mapping(()), "unknown").light
    ({'irradiance_w_m2': 850.0}, 'unknown')
    """
    said = words.strip()
    if said.casefold() == UNKNOWN:
        return mapping.unlit()
    if said.casefold() == STC.casefold():
        return mapping.giving(irradiance_w_m2=STC_LIGHT_W_M2, cell_c=STC_CELL_C)
    return mapping.giving(irradiance_w_m2=_read(said, file, key))


def _read(said: str, file: str, key: str) -> float:
    """A light with its unit. [W/m2]"""
    found = figures([said], _LIGHT, UNITS["light"][0], ".")
    value = float(found.values[0])
    reason = "This is no light in which cells are read."
    if 0 in found.faults:
        reason = found.faults[0].reason
    if said.replace(".", "", 1).isdecimal():
        reason = "A light carries its unit."
    elif _LIGHT.likely(value):
        return value
    raise SheetError([Problem(reason, LIGHT_CURE, file, key=key, value=said[:40])])
