"""The band of every cell's power holds the truth as often as it says; more readings, narrower."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from known_lots import KIND, Ask, drawn

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.model import diode_at
from panewright.curve.few import cell_from_readings
from panewright.curve.readings import Loaded, Readings
from panewright.intake.cells import CellRows
from panewright.lots.standing.estimate import Asked, estimate
from panewright.lots.standing.figures import Kin, cells_of
from panewright.lots.standing.moment import diodes_at
from panewright.lots.standing.seen import predicted
from panewright.lots.standing.table import table_of
from panewright.lots.standing.trust import Moment, Trust
from panewright.lots.standing.usual import Usual

KNOWN = Asked(usual=Usual(level=(1e-6,) * 6))  # the lot's middle is the kind's
MIXES = {
    "isc and voc": Ask("isc voc", 3000),
    "current at a fixed voltage": Ask("at", 3000),
    "isc, voc, imp, vmp": Ask("isc voc imp", 3000),
    "power alone": Ask("pmp", 3000),
    "three readings in light of 300 to 1000": Ask("isc voc at", 2500, readings=3, light=(300.0, 1000.0)),
}


def held(standing, truth):
    return float(np.mean((standing.power_low_w <= truth) & (truth <= standing.power_high_w)))


@pytest.mark.parametrize("mix", MIXES)
def test_the_band_holds_the_truth_of_95_cells_in_a_hundred(mix):
    lot = drawn(MIXES[mix])
    standing = estimate(lot.rows, KIND, KNOWN)
    assert 0.93 <= held(standing, lot.power_w) <= 0.97
    off = (standing.power_w - lot.power_w) / standing.power_sd_w
    assert 0.9 <= float(np.sqrt(np.mean(off**2))) <= 1.1


def test_a_lot_whose_middle_is_not_the_kinds_is_known_by_its_own_cells():
    lot = drawn(Ask("isc voc imp", 3000, seed=3, level=(-0.04, -0.012, 0.05, 0.3, -0.4, 0.0)))
    standing = estimate(lot.rows, KIND)
    assert 0.93 <= held(standing, lot.power_w) <= 0.97
    assert standing.power_w.mean() == pytest.approx(lot.power_w.mean(), rel=0.002)


def test_each_reading_more_makes_the_band_narrower():
    few, more, most = (
        estimate(drawn(ask).rows, KIND, KNOWN).power_sd_w.mean()
        for ask in (Ask("isc voc", 300), Ask("isc voc imp", 300), Ask("isc voc imp", 300, readings=4))
    )
    assert most < more < few


def test_a_cell_of_which_nothing_was_read_stands_where_its_lot_stands():
    lot = drawn(Ask("isc voc imp", 200))
    blank = {name: np.append(figure, np.nan) for name, figure in lot.rows.figures.items()}
    rows = CellRows((*lot.rows.marks, "lost"), np.arange(201), blank, ("",) * 201)
    standing = estimate(rows, KIND, KNOWN)
    assert standing.readings[-1] == 0
    assert standing.power_w[-1] == pytest.approx(np.median(standing.power_w[:-1]), rel=0.01)
    assert standing.power_sd_w[-1] > 2 * standing.power_sd_w[:-1].max()


def test_exact_readings_of_one_cell_give_what_a_few_readings_give():
    condition = (850.0, 31.0)
    truth = replace(KIND, stc=Diode(9.3, 1.2e-9, KIND.stc.ideality_v, 0.0052, KIND.stc.shunt_ohm))
    lit = diode_at(truth, *condition)
    isc, voc, load = current_a(lit, 0.0), voltage_v(lit, 0.0), current_a(lit, 0.5)
    one = cell_from_readings(Readings(isc, voc, *condition, Loaded(0.5, load)), KIND)
    figures = {"isc_a": isc, "voc_v": voc, "at_v": 0.5, "at_a": load}
    figures |= {"irradiance_w_m2": condition[0], "cell_c": condition[1]}
    rows = CellRows(("a",), np.array([2]), {k: np.array([v]) for k, v in figures.items()}, ("",))
    sharp = Trust(current_share=1e-5, voltage_share=1e-5, light_share=0.0, heat_k=0.0, top_share=0.0)
    stiff = Usual(spread=(0.05, 0.02, 1e-4, 0.4, 1e-3, 1e-3), level=(1e-6,) * 6)
    got = estimate(rows, KIND, Asked(sharp, usual=stiff)).cells
    for name in ("light_a", "saturation_a", "series_ohm"):
        assert getattr(got, name)[0] == pytest.approx(getattr(one.model.stc, name), rel=5e-3)


def test_cells_side_by_side_are_what_each_is_alone():
    theta = np.random.default_rng(4).normal(0, 0.02, (5, 6))
    kin, light, heat = Kin.of(KIND), np.linspace(200, 1100, 5), np.linspace(-5, 70, 5)
    cells = cells_of(theta, kin)
    many = diodes_at(KIND, cells, light, heat)
    for k in range(5):
        alone = Diode(*(float(getattr(cells, name)[k]) for name in type(cells).__slots__))
        wanted = diode_at(replace(KIND, stc=alone), light[k], heat[k])
        for name in ("light_a", "saturation_a", "ideality_v", "series_ohm", "shunt_ohm"):
            assert getattr(many, name)[k] == pytest.approx(getattr(wanted, name), rel=1e-12)


def test_slopes_are_those_of_small_steps():
    lot = drawn(Ask("isc voc at imp", 4))
    extra = {"shunt_ohm": np.full(4, 20.0), "reverse_v": np.full(4, 8.0), "reverse_a": np.full(4, 0.5)}
    rows = replace(lot.rows, figures={**lot.rows.figures, **extra})
    breaking = replace(KIND, stc=replace(KIND.stc, breakdown_siemens=0.0025, breakdown_v=-15.0))
    kin, trust = Kin.of(breaking), Trust()
    table, _ = table_of(rows, breaking, trust, Moment())
    theta = np.random.default_rng(5).standard_normal((4, 6)) * np.array(Usual().spread)
    sheet = predicted(theta, table, kin, trust)
    for k in range(5):
        step = 1e-5 * np.eye(6)[k]
        up, down = (predicted(theta + sign * step, table, kin, trust).off for sign in (1, -1))
        assert sheet.slopes[:, :, k] == pytest.approx((down - up) / 2e-5, rel=3e-3, abs=0.05)


def test_rows_without_light_are_told():
    lot = drawn(Ask("isc voc", 50))
    bare = replace(lot.rows, figures={k: v for k, v in lot.rows.figures.items() if "w_m2" not in k})
    told = estimate(bare, KIND)
    assert any("Nobody knows in which light" in words for words in told.said)
    assert np.median(told.isc_a) == pytest.approx(KIND.stc.light_a, rel=0.01)
    lit = estimate(bare, KIND, Asked(moment=Moment(irradiance_w_m2=900.0)))
    assert not any("in which light" in words for words in lit.said)
    assert (
        told.common_share > 0.05 > lit.common_share
    )  # lots of a kind lie 5 % apart (common practice, no source)
