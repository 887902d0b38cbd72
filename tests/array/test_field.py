"""Strings of unlike, shaded panels against the exact circuit of the whole array."""

from random import Random

import numpy as np
import pytest

from invented_panels import Made
from panewright.array.field import Steps
from panewright.array.steps import Lit
from panewright.array.wiring import Input, Row, wired
from panewright.array.year import Span, worked
from panewright.circuit.chords.panels import panels_of
from panewright.circuit.line import as_written
from panewright.circuit.network import Network, String
from panewright.circuit.solve import current_a

STEPS, CELLS = 8, 36
MADES = tuple(Made(CELLS, 2, seed=seed) for seed in range(6))
ROWS = (Row((0, 1, 2), 0.08), Row((3, 4, 5), 0.05))
HELD = (20.0, 35.0, 45.0)
SPAN = Span(5.0, 500.0, HELD)


def drawn(seed=1):
    """Lights and heats by chance: some panels even, some with a few dim cells, some dim all over."""
    chance = Random(seed)
    light = np.array([[chance.uniform(100, 1000)] * 6 for _ in range(STEPS)])
    heat = np.array([[chance.uniform(-5, 60)] * 6 for _ in range(STEPS)])
    shade, rows = np.full((STEPS, 6), -1), []
    for t in range(STEPS):
        for p in range(6):
            if chance.random() < 0.6:
                cells = np.full(CELLS, light[t, p])
                cells *= np.linspace(chance.uniform(0.8, 1.0), 1.0, CELLS)
                cells[chance.sample(range(CELLS), 3)] *= chance.choice((1.0, 0.6, 0.1))
                shade[t, p] = len(rows)
                rows.append(cells)
    return Lit(Steps(light, light, heat, shade, np.array(rows), *in_shadows(len(rows))), light, light)


def in_shadows(rows):
    """No substring of two is a slope."""
    return np.full((2, rows, 2), -1.0)


def exact(lit, t, rows, run=0.0):
    """The whole array as one circuit at a step."""
    strings = []
    for row in rows:
        parts, tail = [], row.wire_ohm
        for p in row.panels:
            string = panel(lit, t, p).strings[0]
            parts += string.substrings
            tail += string.tail_ohm + panel(lit, t, p).lead_ohm
        strings.append(String(tuple(parts), tail))
    return Network(tuple(strings), run)


def panel(lit, t, p):
    steps = lit.steps
    number = steps.shade[t, p]
    cells = steps.shaded[number] if number >= 0 else [steps.light_w_m2[t, p]] * CELLS
    return MADES[p].network(list(cells), steps.cell_c[t, p])


@pytest.fixture(scope="module")
def lit():
    return drawn()


def gave(lit, inputs, spans):
    panels = panels_of([made.law() for made in MADES])
    return worked(panels, wired(inputs, 6), lit, spans, lambda _: None)


@pytest.fixture(scope="module")
def given(lit):
    return gave(lit, (Input(ROWS, 0.03),), (SPAN,))


@pytest.mark.parametrize("t", range(STEPS))
def test_the_greatest_power_is_that_of_the_exact_circuit(lit, given, t):
    amps, volts = as_written(exact(lit, t, ROWS, 0.03)).peak()
    assert given.input_v[t, 0] * given.input_a[t, 0] == pytest.approx(amps * volts, rel=1e-3)


@pytest.mark.parametrize("t", range(STEPS))
def test_held_at_a_voltage_it_gives_the_current_of_the_exact_circuit(lit, given, t):
    asked = current_a(exact(lit, t, ROWS, 0.03), np.array(HELD))
    assert given.held_a[t, 0] == pytest.approx(np.maximum(asked, 0.0), abs=0.02)


def test_what_panels_give_is_what_comes_in_and_what_wires_take(given):
    """Energy closes in every step: the panels' watts are the input's and what heats the wires."""
    wires = given.row_a**2 @ np.array([row.wire_ohm for row in ROWS]) + 0.03 * given.input_a[:, 0] ** 2
    come, gone = given.panel_w.sum(axis=1), (given.input_v * given.input_a)[:, 0] + wires
    assert come == pytest.approx(gone, rel=1e-9)
    assert given.row_a.sum(axis=1) == pytest.approx(given.input_a[:, 0], rel=1e-9)


def test_together_no_panel_gives_more_than_alone(given):
    assert (given.panel_w <= given.alone_w * (1 + 2e-4) + 1e-9).all()
    assert (given.alone_w <= given.open_w * (1 + 2e-4)).all()


def test_two_inputs_give_what_two_arrays_give(lit, given):
    apart = gave(lit, (Input(ROWS[:1]), Input(ROWS[1:])), (SPAN, SPAN))
    assert (apart.input_v * apart.input_a).sum() > (given.input_v * given.input_a).sum()
    for t in range(STEPS):
        amps, volts = as_written(exact(lit, t, ROWS[1:])).peak()
        assert apart.input_v[t, 1] * apart.input_a[t, 1] == pytest.approx(amps * volts, rel=1e-3)


def test_an_input_does_not_leave_its_voltages(lit):
    told = gave(lit, (Input(ROWS, 0.03),), (Span(48.0, 50.0),))
    at_work = told.input_a[:, 0] > 0
    assert at_work.any()
    assert told.input_v[at_work, 0].min() >= 48.0
    assert told.input_v[at_work, 0].max() <= 50.0


def test_a_blocking_diode_lets_nothing_back_into_a_dim_string(lit):
    steps = lit.steps
    dim = steps._replace(
        light_w_m2=steps.light_w_m2 * np.array([1, 1, 1, 0.02, 0.02, 0.02]), shade=np.full((STEPS, 6), -1)
    )
    rows = (Row((0, 1, 2), 0.08, 0.5), Row((3, 4, 5), 0.05, 0.5))
    told = gave(Lit(dim, lit.plane_w_m2, lit.faced_w_m2), (Input(rows),), (SPAN,))
    alone = gave(Lit(dim, lit.plane_w_m2, lit.faced_w_m2), (Input(rows[:1]),), (SPAN,))
    assert (told.row_a >= -1e-6).all()
    assert (told.input_v * told.input_a >= alone.input_v * alone.input_a * (1 - 1e-4)).all()


def test_a_panel_wired_twice_is_refused():
    with pytest.raises(ValueError, match="once or not at all"):
        wired((Input((Row((0, 1)), Row((1, 2)))),), 3)


def test_many_dim_panels_in_a_long_string_keep_their_curve():
    """Twenty unlike panels in one string: the curve has room, and its top is the exact one's."""
    mades = [Made(CELLS, 2, seed=seed) for seed in range(20)]
    cells = np.array([np.linspace(0.7, 1.0, CELLS) * 800 * (1 - 0.02 * p) for p in range(20)])
    steps = Steps(
        *np.full((2, 1, 20), 800.0), np.full((1, 20), 40.0), np.arange(20)[None], cells, *in_shadows(20)
    )
    panels = panels_of([made.law() for made in mades])
    told = worked(
        panels,
        wired((Input((Row(tuple(range(20))),)),), 20),
        Lit(steps, *cells[:2]),
        (Span(),),
        lambda _: None,
    )
    networks = [made.network(list(row), 40.0) for made, row in zip(mades, cells, strict=True)]
    parts = tuple(part for network in networks for part in network.strings[0].substrings)
    tail = sum(network.strings[0].tail_ohm + network.lead_ohm for network in networks)
    amps, volts = as_written(Network((String(parts, tail),))).peak()
    assert told.input_v[0, 0] * told.input_a[0, 0] == pytest.approx(amps * volts, rel=1e-3)
