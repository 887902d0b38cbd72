"""The failure model over any field: the practice's own figures, and laws that hold for every load."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.plate.bending import Plate
from panewright.glass.plate.field import bent_field
from panewright.glass.plate.holding import Clips, Patch, Pressing, Supported
from panewright.glass.strength import field_breakage
from panewright.glass.strength.breakage import K, M, biaxial
from panewright.glass.strength.e1300 import FAILURE, GLASS, SHORT_S, non_factored_load_pa
from panewright.glass.strength.field_breakage import breakage, field_risk, load_multiple

PANES = [(1500, 1200, 5.56), (1000, 1000, 2.92), (2000, 1000, 2.92), (1600, 1000, 3.78), (1905, 1524, 5.56)]
HELD = {
    "four sides": Supported(Plate(1200, 700, 4.0, GLASS)),
    "two long sides": Supported(Plate(1200, 700, 4.0, GLASS), "two long sides"),
    "clips": Supported(Plate(1200, 700, 4.0, GLASS), "clips", Clips(2, 0, 250)),
}
LOADS = [Pressing(600.0), Pressing(0.0, (Patch(300.0),)), Pressing(100.0, (Patch(300.0, 200.0, 150.0),))]


@pytest.mark.parametrize(("long", "short", "thick"), PANES)
def test_on_four_sides_it_is_the_practices_load_less_half_a_percent_for_the_other_face(long, short, thick):
    multiple, known = load_multiple(
        Supported(Plate(long, short, thick, GLASS)), Pressing(1000.0), FAILURE, SHORT_S
    )
    practice = non_factored_load_pa(long, short, thick)
    assert known
    assert 0.994 * practice < multiple * 1000 < 1.0001 * practice


@pytest.mark.parametrize("kind", HELD)
@pytest.mark.parametrize("load", LOADS)
def test_the_load_so_found_breaks_so_many(kind, load):
    multiple, _ = load_multiple(HELD[kind], load, 0.01, 60.0)
    field = bent_field(HELD[kind], field_breakage.grown(load, multiple))
    assert breakage(field, 60.0) == pytest.approx(0.01, rel=1e-5)


@pytest.mark.parametrize("kind", HELD)
@pytest.mark.parametrize("load", LOADS)
def test_more_points_change_nothing(kind, load, monkeypatch):
    field = bent_field(HELD[kind], load)
    usual = field_risk(field, 3.0)
    monkeypatch.setattr(field_breakage, "_POINTS", 16)
    assert field_risk(field, 3.0) == pytest.approx(usual, rel=5e-3)


@settings(deadline=None, max_examples=30)
@given(st.sampled_from(sorted(HELD)), st.sampled_from(LOADS), st.floats(1, 1e7), st.floats(1, 1e7))
def test_a_longer_load_never_breaks_fewer(kind, load, one, other):
    field = bent_field(HELD[kind], load)
    short, long = sorted((one, other))
    assert breakage(field, short) <= breakage(field, long) * (1 + 1e-12)


@pytest.mark.parametrize("kind", HELD)
def test_a_little_load_counts_with_its_seventh_power(kind):
    one, two = (field_risk(bent_field(HELD[kind], Pressing(p)), 3.0) for p in (0.05, 0.1))
    assert two / one == pytest.approx(2**M, rel=1e-3)


def test_a_pane_that_bends_too_far_first_is_told():
    slack = Supported(Plate(2400, 600, 2.0, GLASS), "two short sides")
    assert not load_multiple(slack, Pressing(100.0), FAILURE, SHORT_S)[1]


def test_no_load_is_refused():
    with pytest.raises(ValueError, match="breaks nothing"):
        load_multiple(HELD["clips"], Pressing(), FAILURE, SHORT_S)


def test_a_long_strip_is_reckoned_by_hand():
    # one face is pulled by 3/4 q (a/t)^2 at mid-span, a parabola across, nu times that along
    plate = Plate(6000, 1000, 10.0, GLASS)
    field = bent_field(Supported(plate, "two long sides"), Pressing(1.0))
    top = 0.75 * 1.0 * (1000 / 10) ** 2  # Pa, middle of the strip
    mean = math.prod(2 * k / (2 * k + 1) for k in range(1, 8))  # of (1 - y^2)^7 over the span
    c7 = float(biaxial(np.array([GLASS.poisson]))[0])
    risk = K * top**7 * c7 * mean * (3 / 60) ** (7 / 16) * 6.0
    assert field_risk(field, 3.0) == pytest.approx(risk, rel=0.15)  # the free ends are pulled otherwise
