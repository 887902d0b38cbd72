"""What the almanac says of a touch at once is what the full reckoning says, nearly."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from panewright.glass.pane import Pane
from panewright.glass.plate.almanac.touches import OFF
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.plate.nearly import touched_mpa
from panewright.glass.verdict import touch as verdict
from panewright.glass.verdict.held import plate_of
from panewright.shelf.load import load_shelf
from panewright.structure.panes.touch import touches

GLASS = Elastic(70e9, 0.23)
SHEETS = [row.part for row in load_shelf().sheets if row.part.material == "glass" and not row.part.plies]


def in_full(plate, force_n, pressure_pa):
    places = (0.0, 0.0), (0.0, plate.short_mm / 2 - 150)
    pressings = (Pressing(pressure_pa, (Patch(force_n, *place),)) for place in places)
    return [bend_supported(Supported(plate), each) for each in pressings]


@settings(deadline=None, max_examples=25)
@given(
    st.floats(1.0, 5.0),
    st.floats(300.0, 1330.0),
    st.floats(2.8, 8.0),
    st.floats(100, 1500),
    st.floats(0, 0.3),
)
@example(1.0, 300.0, 2.8, 1500.0, 0.0)
@example(1.0, 1330.0, 4.0, 1500.0, 0.4)
@example(5.0, 1330.0, 4.0, 1500.0, 0.0)
@example(5.0, 300.0, 8.0, 100.0, 0.4)
@example(1.5, 700.0, 8.0, 10.0, 0.4)
def test_it_is_near_the_full_reckoning_wherever_it_says_something(aspect, short_mm, thick_mm, force_n, share):
    plate = Plate(aspect * short_mm, short_mm, thick_mm, GLASS)
    pressure_pa = share * force_n / (short_mm * 1e-3) ** 2
    near = touched_mpa(plate, force_n, 100.0, pressure_pa)
    full = in_full(plate, force_n, pressure_pa)
    if near is None:
        assert force_n / (plate.load_unit_pa * (short_mm * 1e-3) ** 2) > 25 or not all(b.known for b in full)
        return
    assert all(bent.known for bent in full)
    for quick, bent in zip(near, full, strict=True):
        assert quick == pytest.approx(bent.worst_mpa, rel=OFF)


def test_it_says_nothing_of_what_it_was_not_reckoned_for():
    pane = Plate(1500, 700, 4.0, GLASS)
    assert touched_mpa(pane, 750, 100, 100) is not None
    assert touched_mpa(Plate(5000, 700, 4.0, GLASS), 750, 100, 100) is None  # too slender
    assert touched_mpa(pane, 750, 300, 100) is None  # too wide a hand
    assert touched_mpa(pane, 750, 20, 100) is None  # too small
    assert touched_mpa(pane, 750, 100, 5000) is None  # wind rather than a hand
    assert touched_mpa(pane, 0.0, 100, 100) is None
    assert touched_mpa(pane, 50e3, 100, 100) is None
    assert touched_mpa(Plate(1500, 700, 4.0, Elastic(2.4e9, 0.38)), 750, 100, 100) is None  # plastic
    assert touched_mpa(Plate(400, 300, 10.0, Elastic(70e9, 0.23)), 2e6, 100, 0) is None  # bends too far


@pytest.mark.parametrize("sheet", SHEETS[:3], ids=lambda sheet: sheet.name)
@pytest.mark.parametrize(("long_mm", "short_mm"), [(736, 704), (718, 385), (1524, 697), (1820, 375)])
@pytest.mark.parametrize("family", ["EN", "ASCE"])
def test_looking_at_the_worse_place_alone_finds_what_looking_at_both_finds(
    sheet, long_mm, short_mm, family, monkeypatch
):
    pane, touch = Pane(long_mm, short_mm, sheet), touches(family)[-2]
    held = Supported(plate_of(pane, family, touch.duration_s))
    told = verdict.worst_touch(held, pane, touch, 100.0)
    monkeypatch.setattr(verdict, "touched_mpa", lambda *_: None)
    assert verdict.worst_touch(held, pane, touch, 100.0).worst_mpa == told.worst_mpa


def test_the_room_left_is_more_than_it_is_off():
    assert verdict._AWAY > OFF
