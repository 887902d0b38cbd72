"""How far a panel may be off: its cells' own errors shrink, common ones do not; against panels drawn."""

from __future__ import annotations

from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from campaigns import matching
from hypothesis import given
from hypothesis import strategies as st

from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.doubt import Doubt, PanelDoubt, raised_w


def test_own_errors_cancel_in_part_and_common_ones_do_not():
    lot = Doubt(np.full(72, 0.04), 0.03)
    few, many = lot.of(list(range(9)), 45.0), lot.of(list(range(36)), 180.0)
    assert few.own_w / 45 == pytest.approx(2 * many.own_w / 180)
    assert few.common_w / 45 == many.common_w / 180 == pytest.approx(0.03)


def test_a_thousand_panels_of_cells_that_are_off_scatter_as_is_told():
    lot = matching.standing(matching.cells(36, 3, matching.Drawn(imp=0.002)))
    dice, network = np.random.default_rng(1), matching.wiring(36, 1, 2)
    light = np.asarray(lot.cells.light_a)
    own = dice.normal(1, 0.01, (1000, 36)) * light
    cells = replace(lot.cells, light_a=own.reshape(-1), **_rest(lot, 1000))
    off = exact_w(network, cells, np.arange(36_000).reshape(1000, 36))
    told = Doubt(0.01 * lot.power_w, 0.0).of(list(range(36)), 0.0)
    assert float(off.std()) == pytest.approx(told.own_w, rel=0.15)


def _rest(lot, times):
    names = [name for name in type(lot.cells).__slots__ if name != "light_a"]
    return {name: np.tile(np.asarray(getattr(lot.cells, name)), times) for name in names}


@given(st.floats(20, 500), st.floats(0.5, 0.99), st.floats(0, 5), st.floats(0, 0.2))
def test_a_panel_at_the_raised_rating_has_just_that_chance(rating_w, sure, own_w, common):
    raised = raised_w(rating_w, sure, own_w, common)
    assert raised >= rating_w
    known = PanelDoubt(own_w, common * raised)
    if known.both_w > 1e-9:
        assert known.chance(raised, rating_w) == pytest.approx(sure, abs=1e-9)
        assert known.chance(raised, rating_w) == pytest.approx(
            NormalDist(rating_w, known.both_w).cdf(raised), abs=1e-9
        )


def test_what_is_known_without_error_is_sure():
    assert PanelDoubt(0.0, 0.0).chance(90.0, 90.0) == 1
    assert PanelDoubt(0.0, 0.0).chance(89.9, 90.0) == 0
    with pytest.raises(ValueError, match="never so sure"):
        raised_w(90, 0.99, 0, 0.5)
    with pytest.raises(ValueError, match="one half or more"):
        raised_w(90, 0.4, 0, 0.01)
