"""Share of the light that a cover lets through to cells on it or behind it.

A sheet's transmittance is that of a sheet in air: both faces throw light back. Encapsulant bonded to the
inner face has nearly the sheet's own index, so only the outer face counts. The cell's own face throws a
little less back under encapsulant than in the air in which it was measured: that gain is left out.
"""

from __future__ import annotations

from panewright.glass.light import ACRYLIC_INDEX, GLASS_INDEX, surface_reflectance
from panewright.glass.pane import Sheet

_INDEX = {"glass": GLASS_INDEX, "acrylic": ACRYLIC_INDEX, "polycarbonate": 1.585}  # last: from memory


def cover_share(sheet: Sheet, bonded: bool) -> float:
    """Share of light, straight on, that reaches cells bonded to a sheet or lying behind it in air. [-]"""
    if not bonded:
        return sheet.solar_transmittance
    outer_only = sheet.solar_transmittance / (1 - surface_reflectance(_INDEX[sheet.material]))
    return min(1.0, outer_only)


def lit_share(cover: float, shaded: float) -> float:
    """Share of the light that reaches silicon which ribbons shade in part. [-]

    >>> lit_share(0.9, 0.02)
    0.882
    """
    return cover * (1 - shaded)
