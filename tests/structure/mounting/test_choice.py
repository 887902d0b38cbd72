"""What the tool takes where the order leaves it open, for each way of mounting and each rule book."""

from dataclasses import replace

import pytest

from panewright.frame.support.bracket import Bracket
from panewright.frame.support.post import Post
from panewright.frame.support.wood_screw import WoodScrew
from panewright.shelf.load import load_shelf
from panewright.structure.mounting.choice import prove, shelf_brackets
from panewright.structure.mounting.forces import BracketForces, Panel, Wind
from panewright.structure.mounting.wish import BallastWish, Mounting, PostWish, TimberWish

SHELF = load_shelf()
FORCES = BracketForces(up_n=450.0, down_n=450.0, along_n=20.0, along_snow_n=120.0, along_rest_n=27.0)
WINDS = (Wind(1300.0, 870.0, 0.25, 0.25), Wind(-1300.0, -870.0, -0.25, 0.25))
EN = Panel("EN", 35.0, 800.0, 1200.0, 14.0, WINDS, 800.0, 500.0)
ASCE = replace(EN, family="ASCE", winds=(Wind(870.0, 870.0, 0.125, 0.2), Wind(-870.0, -870.0, 0.125, 0.2)))
ANGLE = Bracket("bracket, aluminium 40 mm, 6 mm thick", 40.0, 6.0, 40.0, "6063-T6")
TIMBER = {"EN": TimberWish("C24", True, 100.0, 100.0), "ASCE": TimberWish("hem-fir", True, 100.0, 100.0)}
POST = PostWish(None, 1500.0, 300.0, None, "sand")
BALLAST = BallastWish("sand", 0.35, "table", None, None, None, 1500.0, 150.0, None)


def proved(panel, mounting, units="metric"):
    return prove(mounting, ANGLE, panel, FORCES, brackets=4, shelf=SHELF, units=units)


def failed(proof):
    return [str(check) for check in proof.checks if not check.passed]


@pytest.mark.parametrize("panel", [EN, ASCE], ids=["EN", "ASCE"])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_each_way_is_proven_with_parts_of_the_shelf(panel, units):
    names = {
        row.name for rows in (SHELF.wood_screws, SHELF.posts, SHELF.blocks, SHELF.sundries) for row in rows
    }
    for mounting in (
        Mounting("timber", timber=TIMBER[panel.family]),
        Mounting("steel", support_wall_mm=3.0),
        Mounting("post", post=POST),
        Mounting("ground ballast", ballast=BALLAST),
    ):
        proof = proved(panel, mounting, units)
        assert failed(proof) == []
        assert {part.name for part in proof.parts} - names <= {"concrete round the post"}
        assert all(part.count > 0 for part in proof.parts)


def test_by_others_proves_the_brackets_alone():
    proof = proved(EN, Mounting())
    assert {check.rule.split(",")[0] for check in proof.checks} == {
        "bracket leg bending",
        "bracket leg shear",
    }
    assert proof.parts == ()


def test_a_roof_is_never_assumed_to_bear():
    roof = Mounting("roof ballast", ballast=replace(BALLAST, surface="bitumen"))
    assert [check.rule for check in proved(EN, roof).checks if not check.passed] == [
        "pressure under the blocks"
    ]
    stated = Mounting("roof ballast", ballast=replace(BALLAST, bearing_pa=200e3))
    assert failed(proved(EN, stated)) == []


def test_what_the_order_pins_is_judged_and_not_replaced():
    thin = WoodScrew("thin", "coach screw", 4.0, 40.0)
    proof = proved(EN, Mounting("timber", timber=replace(TIMBER["EN"], screw=thin, screws=1)))
    assert (proof.screwed.screw, proof.screwed.screws) == (thin, 1)
    assert failed(proof)
    stick = Post("stick", "round", 21.3, 2.0, 3000.0, "S235")
    proof = proved(EN, Mounting("post", post=replace(POST, post=stick, embedment_mm=400.0)))
    assert (proof.standing.post, proof.standing.embedment_mm) == (stick, 400.0)
    assert any("post bending" in words for words in failed(proof))
    proof = proved(EN, Mounting("ground ballast", ballast=replace(BALLAST, blocks=2)))
    assert proof.blocks == 2
    assert any("sliding" in words for words in failed(proof))


def test_a_height_from_the_top_edge_leaves_half_the_rise_below_it():
    proof = proved(EN, Mounting("post", post=replace(POST, height_mm=2000.0, from_top=True)))
    assert proof.standing.height_mm == pytest.approx(2000 - EN.rise_mm / 2, abs=0.5)


def test_an_upright_panel_on_ballast_has_a_footprint_of_half_its_height():
    proof = proved(replace(EN, tilt_deg=90.0), Mounting("ground ballast", ballast=BALLAST))
    assert proof.stand.depth_mm >= 600


def test_heavier_wind_takes_stouter_parts():
    storm = replace(EN, winds=(Wind(3000.0, 2000.0, 0.25, 0.25), Wind(-3000.0, -2000.0, -0.25, 0.25)))
    for mounting, size in (
        (Mounting("post", post=POST), lambda proof: proof.standing.post.kg_m),
        (Mounting("ground ballast", ballast=BALLAST), lambda proof: proof.blocks * proof.block.mass_kg),
    ):
        assert size(proved(storm, mounting)) > size(proved(EN, mounting))


def test_brackets_of_the_shelf_are_pieces_of_angle():
    brackets = [row.part for row in shelf_brackets(SHELF)]
    assert [bracket.wall_mm for bracket in brackets] == [4.0, 6.0, 8.0, 10.0]
    assert {(bracket.leg_mm, bracket.length_mm) for bracket in brackets} == {(40.0, 40.0)}
