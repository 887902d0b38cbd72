"""A column whose sign is turned, and a reference cell's column whose scale a maker says."""

from __future__ import annotations

import pytest

from panewright.desk.lots.looked import columns, looked, settled
from panewright.desk.lots.table import look
from panewright.errors import SheetError

TURNED = b"No;Isc [A];Uoc [mV];Ref cell [mV]\n1;-8,40;-611;60,0\n2;-8420 mA;-608;48,0\n3;-8,31;-609;60 mV\n"


def test_a_kept_mapping_turns_signs_and_scales_a_reference_cell_s_millivolts():
    proposed = look(TURNED, "lot.csv").text
    assert proposed.count("turned = true takes them so") == 2
    assert 'quantity = \\"irradiance_w_m2\\", full_sun = ' in proposed
    text = proposed.replace('unit = "A"', 'unit = "A"\nturned = true')
    text = text.replace('unit = "mV"', 'unit = "mV"\nturned = true')
    text = text.replace('quantity = ""', 'quantity = "irradiance_w_m2"\nfull_sun = 60.0')
    found = look(TURNED, "lot.csv", text)
    rows = found.read()
    assert not rows.bad
    assert rows.figures["isc_a"] == pytest.approx([8.40, 8.42, 8.31])
    assert rows.figures["voc_v"] == pytest.approx([0.611, 0.608, 0.609])
    assert rows.figures["irradiance_w_m2"] == pytest.approx([1000, 800, 1000])
    assert look(TURNED, "lot.csv", found.text).mapping == found.mapping
    assert not found.mapping.doubts
    said = [str(each) for each in found.mapping.bound]
    assert said[1].startswith("Isc [A]: short-circuit current in A, its sign turned (")
    assert said[3].startswith("Ref cell [mV]: light of the moment, 60 mV is full sun (")


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("full_sun = 0", "of the wrong kind"),
        ('unit = "mV"', "write full_sun, what the cell shows in 1000 W/m2"),
        ('unit = "W/m2"\nfull_sun = 60', "and no unit"),
        ('turned = "yes"', "of the wrong kind"),
    ],
)
def test_a_scale_that_is_none_is_told_with_its_column(key, told):
    text = look(TURNED, "lot.csv").text.replace('quantity = ""', f'quantity = "irradiance_w_m2"\n{key}')
    with pytest.raises(SheetError, match=r"column 4") as mistake:
        look(TURNED, "lot.csv", text)
    assert told in str(mistake.value)


def test_what_is_not_a_current_voltage_power_or_light_has_no_sign_to_turn():
    text = look(TURNED, "lot.csv").text.replace('quantity = "mark"', 'quantity = "mark"\nturned = true')
    with pytest.raises(SheetError, match="no sign to turn"):
        look(TURNED, "lot.csv", text)


def test_a_page_asks_for_sign_and_full_sun_where_they_matter_and_keeps_what_is_said():
    first = looked(TURNED, "lot.csv")
    shown = columns(first.text, first.samples)
    assert [each.may_turn for each in shown] == [False, True, True, False]
    assert [each.may_scale for each in shown] == [False, False, False, True]
    form = {f"quantity-{each.number}": each.quantity for each in shown}
    form |= {f"unit-{each.number}": each.unit for each in shown}
    text = settled(first.text, {**form, "turned-2": "yes", "turned-3": "yes", "sun-4": "60,0"})
    rows = looked(TURNED, "lot.csv", text).rows
    assert rows.figures["isc_a"] == pytest.approx([8.40, 8.42, 8.31])
    assert rows.figures["irradiance_w_m2"] == pytest.approx([1000, 800, 1000])
    again = columns(text, first.samples)
    assert [again[3].full_sun, again[1].turned, again[3].quantity] == ["60", True, "irradiance_w_m2"]
    back = {f"quantity-{each.number}": each.quantity for each in again}
    back |= {f"unit-{each.number}": each.unit for each in again}
    assert settled(text, {**back, "turned-2": "yes", "turned-3": "yes", "sun-4": "60"}) == text
    with pytest.raises(SheetError, match="more than nothing in full sun"):
        settled(text, {**back, "sun-4": "-60"})
