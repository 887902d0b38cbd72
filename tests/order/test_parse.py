"""What a sound order becomes: values in SI and mm, defaults as assumptions, open things left open."""

from dataclasses import replace
from decimal import Decimal
from time import process_time

import pytest

from panewright.glass.pane import Plies
from panewright.order.parse import parse_order
from panewright.order.schema import CELL_IN_FULL, KEYS, SECTIONS, keys_of
from panewright.order.schema_mounting import BELONGS
from panewright.order.sections.closing import BELONGS as OF_ONE_KIND
from panewright.order.sections.in_full import IN_FULL
from panewright.order.template import stated, template
from panewright.shelf.key import Fault
from panewright.shelf.load import load_shelf

ONE_WAY = {f"mounting.{key}" for keys in BELONGS.values() for key in keys}  #: go with a way of mounting
NO_POUR = {key for kind in ("film", "air gap") for key in OF_ONE_KIND[kind]}  #: go with another encapsulation
SHORT = """
[order]
name = "Trial"
[load]
battery = "agm"
battery_voltage = "12 V"
controller = "direct"
controller_most = "30 V"
[cell]
name = "156 mm poly"
[site]
wind = "26 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.8 kPa"
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "35 deg"
"""
IN_PLACE_OF_A_NAME = """width = "6 1/8 in"
length = "156 mm"
circle = "200 mm"
busbars = 3
isc = "8,57 A"
voc = "622 mV"
imp = "8.05 A"
vmp = "0.507 V"
front = "plus"
"""
DESCRIBED = SHORT.replace('name = "156 mm poly"\n', IN_PLACE_OF_A_NAME)


def parsed(text=SHORT, **sections):
    """The short order with further lines in its sections."""
    for section, lines in sections.items():
        text = (
            text.replace(f"[{section}]\n", f"[{section}]\n{lines}\n")
            if f"[{section}]" in text
            else (f"{text}[{section}]\n{lines}\n")
        )
    return parse_order(text, "trial.toml", load_shelf())


def assumed(order):
    return {assumption.key: assumption.value for assumption in order.assumptions}


def test_the_text_is_kept_with_the_order():
    assert parsed().text == SHORT


def test_stated_values_come_out_in_si_and_millimetres():
    order = parsed(site='altitude = "1000 ft"', layout='cell_gap = "1/8 in"', money='overhead = "12.5 %"')
    assert (order.site.wind.speed_m_s, order.site.ground_snow_pa, order.site.record_cold_c) == (
        26.0,
        800.0,
        -14.0,
    )
    assert (order.site.altitude_m, order.wishes.cell_gap_mm) == (304.8, 3.175)
    assert order.money.overhead == Decimal("0.125")


def test_every_default_is_an_assumption_with_its_reason():
    order = parsed()
    assert assumed(order) == {
        "crate.border": "no",
        "crate.fragility": "delicate",
        "crate.handling": "ordinary",
        "crate.lay": "on edge",
        "crate.most_mass": "30 kg",
        "order.number": "1",
        "order.customer": "",
        "order.maker": "",
        "order.panels": "1",
        "order.serial": "0001",
        "order.currency": "EUR",
        "order.units": "metric",
        "order.paper": "A4",
        "load.battery_temperature": "25 degC",
        "load.controller_drop": "0.3 V",
        "load.headroom": "0 V",
        "load.cable_length": "5 m",
        "load.cable_area": "4 mm2",
        "load.blocking_drop": "0 V",
        "load.system_voltage": "the panel's own",
        "cell.cut": "whole",
        "site.code": "EN",
        "site.ground": "II",
        "site.hill": "none",
        "site.height": "5 m",
        "site.altitude": "0 m",
        "site.mounting": "free-standing",
        "site.zone": "middle",
        "site.lower_edge": "height less the panel's rise",
        "site.upper_roof": "0 m",
        "site.hail": "25 mm",
        "closing.leads": "plugs",
        "closing.near": "not told",
        "closing.shop_temperature": "23 degC",
        "layout.leads": "any",
        "layout.most_mass": "23 kg",
        "parts.front": "glass",
        "parts.corner": "mitred",
        "parts.corner_fastener": "screw M5",
        "parts.isolate": "as needed",
        "parts.held": "four sides",
        "parts.touched": "hand",
        "parts.encapsulation": "silicone pour",
        "parts.glass_from": "ordered to size",
        "parts.glass_holes": "0",
        "money.labour": "40 EUR/h",
        "money.overhead": "15 %",
        "money.margin": "20 %",
        "mounting.on": "by others",
    }
    assert all(assumption.reason for assumption in order.assumptions)


IN_WORDS = {
    "site.lower_edge",
    "closing.near",
    "load.system_voltage",
}  #: assumed as something that follows from the design, not as a figure


def test_stating_what_would_be_assumed_changes_nothing_but_the_list_of_assumptions():
    silent = parsed()
    lines = {}
    for key, value in assumed(silent).items():
        section, _, name = key.partition(".")
        if key in IN_WORDS:
            continue
        written = f"{name} = {value}" if KEYS[key].kind == "count" else f'{name} = "{value}"'
        lines[section] = lines.get(section, "") + written + "\n"
    spoken = parsed(**lines)
    assert {assumption.key for assumption in spoken.assumptions} == IN_WORDS
    parts = replace(silent.parts, other_corners=())  # what is stated is not tried otherwise
    assert replace(spoken, assumptions=silent.assumptions, text=silent.text) == replace(silent, parts=parts)


def test_what_is_left_out_without_a_default_stays_open():
    order = parsed()
    parts, wishes = order.parts, order.wishes
    assert (parts.tab, parts.bus, parts.sheet, parts.rail, parts.sealant, parts.bite_mm) == (None,) * 6
    assert (wishes.in_series, wishes.strings, wishes.columns, wishes.rows, wishes.substrings) == (None,) * 5


def test_us_units_bring_letter_paper():
    assert parsed(order='units = "us"').job.paper == "Letter"


def test_a_cell_described_in_full_becomes_one():
    cell = parsed(DESCRIBED).cell
    assert (cell.shape.width_mm, cell.shape.length_mm, cell.shape.circle_mm) == (155.575, 156.0, 200.0)
    assert (cell.nameplate.isc_a, cell.nameplate.voc_v, cell.front) == (8.57, 0.622, "plus")
    assert (cell.nameplate.isc_per_k, cell.nameplate.voc_per_k) == (0.0005, -0.0034)


def test_a_described_cell_says_what_it_assumes():
    order = parsed(DESCRIBED.replace('circle = "200 mm"\n', ""))
    assert order.cell.shape.circle_mm is None
    assert assumed(order)["cell.circle"] == "none"
    assert {"cell.busbar_width", "cell.thickness", "cell.voc_per_k", "cell.breakdown"} <= set(assumed(order))
    assert "cell.front" not in assumed(order)


@pytest.mark.parametrize(
    ("line", "parts"), [('cut = "half"', 2), ("parts = 3", 3), ('parts = 2\ncut = "half"', 2)]
)
def test_cells_are_cut_as_the_order_says(line, parts):
    assert parsed(cell=line).cell.parts == parts


def test_a_count_of_cells_stands_in_place_of_a_battery():
    text = SHORT.replace('battery = "agm"\nbattery_voltage = "12 V"\n', "cells = 60\n").replace(
        "direct", "mppt"
    )
    order = parsed(text)
    assert order.load.battery is None
    assert order.wishes.in_series == 60
    assert order.load.controller.headroom_v == 1.0


def test_a_count_of_cells_needs_no_controller():
    head, _, tail = SHORT.partition("[load]")
    order = parsed(f"{head}[load]\ncells = 36\n[cell]{tail.partition('[cell]')[2]}")
    assert order.load.controller is None


def test_the_batterys_own_voltages_win():
    order = parsed(load='absorption = "14.2 V"\nfloat = "13.5 V"\ndrift = "-5 mV/K"')
    battery = order.load.battery
    assert (battery.absorption_v, battery.float_v, battery.volts_per_k) == (14.2, 13.5, -0.005)


def test_parts_by_name_are_the_shelfs_own():
    shelf = load_shelf()
    order = parsed(parts='rail = "Angle 30x30x3 mm"\ntab = "2 x 0.2 mm"\nsealant = "neutral silicone"')
    assert order.parts.rail in [row.part for row in shelf.rails]
    assert (order.parts.tab.width_mm, order.parts.tab.thickness_mm) == (2.0, 0.2)
    assert not order.parts.sealant.structural


def test_parts_in_full_become_parts_and_say_what_they_assume():
    order = parsed(parts='glass = { thickness = "3.8 mm", treatment = "tempered" }')
    assert order.parts.sheet.thickness_mm == 3.8
    assert order.parts.sheet.density_kg_m3 == 2500.0
    assert assumed(order)["parts.glass.expansion"] == "0.0009 %/K"
    assert {"parts.glass.material", "parts.glass.transmittance", "parts.front"} <= set(assumed(order))


def test_laminated_glass_is_described_by_both_plies_and_what_binds_them():
    in_full = 'thickness = "6 mm", treatment = "tempered", interlayer = "pvb", between = "0.76 mm"'
    sheet = parsed(parts=f"glass = {{ {in_full} }}").parts.sheet
    assert sheet.plies == Plies(3.0, 3.0, 0.76, "pvb")
    assert sheet.nominal_mm == 6.76
    assert sheet.density_kg_m3 == pytest.approx((2500 * 6 + 1070 * 0.76) / 6.76)
    uneven = parsed(parts=f'glass = {{ {in_full}, ply = "2 mm" }}').parts.sheet
    assert (uneven.plies.outer_mm, uneven.plies.inner_mm) == (2.0, 4.0)
    named = parsed(parts='glass = "3 + 3 mm low-iron tempered, laminated"').parts.sheet
    assert (named.plies.outer_mm, named.plies.inner_mm) == pytest.approx((2.8, 2.8))


def test_a_named_sheet_decides_what_the_front_is():
    order = parsed(parts='glass = "3 mm cast acrylic"')
    assert order.parts.front == "acrylic"
    assert assumed(order)["parts.front"] == "acrylic"


def test_an_edition_tells_its_family():
    text = SHORT.replace('wind_code = "EN 1991-1-4"', 'wind_code = "ASCE 7-22"').replace(
        "10 min mean", "3 s gust"
    )
    order = parsed(text.replace('wind_return = "50 yr"', 'wind_risk = "II"'))
    assert (order.site.family, order.site.wind.risk_category, order.site.wind.ground) == ("ASCE", "II", "C")


def test_what_a_mounting_does_not_ask_for_is_not_assumed():
    roof = assumed(parsed(site='mounting = "roof-parallel"\n'))
    assert {key: roof[key] for key in ("site.zone", "site.roof_gap", "site.roof_edge")} == {
        "site.zone": "edge",
        "site.roof_gap": "100 mm",
        "site.roof_edge": "600 mm",
    }
    assert "site.lower_edge" not in roof


def test_a_low_edge_that_is_not_stated_follows_from_the_height():
    order = parsed(site='mounting = "pole"\n')
    assert (order.site.lower_edge_mm, order.site.wind_zone) == (None, "middle")
    assert parsed(site='lower_edge = "150 mm"\n').site.lower_edge_mm == 150.0


@pytest.mark.parametrize("kind", ["10 min mean", "1 h mean", "fastest mile"])
def test_asce_takes_a_speed_of_any_kind(kind):
    text = SHORT.replace('wind_code = "EN 1991-1-4"', 'wind_code = "ASCE 7-05"').replace("10 min mean", kind)
    assert parsed(text).site.wind.kind == kind


def test_en_takes_a_gust():
    assert parsed(SHORT.replace("10 min mean", "3 s gust")).site.wind.kind == "3 s gust"


def test_the_template_is_an_order_that_states_only_what_must_be_stated():
    order = parse_order(template(), "new.toml", load_shelf())
    assert order.job.name == "Jetty lights"
    assert set(assumed(order)) >= {
        key.dotted
        for key in KEYS.values()
        if key.default and key.section != "cell" and key.dotted not in ONE_WAY | NO_POUR
    }


def test_the_template_shows_every_key_with_its_comment():
    text = template()
    for section, words in SECTIONS.items():
        assert f"[{section}]  # {words}" in text
    for key in KEYS.values():
        assert f"{key.name} = " in text
        assert key.comment in text


MARKET = ("market_price", "market_source", "market_date")


def offered_lines(text):
    """Number, section and key of each line that the template leaves out."""
    section = ""
    for number, line in enumerate(text.splitlines()):
        if line.startswith("["):
            section = line[1:].partition("]")[0]
        elif line.startswith("# ") and " = " in line and section:
            yield number, section, line[2:].partition(" = ")[0]


def test_every_line_that_the_template_leaves_out_can_be_taken_in_alone():
    lines, shelf = template().splitlines(), load_shelf()
    only = ("roof", "roof_gap", "roof_edge", "upper_drop", "hill_height", "hill_slope")
    on_a_roof = {f"site.{name}" for name in only}  # refused where there is no such roof or hill
    in_full = (key.dotted for key in CELL_IN_FULL)
    together = {f"money.{name}" for name in ("tax", "tax_name", "prices", *MARKET)}  # one asks for the others
    in_place_of_others = {"load.cells", "site.wind_risk", *ONE_WAY, *NO_POUR, *in_full, *on_a_roof, *together}
    taken = 0
    for number, section, name in offered_lines(template()):
        if f"{section}.{name}" not in in_place_of_others:
            text = "\n".join([*lines[:number], lines[number][2:], *lines[number + 1 :]])
            assert parse_order(text, "new.toml", shelf).job.panels == 1
            taken += 1
    assert taken > 40


@pytest.mark.parametrize(
    "key", [*KEYS.values(), *(c for columns in IN_FULL.values() for c in columns)], ids=str
)
def test_every_key_can_read_its_own_example_and_default(key):
    if key.kind != "part":
        read = [key.read(value) for value in (key.example, key.default) if value is not None]
        assert read
    assert key.reason or not key.default or key.section.startswith("parts.")


@pytest.mark.parametrize("key", [key for key in KEYS.values() if key.least is not None], ids=str)
def test_bounds_hold_at_both_ends(key):
    if key.above_least:
        with pytest.raises(Fault):
            key.read(key.least)
    else:
        assert key.read(key.least) is not None
    if key.most is not None:
        assert key.read(key.most) is not None
        with pytest.raises(Fault):
            key.read(key.most + 1 if isinstance(key.most, int) else f"1{key.most}")


def test_sections_hold_all_keys():
    assert sum(len(keys_of(section)) for section in SECTIONS) == len(KEYS)
    assert all(stated(key) for key in KEYS.values() if key.required)


def test_an_order_is_read_in_less_than_a_twentieth_of_a_second():
    shelf = load_shelf()
    times = []
    for _ in range(5):
        start = process_time()
        parse_order(SHORT, "trial.toml", shelf)
        times.append(process_time() - start)
    assert min(times) < 0.05


def test_what_surrounds_the_panel_is_read_in_si_and_mm():
    hill = 'hill = "ridge"\nhill_height = "60 ft"\nhill_slope = "90 m"\n'
    site = parsed(site=hill + 'upper_roof = "6 m"\nzone = "corner"\n').site
    assert (site.hill.shape, site.hill.height_m, site.hill.slope_m) == ("ridge", pytest.approx(18.288), 90.0)
    assert (site.upper_roof_m, site.upper_drop_m, site.wind_zone) == (6.0, 3.0, "corner")
    roof = parsed(site='mounting = "roof-parallel"\nroof_gap = "4 in"\nroof_edge = "2 ft"\n').site
    assert (roof.roof_gap_mm, roof.roof_edge_mm) == pytest.approx((101.6, 609.6))


def test_a_name_that_is_too_long_is_told_with_how_long_it_may_be():
    with pytest.raises(Fault) as told:
        KEYS["order.customer"].read("x" * 81)
    assert told.value.cure == "Write no more than 80 letters, without a line break."
