"""The junction box that is bought takes the diodes that go into it."""

from __future__ import annotations

import pytest

from panewright.shelf.load import load_shelf
from panewright.structure.sundries import Amounts, sold

NUMBERS = {"two": 2, "four": 4, "six": 6, "twelve": 12}


@pytest.mark.parametrize("diodes", range(15))
def test_the_box_on_the_parts_list_takes_all_diodes(diodes):
    amounts = Amounts("silicone pour", 0.5, 3.0, 1.0, 1.0, diodes, 4, 16, 4, 2, 10, 10, 5.0)
    (box,) = [each for each in sold(amounts, load_shelf()) if each.taken.use == "box"]
    if diodes > max(NUMBERS.values()):
        assert (box.row, box.name) == (None, f"junction box, {diodes} diodes")
        return
    takes = NUMBERS[box.name.removeprefix("junction box, ").removesuffix(" diodes")]
    assert diodes <= takes
    assert takes == min(number for number in NUMBERS.values() if number >= diodes)
