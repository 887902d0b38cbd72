"""A pane under a hand or a knee: what the rule books say to it, and the shop's own reckoning beside.

A touch may come anywhere. Thick glass is pulled hardest by one in its middle, thin glass by one beside the
middle of its long side, where it has no skin to hang in; a corner and the short side pull it less (tried in
the tests). So these two places are looked at, with the pane's own weight, and the worse is told.

ASCE: ASTM E1300 is a practice for wind, snow and own weight; a force on a patch is outside of it, so its
check has no limit. Beside it stands how often such a pane breaks by the same failure model: the shop's own
reckoning. Tempered glass counts as annealed glass under the load divided by its type factor, which is how
the practice counts it, and that load as one of 3 s. EN: the largest principal stress under the factored force
against the design strength of its duration.

Nobody walks on a panel: these figures say what a slip would do. Of those that an order asks for the design is
held against one each (`touch_checks`): in EN its strength, in ASCE, which has no rule for it, the shop's own
reckoning. Plastics are covered by neither book and are not bent for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from panewright.check import Check
from panewright.glass.load import PatchLoad
from panewright.glass.pane import Pane
from panewright.glass.plate.almanac.touches import OFF
from panewright.glass.plate.field import SupportedBent, bend_supported, bent_field
from panewright.glass.plate.holding import Patch, Pressing, Sides, Supported
from panewright.glass.plate.nearly import touched_mpa
from panewright.glass.plate.thin import thin_peak_mpa
from panewright.glass.strength import e1300, en16612
from panewright.glass.strength.field_breakage import breakage, grown
from panewright.glass.verdict.held import plate_of
from panewright.glass.verdict.proof import Family, told

_ROOM = "glass"
_WEIGHT_FACTOR = 1.35  # on own weight, EN 1990
_AWAY = 0.05  # of a stress: more than the almanac is off
_BY_FAR = 0.9  # of the limit: more room than thin-plate theory leaves out
_BY_EN = "EN 16612 design strength against the plate's largest principal stress"
_CURE = (
    "Reach over the panel from beside it, and lay a board across its rails; or take thicker tempered glass."
)


def judge_patch(
    pane: Pane,
    family: Family,
    touches: tuple[PatchLoad, ...],
    weight_pa: float = 0.0,
    *,
    sides: Sides = "four sides",
) -> tuple[Check, ...]:
    """Every touch at its worst place on a pane held on its sides."""
    held = {touch: Supported(plate_of(pane, family, touch.duration_s), sides) for touch in touches}
    if family == "ASCE":
        return tuple(check for touch in touches for check in _asce(pane, held[touch], touch, weight_pa))
    return tuple(_en(pane, held[touch], touch, weight_pa) for touch in touches if touch.factored)


def touch_checks(
    pane: Pane,
    family: Family,
    touches: tuple[PatchLoad, ...],
    weight_pa: float = 0.0,
    *,
    sides: Sides = "four sides",
) -> tuple[Check, ...]:
    """One check for each touch, as a design is held against it; a rule book's own where it has one."""
    if pane.sheet.material != "glass":
        return tuple(_plastic(pane, touch) for touch in touches if touch.factored == (family == "EN"))
    judged = judge_patch(pane, family, touches, weight_pa, sides=sides)
    if family == "EN":
        return judged
    return tuple(check for check in judged if check.covered) or judged


def surely_bears(
    pane: Pane,
    family: Family,
    touches: tuple[PatchLoad, ...],
    weight_pa: float,
    sides: Sides,
    *,
    use: float = 1.0,
) -> bool:
    """Whether a quick figure already lets a pane bear every touch, or be used by less than `use` [-].

    By the almanac, or by thin-plate theory, which tells too much. Only for EN and four sides. No is no
    answer: such a pane is to be reckoned in full.
    """
    if family != "EN" or sides != "four sides" or pane.sheet.material != "glass":
        return False
    return all(_surely(pane, touch, weight_pa, use) for touch in touches if touch.factored)


def _surely(pane: Pane, touch: PatchLoad, weight_pa: float, use: float) -> bool:
    near, limit = _at_once(pane, touch, weight_pa)
    if limit is None:
        return False
    if near is not None:
        return near * (1 + _AWAY) <= use * limit
    held = Supported(plate_of(pane, "EN", touch.duration_s))
    weight_pa *= _WEIGHT_FACTOR
    pressings = (_pressing(pane, touch, place, weight_pa) for place in places_mm(pane, touch.side_mm))
    return all(thin_peak_mpa(held, each) <= _BY_FAR * use * limit for each in pressings)


def _at_once(pane: Pane, touch: PatchLoad, weight_pa: float) -> tuple[float | None, float | None]:
    """The almanac's stress under EN's factored load, where it has one, and the design strength. [MPa]"""
    sheet, plate = pane.sheet, plate_of(pane, "EN", touch.duration_s)
    near = touched_mpa(plate, touch.force_n, touch.side_mm, _WEIGHT_FACTOR * weight_pa)
    limit = en16612.strength_mpa(sheet.treatment, touch.duration_s, sheet.surface)
    return None if near is None else max(near), limit


def surely_breaks(
    pane: Pane,
    family: Family,
    touches: tuple[PatchLoad, ...],
    weight_pa: float,
    sides: Sides,
    *,
    use: float = 1.0,
) -> tuple[Check, ...]:
    """The check by the almanac's figure, where that alone shows the pane used by more than `use` [-].

    None where it does not, or where more than one touch counts: such a pane is to be reckoned in full. Its
    name says how well the figure is known. Only for EN and four sides.
    """
    counted = [touch for touch in touches if touch.factored]
    if family != "EN" or sides != "four sides" or pane.sheet.material != "glass" or len(counted) != 1:
        return ()
    (touch,) = counted
    near, limit = _at_once(pane, touch, weight_pa)
    if near is None or limit is None or near * (1 - _AWAY) <= use * limit:
        return ()
    rule = f"glass strength under {touch.name} (known to {100 * OFF:.0f} %)"
    return (Check(rule, near, limit, "MPa", _BY_EN, _CURE, _ROOM),)


def _plastic(pane: Pane, touch: PatchLoad) -> Check:
    name = pane.sheet.material
    source = "neither ASTM E1300 nor EN 16612 covers plastics"
    cure = 'Take glass, or write touched = "none" and keep hands off.'
    return Check(f"{name} under {touch.name}", touch.force_n, None, "N", source, cure, _ROOM)


def places_mm(pane: Pane, side_mm: float, sides: Sides = "four sides") -> tuple[tuple[float, float], ...]:
    """The middle, and beside the middle of the long side, or at that of a free side where one is free."""
    if sides == "two long sides":
        return (0.0, 0.0), (max((pane.long_mm - side_mm) / 2, 0.0), 0.0)
    if sides == "two short sides":
        return (0.0, 0.0), (0.0, max((pane.short_mm - side_mm) / 2, 0.0))
    return (0.0, 0.0), (0.0, max(pane.short_mm / 2 - 1.5 * side_mm, 0.0))


@lru_cache(maxsize=64)
def worst_touch(held: Supported, pane: Pane, touch: PatchLoad, weight_pa: float) -> SupportedBent:
    """The touch where it pulls the pane hardest; kept, for panels of other cells lie behind the same pane."""
    places = places_mm(pane, touch.side_mm, held.sides)
    near = touched_mpa(held.plate, touch.force_n, touch.side_mm, weight_pa)
    if near is None or held.sides != "four sides":
        tried = [_bent(held, pane, touch, place, weight_pa) for place in places]
        return max(tried, key=lambda bent: bent.worst_mpa)
    first, other = (0, 1) if near[0] > near[1] else (1, 0)
    bent = _bent(held, pane, touch, places[first], weight_pa)
    if near[other] * (1 + _AWAY) < bent.worst_mpa:  # beyond doubt: so much the almanac is not off
        return bent
    return max(bent, _bent(held, pane, touch, places[other], weight_pa), key=lambda each: each.worst_mpa)


def _bent(
    held: Supported, pane: Pane, touch: PatchLoad, place: tuple[float, float], weight_pa: float
) -> SupportedBent:
    return bend_supported(held, _pressing(pane, touch, place, weight_pa))


def _pressing(pane: Pane, touch: PatchLoad, place: tuple[float, float], weight_pa: float) -> Pressing:
    """The touch where it lies; on a pane narrower than a hand the whole force on what there is of it."""
    long_mm, short_mm = min(touch.side_mm, pane.long_mm), min(touch.side_mm, pane.short_mm)
    return Pressing(weight_pa, (Patch(touch.force_n, *place, long_mm, short_mm),))


def _asce(pane: Pane, held: Supported, touch: PatchLoad, weight_pa: float) -> Iterator[Check]:
    bent = worst_touch(held, pane, touch, weight_pa)
    source = "ASTM E1300 covers wind, snow and own weight, no force on a patch"
    strained = told(bent.worst_mpa, bent.known)
    yield Check(f"glass strength under {touch.name}", strained, None, "MPa", source, _CURE, _ROOM)
    source = (
        "no rule of ASCE, shop's own reckoning: failure model of ASTM E1300 over both faces, type factor of "
        "the touch's duration"
    )
    broken = _broken(pane, bent, touch)
    if broken is not None:
        rule = f"panes of 1000 broken under {touch.name}"
        yield Check(rule, broken, e1300.FAILURE * 1000, "-", source, _CURE, _ROOM)


def _broken(pane: Pane, bent: SupportedBent, touch: PatchLoad) -> float | None:
    """How many of 1000 panes break; None where the model says nothing."""
    sheet = pane.sheet
    factor = e1300.type_factor(sheet.treatment, touch.duration_s)
    if factor is None or sheet.material != "glass" or sheet.surface != "plain" or not bent.known:
        return None
    field = bent_field(bent.supported, grown(bent.pressing, 1 / factor))
    return breakage(field, e1300.SHORT_S) * 1000


def _en(pane: Pane, held: Supported, touch: PatchLoad, weight_pa: float) -> Check:
    sheet, limit = pane.sheet, None
    bent = worst_touch(held, pane, touch, _WEIGHT_FACTOR * weight_pa)
    if sheet.material == "glass" and bent.known:
        limit = en16612.strength_mpa(sheet.treatment, touch.duration_s, sheet.surface)
    strained = told(bent.worst_mpa, bent.known)
    return Check(f"glass strength under {touch.name}", strained, limit, "MPa", _BY_EN, _CURE, _ROOM)
