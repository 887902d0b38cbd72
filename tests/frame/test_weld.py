"""Laws of welded aluminium."""

import pytest

from panewright.frame.joining.weld import rail_limit_mpa, weld_limit_mpa
from panewright.frame.metals.aluminium import bending_limit_mpa


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize("name", ["6063-T5", "6063-T6", "6061-T6"])
def test_heat_never_makes_a_rail_stronger(name, family):
    assert 0 < rail_limit_mpa(name, family) < bending_limit_mpa(name, family, 3.0)
    assert weld_limit_mpa(name, family) > 0


def test_limits_by_hand():
    assert rail_limit_mpa("6063-T6", "ASCE") == pytest.approx(55 / 1.65)
    assert rail_limit_mpa("6063-T6", "EN") == pytest.approx(65 / 1.10)
    assert weld_limit_mpa("6063-T6", "ASCE") == pytest.approx(117 / 1.95)
    assert weld_limit_mpa("6061-T6", "EN") == pytest.approx(175 / 1.25)


def test_an_alloy_that_the_family_does_not_list_has_no_limit():
    assert rail_limit_mpa("6060-T66", "ASCE") is None
    assert weld_limit_mpa("6063-T52", "EN") is None
