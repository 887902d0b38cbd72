"""What a glass shop must be told of a pane beside its size: edge, flatness, mark.

Heating on rollers leaves a bow over the whole and a wave of the rollers' pitch. Each family has its own
limits; what a family does not tell is None, and is agreed with the shop.

[G] EN 12150-1:2015 6.3, horizontal furnace: overall bow 3 mm in a metre of float and 4 mm of other glass,
    wave 0.3 mm and 0.5 mm over 300 mm (all recalled). 7.1: edges are worked before the glass is heated,
    the least that may be is arrissed (recalled). A mark for ever: the
    maker and the number of the standard (recalled).
[A] ASTM C1048 table 2, bow by the length of the edge, here of 1/8 to 7/32 in (recalled); 1/16 in within
    any 12 in (read, a glass maker's page); seamed edges and a permanent mark unless asked otherwise
    (read, the same). It sets no limit to roll wave itself (recalled).
[P] no standard: common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.climate.site import Family
from panewright.glass.pane import Pane, Sheet
from panewright.structure.panes.cut_glass import HEATED

Edge = Literal["seamed", "flat ground"]

ARRIS_MM = (0.5, 1.5)  #: width of the small bevel at each edge, least and most [P]
_INCH_MM = 25.4
_EN_BOW = {"plain": 0.003, "patterned": 0.004}  # of the length [G]
_EN_WAVE_MM = {"plain": 0.3, "patterned": 0.5}
_EN_WAVE_OVER_MM = 300.0
_ASTM_BOW_MM = (  # (edge up to mm, bow mm) [A]
    (500.0, 3.0),
    (900.0, 4.0),
    (1200.0, 5.0),
    (1500.0, 7.0),
    (1800.0, 9.0),
    (2100.0, 12.0),
    (2400.0, 14.0),
)
_ASTM_THICKER_MM = 5.6  # from here on the table allows one step less
_ASTM_THICKEST_MM = 7.0


@dataclass(frozen=True, slots=True)
class Flatness:
    """How far a pane may be off flat; None where the family sets nothing."""

    long_bow_mm: float | None  #: over the long side, a rule laid on the hollow face
    short_bow_mm: float | None
    local_mm: float | None  #: within a short length: the rollers' wave
    over_mm: float  #: that length
    source: str


def flatness(pane: Pane, family: Family) -> Flatness:
    """What the product standard of the family allows. [G], [A]

    >>> glass = Sheet("4", "glass", "tempered", "plain", 4, 3.8, 2500, 9e-6, 0.9)
    >>> flatness(Pane(1600, 1000, glass), "EN").long_bow_mm
    4.8
    """
    sheet = pane.sheet
    if sheet.plies or sheet.treatment not in HEATED:
        return Flatness(None, None, None, _EN_WAVE_OVER_MM, "no limit of the family for this sheet")
    if family == "ASCE":
        long, short = _astm_bow_mm(pane.long_mm, sheet), _astm_bow_mm(pane.short_mm, sheet)
        source = "bow: ASTM C1048 table 2 (recalled); local: a glass maker's page (read)"
        return Flatness(long, short, _INCH_MM / 16, 12 * _INCH_MM, source)
    share, wave = _EN_BOW[sheet.surface], _EN_WAVE_MM[sheet.surface]
    book = "EN 12150-1" if sheet.treatment == "tempered" else "EN 1863-1"
    return Flatness(
        round(share * pane.long_mm, 1),
        round(share * pane.short_mm, 1),
        wave,
        _EN_WAVE_OVER_MM,
        f"{book} 6.3, horizontal furnace (recalled)",
    )


def _astm_bow_mm(edge_mm: float, sheet: Sheet) -> float | None:
    """Of one edge, by its length; None past the table."""
    if sheet.nominal_mm > _ASTM_THICKEST_MM:
        return None
    step = next((n for n, (most, _) in enumerate(_ASTM_BOW_MM) if edge_mm <= most), None)
    if step is None:
        return None
    if sheet.nominal_mm < _ASTM_THICKER_MM:
        return _ASTM_BOW_MM[step][1]
    return _ASTM_BOW_MM[step - 1][1] if step else 2.0


def edge_finish(held_all_round: bool) -> Edge:
    """Seamed where the frame guards every edge; ground flat and seamed where one stands free. [P]"""
    return "seamed" if held_all_round else "flat ground"
