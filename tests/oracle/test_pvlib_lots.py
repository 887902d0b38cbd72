"""Many cells at once beside pvlib: what a meter would read off each, in its own light and heat."""

import numpy as np
import pytest
from pvlib import pvsystem

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel
from panewright.lots.standing import points
from panewright.lots.standing.figures import Kin, cells_of
from panewright.lots.standing.moment import diodes_at

KIND = CellModel(Diode(9.5, 1.5e-9, 0.02775, 0.004, 40.0), 1.1, 0.0, 24336.0)


def test_readings_of_two_hundred_cells_equal_the_lambert_w_solution():
    dice = np.random.default_rng(8)
    stc = cells_of(dice.standard_normal((200, 6)) * [0.05, 0.02, 0.08, 0.5, 1.5, 0.0], Kin.of(KIND))
    light, heat = dice.uniform(100, 1100, 200), dice.uniform(-5, 75, 200)
    law = pvsystem.calcparams_desoto(
        light, heat, 0.0, stc.ideality_v, stc.light_a, stc.saturation_a, stc.shunt_ohm, stc.series_ohm,
        EgRef=KIND.gap_ev, dEgdT=0.0,
    )  # fmt: skip
    theirs, lit = pvsystem.singlediode(*law), diodes_at(KIND, stc, light, heat)
    imp, vmp = points.at_peak(lit)
    at_half, _ = points.at_voltage(lit, np.full(200, 0.45))
    assert points.at_voltage(lit, np.zeros(200))[0].value == pytest.approx(theirs["i_sc"], rel=1e-6)
    assert points.at_open(lit).value == pytest.approx(theirs["v_oc"], rel=1e-6)
    assert imp.value * vmp.value == pytest.approx(theirs["p_mp"], rel=1e-6)
    assert imp.value == pytest.approx(theirs["i_mp"], rel=1e-4)  # the top is flat: their search is as near
    assert at_half.value == pytest.approx(pvsystem.i_from_v(0.45, *law), rel=1e-5, abs=1e-4)


def test_one_of_many_is_the_one_alone():
    kin = Kin.of(KIND)
    assert points.peak(cells_of(np.zeros((3, 6)), kin)).power_w == pytest.approx(key_points(KIND.stc).power_w)
