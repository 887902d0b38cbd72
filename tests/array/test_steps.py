"""Light on every cell: slopes tell the same light as cells do, and strings on them give as much."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from invented_panels import Made
from panewright.array.member import Member
from panewright.array.moments import moments
from panewright.array.steps import dome_of, steps_of
from panewright.array.wiring import Input, Row, wired
from panewright.array.year import Span, worked
from panewright.circuit.chords.panels import panels_of
from panewright.intake.weather.weather import read_weather
from panewright.sky.place import Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings
from panewright.sky.shadow.things import Post, Wall

FILE = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"  # Greensboro, TMY3, carried by pvlib
SHAPES = tuple(
    (0.16 * (k // 6), 0.16 * (k % 6), 0.16 * (k // 6) + 0.15, 0.16 * (k % 6) + 0.15) for k in range(36)
)
AROUND = Surroundings((Wall((-1.0, -2.0), (4.0, -2.0), 2.2), Post(0.6, -0.8, 1.5, 0.1)))
MADES = [Made(36, 2, seed=seed) for seed in range(2)]
MEMBERS = [
    Member(f"P{k}", made.law(), Pane((1.1 * k, 0, 0.5), Plane(25, 180), SHAPES), 150.0)
    for k, made in enumerate(MADES)
]


@pytest.fixture(scope="module")
def sees():
    return [dome_of(member, AROUND) for member in MEMBERS]


@pytest.fixture(scope="module")
def lit(sees):
    hours = read_weather(FILE.read_bytes(), FILE.name)
    return steps_of(hours, MEMBERS, moments(hours, AROUND, MEMBERS), sees)


def test_a_slope_tells_the_light_of_every_cell(lit, sees):
    """mean (1 + rise (s - mean s)), by substring, is the light that was laid on the cells one by one."""
    steps, told = lit.steps, 0
    for p in range(2):
        rows = np.unique(steps.shade[:, p])
        for k in range(2):
            cells = slice(18 * k, 18 * k + 18)
            own = rows[(rows >= 0)]
            own = own[steps.rises[own, k] >= 0]
            apart = sees[p][cells] - sees[p][cells].mean()
            again = steps.means[own, k, None] * (1 + steps.rises[own, k, None] * apart)
            assert again == pytest.approx(steps.shaded[own][:, cells], rel=1e-6, abs=1e-6)
            told += own.size
    assert told > 2000, "most substrings are slopes"
    assert (steps.rises < 0).any(), "some lie in a shadow that parts them"


def test_strings_on_slopes_give_what_they_give_cell_by_cell(lit, sees):
    panels, wires = (
        panels_of([member.law for member in MEMBERS], sees),
        wired((Input((Row((0, 1), 0.05),)),), 2),
    )
    span = (Span(5.0, 100.0, (20.0, 30.0)),)
    one_by_one = lit.steps._replace(rises=np.full_like(lit.steps.rises, -1.0))
    few = slice(0, None, 5)
    sloped, plain = (
        worked(
            panels,
            wires,
            type(lit)(_every(steps, few), lit.plane_w_m2[few], lit.faced_w_m2[few]),
            span,
            lambda _: None,
        )
        for steps in (lit.steps, one_by_one)
    )
    watts = [(each.input_v * each.input_a)[:, 0] for each in (sloped, plain)]
    assert np.abs(watts[0] - watts[1]).max() < 1e-3 * 300, "of the panels' rating, in any step"
    assert watts[0].sum() == pytest.approx(watts[1].sum(), rel=3e-4)
    assert sloped.held_a == pytest.approx(plain.held_a, abs=0.03)


def _every(steps, few):
    """So many of the steps, with all rows of lights."""
    return steps._replace(
        light_w_m2=steps.light_w_m2[few].copy(),
        open_w_m2=steps.open_w_m2[few].copy(),
        cell_c=steps.cell_c[few].copy(),
        shade=steps.shade[few].copy(),
    )
