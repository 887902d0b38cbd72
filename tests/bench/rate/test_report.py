"""Raw readings to a rating: clouds taken out, signs turned, clipped rows told."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from panewright.bench.rate import heat, light
from panewright.bench.rate.instrument import of_certificate, of_class
from panewright.bench.rate.report import Bench, Known, Swept, report
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.curve.moved.coefficients import from_nameplate
from panewright.errors import CurveError, PanewrightError

MODEL = CellModel(Diode(8.57, 3.5e-9, 1.036, 0.198, 740.0), 1.04, 0.0005, 1.0)
TRUE = key_points(MODEL.stc)
BY = Known(from_nameplate(TRUE.isc_a, TRUE.voc_v, 0.0005, -0.0034))
GOOD = {"calibrated": date(2026, 1, 1), "due": date(2027, 1, 1)}
METER = of_class("meter 1", "multimeter", 0.005, **GOOD)
CELL = of_certificate("cell 1", "reference cell", 0.02, **GOOD)
BENCH = Bench(
    light.by_cell(0.090 * 1.0075, 40.0, light.Sensor(CELL, 0.1)),
    heat.by_back(45.0, of_class("back 1", "thermometer", 0.0, within=1.0, **GOOD)),
    METER,
    METER,
    date(2026, 6, 20),
)


def readings(cloud=0.0, count=60):
    volts = np.linspace(0.0, 21.5, count)
    lights = 900 * (1 + cloud * np.sin(np.linspace(0, 5, count)))
    lights = 900 * lights / lights.mean()
    amps = [float(current_a(diode_at(MODEL, g, 47.7), v)) for v, g in zip(volts, lights, strict=True)]
    return volts, np.array(amps), lights


def test_a_sweep_in_steady_sun():
    volts, amps, _ = readings()
    made = report(Swept(volts, amps), BENCH, BY)
    assert made.rated.of("power_w").value == pytest.approx(TRUE.power_w, rel=4e-3)
    assert made.flags == ()
    assert made.said == ("Procedure 1: its coefficients are known and the light moves by a fifth at most.",)


def test_clouds_are_taken_out_where_the_light_stood_beside_and_are_flagged():
    volts, amps, lights = readings(cloud=0.06)
    blind = report(Swept(volts, amps), BENCH, BY)
    made = report(Swept(volts, amps, lights / 10), BENCH, BY)  # in millivolts of the sensor, say
    assert abs(blind.rated.of("power_w").value / TRUE.power_w - 1) > 0.02
    assert made.rated.of("power_w").value == pytest.approx(TRUE.power_w, rel=5e-3)
    assert [(flag.name, flag.grave) for flag in made.flags] == [("moving clouds", True)]
    assert made.said[0].startswith("The light moved by ")


def test_a_sweep_down_with_a_load_s_signs_is_the_same():
    volts, amps, lights = readings(cloud=0.02)
    up = report(Swept(volts, amps, lights), BENCH, BY)
    down = report(Swept(volts[::-1], -amps[::-1], lights[::-1]), BENCH, BY)
    assert down.rated.of("power_w").value == pytest.approx(up.rated.of("power_w").value, rel=1e-9)
    assert "The current counted as a load's; its sign was turned." in down.said


def test_a_sweep_past_the_meter_s_range_is_told_or_refused():
    volts, amps, _ = readings()
    with pytest.raises(CurveError, match="short circuit"):
        report(Swept(volts, np.minimum(amps, 7.0)), BENCH, BY)  # what is left begins at the knee
    volts = np.append(volts, [21.9, 22.3, 22.7, 23.1, 23.5])
    unsigned = np.append(np.maximum(amps, 0.0), [0.0] * 5)  # a meter that knows no negative current
    made = report(Swept(volts, unsigned), BENCH, BY)
    assert ("clipped", True) in [(flag.name, flag.grave) for flag in made.flags]
    assert made.rated.of("power_w").value == pytest.approx(TRUE.power_w, rel=6e-3)


def test_a_meter_s_range_that_ends_is_told_under_clouds_too():
    volts, amps, lights = readings(cloud=0.03)
    volts = np.append(volts, [21.9, 22.3, 22.7, 23.1, 23.5])
    unsigned = np.append(np.maximum(amps, 0.0), [0.0] * 5)
    made = report(Swept(volts, unsigned, np.append(lights, lights[55:])), BENCH, BY)
    assert ("clipped", True) in [(flag.name, flag.grave) for flag in made.flags]
    assert made.rated.of("power_w").value == pytest.approx(TRUE.power_w, rel=6e-3)


def test_light_that_does_not_pair_is_refused():
    volts, amps, lights = readings()
    with pytest.raises(CurveError, match="side by side"):
        report(Swept(volts, amps, lights[:-1]), BENCH, BY)


def test_a_day_past_calibration_is_flagged_once_for_each_instrument():
    volts, amps, _ = readings()
    late = report(Swept(volts, amps), replace(BENCH, day=date(2027, 2, 1)), BY)
    assert [flag.name for flag in late.flags] == ["instrument past its calibration"] * 3


WRECKS = {
    "noise alone": lambda v, i, chance: (v, 0 * i + chance.standard_normal(v.size)),
    "voltages at random": lambda v, i, chance: (10 * chance.standard_normal(v.size), i),
    "no current": lambda v, i, _chance: (v, 0 * i),
    "microvolts": lambda v, i, _chance: (1e-6 * v, i),
    "milliamperes": lambda v, i, _chance: (v, 1e3 * i),
    "gaps and wild points": lambda v, i, chance: (v, np.where(chance.random(v.size) < 0.3, 1e9, i)),
    "no numbers": lambda v, i, _chance: (v, i * np.nan),
    "far in reverse": lambda v, i, _chance: (v - 30, i),
    "one point": lambda v, i, _chance: (v[:1], i[:1]),
    "nothing": lambda v, i, _chance: (v[:0], i[:0]),
}


@pytest.mark.parametrize("wreck", WRECKS.values(), ids=WRECKS)
def test_a_wrecked_sweep_gives_figures_or_a_clear_refusal(wreck):
    volts, amps, _ = readings(count=24)
    made, problems = tried(Swept(*wreck(volts, amps, np.random.default_rng(2))))
    assert all(problem.reason and problem.cure for problem in problems)
    if made is not None:
        values = [figure.value for figure in made.rated.figures if figure.value is not None]
        assert np.all(np.isfinite(values))
        assert made.flags


def tried(swept):
    """The report, or the problems that it was refused with."""
    try:
        return report(swept, BENCH, BY), ()
    except PanewrightError as refused:
        return None, refused.problems
