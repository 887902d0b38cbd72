"""Whether a pane lives through the loads of a type test: a question apart from its design.

IEC 61215 presses a panel for an hour on each face, three times. These are tests of a product, not loads of a
place: no map, no return period, no partial factors. Passing here proves nothing for a roof, and a pane
designed for a calm place may break here.

ASCE: the load against what 8 in 1000 panes break under, for an hour [E]. EN: the largest stress against the
characteristic strength, the annealed part cut for an hour, without partial factors [N].

[I] IEC 61215-2 MQT 16: least test load 2400 Pa, 5400 Pa for heavy snow; three cycles of an hour on each face
    (recalled; 5400 Pa seen on data sheets).
[E] ASTM E1300, see `e1300`. [N] EN 16612, see `en16612`.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.glass.interlayer import shear_modulus_pa
from panewright.glass.laminated import effective, shear_share
from panewright.glass.pane import Pane
from panewright.glass.plate.bending import Bent, Plate, bend
from panewright.glass.plate.field import SupportedBent, bend_supported
from panewright.glass.plate.holding import Pressing, Sides, Supported
from panewright.glass.plate.path import WIDEST
from panewright.glass.strength import e1300, en16612
from panewright.glass.strength.field_breakage import load_multiple
from panewright.glass.verdict.proof import Family, told

TEST_PA = (2400.0, 5400.0)  #: [I]
TEST_S = 3600.0
_LABORATORY_C = 25.0
_CURE = "Only if the panel has to pass this test: take thicker or tempered glass, or a smaller pane."


def survive(pane: Pane, family: Family, sides: Sides = "four sides") -> tuple[Check, ...]:
    """The pane under each test load; a `Check` without a limit where the rule book does not cover it."""
    one = _asce if family == "ASCE" else _en
    return tuple(one(pane, pressure, sides) for pressure in TEST_PA)


def _asce(pane: Pane, pressure_pa: float, sides: Sides) -> Check:
    """Load against the non-factored load times the type factor of an hour."""
    sheet, limit = pane.sheet, None
    plate = Plate(pane.long_mm, pane.short_mm, _thickness_mm(pane, family="ASCE"), e1300.GLASS)
    factor = e1300.type_factor(sheet.treatment, TEST_S)
    if sheet.material == "glass" and sheet.surface == "plain" and factor is not None:
        borne = _non_factored_pa(plate, pressure_pa, sides)
        limit = None if borne is None else factor * borne
    rule = f"pane in the type test of {pressure_pa:.0f} Pa for an hour"
    source = "test level of IEC 61215; ASTM E1300, 8 in 1000 break in an hour"
    return Check(rule, pressure_pa, limit, "Pa", source, _CURE, "glass")


def _non_factored_pa(plate: Plate, pressure_pa: float, sides: Sides) -> float | None:
    """What 8 in 1000 annealed panes break under in 3 s; None where the plate's theory ends."""
    if sides == "four sides":
        known = plate.aspect <= WIDEST and pressure_pa <= plate.known_pa
        sizes = plate.long_mm, plate.short_mm, plate.thickness_mm
        return e1300.non_factored_load_pa(*sizes) if known else None
    pressing = Pressing(pressure_pa)
    times, known = load_multiple(Supported(plate, sides), pressing, e1300.FAILURE, e1300.SHORT_S)
    return times * pressure_pa if known else None


def _en(pane: Pane, pressure_pa: float, sides: Sides) -> Check:
    """Largest stress against characteristic strength."""
    sheet = pane.sheet
    plate = Plate(pane.long_mm, pane.short_mm, _thickness_mm(pane, family="EN"), en16612.GLASS)
    bent: Bent | SupportedBent = bend(plate, pressure_pa)
    if sides != "four sides":
        bent = bend_supported(Supported(plate, sides), Pressing(pressure_pa))
    limit = None
    if sheet.material == "glass" and bent.known:
        limit = en16612.characteristic_mpa(sheet.treatment, TEST_S, sheet.surface)
    rule = f"pane in the type test of {pressure_pa:.0f} Pa for an hour"
    source = "test level of IEC 61215; EN 16612 characteristic strength, an hour, no partial factors"
    return Check(rule, told(bent.worst_mpa, bent.known), limit, "MPa", source, _CURE, "glass")


def _thickness_mm(pane: Pane, family: Family) -> float:
    """As proved; of laminated glass the effective one at the laboratory's heat for an hour. [mm]

    EN 16612 has no load of that kind, so there the plies act apart.
    """
    plies = pane.sheet.plies
    if plies is None:
        return pane.sheet.thickness_mm
    modulus = shear_modulus_pa(plies.interlayer, _LABORATORY_C, TEST_S) if family == "ASCE" else 0.0
    share = shear_share(plies, pane.short_mm, modulus)
    return effective(plies, share, plies.between_mm if family == "ASCE" else 0.0).stress_mm
