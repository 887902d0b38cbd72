"""Laws of what size and square take out of the gap."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.structure.corners.squareness import Off, edge_tolerance_mm, lean_mm, off_by_standard

KINDS = {
    kind: Sheet(kind, material, treatment, "plain", 4.0, 3.8, 2500, 9e-6, 0.9)
    for kind, material, treatment in (
        ("tempered", "glass", "tempered"),
        ("float", "glass", "annealed"),
        ("acrylic", "acrylic", "none"),
    )
}
panes = st.builds(
    lambda long_mm, share, kind: Pane(long_mm, long_mm * share, KINDS[kind]),
    st.floats(200, 3900),
    st.floats(0.2, 1.0),
    st.sampled_from(sorted(KINDS)),
)
offs = st.builds(Off, st.floats(0, 4), st.floats(0, 8), st.floats(0, 2), st.floats(0, 4))


@pytest.mark.parametrize(
    ("kind", "long_mm", "family", "side_mm", "diagonals_mm"),
    [
        ("tempered", 2000, "EN", 2.0, 4.0),
        ("tempered", 2001, "EN", 3.0, 6.0),
        ("tempered", 3500, "EN", 4.0, 8.0),
        ("float", 1500, "EN", 1.0, 2.0),
        ("float", 2500, "EN", 1.5, 3.0),
        ("tempered", 2000, "ASCE", 1.5875, 1.984375),
        ("acrylic", 2000, "ASCE", 1.5, 3.0),
    ],
)
def test_what_a_standard_lets_a_pane_be_off(kind, long_mm, family, side_mm, diagonals_mm):
    """EN 12150-1 and EN 572-8 (recalled), a maker by ASTM C1036 and C1048 (read): 1/16 and 5/64 in."""
    off = off_by_standard(Pane(long_mm, 900, KINDS[kind]), family)
    assert (off.side_mm, off.diagonals_mm) == pytest.approx((side_mm, diagonals_mm))


@given(st.floats(200, 3000), st.floats(0.2, 1.0), st.floats(0.1, 6.0))
def test_the_lean_of_a_rhomboid_by_its_corners(long_mm, share, diagonals_mm):
    """Lean a rectangle by half an angle each way, measure its diagonals, and look at its long edge's end."""
    short_mm = long_mm * share
    half = diagonals_mm * math.hypot(long_mm, short_mm) / (4 * long_mm * short_mm)
    x, y = long_mm / 2 + half * short_mm / 2, short_mm / 2 + half * long_mm / 2
    other = long_mm / 2 - half * short_mm / 2, short_mm / 2 - half * long_mm / 2
    assert 2 * (math.hypot(x, y) - math.hypot(*other)) == pytest.approx(diagonals_mm, rel=2e-3)
    assert y - short_mm / 2 == pytest.approx(lean_mm(diagonals_mm, long_mm, short_mm))


@given(panes, offs, st.floats(1, 3))
def test_a_worse_saw_or_square_never_needs_less(pane, off, factor):
    worse = Off(
        *(factor * each for each in (off.side_mm, off.diagonals_mm, off.saw_mm, off.frame_diagonals_mm))
    )
    assert edge_tolerance_mm(pane, worse) >= edge_tolerance_mm(pane, off)


@given(panes, offs)
def test_the_whole_lies_between_the_largest_and_the_sum_of_its_parts(pane, off):
    sides = off.side_mm / 2, off.saw_mm / 2
    leans = (
        lean_mm(each, pane.long_mm, pane.short_mm) for each in (off.diagonals_mm, off.frame_diagonals_mm)
    )
    parts = (*sides, *leans)
    assert max(parts) <= edge_tolerance_mm(pane, off) + 1e-12
    assert edge_tolerance_mm(pane, off) <= sum(parts) + 1e-12
