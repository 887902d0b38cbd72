"""Every rule of a crate."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.crate.box import LID_PA, LIFT, TIP_DEG, Crate
from panewright.crate.cushion import BUCKLING, Cushion
from panewright.crate.timber import PLY_MPA, WOOD_MPA, ply_mpa

ROOM = "crate"
FELL = {"face": "its face", "edge": "its long side", "end": "its short side"}


def crate_checks(crate: Crate, most_hand_kg: float) -> tuple[Check, ...]:
    """Foam of every side, wood, weight, stand."""
    goods = crate.stack.panel.goods
    foam = (check for cushion in crate.cushions for check in foam_checks(cushion, goods))
    return (*foam, *_wood(crate), *_moved(crate, most_hand_kg))


def foam_checks(cushion: Cushion, goods: str) -> Iterator[Check]:
    """The four rules of the foam of one side."""
    asked, foam, side = cushion.asked, cushion.foam, FELL[cushion.asked.side]
    thicker = f"Take more {goods}s to a crate or fewer, another foam, a gentler handling or a lower fall."
    yield Check(
        f"shock to a {goods} fallen on {side}",
        cushion.shock_g,
        asked.fragile_g,
        "g",
        "stress-energy method (Burgess, recalled), a tenth of the foam crept away",
        thicker,
        ROOM,
    )
    yield Check(
        f"weight on the foam of {side}",
        cushion.static_pa,
        foam.most_static_pa,
        "Pa",
        "creep of a tenth; foam supplier's guide (seen)",
        f"Take a firmer foam, or fewer {goods}s to a crate.",
        ROOM,
    )
    yield Check(
        f"fall within the curve of the foam of {side}",
        cushion.energy_pa,
        foam.most_energy_pa,
        "Pa",
        "end of the foam's own curve, as on the shelf",
        f"Take a firmer foam, or fewer {goods}s to a crate.",
        ROOM,
    )
    yield Check(
        f"pads of {side} too broad to buckle",
        cushion.slender_mm2,
        cushion.area_mm2,
        "mm2",
        f"({BUCKLING:g} thickness)^2 a pad, package-cushioning handbooks (recalled)",
        "Take a softer foam, which needs more area.",
        ROOM,
    )


def _wood(crate: Crate) -> Iterator[Check]:
    source = "bending; working stress of the shop, from EN 338 C16 and plywood (recalled) over 2.3"
    yield Check(
        "sills of the crate lifted at its ends",
        crate.sill_mpa,
        WOOD_MPA,
        "MPa",
        f"{LIFT:g} times its weight; {source}",
        f"Take fewer {crate.stack.panel.goods}s to a crate.",
        ROOM,
    )
    stacked = f"load on a lid by the transport insurers' handbook 1.2 (seen); {source}"
    fewer = f"Take fewer {crate.stack.panel.goods}s to a crate, so that its lid is narrower."
    yield Check("battens of the lid under other crates", crate.lid_mpa, WOOD_MPA, "MPa", stacked, fewer, ROOM)
    ply = ply_mpa(LID_PA * 1e-6, crate.lid_span_mm, crate.ply_mm)
    yield Check("plywood of the lid under other crates", ply, PLY_MPA, "MPa", stacked, fewer, ROOM)


def _moved(crate: Crate, most_hand_kg: float) -> Iterator[Check]:
    if crate.by_hand:
        yield lifted("crate", crate.gross_kg, most_hand_kg, crate.stack.panel.goods)
        return
    yield Check(
        "crate stands without tipping",
        crate.base_mm,
        crate.outside.across_mm,
        "mm",
        f"{TIP_DEG:g} degrees, tip tests of ASTM D6179 (recalled)",
        "Take longer bearers.",
        ROOM,
    )


def lifted(shell: str, gross_kg: float, most_hand_kg: float, goods: str) -> Check:
    """What is moved by hand can be lifted by two."""
    return Check(
        f"{shell} light enough for two people",
        gross_kg,
        most_hand_kg,
        "kg",
        "limit of the order; two people lift two thirds of 23 kg each (team lifting guidance, seen)",
        f"Take fewer {goods}s to a {shell}, or a pallet.",
        ROOM,
    )
