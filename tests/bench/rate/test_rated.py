"""A panel rated from its sweep: the truth is found, and the budget is as wide as it should be."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from panewright.bench.rate import heat, light
from panewright.bench.rate.instrument import of_certificate, of_class
from panewright.bench.rate.light import Sensor
from panewright.bench.rate.rated import Taken, _law, rate
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.moved.choice import Given
from panewright.curve.moved.coefficients import Coefficient, from_nameplate
from panewright.curve.moved.corrections import OneDiode
from panewright.errors import BenchError

MODEL = CellModel(Diode(8.57, 3.5e-9, 1.036, 0.198, 740.0), 1.04, 0.0005, 1.0)
TRUE = key_points(MODEL.stc)
PLATE = from_nameplate(TRUE.isc_a, TRUE.voc_v, 0.0005, -0.0034)
BY = replace(PLATE, beta_per_k=Coefficient(-0.0034, 0.0001, "measured curves"))
VOLTS = of_class("meter 1", "multimeter", 0.005)
AMPS = of_class("meter 2", "multimeter", 0.01)
CELL = of_certificate("cell 1", "reference cell", 0.02)
BACK = of_class("back 1", "thermometer", 0.0, within=1.0)
ONE_DIODE = OneDiode(36, Coefficient(0.2, 0.03, "recalled"), Coefficient(0.0005, 0.0002, "recalled"))
TRUE_C = 48.61  # 46 degC behind, and 3 K in full sun


def sweep(lit=870.0, cell_c=TRUE_C, past=1.5, count=50, start=0.0, seed=0):
    diode = diode_at(MODEL, lit, cell_c)
    volts = np.linspace(start, key_points(diode).voc_v + past, count)
    noise = 0.004 * np.random.default_rng(seed).standard_normal(count)
    return Measured(
        tuple(volts.tolist()),
        tuple((current_a(diode, volts) + noise).tolist()),
        lit,
        cell_c,
        Accuracy(0, 0.004),
    )


def taken(**more):
    lit = light.by_cell(0.087 * (1 + 0.0005 * 15), 40.0, Sensor(CELL, 0.1))
    plain = Taken(Given((sweep(),), BY), lit, heat.by_back(46.0, BACK), VOLTS, AMPS, date(2026, 6, 20))
    return replace(plain, **more)


@pytest.fixture(scope="module")
def plain():
    return rate(taken())


def test_the_figures_are_the_panel_s_at_standard_conditions(plain):
    assert plain.light_w_m2 == pytest.approx(870)
    assert plain.cell_c == pytest.approx(TRUE_C)
    for name in ("power_w", "isc_a", "voc_v", "fill_factor"):
        figure = plain.of(name)
        assert figure.value == pytest.approx(getattr(TRUE, name), rel=6e-3)
        assert abs(figure.value - getattr(TRUE, name)) < figure.expanded


def test_a_careful_shop_rates_power_to_some_four_percent(plain):
    """Laboratories reach 2 to 3 % outdoors, a shop with a pyranometer some 5.6 % (typical, memory)."""
    power = plain.of("power_w")
    assert 0.03 < power.expanded / power.value < 0.05
    assert power.budget.terms[0].input.name.startswith("light: ")
    assert sum(term.share for term in power.budget.terms) == pytest.approx(1)
    assert plain.of("voc_v").budget.terms[0].input.name.startswith("heat: ")
    assert str(power).startswith("Pmp: 14")


def test_the_budget_is_as_wide_as_errors_drawn_by_chance(plain):
    """All inputs drawn together 200 times: the scatter of the results is what the budget says, to a tenth."""
    own, given = taken(), plain.budgets.of("power_w")
    inputs = [term.input for term in given.terms]
    chance = np.random.default_rng(7)
    drawn = [
        _law(own, plain.chosen, {each.name: each.sigma * float(chance.standard_normal()) for each in inputs})
        for _ in range(200)
    ]
    for name in ("power_w", "voc_v", "fill_factor"):
        scatter = float(np.std([each[name] for each in drawn], ddof=1))
        assert scatter == pytest.approx(plain.budgets.of(name).sigma, rel=0.13)


def test_panels_measured_with_everything_off_come_out_within_twice_their_uncertainty():
    chance = np.random.default_rng(3)
    for seed in range(4):
        off = chance.standard_normal(4) * (0.0029, 0.0058, 0.016, 1.5)
        made = sweep(seed=seed)
        made = replace(
            made,
            voltage_v=tuple((1 + off[0]) * each for each in made.voltage_v),
            current_a=tuple((1 + off[1]) * each for each in made.current_a),
        )
        lit = light.by_cell(0.087 * 1.0075 * (1 + off[2]), 40.0, Sensor(CELL, 0.1))
        hot = heat.by_back(46.0 + off[3], BACK)
        found = rate(taken(given=Given((made,), BY), light=lit, heat=hot)).of("power_w")
        assert abs(found.value - TRUE.power_w) < 1.2 * found.expanded


def test_light_read_by_the_very_ammeter_cancels_it(plain):
    """What the ammeter is off moves curve and light alike, so Isc stays as it was."""
    same = rate(taken(one_ammeter=True))
    moves = {term.input.name: abs(term.moves) for term in same.of("isc_a").budget.terms}
    before = {term.input.name: abs(term.moves) for term in plain.of("isc_a").budget.terms}
    assert moves["ammeter"] < 0.05 * before["ammeter"]
    assert same.of("power_w").expanded < plain.of("power_w").expanded


def test_voc_that_gave_the_temperature_is_not_rated_and_the_report_says_why():
    found = rate(taken(heat=heat.by_voc(BY)))
    assert found.cell_c == pytest.approx(TRUE_C, abs=1.0)
    assert found.of("voc_v").value is None
    assert found.of("voc_v").why_not == "The heat was known by Voc itself, so Voc was taken for true."
    assert found.of("power_w").value == pytest.approx(TRUE.power_w, rel=0.01)
    assert str(found.of("voc_v")).startswith("Voc: not rated.")


def test_isc_that_gave_the_light_rates_shape_and_voltage_only():
    own = light.by_own_isc(7.54, TRUE_C, Sensor(AMPS, TRUE.isc_a))
    found = rate(taken(light=own, one_ammeter=True))
    assert found.of("power_w").value is None
    assert found.of("isc_a").value is None
    assert found.of("fill_factor").value == pytest.approx(TRUE.fill_factor, rel=5e-3)
    assert found.of("voc_v").value == pytest.approx(TRUE.voc_v, rel=5e-3)


def test_with_nothing_known_of_the_panel_the_crowd_s_coefficients_stand_in(plain):
    found = rate(taken(given=Given((sweep(),))))
    assert found.of("power_w").value == pytest.approx(TRUE.power_w, rel=0.02)
    assert found.of("power_w").expanded > plain.of("power_w").expanded
    whence = {term.input.name: term.input.source for term in found.of("voc_v").budget.terms}
    assert whence["beta"] == "recalled"


def test_a_panel_of_crystalline_cells_goes_by_procedure_4_and_the_gap_is_in_its_budget():
    found = rate(taken(given=Given((sweep(),), None, ONE_DIODE)))
    assert found.chosen.taken.moved.procedure == "4"
    assert "gap of a cell" in {term.input.name for term in found.of("voc_v").budget.terms}
    assert found.of("power_w").value == pytest.approx(TRUE.power_w, rel=0.01)


def test_curves_round_the_target_ask_for_no_coefficient():
    others = (sweep(1080.0, 15.0, 3.0, seed=1), sweep(900.0, 15.0, 3.0, seed=2))
    found = rate(taken(given=Given((sweep(past=3.0), *others))))
    assert found.chosen.taken.moved.procedure == "3"
    assert "beta" not in {term.input.name for term in found.of("power_w").budget.terms}
    assert found.of("power_w").value == pytest.approx(TRUE.power_w, rel=0.01)


def test_a_sweep_that_ends_too_soon_is_refused_with_its_cure():
    with pytest.raises(BenchError, match="Sweep from zero volts past open circuit"):
        rate(taken(given=Given((sweep(past=-12.0),))))
