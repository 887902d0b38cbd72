"""What carries the panel: keys of one way only, a timber of the order's rule book, and nothing silently
passed over."""

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.order.schema_mounting import BELONGS
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
HEAD = """
order = { name = "Trial" }
load = { cells = 36 }
cell = { name = "125 mm mono" }
"""
SITE = """
[site]
wind_code = "EN 1991-1-4"
wind = "25 m/s"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.7 kPa"
record_cold = "-18 degC"
record_heat = "35 degC"
tilt = "45 deg"
"""
ASCE = SITE.replace("EN 1991-1-4", "ASCE 7-16").replace("10 min mean", "3 s gust")
ASCE = ASCE.replace('wind_return = "50 yr"', 'wind_risk = "II"')

TUBE = 'on = "post"\npost = { shape = "round", outer = "30 mm", length = "3 m"'


def parsed(mounting, site=SITE):
    return parse_order(f"{HEAD}{site}\n[mounting]\n{mounting}\n", "trial.toml", SHELF)


def told(mounting, site=SITE):
    with pytest.raises(OrderError) as mistake:
        parsed(mounting, site)
    return {problem.key: problem for problem in mistake.value.problems}


def assumed(order):
    return {one.key: one.value for one in order.assumptions if one.key.startswith("mounting")}


def test_left_out_it_is_by_others_and_says_so():
    order = parsed("")
    assert order.mounting.on == "by others"
    assert assumed(order) == {"mounting.on": "by others"}
    assert (order.mounting.timber, order.mounting.post, order.mounting.ballast) == (None, None, None)


def test_each_way_assumes_only_what_belongs_to_it():
    for way, keys in BELONGS.items():
        found = assumed(parsed(f'on = "{way}"'))
        assert set(found) <= {f"mounting.{key}" for key in keys}
        assert found


def test_timber_follows_the_rule_book():
    assert parsed('on = "timber"').mounting.timber.species == "C24"
    assert parsed('on = "timber"', ASCE).mounting.timber.species == "spruce-pine-fir"
    problem = told('on = "timber"\ntimber = "hem-fir"')["mounting.timber"]
    assert "no timber of the EN rules" in problem.reason
    assert "C24" in problem.cure


def test_a_screw_is_named_or_described_in_full():
    named = parsed('on = "timber"\nscrew = "coach screw 8 x 80 mm, stainless A2"').mounting.timber.screw
    full = 'on = "timber"\nscrew = { kind = "bolt", diameter = "10 mm", length = "140 mm" }'
    bolt = parsed(full).mounting.timber.screw
    assert (named.diameter_mm, named.length_mm) == (8.0, 80.0)
    assert (bolt.kind, bolt.diameter_mm) == ("bolt", 10.0)
    assert "no long nail" in told('on = "timber"\nscrew = "long nail"')["mounting.screw"].reason


@pytest.mark.parametrize(
    ("mounting", "key", "words"),
    [
        ('collar = "300 mm"', "mounting.collar", "mounted by others"),
        ('on = "timber"\nblocks = 4', "mounting.blocks", "goes with"),
        ('on = "roof ballast"\nsoil = "sand"', "mounting.soil", "goes with"),
        ('on = "ground ballast"\nsurface = "bitumen"', "mounting.surface", "goes with"),
        ('on = "air"', "mounting.on", "none of the choices"),
        ('on = "post"\nembedment = "40 m"', "mounting.embedment", "more than"),
        ('on = "post"\nembedment = 3', "mounting.embedment", "without its unit"),
        ('on = "timber"\nscrews = 9', "mounting.screws", "more than"),
        ('bracket = "tin bracket"', "mounting.bracket", "no tin bracket"),
        (
            'on = "post"\npost = { shape = "round", outer = "60 mm", length = "3 m" }',
            "mounting.post",
            "a metal",
        ),
        (
            'on = "post"\npost = { shape = "timber", outer = "9 cm", length = "3 m" }',
            "mounting.post",
            "a timber",
        ),
        (
            f'{TUBE}, wall = "16 mm", metal = "S235" }}',
            "mounting.post",
            "thinner than half",
        ),
        ('on = "ground ballast"\nfriction = "140 %"', "mounting.friction", "more than"),
        (
            'on = "ground ballast"\nblock = { mass = "0 kg", long = "1 m", short = "1 m", high = "1 m" }',
            "mounting.block.mass",
            "less",
        ),
    ],
)
def test_what_is_wrong_is_told_at_its_key(mounting, key, words):
    problem = told(mounting)[key]
    assert words in problem.reason
    assert problem.cure
    assert problem.line


@pytest.mark.parametrize("way", ["post", "ground ballast", "roof ballast"])
def test_a_panel_on_a_wall_does_not_stand_on_a_post(way):
    problem = told(f'on = "{way}"', SITE + 'mounting = "wall"\n')["mounting.on"]
    assert "stands free" in problem.reason


def test_friction_is_the_ground_s_own_or_measured():
    assert parsed('on = "ground ballast"\nsoil = "sand"', ASCE).mounting.ballast.friction == 0.25
    measured = parsed('on = "roof ballast"\nfriction = "52 %"').mounting.ballast
    assert measured.friction == pytest.approx(0.52)
    assert measured.friction_source == "stated by the order"


@pytest.mark.parametrize(
    ("way", "mounting", "words"),
    [
        ("roof ballast", "free-standing", "lies on a roof"),
        ("roof ballast", "pole", "lies on a roof"),
        ("ground ballast", "flat roof", "stands on the ground"),
        ("post", "flat roof", "stands on the ground"),
    ],
)
def test_roof_and_open_ground_are_not_mixed(way, mounting, words):
    problem = told(f'on = "{way}"', f'{SITE}mounting = "{mounting}"\n')["mounting.on"]
    assert words in problem.reason
    assert "site.mounting" in problem.cure


@pytest.mark.parametrize(("site", "zone"), [(SITE, "middle"), (ASCE, "corner")])
def test_roof_ballast_stands_on_a_flat_roof(site, zone):
    found = parsed('on = "roof ballast"', site).site
    assert (found.mounting, found.zone, found.lower_edge_mm) == ("flat roof", zone, 300.0)


def test_a_stand_on_a_flat_roof_may_be_carried_by_others():
    found = parsed("", f'{ASCE}mounting = "flat roof"\nroof_edge = "2 m"\n')
    assert (found.site.mounting, found.site.roof_edge_mm) == ("flat roof", 2000.0)


def test_the_shape_of_a_roof_is_known_or_the_worse_is_taken():
    roof = 'mounting = "roof-parallel"\n'
    assert parsed("", SITE + roof).site.roof is None
    assert parsed("", f'{SITE}{roof}roof = "monopitch"\n').site.roof == "monopitch"
    assert "belongs to a roof-parallel" in told("", f'{SITE}roof = "duopitch"\n')["site.roof"].reason
