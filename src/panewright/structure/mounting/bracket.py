"""A bracket under one rail bolt: its legs bend, and the toe presses back on the fastener.

Lifted, the leg on the support bends over the lever from the fastener to the other leg. The toe behind the
fastener presses on the support (prying), so the fastener is pulled by more than the lift:

    M = U a + S h,    T = U (1 + a / b) + S h / b,    b no more than 1.25 a

U lift, S push along the support (down the slope, and sideways off the rail), a lever, h height of the rail's
bolt, b fastener to toe. The full prying is taken, as if the rail held the leg from no turning at all; a rail
that does would halve it. Where S runs
along the rail it lies on the bracket's length instead of its leg; the shorter of both is taken. Statics; b
by the custom of AISC 360 part 9 (recalled).

Bending over the net section at the fastener, elastic; strengths of each family in `frame/metals/metal.py`.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals.metal import bending_limit_mpa, bending_source, shear_limit_mpa
from panewright.frame.support.bracket import Bracket
from panewright.structure.mounting.forces import BracketForces

HOLE_MM = 9.0  #: for an M8 or an 8 mm screw, while the fastener is not known


def pull_n(bracket: Bracket, up_n: float, along_n: float) -> float:
    """Pull on all fasteners of a bracket together, prying in it. [N]

    >>> round(pull_n(Bracket("b", 40, 4, 40, "6063-T6"), 100.0, 0.0), 1)
    211.1
    """
    back = min(bracket.toe_mm, 1.25 * bracket.lever_mm)
    side = min(bracket.toe_mm, bracket.length_mm / 2)
    return up_n * (1 + bracket.lever_mm / back) + along_n * bracket.height_mm / side


def moment_nmm(bracket: Bracket, up_n: float, along_n: float) -> float:
    """Bending of a leg. [N mm]"""
    return up_n * bracket.lever_mm + along_n * bracket.height_mm


def judge_bracket(
    bracket: Bracket, forces: BracketForces, family: Family, hole_mm: float = HOLE_MM
) -> tuple[Check, ...]:
    """Legs bent by lifting, by what slides down the slope and by the rail they hold; and sheared."""
    lifted = moment_nmm(bracket, forces.up_n, forces.pushed_up_n)
    pushed = moment_nmm(bracket, 0.0, max(forces.pushed_down_n, forces.pushed_snow_n))
    return (
        _bending("lifted", bracket, lifted, family, hole_mm),
        _bending("pushed along the support", bracket, pushed, family, hole_mm),
        _shear(bracket, forces, family, hole_mm),
    )


def _bending(way: str, bracket: Bracket, moment_n_mm: float, family: Family, hole_mm: float) -> Check:
    modulus = bracket.modulus_mm3(hole_mm)
    return Check(
        f"bracket leg bending, {way}",
        moment_n_mm / modulus if modulus else float("inf"),
        bending_limit_mpa(bracket.metal, family, bracket.wall_mm),
        "MPa",
        bending_source(bracket.metal, family),
        "Take a thicker bracket, or more brackets.",
        "structure",
    )


def _shear(bracket: Bracket, forces: BracketForces, family: Family, hole_mm: float) -> Check:
    area = (bracket.length_mm - hole_mm) * bracket.wall_mm
    worst = max(forces.up_n, forces.pushed_up_n, forces.pushed_down_n, forces.pushed_snow_n)
    return Check(
        "bracket leg shear",
        1.5 * worst / area if area > 0 else float("inf"),
        shear_limit_mpa(bracket.metal, family, bracket.wall_mm),
        "MPa",
        "rectangle, 1.5 V / A; " + bending_source(bracket.metal, family),
        "Take a thicker bracket, or more brackets.",
        "structure",
    )


def choose_bracket(brackets: tuple[Bracket, ...], forces: BracketForces, family: Family) -> Bracket:
    """The thinnest that holds; the thickest where none does."""
    ordered = sorted(brackets, key=lambda bracket: bracket.wall_mm)
    holding = (each for each in ordered if all(check.passed for check in judge_bracket(each, forces, family)))
    return next(holding, ordered[-1])
