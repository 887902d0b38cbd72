"""Each way to join the corners, from the order to the parts, the hours and the words of the book."""

from dataclasses import dataclass

import pytest

from panewright.drawing.sheet import Words
from panewright.layup.drawn.rim import butted, ring
from panewright.order.parse import parse_bytes
from panewright.pack.bench import Bench
from panewright.pack.pages.frame import corner_words, frame_pages
from panewright.pack.steps.close import close_back
from panewright.pack.steps.frame import assemble_frame, cut_rails
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.price.offers.quote import Quote, quote
from panewright.shelf.load import load_shelf

ORDER = """
order = {{ name = "Corner trial" }}
load = {{ cells = 12 }}
cell = {{ name = "125 mm mono" }}
money = {{ labour = "40 EUR/h" }}
parts = {{ {parts} }}

[site]
wind_code = "EN 1991-1-4"
wind = "24 m/s"
wind_kind = "10 min mean"
wind_return = "50 yr"
ground = "{ground}"
snow = "0.7 kPa"
record_cold = "-14 degC"
record_heat = "35 degC"
tilt = "35 deg"
"""


@dataclass(frozen=True)
class Made:
    """An order as far as its quote."""

    design: Design
    quote: Quote

    @property
    def parts(self):
        return {line.name.split(",")[0].split(" x ")[0]: float(line.one) for line in self.quote.lines}

    @property
    def work(self):
        return {work.step.split(",")[0]: float(work.count) for work in self.quote.work}

    @property
    def bench(self):
        return Bench(self.design, self.quote)


@pytest.fixture(scope="module")
def made():
    shelf, kept = load_shelf(), {}

    def make(parts, ground="II"):
        if (parts, ground) not in kept:
            text = ORDER.format(parts=parts, ground=ground).encode()
            design = design_panel(parse_bytes(text, "order.toml", shelf), shelf)
            kept[parts, ground] = Made(design, quote(design, shelf))
        return kept[parts, ground]

    return make


def rules(design):
    return {check.rule: check for check in design.checks}


def test_mitred_corners_take_clips_and_two_screws_in_each_leg(made):
    parts, work = made('corner = "mitred"').parts, made('corner = "mitred"').work
    assert (parts["corner cleat"], parts["screw M5"]) == (4, 16)
    assert work["Join the corners and square the frame"] == 4
    assert "Cut back the seats" not in work


def test_the_clip_that_was_proved_is_the_one_bought_drilled_for_and_told(made):
    mitred = made('corner = "mitred"')
    clip = mitred.design.structural.frame.joint.clip
    assert clip.name in {line.name for line in mitred.quote.lines}
    assert clip.name in {name for name, _ in mitred.design.structural.mass.parts}
    ends = {min(hole.along_mm for hole in mitred.design.structural.frame.corner_holes)}
    assert ends == {clip.from_end_mm}
    assert f"{mitred.bench.size(clip.wall_mm)} thick" in corner_words(mitred.bench)
    held = [check for check in mitred.design.checks if check.rule.startswith("corner clip at its hole")]
    assert len(held) == 4
    assert all(check.passed for check in held)


def test_lapped_corners_take_the_same_and_four_seats_cut_back(made):
    lapped = made('corner = "lapped"')
    assert (lapped.parts["corner cleat"], lapped.parts["screw M5"]) == (4, 16)
    assert lapped.work["Cut back the seats"] == 4
    assert "ends square" in cut_rails(lapped.bench).do
    assert "Cut back the seats" in cut_rails(lapped.bench).do
    assert "lapped" in corner_words(lapped.bench)
    mitred = made('corner = "mitred"').design.structural.frame
    wall = lapped.design.structural.rail.wall_mm
    assert lapped.design.structural.frame.rail_length_mm == pytest.approx(mitred.rail_length_mm - 4 * wall)


def test_welded_corners_take_filler_and_a_welder_and_no_clip(made):
    welded = made('corner = "welded"')
    assert not {"corner clip", "corner cleat", "screw M5"} & set(welded.parts)
    assert welded.parts["aluminium filler rod 2.4 mm"] == pytest.approx(0.024)
    assert welded.work["Weld the corners"] == 4
    assert "weld" in assemble_frame(welded.bench).do
    assert "Welding" in assemble_frame(welded.bench).caution
    assert "corner weld, in wind and snow, long rail" in rules(welded.design)
    assert not any("screw" in rule for rule in rules(welded.design))


@pytest.mark.parametrize(
    ("fastener", "part", "clip"),
    [
        ("rivet 4.8 aluminium", "blind rivet 4.8", "corner cleat"),
        ("rivet 4.8 stainless", "blind rivet 4.8", "corner clip"),
        ("tapping screw 5.5", "tapping screw 5.5", "corner cleat"),
        ("screw 10-24", "screw #10-24", "corner cleat"),
    ],
)
def test_another_fastener_is_bought_drilled_for_and_proved(made, fastener, part, clip):
    other = made(f'corner_fastener = "{fastener}"')
    assert (other.parts[part], other.parts[clip]) == (16, 4)
    assert any(rule.startswith("corner ") and "in shear, in wind" in rule for rule in rules(other.design))
    said = assemble_frame(other.bench).do
    assert ("rivet a clip" in said) is fastener.startswith("rivet")
    assert "in each leg" in said


def test_the_open_coast_buys_washers_for_every_stainless_fastener(made):
    coast = made('corner = "mitred"', "0")
    brackets = coast.design.structural.frame.holes("bracket")
    assert coast.parts["nylon washers and jointing paste for one fastener"] == brackets + 16
    assert "salt" in assemble_frame(coast.bench).do
    assert "coat lug and bolt with paste" in close_back(coast.bench).do
    assert rules(coast.design)["bracket bolts: metals near each other in the series"].passed


def test_bare_bolts_at_the_shore_fail_and_say_what_to_do(made):
    bare = made('isolate = "never"', "0").design
    check = rules(bare)["bracket bolts: metals near each other in the series"]
    assert not check.passed
    assert "nylon" in check.cure


def test_the_page_says_who_carries_it(made):
    page = frame_pages(made('corner = "mitred"').bench)[0]
    said = [block.words for block in page.blocks if isinstance(block, Words)]
    assert any("One person carries it" in words for words in said)


@pytest.mark.parametrize("draw", [butted, ring])
def test_either_corner_draws_four_rails_of_one_area(draw):
    """Rails 3 wide round 40 x 30 cover 40 x 30 less 34 x 24."""

    def area(points):
        pairs = zip(points, (*points[1:], points[0]), strict=True)
        return abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) / 2

    pieces = list(draw(0.0, 0.0, 40.0, 30.0, 3.0))
    assert len(pieces) == 4
    assert sum(area(piece.points) for piece in pieces) == pytest.approx(40 * 30 - 34 * 24)
