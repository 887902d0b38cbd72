"""Sound solder: a layer with a resistance over its area."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.resistance import TabRun
from panewright.ribbon.solder import CONTACT_OHM_MM2, solder_ohm
from panewright.ribbon.strip import Strip


@given(st.floats(0.8, 3.0), st.integers(1, 6), st.floats(30.0, 180.0))
def test_it_is_a_layer_passed_twice(width, busbars, length):
    tab, run = Strip("", width, 0.15, coat_mm=0.0), TabRun(busbars, length, 3.0)
    area_mm2 = busbars * width * length
    assert solder_ohm(tab, run) == pytest.approx(2 * CONTACT_OHM_MM2 / area_mm2)


def test_a_tab_that_stops_short_has_less_solder():
    tab = Strip("", 2.0, 0.15)
    whole, short = TabRun(2, 156.0, 3.0), TabRun(2, 156.0, 3.0, front_bare_mm=78.0)
    assert solder_ohm(tab, short) == pytest.approx(1.5 * solder_ohm(tab, whole))


def test_a_tab_soldered_nowhere_is_refused():
    with pytest.raises(ValueError, match="soldered along some"):
        solder_ohm(Strip("", 2.0, 0.15), TabRun(2, 156.0, 3.0, back_bare_mm=156.0))
