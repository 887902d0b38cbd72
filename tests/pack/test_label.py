"""The label on the back."""

import re
from dataclasses import replace

import pytest
import segno
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds, item_bounds
from panewright.drawing.drawing import Path, Text
from panewright.drawing.overlap import overlaps
from panewright.order.order import Job
from panewright.order.terms import Kit
from panewright.pack.figures.label import HEIGHT_MM, WIDTH_MM, code, labels, one_label
from panewright.panel.design import Label

JOB = Job("Cabin roof", "2031", "A. Smith", "Bench and Sun", 1, "PW-0042", "EUR", "metric", "A4")
RATED = Label(152.0, 22.9, 8.9, 18.9, 8.4, 15.0, 600.0, 14.2, ("PW-0042",))
ALONE = replace(RATED, system_v=60.0)


def words(drawing):
    return [item.words for item in drawing.items if isinstance(item, Text)]


@given(
    st.floats(1, 900),
    st.floats(0.5, 300),
    st.floats(0.1, 30),
    st.text("abcdefghijklmnop ÄÖé&<>-", min_size=1, max_size=80),
    st.text("ABC0123456789-", min_size=1, max_size=24),
    st.booleans(),
    st.sampled_from(["metric", "us"]),
)
@settings(max_examples=25, deadline=None)
def test_whatever_stands_on_it_nothing_overlaps_or_leaves_it(watts, volts, amps, name, serial, proven, units):
    label = Label(watts, volts, amps, volts * 0.8, amps * 0.9, 20.0, 1000.0, watts / 8, (serial,))
    job = Job(name, "1", "", name, 1, serial, "EUR", units, "A4")
    drawing = one_label(label, job, serial, proven)
    assert overlaps(drawing) == ()
    for item in drawing.items:
        around = item_bounds(item)
        assert around.left >= -1e-6
        assert around.bottom >= -1e-6
        assert around.right <= WIDTH_MM + 1e-6
        assert around.top <= HEIGHT_MM + 1e-6


def test_every_serial_has_its_own_label_on_the_sheet():
    serials = tuple(f"PW-{n}" for n in range(5))
    sheet = labels(Label(1, 1, 1, 1, 1, 1, 1, 1, serials), JOB, True)
    assert [line for line in words(sheet) if line.startswith("Serial")] == [f"Serial {s}" for s in serials]
    assert bounds(sheet).width_mm == pytest.approx(206.0)
    assert bounds(sheet).height_mm == pytest.approx(3 * 70.0 + 2 * 6.0)


def test_a_design_with_failing_checks_says_so_on_the_label():
    assert any("NOT PROVEN" in line for line in words(one_label(RATED, JOB, "PW-0042", False)))
    assert not any("NOT PROVEN" in line for line in words(one_label(RATED, JOB, "PW-0042", True)))


@pytest.mark.parametrize("proven", [True, False])
def test_every_label_says_that_it_is_live_and_not_certified(proven):
    said = " ".join(words(one_label(RATED, JOB, "PW-0042", proven)))
    assert "Live whenever light falls on it" in said
    assert "not certified" in said


def test_a_label_that_lets_panels_lie_in_series_past_sixty_volts_says_what_that_means():
    series, alone = (" ".join(words(one_label(each, JOB, "PW-0042", True))) for each in (RATED, ALONE))
    assert "in series it can kill" in series
    assert "in series" not in alone


def test_both_poles_are_named_in_words_and_signs():
    said = words(one_label(RATED, JOB, "PW-0042", True))
    assert any(re.match(r"\+\s+red lead", line) for line in said)
    assert any(re.match(r"−\s+black lead", line) for line in said)


def test_the_code_is_what_an_independent_writer_of_codes_makes():
    rows = segno.make("PW-0042", error="m", micro=False).matrix
    dark = sum(sum(row) for row in rows)
    module = 20.0 / (len(rows) + 8)
    boxes = code("PW-0042", (0.0, 0.0), 20.0)
    area = sum((b.points[1][0] - b.points[0][0]) * (b.points[2][1] - b.points[1][1]) for b in boxes)
    assert area == pytest.approx(dark * module**2)
    assert all(isinstance(b, Path) and b.filled and b.layer == "ink" for b in boxes)


def test_the_code_stands_upright_with_its_three_finders():
    boxes = code("PW-0042", (0.0, 0.0), 29.0)  # 21 modules and the rim of 4: one module is one millimetre
    wide = [b for b in boxes if b.points[1][0] - b.points[0][0] == pytest.approx(7.0)]
    corners = {(round(b.points[0][0]), round(b.points[2][1])) for b in wide}
    assert {(4, 25), (18, 25), (4, 11)} <= corners


KIT = Kit("kit")
BARE = Kit("kit", ("cells",))


@pytest.mark.parametrize("kit", [KIT, BARE])
def test_the_label_of_a_kit_leaves_room_for_its_builder_and_claims_no_cell_that_others_bring(kit):
    drawing = one_label(RATED, JOB, "PW-0042", True, kit=kit)
    said = words(drawing)
    assert "built by" in said
    assert any(line.startswith("Kit of ") for line in said)
    assert any("the builder brought these" in line for line in said) is (kit is BARE)
    assert overlaps(drawing) == ()
    finished = words(one_label(RATED, JOB, "PW-0042", True))
    assert "built by" not in finished
    assert not any("Kit" in line for line in finished)
