"""Two metals that touch in the damp: the less noble one is eaten, and the faster the smaller it is.

Each air bears a difference of potential; past it, a large piece of the less noble metal round a small
nobler one still lasts, as a stainless screw in an aluminium rail does, but not where salt keeps the joint
wet: there the two are kept apart.

[G] series in flowing sea water, against a saturated calomel electrode (handbooks of corrosion, recalled).
[V] 0.50 V where air is dry and heated, 0.25 V in common damp air, 0.15 V in salt or wet heat: a bearing
    and tooling maker's guide to the anodic index (read); the habit goes back to MIL-STD-889 and
    MIL-F-14072 (recalled).
[A] a small nobler part on a large less noble one, and not the reverse: MIL-STD-1250A 5.7 (read); ten to
    one is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.check import Check

Metal = Literal["aluminium", "stainless", "copper", "tin", "zinc", "steel"]
Air = Literal["dry", "damp", "salt"]

POTENTIAL_V: dict[Metal, float] = {
    "aluminium": -0.74,  # 6063
    "stainless": -0.08,  # 304, passive
    "copper": -0.33,
    "tin": -0.32,
    "zinc": -1.03,
    "steel": -0.61,
}
MOST_V: dict[Air, float] = {"dry": 0.50, "damp": 0.25, "salt": 0.15}  #: [V]
LEAST_AREA_RATIO = 10.0  #: less noble over nobler surface that is wet with it [A]


@dataclass(frozen=True, slots=True)
class Pair:
    """A small part on a large one."""

    what: str  #: in the words of the parts list
    part: Metal
    on: Metal
    part_mm2: float  #: surface that the wet reaches
    on_mm2: float  #: the same, near the part
    apart: bool = False  #: by washers, paste or a coat

    def __post_init__(self) -> None:
        if min(self.part_mm2, self.on_mm2) <= 0:
            raise ValueError(f"two metals that touch have surfaces, got {self}")

    @property
    def volts(self) -> float:
        """How far apart they lie in the series. [V]"""
        return abs(POTENTIAL_V[self.part] - POTENTIAL_V[self.on])

    @property
    def ratio(self) -> float:
        """Less noble surface over nobler. [-]"""
        first = POTENTIAL_V[self.part] > POTENTIAL_V[self.on]
        return self.on_mm2 / self.part_mm2 if first else self.part_mm2 / self.on_mm2


def judge_pair(pair: Pair, air: Air) -> Check:
    """Whether the two may touch: by potential where that is small, else by surfaces, never in salt."""
    if pair.apart:
        return _by_volts(pair, 0.0, air, "kept apart by washers and paste")
    if pair.volts <= MOST_V[air] or air == "salt":
        return _by_volts(pair, pair.volts, air, "guides to the anodic index")
    return Check(
        f"{pair.what}: large metal round small",
        LEAST_AREA_RATIO,
        pair.ratio,
        "-",
        f"{pair.volts:.2f} V in {air} air; MIL-STD-1250A 5.7, ten to one by common practice",
        "Take a smaller fastener or one of aluminium, or put nylon washers and paste between.",
        "frame",
    )


def _by_volts(pair: Pair, volts: float, air: Air, source: str) -> Check:
    return Check(
        f"{pair.what}: metals near each other in the series",
        volts,
        MOST_V[air],
        "V",
        f"{source}; {pair.part} on {pair.on} in {air} air",
        "Put nylon washers under head and nut, and jointing paste on the shank; or take aluminium fasteners.",
        "frame",
    )
