"""A new array from a form: its text is a site, and each mistake stands beside its field."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.desk.arrays.form import GROUPS, text_of, wrong
from panewright.errors import OrderError
from panewright.order.site.parse import parse_site

SAID = {
    "array.name": 'Ölaf\'s "quay"',
    "place.latitude": "47,6",
    "place.longitude": "9 deg",
    "rules.coldest": "-18",
    "rules.hottest_air": "97 degF",
    "rules.on": "open ground",
    "rules.family": "IEC",
    "sky.clearness": "65",
    "sky.air": "0 1 5 9 14 17 19 18 14 10 5 1",
    "stand.tilt": "30",
    "stand.azimuth": "170",
    "stand.mounting": "open",
    "panel.order": "JL-7",
    "panel.count": "4",
    "label.name": "old",
    "label.count": "2",
    "label.voc": "22.4",
    "label.vmp": "18.2",
    "label.isc": "8.55",
    "label.imp": "8",
    "label.cells": "36",
    "label.width": "670",
    "label.height": "4 ft 10 in",
    "controller.kind": "mppt",
    "controller.most": "100",
    "controller.current": "30",
    "battery.kind": "agm",
    "battery.volts": "24",
    "battery.capacity": "200",
    "load.power": "40",
    "load.from": "18",
    "load.until": "23",
}


def test_what_was_answered_is_the_site():
    site = parse_site(text_of(SAID), "x.toml")
    assert site.named.name == 'Ölaf\'s "quay"'
    assert site.place.latitude_deg == pytest.approx(47.6)
    assert site.rules.hottest_air_c == pytest.approx((97 - 32) / 1.8)
    assert [panel.name for panel in site.panels] == ["JL-7 1", "JL-7 2", "JL-7 3", "JL-7 4", "old 1", "old 2"]
    assert site.panels[4].known.label.height_mm == pytest.approx(58 * 25.4)
    assert site.draws[0].watts[18:23] == (40.0,) * 5


def test_without_a_battery_what_belongs_to_one_is_left_out():
    text = text_of({**SAID, "battery.kind": ""})
    assert "battery" not in tomllib.loads(text)
    assert "load" not in tomllib.loads(text)
    assert "current" not in tomllib.loads(text)["controller"]


@pytest.mark.parametrize(
    ("changed", "fields"),
    [
        ({"place.latitude": "north"}, {"place.latitude"}),
        ({"rules.coldest": ""}, {"rules.coldest"}),
        ({"label.vmp": "30", "stand.tilt": "120"}, {"label.voc", "stand.tilt"}),
        ({"battery.volts": "13", "controller.most": "2000"}, {"battery.volts", "controller.most"}),
        ({"load.until": ""}, {"load.until"}),
        ({"panel.count": "many"}, {"panel.count"}),
        ({"label.cells": ""}, {"label.cells"}),
        ({"sky.air": "0 1 5"}, {"sky.air"}),
    ],
)
def test_each_mistake_stands_beside_its_field(changed, fields):
    typed = {**SAID, **changed}
    with pytest.raises(OrderError) as refused:
        parse_site(text_of(typed), "x.toml")
    assert fields <= set(wrong(typed, refused.value.problems))


def test_no_panel_at_all_is_told_at_the_serials():
    typed = {key: value for key, value in SAID.items() if not key.startswith(("panel.", "label."))}
    with pytest.raises(OrderError) as refused:
        parse_site(text_of(typed), "x.toml")
    assert set(wrong(typed, refused.value.problems)) == {"panel.serials"}


@given(st.dictionaries(st.sampled_from([f.key for g in GROUPS for f in g.fields]), st.text(max_size=30)))
def test_whatever_is_typed_is_toml(typed):
    tomllib.loads(text_of(typed))
