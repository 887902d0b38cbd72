"""A year stood for by some of its moments, held against the year itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from invented_panels import Made
from panewright.array.arranged import Allowed, alone_kwh, weighed
from panewright.array.member import Member
from panewright.array.moments import moments
from panewright.array.states import states_of
from panewright.array.steps import dome_of, steps_of
from panewright.array.wiring import Input, Row, wired
from panewright.array.year import Span, worked
from panewright.circuit.chords.panels import panels_of
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Place, Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings
from panewright.sky.shadow.things import Post, Wall

AIR = (0, 1, 5, 9, 14, 17, 19, 18, 14, 10, 5, 1)
HOURS = clear_year(Place(47.6, 9.4, 400.0), AIR, 0.65)
AROUND = Surroundings((Post(0.5, -1.5, 3.0, 0.3), Wall((3.0, -3.0), (3.0, 2.0), 2.0)))
SHAPES = tuple(
    (0.02 + 0.16 * (k % 6), 0.02 + 0.16 * (k // 6), 0.176 + 0.16 * (k % 6), 0.176 + 0.16 * (k // 6))
    for k in range(36)
)
NO_BOUND = Span()
FREE = Allowed(1, 2, 0.0, 1e3, (23.0,) * 4, (16.0,) * 4)


def looking(number, azimuth_deg):
    """One of four unlike panels of 36 cells on a stand of its own."""
    pane = Pane((2.0 * number, 0.0, 0.5), Plane(35, azimuth_deg), SHAPES)
    return Member(f"P{number}", Made(36, 2, seed=number).law(), pane, 160.0)


@pytest.fixture(scope="module", params=[(180, 180, 180, 180), (90, 90, 270, 270), (100, 180, 240, 350)])
def field(request):
    members = [looking(number, azimuth) for number, azimuth in enumerate(request.param)]
    at, sees = moments(HOURS, AROUND, members), [dome_of(member, AROUND) for member in members]
    return at, steps_of(HOURS, members, at, sees), panels_of([member.law for member in members], sees)


def true_kwh(field, rows, span=NO_BOUND):
    """What strings give in all moments of the year, and each panel alone."""
    at, lit, panels = field
    given = worked(panels, wired((Input(tuple(Row(row) for row in rows)),), 4), lit, (span,), lambda _: None)
    power = (given.input_v * given.input_a).sum(axis=1), given.alone_w.sum(axis=1)
    return tuple(float(each @ at.share / 1000) for each in power)


@pytest.mark.parametrize("rows", [((0, 1), (2, 3)), ((0, 2), (1, 3)), ((0, 3), (1, 2))])
def test_strings_weighed_in_a_few_moments_give_what_the_year_gives(field, rows):
    """48 of some 4,500 moments: within 1 %, also where panels look east and west and shadows pass."""
    at, lit, panels = field
    states = states_of(panels, at, lit)
    together, alone = true_kwh(field, rows)
    assert weighed(states, FREE, (rows,)) == pytest.approx(together, rel=0.01)
    assert alone_kwh(states) == pytest.approx(alone, rel=0.01)


def test_an_input_that_works_no_lower_gives_less_as_in_the_year(field):
    """Strings that shade takes under 31 V; what 48 moments miss of so sharp an edge is 2 % at most."""
    at, lit, panels = field
    states, rows = states_of(panels, at, lit), ((0, 1), (2, 3))
    bound, free = (true_kwh(field, rows, span)[0] for span in (Span(31.0), NO_BOUND))
    told = weighed(states, replace(FREE, floor_v=31.0), (rows,))
    assert bound < free
    assert told < weighed(states, FREE, (rows,))
    assert told == pytest.approx(bound, rel=0.02)


def test_moments_stand_for_all_the_light_there_is(field):
    at, lit, panels = field
    states = states_of(panels, at, lit, 20)
    assert states.hours.size == 20
    assert (states.hours > 0).all()
    assert states.hours.sum() == pytest.approx(at.share[lit.steps.light_w_m2.sum(axis=1) > 0].sum(), rel=0.1)


def test_a_year_of_fewer_moments_than_asked_is_itself(field):
    at, lit, panels = field
    few = np.flatnonzero(at.hour < 30)
    part = replace(at, hour=at.hour[few], share=at.share[few], row=at.row[few])
    steps = lit.steps._replace(
        light_w_m2=lit.steps.light_w_m2[few],
        open_w_m2=lit.steps.open_w_m2[few],
        cell_c=lit.steps.cell_c[few],
        shade=lit.steps.shade[few],
    )
    states = states_of(panels, part, replace(lit, steps=steps), 1000)
    assert states.hours.sum() == pytest.approx(part.share.sum())
