"""What the glass shop is told of flatness and edges, by family."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.pane import Pane, Sheet
from panewright.structure.panes.ordered import edge_finish, flatness


def sheet(surface="plain", treatment="tempered", mm=4.0):
    return Sheet("s", "glass", treatment, surface, mm, mm - 0.2, 2500.0, 9e-6, 0.9)


def test_toughened_float_by_en_12150_1():
    """3 mm in a metre, 0.3 mm of wave over 300 mm (recalled)."""
    flat = flatness(Pane(1600.0, 1000.0, sheet()), "EN")
    assert (flat.long_bow_mm, flat.short_bow_mm, flat.local_mm, flat.over_mm) == (4.8, 3.0, 0.3, 300.0)


def test_toughened_patterned_glass_by_en_12150_1():
    """4 mm in a metre, 0.5 mm over 300 mm (recalled)."""
    flat = flatness(Pane(1500.0, 1000.0, sheet("patterned")), "EN")
    assert (flat.long_bow_mm, flat.short_bow_mm, flat.local_mm) == (6.0, 4.0, 0.5)


@pytest.mark.parametrize(
    ("long", "bow"), [(500, 3.0), (501, 4.0), (900, 4.0), (1300, 7.0), (1700, 9.0), (2400, 14.0)]
)
def test_fully_tempered_glass_by_astm_c1048(long, bow):
    """Table 2, 1/8 to 3/16 in (recalled); 1/16 in within 12 in (read)."""
    flat = flatness(Pane(float(long), 400.0, sheet()), "ASCE")
    assert flat.long_bow_mm == bow
    assert (flat.local_mm, flat.over_mm) == (pytest.approx(25.4 / 16), pytest.approx(304.8))


def test_thicker_glass_bows_less_by_the_same_table():
    assert flatness(Pane(800.0, 400.0, sheet(mm=6.0)), "ASCE").long_bow_mm == 3.0
    assert flatness(Pane(400.0, 400.0, sheet(mm=6.0)), "ASCE").long_bow_mm == 2.0


def test_what_a_family_does_not_tell_has_no_figure():
    assert flatness(Pane(2500.0, 800.0, sheet()), "ASCE").long_bow_mm is None
    assert flatness(Pane(800.0, 400.0, sheet(mm=8.0)), "ASCE").long_bow_mm is None
    assert flatness(Pane(800.0, 400.0, sheet(treatment="annealed")), "EN").local_mm is None


@given(st.floats(300, 2400), st.floats(0, 200), st.sampled_from(["EN", "ASCE"]))
def test_a_longer_pane_may_bow_more(long, more, family):
    one = flatness(Pane(long, 300.0, sheet()), family).long_bow_mm
    other = flatness(Pane(min(2400.0, long + more), 300.0, sheet()), family).long_bow_mm
    assert other >= one


def test_a_free_edge_is_ground():
    assert edge_finish(held_all_round=True) == "seamed"
    assert edge_finish(held_all_round=False) == "flat ground"
