"""The text of an array: what is read, what is taken for granted, and every mistake at once."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.errors import OrderError
from panewright.order.site.parse import parse_site, parse_site_bytes
from panewright.order.site.schema import EVERY, ROWS, SECTIONS
from panewright.order.site.site import ByLabel, ByOrder, BySerial, OfClearness, OfFile, OfMeans
from panewright.sky.shadow.things import Crown, Post, Slab, Wall

LABEL = """
voc = "22.4 V"
vmp = "18.2 V"
isc = "8.55 A"
imp = "8.0 A"
cells = 36
width = "670 mm"
height = "1480 mm"
"""
POST = '[[thing]]\nkind = "post"\neast = "1 m"\nnorth = "1 m"\nwidth = "1 m"\n'
LEAST = f"""[array]
name = "Hut"
[place]
latitude = "47 deg"
longitude = "9 deg"
[rules]
coldest = "-15 degC"
hottest_air = "35 degC"
[sky]
clearness = "60 %"
air = "9 degC"
[[stand]]
name = "roof"
tilt = "30 deg"
azimuth = "180 deg"
[[panel]]
count = 2
{LABEL}
[controller]
kind = "mppt"
most = "100 V"
current = "20 A"
[battery]
kind = "agm"
volts = "12 V"
capacity = "100 Ah"
"""


def told(text):
    """Every problem of a text, by its key."""
    with pytest.raises(OrderError) as found:
        parse_site(text, "hut.toml")
    return {problem.key: problem for problem in found.value.problems}


@pytest.mark.parametrize(("cells", "diodes"), [(20, 1), (36, 2), (60, 3), (72, 3), (96, 4)])
def test_diodes_of_a_label_are_as_many_as_such_panels_have(cells, diodes):
    """Two of 36 cells, three of 60 and 72: common practice, no source."""
    site = parse_site(
        LEAST.replace("cells = 36", f"cells = {cells}")
        .replace("22.4 V", f"{0.62 * cells} V")
        .replace("18.2 V", f"{0.505 * cells} V")
        .replace("1480 mm", f"{41 * cells} mm"),
        "hut.toml",
    )
    assert site.panels[0].known.label.diodes == diodes


def test_a_battery_told_wrong_asks_nothing_else_of_the_controller():
    assert set(told(LEAST.replace('capacity = "100 Ah"', "capacity = 100"))) == {"battery.capacity"}


def test_the_least_that_a_maker_writes_is_a_site():
    site = parse_site(LEAST, "hut.toml")
    assert [panel.name for panel in site.panels] == ["panel 1", "panel 2"]
    assert [(panel.column, panel.row) for panel in site.panels] == [(0, 0), (1, 0)]
    assert site.stands[0].columns == 2  # side by side where the text does not say how many
    assert site.weather == OfClearness(0.6, (9.0,) * 12)
    assert (site.strings, site.draws, site.generator) == ((), (), None)
    assert (site.rules.family, site.rules.on) == ("IEC", "dwelling")
    assert site.zone_h == 1.0
    assert all(assumed.reason for assumed in site.assumed)


def test_every_default_that_was_taken_is_told_once_with_its_key_and_value():
    site = parse_site(LEAST, "hut.toml")
    keys = [assumed.key for assumed in site.assumed]
    assert len(set(keys)) == len(keys)
    assert {"rules.on", "place.altitude", "panel 1.diodes", "panel 1.fuse", "controller.efficiency"} <= set(
        keys
    )
    assert not {"place.latitude", "panel 1.voc", "controller.most"} & set(keys)


def test_us_units_bring_the_american_rules_and_paper_and_read_feet_and_fahrenheit():
    text = LEAST.replace('name = "Hut"', 'name = "Hut"\nunits = "us"').replace('"-15 degC"', '"5 degF"')
    text = text.replace('"670 mm"', '"2 ft 2 in"')
    site = parse_site(text, "hut.toml")
    assert (site.rules.family, site.named.paper) == ("NEC", "Letter")
    assert site.rules.coldest_c == pytest.approx(-15.0)
    assert site.panels[0].known.label.width_mm == pytest.approx(660.4)


def test_three_ways_to_know_a_panel():
    more = (
        '[[panel]]\nserials = ["0042", "0043"]\n[[panel]]\norder = "../jetty.toml"\ncount = 2\nage = "3 yr"\n'
    )
    panels = parse_site(LEAST.replace("[controller]", more + "[controller]"), "hut.toml").panels
    assert [panel.name for panel in panels] == ["panel 1", "panel 2", "0042", "0043", "jetty 1", "jetty 2"]
    assert [type(panel.known) for panel in panels] == [ByLabel] * 2 + [BySerial] * 2 + [ByOrder] * 2
    assert [panel.age_years for panel in panels] == [0, 0, 0, 0, 3, 3]


def test_places_are_filled_row_by_row_on_each_stand_by_itself():
    text = LEAST.replace('azimuth = "180 deg"', 'azimuth = "180 deg"\ncolumns = 2').replace(
        "count = 2", "count = 3"
    )
    other = '[[stand]]\nname = "post"\ntilt = 45\nazimuth = 90.5\n[[panel]]\nserials = "7"\nstand = "post"\n'
    text = text.replace("count = 3", 'count = 3\nstand = "roof"').replace(
        "[controller]", other + "[controller]"
    )
    site = parse_site(text, "hut.toml")
    assert [(p.stand, p.column, p.row) for p in site.panels] == [(0, 0, 0), (0, 1, 0), (0, 0, 1), (1, 0, 0)]
    assert site.stands[1].plane.azimuth_deg == 90.5  # angles are plain without their degrees


def test_twelve_means_and_years():
    light = "0.9 1.7 2.9 4.2 5.1 5.6 5.7 4.8 3.4 2.0 1.0 0.7 kWh/m2/d"
    text = LEAST.replace('clearness = "60 %"', f'light = "{light}"\nyears = 3')
    assert parse_site(text, "hut.toml").weather == OfMeans(
        (0.9, 1.7, 2.9, 4.2, 5.1, 5.6, 5.7, 4.8, 3.4, 2.0, 1.0, 0.7), (9.0,) * 12, 3, 1
    )


def test_a_weather_file():
    text = LEAST.replace('clearness = "60 %"\nair = "9 degC"', 'weather = "hut.epw"')
    assert parse_site(text, "hut.toml").weather == OfFile("hut.epw")


def test_things_in_the_way():
    things = """
[[thing]]
kind = "post"
east = "3 m"
north = "-2 m"
height = "4 m"
width = "150 mm"
[[thing]]
kind = "crown"
east = "3 m"
north = "-9 m"
middle = "5 m"
width = "4 m"
height = "5 m"
lets_through = "15 %"
[[thing]]
kind = "wall"
east = "0 m"
north = "-5 m"
to_east = "4 m"
to_north = "-5 m"
height = "2 m"
[[thing]]
kind = "row"
east = "0 m"
north = "-3 m"
width = "6 m"
length = "1.5 m"
tilt = "30 deg"
azimuth = "180 deg"
[skyline]
points = "90 deg: 5 deg, 180 deg: 8 deg"
"""
    around = parse_site(LEAST + things, "hut.toml").around
    assert [type(thing) for thing in around.things] == [Post, Crown, Wall, Slab]
    assert around.things[1].lets_through == (0.15,) * 12
    assert around.skyline.points_deg == ((90.0, 5.0), (180.0, 8.0))


def test_loads_by_the_clock_pass_midnight_and_the_turn_of_the_year():
    load = '[[load]]\npower = "40 W"\nfrom = 22\nuntil = 2\nmonths = "11-2"\n'
    draw = parse_site(LEAST + load, "hut.toml").draws[0]
    assert [hour for hour, watts in enumerate(draw.watts) if watts] == [0, 1, 22, 23]
    assert [month for month, on in enumerate(draw.months, 1) if on] == [1, 2, 11, 12]


WRONG = {  # what is put in the place of what, the key that is told, and a word of its reason or cure
    "cold over hot": ('"-15 degC"', '"40 degC"', "rules.coldest", "Exchange"),
    "no unit": ('"-15 degC"', '"-15"', "rules.coldest", "unit"),
    "bare number": ('"-15 degC"', "-15", "rules.coldest", "without its unit"),
    "misspelt key": ("count = 2", "cuont = 2", "panel 1.cuont", "Is count meant"),
    "key elsewhere": ("count = 2", "count = 2\ntilt = 3", "panel 1.tilt", "does not belong"),
    "unknown section": ("[rules]", "[rule]", "rule", "Is rules meant"),
    "no stand": (
        '[[stand]]\nname = "roof"\ntilt = "30 deg"\nazimuth = "180 deg"',
        "",
        "stand",
        "lie nowhere",
    ),
    "too steep": ('tilt = "30 deg"', 'tilt = "100 deg"', "stand 1.tilt", "more than 90"),
    "no panel": (f"[[panel]]\ncount = 2\n{LABEL}", "", "panel", "No panel"),
    "panel of nothing": (LABEL, "", "panel 1", "does not say which"),
    "two ways": ("count = 2", 'count = 2\nserials = "1"', "panel 1.voc", "one of them is meant"),
    "half a label": ('isc = "8.55 A"\n', "", "panel 1.isc", "is missing"),
    "impossible label": ('vmp = "18.2 V"', 'vmp = "23 V"', "panel 1.voc", "is not below voc"),
    "cells in columns": ("cells = 36", "cells = 36\ncell_columns = 5", "panel 1.cell_columns", "Write 4"),
    "more diodes than cells": ("cells = 36", "cells = 36\ndiodes = 40", "panel 1.diodes", "40 diodes"),
    "unknown stand": ("count = 2", 'count = 2\nstand = "rooof"', "panel 1.stand", "Is roof meant"),
    "no weather": ('clearness = "60 %"\nair = "9 degC"', "", "sky.weather", "Nothing says"),
    "two weathers": (
        'clearness = "60 %"',
        'clearness = "60 %"\nweather = "a.epw"',
        "sky.clearness",
        "one of them",
    ),
    "eleven means": ('air = "9 degC"', 'air = "1 2 3 4 5 6 7 8 9 10 11 degC"', "sky.air", "11 figures"),
    "means too hot": ('air = "9 degC"', 'air = "99 degC"', "sky.air", "Figure 1 is 99"),
    "dirt past bounds": ('air = "9 degC"', 'air = "9 degC"\ndirt = "99 %"', "sky.dirt", "Figure 1"),
    "no such bank": ('volts = "12 V"', 'volts = "13 V"', "battery.volts", "Write one of"),
    "no current": ('current = "20 A"\n', "", "controller.current", "is missing"),
    "power beside battery": (
        'current = "20 A"',
        'current = "20 A"\npower = "1 kW"',
        "controller.power",
        "Drop power",
    ),
    "efficiency of more": (
        'most = "100 V"',
        'most = "100 V"\nefficiency = "120 %"',
        "controller.efficiency",
        "come out",
    ),
    "efficiency that falls": (
        'most = "100 V"',
        'most = "100 V"\nefficiency = "50 %: 90 %, 20 %: 95 %"',
        "controller.efficiency",
        "rise",
    ),
    "unknown panel": (
        "[battery]",
        '[[string]]\npanels = "panle 1"\n[battery]',
        "string 1.panels",
        "Is panel 1 meant",
    ),
    "panel twice": (
        "[battery]",
        '[[string]]\npanels = "panel 1, panel 1"\n[battery]',
        "string 1.panels",
        "lies in a string already",
    ),
    "input that is not there": (
        "[battery]",
        '[[string]]\npanels = "panel 1"\ninput = 3\n[battery]',
        "string 1.input",
        "has 1 input",
    ),
    "serial twice": (
        "[controller]",
        '[[panel]]\nserials = "9, 9"\n[controller]',
        "panel 2.serials",
        "named twice",
    ),
    "thing without size": (
        "[controller]",
        f"{POST}[controller]",
        "thing 1.height",
        "is missing",
    ),
    "thing upside down": (
        "[controller]",
        f'{POST}height = "1 m"\nfoot = "2 m"\n[controller]',
        "thing 1.height",
        "top over foot",
    ),
    "thing with what it has not": (
        "[controller]",
        f'{POST}height = "1 m"\ntilt = 3\n[controller]',
        "thing 1.tilt",
        "A post has no tilt",
    ),
    "skyline of words": (
        "[controller]",
        '[skyline]\npoints = "south: high"\n[controller]',
        "skyline.points",
        "direction",
    ),
    "load of no hours": (
        "[battery]",
        '[[load]]\npower = "1 W"\nfrom = 3\n[battery]',
        "load 1.until",
        "is missing",
    ),
    "load of 23 hours": (
        "[battery]",
        f'[[load]]\npower = "{"1 " * 23}W"\n[battery]',
        "load 1.power",
        "23 figures",
    ),
    "load in no month": (
        "[battery]",
        '[[load]]\npower = "1 W"\nmonths = "13"\n[battery]',
        "load 1.months",
        "13",
    ),
    "other money": ("[battery]", '[money]\nkwh = "1 USD"\n[battery]', "money.kwh", "array's money is EUR"),
    "generator back to front": (
        "[battery]",
        '[generator]\npower = "1 kW"\nstart = "80 %"\nstop = "40 %"\n[battery]',
        "generator.stop",
        "Exchange",
    ),
    "generator too late": (
        "[battery]",
        '[generator]\npower = "1 kW"\nstart = "45 %"\n[battery]',
        "generator.start",
        "cut off at 50%",
    ),
    "sizes back to front": (
        "[battery]",
        '[sizes]\nbank = "9 Ah, 3 Ah"\n[battery]',
        "sizes.bank",
        "not below",
    ),
    "half a string": ("[battery]", '[sizes]\nstrings = "1.5"\n[battery]', "sizes.strings", "counted"),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_mistake_is_told_at_its_key_with_line_reason_and_cure(case):
    old, new, key, word = WRONG[case]
    assert old in LEAST
    problem = told(LEAST.replace(old, new, 1))[key]
    assert word in f"{problem.reason} {problem.cure}"
    assert problem.file == "hut.toml"
    assert problem.cure


def test_the_line_is_that_of_the_row_that_is_wrong():
    text = LEAST + '[[load]]\npower = "1 W"\n\n[[load]] # the second\npower = "2"\n[[load]]\nfrom = 25\n'
    found, lines = told(text), text.split("\n")
    assert lines[found["load 2.power"].line - 1] == 'power = "2"'
    assert lines[found["load 3.from"].line - 1] == "from = 25"
    assert lines[found["load 3.power"].line - 1] == "[[load]]"  # which lacks it


def test_all_mistakes_are_told_at_once():
    cases = ("cold over hot", "misspelt key", "too steep", "eleven means", "no such bank", "other money")
    text = LEAST
    for case in cases:
        text = text.replace(*WRONG[case][:2], 1)
    assert {WRONG[case][2] for case in cases} <= set(told(text))


def test_without_a_battery_loads_sizes_and_direct_controllers_make_no_sense():
    bare = LEAST[: LEAST.index("[battery]")]
    found = told(bare + '[[load]]\npower = "1 W"\n[sizes]\nstrings = "1"\n[generator]\npower = "1 kW"\n')
    assert {
        "load 1",
        "sizes",
        "generator",
        "controller.current",
        "controller.power",
        "controller.least",
    } <= set(found)
    assert "controller.kind" in told(bare.replace('"mppt"', '"direct"'))
    good = bare.replace('current = "20 A"', 'power = "1 kW"\nleast = "40 V"\ninput_current = "20 A"')
    assert parse_site(good, "hut.toml").bank is None


def test_sections_of_several_may_be_written_once_or_inline():
    once = LEAST.replace("[[stand]]", "[stand]").replace("[[panel]]", "[panel]")
    assert parse_site(once, "hut.toml").panels == parse_site(LEAST, "hut.toml").panels
    inline = 'string = [{ panels = ["panel 1"] }, { panels = "panel 2" }]\n' + LEAST
    assert [string.panels for string in parse_site(inline, "hut.toml").strings] == [(0,), (1,)]


@pytest.mark.parametrize(
    "text", ["", "  \n", "[array", "= 3", "array = 3", "[[array]]\nname = 1", "panel = 3"]
)
def test_what_is_no_text_of_an_array_is_told(text):
    assert told(text)


def test_bytes_that_are_no_text_are_told():
    with pytest.raises(OrderError):
        parse_site_bytes(b"\0\1\2", "hut.toml")


KEYS = list(EVERY)
STRANGE = st.one_of(
    st.text(max_size=20).map(lambda text: "'" + text.replace("'", "").replace("\n", "") + "'"),
    st.sampled_from(
        ["3", "-1", "0.5", "true", "[]", "{}", "[1, 2]", '["a", 1]', "nan", "1979-05-27", '"-5 %"', '"1e9 m"']
    ),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(KEYS), STRANGE), min_size=1, max_size=6))
def test_any_value_at_any_key_is_read_or_told_and_never_breaks(pairs):
    text = LEAST
    for key, value in {each.dotted: (each, value) for each, value in pairs}.values():
        head = f"[[{key.section}]]" if key.section in ROWS else f"[{key.section}]"
        lines = [line for line in text.split("\n") if not line.startswith(f"{key.name} = ")]
        at = next((n for n, line in enumerate(lines) if line == head), None)
        new = f"{key.name} = {value}"
        lines = [*lines[: at + 1], new, *lines[at + 1 :]] if at is not None else [*lines, head, new]
        text = "\n".join(lines)
    try:
        said = bool(parse_site(text, "hut.toml").panels)
    except OrderError as mistake:
        said = all(problem.reason and problem.cure for problem in mistake.problems)
    assert said


def test_every_section_has_keys_and_every_key_an_example_that_it_reads():
    assert {key.section for key in EVERY} == set(SECTIONS)
    for key in EVERY:
        assert key.comment
        if key.example != "":
            key.read(key.example)
        if key.default is not None:
            key.read(key.default)
            assert key.reason
