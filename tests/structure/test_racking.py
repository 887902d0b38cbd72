"""Laws of a frame that stands on one of its corners."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.corners.racking import SOFT_MPA, judge_racking, rack, stiff_moment_nmm

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
BEAD = Bead(SILICONE, 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
panes = st.builds(lambda a, share: Pane(a, a * share, GLASS), st.floats(300, 2400), st.floats(0.25, 1.0))


def least_work(pane, bead, weight_n):
    """Four ways to move (slide both ways, turn, lean), the bead summed piece by piece round the pane."""
    a, b, n = pane.long_mm, pane.short_mm, 2000
    t = (np.arange(n) + 0.5) / n - 0.5
    along = np.concatenate([a * t, a * t, np.full(n, a / 2), np.full(n, -a / 2)])
    across = np.concatenate([np.full(n, b / 2), np.full(n, -b / 2), b * t, b * t])
    piece = np.concatenate([np.full(2 * n, a / n), np.full(2 * n, b / n)])
    one, none = np.ones_like(along), np.zeros_like(along)
    u = np.stack([one, none, -across, across / 2])  # along, for each way to move
    v = np.stack([none, one, along, along / 2])
    k = SOFT_MPA * bead.bite_mm / bead.glue_line_mm
    stiffness = k * ((u * piece) @ u.T + (v * piece) @ v.T)
    push = weight_n / np.hypot(a, b) * np.array([a, b])
    corner = np.array([[1, 0, -b / 2, b / 4], [0, 1, a / 2, a / 4]])
    ways = np.linalg.solve(stiffness, corner.T @ push)
    return np.hypot(*(corner @ ways)), ways[3]


@given(panes, st.floats(10, 1000))
def test_slip_and_lean_are_those_of_least_work(pane, weight_n):
    slip, lean = least_work(pane, BEAD, weight_n)
    found = rack(pane, BEAD, weight_n)
    assert found.slip_mm == pytest.approx(slip, rel=1e-5)
    assert found.lean == pytest.approx(lean, rel=1e-5)


@given(panes, st.floats(10, 1000), st.floats(6, 20), st.floats(0, 10))
def test_a_wider_bead_is_never_worse(pane, weight_n, bite_mm, more_mm):
    less, more = (
        rack(pane, Bead(SILICONE, bite, 6.0, 5.0), weight_n) for bite in (bite_mm, bite_mm + more_mm)
    )
    assert more.bead_mpa <= less.bead_mpa
    assert more.slip_mm <= less.slip_mm
    assert more.lean <= less.lean


@given(panes, st.floats(0.1, 100), st.floats(1, 3), st.sampled_from(["ASCE", "EN"]))
def test_a_heavier_panel_is_never_safer(pane, mass_kg, factor, family):
    light, heavy = (judge_racking(pane, BEAD, each, family) for each in (mass_kg, mass_kg * factor))
    assert all(h.demand >= s.demand for h, s in zip(heavy, light, strict=True))


def test_stress_is_stiffness_times_slip_over_the_bite():
    found = rack(Pane(1600, 1000, GLASS), BEAD, 400.0)
    assert found.bead_mpa == pytest.approx(SOFT_MPA / 6.0 * found.slip_mm)


def test_a_heavy_panel_on_a_thin_bead_fails_and_a_sealant_not_for_panes_is_not_covered():
    pane = Pane(1600, 1000, GLASS)
    assert not judge_racking(pane, Bead(SILICONE, 6.0, 6.0, 5.0), 150.0, "EN")[0].passed
    common = Bead(Sealant("common", 138e3, 0.0, 0.25, 300, structural=False), 8.0, 6.0, 5.0)
    assert not judge_racking(pane, common, 20.0, "EN")[0].covered


def test_a_corner_that_may_not_turn_by_hand():
    """Four rails in double curvature: M a/6EI and M b/6EI add up to the lean."""
    pane = Pane(1600, 1000, GLASS)
    moment = stiff_moment_nmm(RAIL, pane, 0.001, "ASCE")
    turned = moment * (1600 + 1000) / (6 * 69600 * 32368.2)
    assert turned == pytest.approx(0.001, rel=1e-5)
