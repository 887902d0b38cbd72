"""What goes in at which step: every step that takes something names it, every kind is asked for somewhere."""

from pathlib import Path

import pytest

from panewright import desk
from panewright.desk.orders.form import edited
from panewright.pack.steps.material import KINDS, kind_of


def steps_of(text):
    return {each.key: each.material for each in desk.steps(desk.design(text, "x"))}


@pytest.fixture(scope="module")
def jetty():
    return (Path(__file__).parents[2] / "examples" / "jetty.toml").read_bytes()


def test_cells_come_first_and_the_bead_is_laid_where_the_pane_is_set(jetty):
    found = steps_of(jetty)
    assert found["sort-cells"] == ("cells",)
    assert found["set-pane"][0] == "silicone"
    assert "ribbon" in found["tab-cells"]
    assert found["cure-bead"] == found["polarity"] == found["label"] == ()


@pytest.mark.parametrize(
    ("asked", "kind"), [("silicone pour", "encapsulant"), ("film", "film"), ("air gap", "sheet")]
)
def test_what_encapsulates_is_what_the_order_asks(jetty, asked, kind):
    text = edited(jetty.decode(), "parts.encapsulation", asked)
    assert kind in steps_of(text.encode())["encapsulate"]


def test_welded_corners_take_no_fasteners(jetty):
    assert steps_of(jetty)["join-frame"] == ("fasteners",)
    welded = edited(edited(jetty.decode(), "parts.corner_fastener", ""), "parts.corner", "welded")
    assert steps_of(welded.encode())["join-frame"] == ()


def test_every_kind_is_asked_for_and_every_word_means_a_kind(jetty):
    asked = {kind for kinds in steps_of(jetty).values() for kind in kinds} | {"film", "fasteners"}
    assert asked == set(KINDS)
    assert {kind_of(kind) for kind in KINDS} == set(KINDS)
