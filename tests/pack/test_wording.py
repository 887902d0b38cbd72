"""Words of other rooms as the maker reads them."""

import pytest

from panewright.pack.wording import in_units, plain_source, signs


@pytest.mark.parametrize(
    ("source", "told"),
    [
        (
            "IEC 60664-1 tables F.1 and F.2, reinforced; from memory",
            "IEC 60664-1 tables F.1 and F.2, reinforced",
        ),
        ("creep modulus from handbooks, recalled", "creep modulus from handbooks"),
        ("handbook of a maker, four cells for 12 V (seen)", "handbook of a maker, four cells for 12 V"),
        ("EN 16612, deflection", "EN 16612, deflection"),
    ],
)
def test_how_a_source_came_to_be_known_is_not_told_on_the_first_page(source, told):
    assert plain_source(source) == told


def test_degrees_have_their_sign_and_nothing_else_changes():
    assert signs("25 degC and 90 degF, 30 degrees") == "25 °C and 90 °F, 30 degrees"


def test_heights_are_told_in_feet_only_where_asked_and_speeds_stay():
    assert in_units("mean speed vm, terrain I at 4 m", "metric") == "mean speed vm, terrain I at 4 m"
    assert in_units("hottest cell at work, 1 m/s", "us") == "hottest cell at work, 1 m/s"
    assert in_units("at 3.048 m", "us") == "at 10.0\u2009ft"
