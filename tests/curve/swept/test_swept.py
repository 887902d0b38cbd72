"""What is made of raw sweeps, against a panel whose curve is known. Nothing here was measured."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.curve.moved.steady import in_mean_light
from panewright.curve.swept.quality import Quality
from panewright.curve.swept.raw import RawSweep
from panewright.curve.swept.runs import part
from panewright.curve.swept.swept import Around, Swept, sweep_together
from panewright.errors import CurveError

CELLS = 36
DIODE = Diode(light_a=4.62, saturation_a=4e-9, ideality_v=0.0277, series_ohm=0.006, shunt_ohm=25.0)
TRUE = key_points(DIODE)
POWER_W, VOC_V = CELLS * TRUE.power_w, CELLS * TRUE.voc_v
AROUND = Around(812.0, 41.0)


def _in(light_w_m2, **told):
    """A sweep in its own light, which stands beside each point."""
    made = sweep(**told)
    amps = amperes(made.voltage_v, light_w_m2 / 812)
    return RawSweep(made.voltage_v, amps, irradiance_w_m2=np.full(made.voltage_v.size, float(light_w_m2)))


def test_of_runs_in_other_light_that_are_as_good_the_brightest_goes_on():
    swept = sweep_together([_in(700), _in(812), _in(760)], Around(None, 41.0))
    assert swept.curve.curve.irradiance_w_m2 == 812
    few = sweep_together([_in(700), _in(812, points=25)], Around(None, 41.0))
    assert few.curve.curve.irradiance_w_m2 == 700


def amperes(volts, share=1.0):
    return current_a(DIODE, np.asarray(volts) / CELLS) + DIODE.light_a * (np.asarray(share) - 1)


def sweep(points=80, low=-0.1, high=21.2, seed=1, noise_a=0.002, **told) -> RawSweep:
    chance = np.random.default_rng(seed)
    volts = np.linspace(low, high, points)
    return RawSweep(volts, amperes(volts) + noise_a * chance.normal(size=points), **told)


def fact(swept: Swept, name: str) -> Quality:
    (found,) = [each for each in swept.quality if each.name.startswith(name)]
    return found


@settings(max_examples=40, deadline=None)
@given(st.booleans(), st.booleans(), st.booleans(), st.integers(0, 2**32 - 1))
def test_the_way_of_writing_does_not_matter(down, load, swapped, seed):
    raw = sweep(seed=seed)
    raw = raw.at(slice(None, None, -1)) if down else raw
    raw = raw.turned(-1.0 if swapped else 1.0, -1.0 if load else 1.0)
    found = sweep_together([raw], AROUND)
    power = found.points.power_w
    assert power is not None
    assert abs(power.value - POWER_W) < 4 * power.sigma + 0.05
    assert (found.how, found.runs[0].rising) == ("one run", not down if not swapped else found.runs[0].rising)
    assert found.held


def test_up_and_down_in_one_light_are_joined():
    up, down = sweep(seed=1), sweep(seed=2).at(slice(None, None, -1))
    both = RawSweep(
        *(
            np.concatenate(each)
            for each in zip((up.voltage_v, up.current_a), (down.voltage_v, down.current_a), strict=True)
        )
    )
    found = sweep_together([both], AROUND)
    assert [each.rising for each in found.runs] == [True, False]
    assert found.how == "joined"
    assert found.hysteresis is not None
    assert abs(found.hysteresis.power_share) < 0.002
    assert found.held


def charged(farad: float, volts_per_s: float) -> RawSweep:
    """Up and down at one speed, the charge of the cells missing on the way up."""
    volts = np.concatenate([np.linspace(-0.1, 21.2, 90), np.linspace(21.2, -0.1, 90)[1:]])
    speed = np.where(np.arange(179) < 90, volts_per_s, -volts_per_s)
    time = np.abs(np.concatenate([[0.0], np.cumsum(np.abs(np.diff(volts)))])) / volts_per_s
    return RawSweep(volts, amperes(volts) - farad * speed * np.exp((volts - 17) / 4), time_s=time)


def test_the_charge_of_the_cells_is_told_with_its_size_and_the_middle_is_the_slow_curve():
    found = sweep_together([charged(20e-6, 5000.0)], AROUND)
    assert found.hysteresis is not None
    assert not found.hysteresis.of_light
    assert found.hysteresis.power_share > 0.01
    knee_v = np.linspace(0.85, 1.02, 50) * CELLS * TRUE.vmp_v
    true_f = 20e-6 * np.exp((knee_v - 17) / 4).mean()
    assert found.hysteresis.capacitance_f == pytest.approx(true_f, rel=0.05)
    assert found.how == "middle"
    assert found.points.power_w is not None
    assert found.points.power_w.value == pytest.approx(POWER_W, rel=0.002)
    up, down = (each.points.power_w for each in found.runs)
    assert up is not None
    assert down is not None
    assert up.value < POWER_W * 0.99 < POWER_W * 1.01 < down.value
    assert not fact(found, "power up against down").held


def test_a_slow_sweep_shows_no_charge():
    found = sweep_together([charged(20e-6, 50.0)], AROUND)
    assert found.how == "joined"
    assert found.held


def test_light_that_moved_between_up_and_down_is_told_as_light():
    up, down = sweep(), sweep(seed=2).at(slice(None, None, -1))
    dim = RawSweep(down.voltage_v, amperes(down.voltage_v, 0.95))
    found = sweep_together([up, dim], AROUND)
    assert found.hysteresis is not None
    assert found.hysteresis.of_light
    assert found.how == "one run"
    assert len([line for line in found.said if "stands in other light" in line]) == 1


def test_a_cloud_within_a_sweep_is_told_and_evened_out_where_the_light_was_read():
    volts = np.linspace(-0.1, 21.2, 80)
    light = np.where((np.arange(80) > 30) & (np.arange(80) < 52), 0.9, 1.0)
    raw = RawSweep(volts, amperes(volts, light), irradiance_w_m2=812 * light)
    found = sweep_together([raw], AROUND)
    swing = fact(found, "swing of the light within the sweep")
    assert swing.figure == pytest.approx(0.1 / light.mean(), rel=1e-6)
    assert not swing.held
    mean = float(light.mean())
    slow = volts * amperes(volts, mean)
    assert found.points.power_w is not None
    assert found.points.power_w.value == pytest.approx(slow.max(), rel=1e-3)
    lit = in_mean_light(raw.voltage_v, raw.current_a, raw.irradiance_w_m2)  # as where a panel is rated
    assert tuple(found.runs[0].run.points.current_a) == lit.current_a
    assert lit.current_a == pytest.approx(tuple(amperes(volts, mean)), abs=2e-4 * TRUE.isc_a)
    assert lit.said[0] in found.curve.said
    blind = sweep_together([RawSweep(volts, amperes(volts, light))], AROUND)
    assert not fact(blind, "rise of the current").held
    assert "the light moved" in str(fact(blind, "rise of the current"))


def test_a_cloud_of_a_fifth_at_the_knee_leaves_the_power_as_it_is_in_the_mean_light():
    """Each reading is moved from its own light; from the mean light's Isc it was 2.8 % too high."""
    volts = np.linspace(-0.1, 21.2, 80)
    light = np.where((np.arange(80) > 45) & (np.arange(80) < 70), 0.8, 1.0)
    found = sweep_together([RawSweep(volts, amperes(volts, light), irradiance_w_m2=812 * light)], AROUND)
    still = sweep_together([RawSweep(volts, amperes(volts, light.mean()))], AROUND)
    assert found.points.power_w is not None
    assert still.points.power_w is not None
    assert found.points.power_w.value == pytest.approx(still.points.power_w.value, rel=2e-4)


@pytest.mark.parametrize(
    ("low", "high", "name"), [(-0.1, 20.3, "current left"), (4.0, 21.2, "lowest voltage")]
)
def test_a_sweep_that_ends_short_says_how_far(low, high, name):
    found = sweep_together([sweep(low=low, high=high)], AROUND)
    short = fact(found, name)
    assert not short.held
    if low > 0:
        assert short.figure == pytest.approx(4.0 / VOC_V, rel=0.01)
        assert "ended 4 V before short circuit" in short.cause
    else:
        assert short.figure == pytest.approx(float(amperes(20.3)) / TRUE.isc_a, rel=0.02)
        assert "Voc lies some 0." in short.cause


def test_a_meter_that_ended_is_told_with_its_points():
    raw = sweep(noise_a=0.0)
    found = sweep_together([RawSweep(raw.voltage_v, np.round(np.minimum(raw.current_a, 4.0), 3))], AROUND)
    ended = fact(found, "points at the end")
    assert ended.figure == np.sum(np.round(raw.current_a, 3) >= 4.0)
    assert not ended.held


def test_few_points_wide_gaps_and_scatter_are_told():
    few = sweep_together([sweep(points=12)], AROUND)
    assert [each.figure for each in few.quality if each.name == "points"] == [12]
    assert not fact(few, "widest gap").held
    loud = sweep_together([sweep(noise_a=0.05)], AROUND)
    assert fact(loud, "scatter").figure == pytest.approx(0.05 / TRUE.isc_a, rel=0.4)
    assert not fact(loud, "scatter").held


def test_readings_before_and_after_become_drift():
    raw = sweep(before={"isc_a": 4.60, "cell_c": 40.0}, after={"isc_a": 4.50, "cell_c": 45.0}, name="first")
    found = sweep_together([raw], AROUND)
    isc, heat = found.drifts
    assert (isc.change, isc.share) == (pytest.approx(-0.1), pytest.approx(-0.1 / 4.55))
    assert heat.change == 5.0
    assert [each.held for each in found.quality if each.name.startswith("drift")] == [False, False]
    assert str(isc) == "Isc went from 4.6 to 4.5 A (-2.2%), read before and after"


def test_the_rests_of_a_log_count_once_and_tell_the_drift_of_voc():
    volts = np.concatenate([np.full(20, 21.0), np.linspace(20.7, 0.1, 50), np.full(30, 20.8)])
    current = np.concatenate([np.zeros(20), amperes(np.linspace(20.7, 0.1, 50)), np.zeros(30)])
    parted = part(RawSweep(volts, current, time_s=np.arange(100.0)))
    assert [(each.at, each.readings, round(each.value, 6)) for each in parted.rests] == [
        ("open", 20, 21.0),
        ("open", 30, 20.8),
    ]
    (run,) = parted.runs
    assert len(run.points) in (51, 52)
    found = sweep_together([RawSweep(volts, current, time_s=np.arange(100.0))], AROUND)
    (drift,) = found.drifts
    assert (drift.quantity, round(drift.change, 6), drift.seconds) == ("voc_v", -0.2, 75.0)


def test_rows_with_nothing_connected_are_left_out_and_told():
    raw = sweep()
    empty = RawSweep(*(np.concatenate([np.zeros(9), each]) for each in (raw.voltage_v, raw.current_a)))
    found = sweep_together([empty], AROUND)
    assert "nothing was connected" in found.said[0]
    assert len(found.curve.curve.volts) == 80


def test_noise_before_the_sweep_sets_out_is_no_run_of_its_own():
    one = sweep().at(slice(None, None, -1))
    early = [21.190, 21.193, 21.195, 21.198, 21.199]
    both = RawSweep(
        *(np.concatenate(each) for each in ((early, one.voltage_v), (amperes(early), one.current_a)))
    )
    found = sweep_together([both], AROUND)
    assert [(each.rising, len(each.run.points)) for each in found.runs] == [(False, 85)]


def test_very_many_points_are_means_of_neighbours_that_keep_their_scatter():
    found = sweep_together([sweep(points=40_000, noise_a=0.01)], AROUND)
    curve = found.curve.curve
    assert len(curve.volts) < 1000
    assert curve.counts.sum() == 40_000
    assert curve.accuracy.current_a == pytest.approx(0.01, rel=0.05)
    assert [each.figure for each in found.quality if each.name == "points"] == [40_000]
    power = found.points.power_w
    assert power is not None
    assert power.value == pytest.approx(POWER_W, abs=4 * power.sigma)


def test_two_rounds_down_with_a_leap_between_are_two_runs():
    one = sweep(seed=1).at(slice(None, None, -1))
    both = RawSweep(np.tile(one.voltage_v, 2), np.tile(one.current_a, 2))
    found = sweep_together([both], AROUND)
    assert [(each.rising, len(each.run.points)) for each in found.runs] == [(False, 80), (False, 80)]
    assert found.how == "joined"


def test_a_sweep_that_ends_far_short_does_not_guess():
    found = sweep_together([sweep(high=18.0)], AROUND)
    assert "Voc lies too far off to be told." in fact(found, "current left").cause
    assert found.points.voc_v is None


@pytest.mark.parametrize("points", [0, 1, 3])
def test_too_few_points_are_one_clear_error(points):
    with pytest.raises(CurveError, match="No run of the points is a curve"):
        sweep_together([sweep(points=80).at(slice(0, points))], AROUND)
