"""Seeded lots whose truth is known. They are invented; the meter's readings come from pvlib, not from us."""

from __future__ import annotations

import warnings
from dataclasses import dataclass, field

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel
from panewright.intake.cells import CellRows
from panewright.lots.standing.trust import Trust
from panewright.lots.standing.usual import Usual

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # of pvlib's own imports
    from pvlib.pvsystem import calcparams_desoto, i_from_v, singlediode

KIND = CellModel(Diode(9.5, 1.5e-9, 1.08 * 0.0256925704, 0.004, 40.0), 1.1, 0.0005, 24336.0)


@dataclass(frozen=True)
class Ask:
    """Which lot is drawn and how it is read."""

    read: str  #: of isc, voc, at, imp, pmp
    cells: int = 2000
    seed: int = 1
    readings: int = 1  #: of each cell
    light: tuple[float, float] = (900.0, 900.0)  #: drawn between these
    level: tuple[float, ...] = (0.0,) * 6  #: of the lot about its kind
    trust: Trust = field(default_factory=Trust)
    usual: Usual = field(default_factory=Usual)
    shunted: tuple[tuple[int, float], ...] = ()  #: cells whose shunt [ohm] is set


@dataclass(frozen=True)
class Drawn:
    rows: CellRows
    power_w: np.ndarray  #: the truth at STC
    stc: dict


def drawn(ask: Ask) -> Drawn:
    dice = np.random.default_rng(ask.seed)
    stc = _cells(dice.standard_normal((ask.cells, 6)) * ask.usual.spread + ask.level)
    for cell, ohm in ask.shunted:
        stc["shunt"][cell] = ohm
    who = np.repeat(np.arange(ask.cells), ask.readings)
    light, heat = dice.uniform(*ask.light, who.size), dice.uniform(20, 30, who.size)
    really = (
        light * (1 + ask.trust.light_share * dice.standard_normal(who.size)),
        heat + ask.trust.heat_k * dice.standard_normal(who.size),
    )
    figures = {"irradiance_w_m2": light, "cell_c": heat}
    figures |= _read({name: each[who] for name, each in stc.items()}, really, ask, dice)
    rows = CellRows(tuple(f"c{k}" for k in who), np.arange(who.size) + 2, figures, ("",) * who.size)
    top = singlediode(*(stc[name] for name in ("light", "saturation", "series", "shunt", "ideality")))
    return Drawn(rows, np.asarray(top["p_mp"]), stc)


def _cells(theta: np.ndarray) -> dict:
    """Cells about the kind, by the six figures as the handbook writes them."""
    mid = KIND.stc
    junction = mid.ideality_v * np.log(mid.light_a / mid.saturation_a)
    x = mid.ideality_v * np.exp(theta[:, 2])
    return {
        "light": mid.light_a * np.exp(theta[:, 0]),
        "saturation": mid.light_a * np.exp(-junction * (1 + theta[:, 1]) / x),
        "ideality": x,
        "series": mid.series_ohm * np.exp(theta[:, 3]),
        "shunt": mid.shunt_ohm * np.exp(theta[:, 4]),
    }


def _read(stc: dict, really: tuple, ask: Ask, dice: np.random.Generator) -> dict:
    law = calcparams_desoto(
        *really, KIND.isc_per_k * key_points(KIND.stc).isc_a, stc["ideality"], stc["light"],
        stc["saturation"], stc["shunt"], stc["series"], EgRef=KIND.gap_ev, dEgdT=0.0,
    )  # fmt: skip
    top, count = singlediode(*law), really[0].size

    def off(share: float) -> np.ndarray:
        return 1 + share * dice.standard_normal(count)

    amp, volt, flat = ask.trust.current_share, ask.trust.voltage_share, off(ask.trust.top_share)
    at_v = np.full(count, 0.5)
    every = {
        "isc": {"isc_a": top["i_sc"] * off(amp)},
        "voc": {"voc_v": top["v_oc"] * off(volt)},
        "at": {"at_v": at_v, "at_a": i_from_v(at_v * off(volt), *law) * off(amp)},
        "imp": {"imp_a": top["i_mp"] * flat * off(amp), "vmp_v": top["v_mp"] / flat * off(volt)},
        "pmp": {"pmp_w": top["p_mp"] * off(amp) * off(volt)},
    }
    return {name: np.asarray(x) for key in ask.read.split() for name, x in every[key].items()}
