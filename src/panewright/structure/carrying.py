"""How many people carry a panel, by its mass and by how far two hands reach.

[N] 23 kg, recommended limit of one lift at its best (NIOSH, recalled). The sizes are common practice.
"""

from __future__ import annotations

import math

from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.mass import ONE_PERSON_KG

MOST_LONG_MM, MOST_SHORT_MM = 1800.0, 900.0  #: that one person steers, and reaches across


def carriers(frame: FramePlan, mass_kg: float) -> int:
    """People who carry it. [-]  [N]"""
    short, long = sorted((frame.outer_width_mm, frame.outer_height_mm))
    by_size = 2 if long > MOST_LONG_MM or short > MOST_SHORT_MM else 1
    return max(by_size, math.ceil(mass_kg / ONE_PERSON_KG - 1e-9))
