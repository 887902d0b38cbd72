"""Coefficients from a panel's own circuit bring its own curves to its own power."""

from pathlib import Path

import pytest

from panewright import desk
from panewright.bench.predicted import stc
from panewright.bench.rate.own import own_coefficients, own_curve
from panewright.curve.moved.choice import Given, most_fitting
from panewright.panel.electric.watts import wired_of

JETTY = Path(__file__).parents[3] / "examples" / "jetty.toml"


@pytest.fixture(scope="module")
def design():
    return desk.design(JETTY.read_bytes(), JETTY.name).design


@pytest.fixture(scope="module")
def by(design):
    return own_coefficients(design)


@pytest.mark.parametrize(("light", "heat", "procedure"), [(850, 48, "2"), (600, 40, "2"), (1050, 60, "1")])
def test_its_curve_in_other_light_comes_to_its_power_at_standard_conditions(
    design, by, light, heat, procedure
):
    """A circuit's curve ends at open circuit: moved up, procedure 1 would end short of it."""
    chosen = most_fitting(Given((own_curve(wired_of(design), light, heat),), by))
    assert chosen.taken.moved.procedure == procedure
    assert chosen.taken.points.power_w.value == pytest.approx(stc(design).points.power_w, rel=4e-3)
    assert chosen.taken.points.isc_a.value == pytest.approx(stc(design).points.isc_a, rel=2e-3)


def test_they_say_whence_they_come_and_are_as_unsure_as_cells_of_one_kind_scatter(by):
    assert by.beta_per_k.whence == "the panel's own circuit"
    assert by.beta_per_k.sigma == pytest.approx(0.05 * abs(by.beta_per_k.value), rel=0.05)
    assert by.voc_v == pytest.approx(45.2, abs=0.2)
