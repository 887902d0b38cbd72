"""What a ribbon shades that the printed busbar had not shaded already.

The nameplate counts the cell with its busbars printed and bare, so only the silicon which a ribbon
covers beyond the busbar is lost anew. The solder on the two edges is part of the ribbon's width. Some of
the light on a ribbon comes back by way of the glass; none is counted unless the caller says how much.
"""

from __future__ import annotations

from panewright.ribbon.strip import Strip


def outer_width_mm(strip: Strip) -> float:
    """Width of the strip with the solder on its edges. [mm]"""
    return strip.width_mm + 2 * strip.coat_mm


def overhang_mm(strip: Strip, busbar_width_mm: float) -> float:
    """Width by which the strip covers silicon beside the busbar, both sides together. [mm]"""
    return max(0.0, outer_width_mm(strip) - busbar_width_mm)


def shaded_mm2(strip: Strip, busbars: int, busbar_width_mm: float, length_mm: float) -> float:
    """Silicon newly shaded by the tabs on one cell's front. [mm2]"""
    return busbars * overhang_mm(strip, busbar_width_mm) * length_mm


def shaded_share(shaded_area_mm2: float, cell_area_mm2: float, recovered: float = 0.0) -> float:
    """Share of the cell's light lost, `recovered` being what comes back by reflection. [-]

    >>> round(shaded_share(124.8, 24336.0), 5)
    0.00513
    """
    if not 0 <= recovered <= 1:
        raise ValueError(f"between none and all of the light comes back, got {recovered}")
    return (1 - recovered) * shaded_area_mm2 / cell_area_mm2
