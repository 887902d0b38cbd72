"""Laws of the loss among unequal cells."""

from dataclasses import replace
from math import exp, log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.key_points import key_points
from panewright.circuit.mismatch.drawn import simulated_loss
from panewright.circuit.mismatch.formula import bucciarelli_c, expected_loss, ideal_fill_factor
from panewright.circuit.mismatch.own_power import own_power_w, slopes_of
from panewright.circuit.mismatch.spread import Spread, drawn, lot_by_ends, lot_by_work
from panewright.circuit.network import Network, String, Substring

CELL = Diode(8.55, 2.3e-9, 1.1 * 0.0256925704004, 0.0042, 60.0)
N = CELL.ideality_v
cells = st.builds(
    Diode,
    light_a=st.floats(0.5, 12.0),
    saturation_a=st.floats(1e-12, 1e-7),
    ideality_v=st.floats(0.024, 0.045),
    series_ohm=st.one_of(st.just(0.0), st.floats(1e-4, 0.01)),
    shunt_ohm=st.one_of(st.just(float("inf")), st.floats(3.0, 1e3)),
)
NO_KIN = Spread().correlation


def kin(light_voltage: float) -> tuple[tuple[float, ...], ...]:
    return ((1.0, light_voltage, 0.0, 0.0), (light_voltage, 1.0, 0.0, 0.0), *NO_KIN[2:])


def panel(cell: Diode, series: int, parallel: int, joint: float = 0.0) -> Network:
    return Network((String((Substring((cell,) * series, (joint,) * series),)),) * parallel)


@given(cells)
def test_slopes_are_those_of_the_curve(cell):
    voc, step, said = key_points(cell).voc_v, 1e-4, slopes_of(cell)
    changed = (
        lambda by: replace(cell, light_a=cell.light_a * exp(by)),
        lambda by: replace(cell, saturation_a=cell.saturation_a * exp(-by * voc / cell.ideality_v)),
        lambda by: replace(cell, series_ohm=cell.series_ohm * exp(by)),
        lambda by: replace(cell, shunt_ohm=cell.shunt_ohm * exp(by)),
    )
    for name in ("isc", "voc", "imp", "vmp"):
        point = f"{name}_a" if name[0] == "i" else f"{name}_v"
        for place, change in enumerate(changed):
            up, down = (log(getattr(key_points(change(by)), point)) for by in (step, -step))
            assert getattr(said, name)[place] == pytest.approx((up - down) / (2 * step), rel=1e-3, abs=1e-5)


@given(cells)
def test_sharpness_is_how_fast_power_falls_off_the_maximum(cell):
    said, points = slopes_of(cell), key_points(cell)
    off = 1e-3
    by_current = sum(points.imp_a * x * voltage_v(cell, points.imp_a * x) for x in (1 - off, 1 + off)) / 2
    by_voltage = sum(points.vmp_v * x * current_a(cell, points.vmp_v * x) for x in (1 - off, 1 + off)) / 2
    for power in (by_current, by_voltage):
        assert 2 * (1 - power / points.power_w) / off**2 == pytest.approx(said.sharpness, rel=0.02)


@given(st.floats(1.0, 40.0))
def test_without_resistances_sharpness_is_bucciarellis_c_and_two(sharp):
    # Vmp is C nVth by definition; the recalled fill factor leaves the dark current beside the light's out
    voc = (sharp + log(1 + sharp)) * N
    cell = Diode(8.0, 8.0 / np.expm1(voc / N), N, 0.0, float("inf"))
    points = key_points(cell)
    assert slopes_of(cell).sharpness == pytest.approx(points.vmp_v / N + 2, rel=1e-9)
    if sharp > 10:
        assert points.fill_factor == pytest.approx(ideal_fill_factor(sharp), rel=1e-4)


@given(st.floats(0.3, 60.0))
def test_c_is_found_back_from_its_fill_factor(sharp):
    assert bucciarelli_c(ideal_fill_factor(sharp)) == pytest.approx(sharp, rel=1e-9)


@given(st.lists(cells, min_size=1, max_size=6))
def test_own_powers_are_those_of_single_cells(lot):
    alone = [key_points(cell).power_w for cell in lot]
    assert own_power_w(Diodes.of(lot)) == pytest.approx(alone, rel=1e-12)


def test_a_dark_cell_gives_no_power():
    assert own_power_w(Diodes.of((replace(CELL, light_a=0.0),)))[0] == 0.0


@given(cells, st.integers(1, 60), st.integers(1, 6), st.floats(0, 0.01), st.floats(0, 0.01))
@settings(max_examples=30)
def test_no_spread_loses_nothing_and_twice_the_spread_four_times(cell, series, parallel, light, voltage):
    once = expected_loss(cell, series, parallel, Spread(light, voltage))
    twice = expected_loss(cell, series, parallel, Spread(2 * light, 2 * voltage))
    assert expected_loss(cell, series, parallel, Spread()).share == 0.0
    assert twice.share == pytest.approx(4 * once.share, rel=1e-9)
    assert once.share >= 0


def test_one_cell_loses_nothing_however_wide_its_lot():
    assert expected_loss(CELL, 1, 1, Spread(0.1, 0.1, 0.5, 0.5)).share == 0.0


@pytest.mark.parametrize(
    ("series", "parallel", "spread"),
    [
        (12, 1, Spread(light=0.006, voltage=0.01, correlation=kin(0.6))),
        (12, 1, Spread(light=0.006, voltage=0.03, correlation=kin(-0.9))),
        (20, 1, Spread(series=0.5)),
        (20, 1, Spread(light=0.004, shunt=0.3, series=0.3)),
    ],
)
def test_closed_form_meets_simulation(series, parallel, spread):
    said = expected_loss(CELL, series, parallel, spread)
    seen = simulated_loss(panel(CELL, series, parallel), spread, trials=1500, seed=3)
    assert said.checks[0].passed
    assert abs(said.share - seen.by_spread) < 4 * seen.standard_error + 0.03 * said.share


@pytest.mark.parametrize(
    ("series", "parallel", "spread"), [(1, 6, Spread(voltage=0.01)), (6, 3, Spread(0.006, 0.02))]
)
def test_closed_form_meets_simulation_side_by_side(series, parallel, spread):
    said = expected_loss(CELL, series, parallel, spread)
    seen = simulated_loss(panel(CELL, series, parallel), spread, trials=600, seed=4)
    assert abs(said.share - seen.by_spread) < 4 * seen.standard_error + 0.03 * said.share


def test_joints_are_no_mismatch():
    lost = simulated_loss(panel(CELL, 8, 1, joint=0.002), Spread(), trials=1, seed=0)
    assert lost.even == pytest.approx(0.0, abs=1e-9)
    assert lost.mean == pytest.approx(lost.even)


def test_mismatch_of_the_panel_as_designed_is_told_apart():
    weak = replace(CELL, light_a=8.3)
    parts = Substring((CELL,) * 7 + (weak,), (0.0,) * 8)
    lost = simulated_loss(Network((String((parts,)),)), Spread(light=0.002), trials=300, seed=5)
    assert lost.even > 0.0005
    assert 0 < lost.by_spread < lost.even


def test_the_same_seed_draws_the_same_panels_and_another_draws_others():
    one, same, other = (
        simulated_loss(panel(CELL, 4, 1), Spread(light=0.01), trials=50, seed=seed) for seed in (1, 1, 2)
    )
    assert np.array_equal(one.shares, same.shares)
    assert not np.array_equal(one.shares, other.shares)


def test_quantiles_rise_and_the_median_panel_loses_less_than_the_mean():
    lost = simulated_loss(panel(CELL, 8, 1), Spread(light=0.01), trials=800, seed=6)
    assert lost.quantile(0.05) < lost.quantile(0.5) < lost.mean < lost.quantile(0.95)


def test_a_lot_drawn_has_the_spread_told():
    spread = Spread(0.02, 0.01, 0.3, 0.4, kin(0.5))
    lot = drawn(Diodes.of((CELL,) * 10), spread, 4000, np.random.default_rng(8))
    light, shift = lot.light_a / CELL.light_a - 1, -np.log(lot.saturation_a / CELL.saturation_a) * N
    shift /= key_points(CELL).voc_v
    for figure, share in (
        (light, 0.02),
        (shift, 0.01),
        (lot.series_ohm / 0.0042, 0.3),
        (lot.shunt_ohm / 60, 0.4),
    ):
        assert figure.std() == pytest.approx(share, rel=0.03)
    assert lot.series_ohm.mean() == pytest.approx(0.0042, rel=0.01)
    assert np.corrcoef(light.ravel(), shift.ravel())[0, 1] == pytest.approx(0.5, abs=0.02)


@pytest.mark.parametrize(("isc", "voc", "both"), [(0.01, 0.004, 0.0), (0.02, 0.01, 0.7), (0.005, 0.01, -0.5)])
def test_a_lot_by_its_ends_has_them(isc, voc, both):
    lot = drawn(Diodes.of((CELL,) * 400), lot_by_ends(CELL, isc, voc, both), 1, np.random.default_rng(9))
    points = [
        key_points(Diode(*figures))
        for figures in zip(*(getattr(lot, n)[0] for n in lot.__slots__), strict=True)
    ]
    short, open_ = np.array([p.isc_a for p in points]), np.array([p.voc_v for p in points])
    assert short.std() / short.mean() == pytest.approx(isc, rel=0.12)
    assert open_.std() / open_.mean() == pytest.approx(voc, rel=0.12)
    assert np.corrcoef(short, open_)[0, 1] == pytest.approx(both, abs=0.15)


@given(st.floats(0.001, 0.02), st.floats(0.001, 0.02), st.floats(-0.95, 0.95))
@settings(max_examples=30)
def test_a_lot_by_its_work_loses_by_just_that(imp, vmp, both):
    said = expected_loss(CELL, 36, 2, lot_by_work(CELL, imp, vmp, both))
    assert (said.imp, said.vmp) == pytest.approx((imp, vmp), rel=1e-9)
    wanted = said.sharpness / 2 * ((1 - 1 / 36) * imp**2 + vmp**2 / 72)
    assert said.share == pytest.approx(wanted, rel=1e-9)


def test_a_wide_lot_is_beyond_the_formula():
    (check,) = expected_loss(CELL, 72, 1, Spread(light=0.05)).checks
    assert not check.passed
    assert "sort the lot" in check.cure


def test_cells_without_any_shunt_are_held_by_the_dimmest():
    hard = replace(CELL, shunt_ohm=float("inf"))
    assert expected_loss(hard, 72, 1, Spread(light=0.05)).beyond > 1.5


@pytest.mark.parametrize(
    "wrong",
    [{"light": -0.1}, {"correlation": kin(1.2)}, {"correlation": ((1.0,),)}, {"series": float("inf")}],
)
def test_nonsense_is_refused_at_birth(wrong):
    with pytest.raises(ValueError, match=r"standard deviation|correlation"):
        Spread(**wrong)
