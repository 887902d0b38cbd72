"""A rating from files as a maker has them: the power that the invented panel truly has, how sure, and why."""

from __future__ import annotations

import json

import invented_bench
import numpy as np
import pytest
from invented_bench import BENCH

from examples import FOLDER
from panewright.bench.predicted import stc
from panewright.desk.rating import kept, lines, papers, recorded
from panewright.desk.rating.measured import read
from panewright.desk.rating.rated import rated
from panewright.desk.rating.seen import seen
from panewright.desk.rating.typed import typed
from panewright.errors import BenchError, SkyError
from panewright.panel.electric.own import Rated
from panewright.panel.happened import Happened, PlacedFrom

NONE = {"light.instrument": ""}
METERS = {"meters.volts": "", "meters.amps": ""}


@pytest.fixture(scope="module")
def true_w(design):
    """Its circuit's power at STC with the current that the invented panel truly gives."""
    return invented_bench.GAIN * stc(design).points.power_w


def test_the_example_files_are_what_their_program_makes():
    assert (BENCH / "henhouse-sweep.csv").read_text() == invented_bench.sweep()
    assert (BENCH / "henhouse-meter.toml").read_text() == invented_bench.meter()


def test_a_sweep_comes_to_the_true_power_and_passes(of_sweep, true_w):
    power = of_sweep.rated.of("power_w")
    assert power.value == pytest.approx(true_w, rel=0.006)
    assert power.expanded == pytest.approx(2.5, abs=0.3)
    assert of_sweep.rating.verdict == "pass"
    assert [gone.moved.procedure for gone in of_sweep.rated.chosen.all] == ["2", "1", "4"]
    assert {flag.name for flag in of_sweep.flags} == {"instrument due soon"}
    assert of_sweep.serial == "0051"


def test_a_multimeter_and_four_resistors_come_to_it_too_less_surely(by_words, meter, true_w, of_sweep):
    made = by_words(meter, {**METERS, "heat.reading": "43.4 C", "day": "2026-06-20"})
    power = made.rated.of("power_w")
    assert abs(power.value - true_w) < power.expanded
    assert power.expanded > of_sweep.rated.of("power_w").expanded
    assert power.budget.terms[0].input.name == "between the readings"
    told = {flag.name for flag in made.flags}
    assert "instrument past its calibration" in told
    assert not told & {"few points", "few readings"}  # six are what is meant


def test_voc_that_told_the_heat_is_not_rated_and_the_report_says_so(by_words, sweep, true_w):
    made = by_words(sweep, {"heat.by": "Voc itself"})
    assert made.rated.of("voc_v").value is None
    assert made.rated.of("power_w").value == pytest.approx(true_w, rel=0.012)
    told = "\n".join(lines.lines(made))
    assert "Voc: not rated. The heat was known by Voc itself" in told


def test_a_clear_sky_by_place_and_clock_is_three_times_as_unsure(by_words, sweep, of_sweep):
    """The place is invented; the light of that moment lies within what a clear sky's model may be off."""
    sky = {
        "light.by": "clear sky",
        "light.place": "46.5, 8.0, 600 m",
        "light.turned": "40, 180",
        "light.moment": "2026-06-20 15:10 +02:00",
    }
    made = by_words(sweep, sky)
    assert 2 < made.sources.light.sigma_w_m2 / of_sweep.sources.light.sigma_w_m2 < 6
    assert made.rating.verdict == "measure again"
    with pytest.raises(SkyError):
        by_words(sweep, {**sky, "light.moment": "2026-06-20 02:10 +02:00"})


@pytest.mark.parametrize(
    ("words", "how"),
    [
        (
            {
                "light.by": "second panel",
                "light.reading": "3.60 A",
                "light.at_stc": "4.2 A",
                "light.instrument": "",
            },
            "second panel",
        ),
        ({"light.by": "telephone", "light.reading": "860 W/m2", **NONE}, "light meter"),
        ({"light.by": "own Isc", "light.reading": ""}, "own Isc"),
    ],
    ids=["second panel", "telephone", "own Isc"],
)
def test_other_ways_to_know_the_light(by_words, sweep, words, how):
    made = by_words(sweep, words)
    assert made.sources.light.how == how
    assert made.rated.light_w_m2 == pytest.approx(856, rel=0.025)
    assert (made.rated.of("power_w").value is None) == (how == "own Isc")


def test_what_lacks_is_named_with_its_cure(by_words, meter, sweep):
    with pytest.raises(BenchError, match=r"light.at_stc: What reference cell reads at STC is not known in V"):
        by_words(sweep, {"light.reading": "85 mV"})
    with pytest.raises(BenchError, match=r"light.instrument = cell 9: There is no such instrument."):
        by_words(sweep, {"light.instrument": "cell 9"})
    with pytest.raises(BenchError, match=r"day: The day it was measured is not known"):
        by_words(meter, {**METERS, "heat.reading": "43.4 C"})
    with pytest.raises(BenchError, match=r"heat.reading: What back sensor read is not known"):
        by_words(meter, {**METERS, "day": "2026-06-20"})
    with pytest.raises(BenchError, match=r"(?s)day: The day .*heat.reading: What back sensor"):
        by_words(meter, METERS)
    with pytest.raises(BenchError, match="A light meter reads irradiance"):
        by_words(sweep, {"light.by": "telephone", "light.reading": "85 mV", "light.instrument": ""})


def test_a_file_of_several_panels_wants_a_serial():
    rows = invented_bench.sweep().splitlines()
    head, body = rows[4], rows[5:]
    both = "\n".join([f"Serial,{head}", *(f"{name},{row}" for name in ("0051", "0052") for row in body)])
    assert read(both.encode(), "both.csv", serial="0052").serial == "0052"
    with pytest.raises(BenchError, match="The file is of 0051, 0052"):
        read(both.encode(), "both.csv", serial="0053")


def test_tests_that_were_not_made_pass_nobody(by_words, sweep):
    made = by_words(sweep, dict.fromkeys(("safety.withstood", "safety.earth"), ""))
    assert made.rating.verdict == "measure again"
    assert "It was not measured." in made.rating.why
    broken = by_words(sweep, {"safety.withstood": "0 V"})
    assert (broken.rating.verdict, broken.rating.why[:16]) == ("rework", "Not safe to sell")


def test_the_record_holds_everything_and_is_json(of_sweep):
    told = json.loads(json.dumps(recorded.of_rating(of_sweep), allow_nan=False))
    assert told["words"]["light.by"] == "reference cell"
    power = told["figures"]["power_w"]
    assert np.sum([term["share"] for term in power["budget"]]) == pytest.approx(1)
    assert {"rule", "demand", "limit", "unit", "source", "cure", "passed"} == set(told["checks"][0])
    assert told["instruments"][0]["due"] == "2026-07-01"


def test_a_rating_kept_before_its_guard_was_told_is_still_shown(of_sweep):
    told = json.loads(json.dumps(recorded.of_rating(of_sweep)))
    now, before = seen(told), {key: told[key] for key in told if key not in ("guard", "borne", "cells_known")}
    assert (now.guard, now.borne[:21]) == ("0", "By its own power it w")
    old = seen(before)
    assert (old.guard, old.label) == ("", now.label)
    assert old.borne == "By its own power it would bear 76.0\u2009W at an even risk."


def test_the_report_is_a_pdf_of_three_pages_and_the_same_bytes_again(of_sweep):
    from io import BytesIO

    from pypdf import PdfReader

    first = papers.report_bytes(of_sweep)
    assert first == papers.report_bytes(of_sweep)
    pages = [page.extract_text() for page in PdfReader(BytesIO(first)).pages]
    assert len(pages) == 3
    for words, page in (("PASS", 0), ("4.145", 0), ("sensor askew", 1), ("2026-07-01", 2), ("cell 1", 2)):
        assert words in pages[page]


def test_two_sweeps_round_the_light_of_stc_go_through_procedure_3_too(by_words, true_w):
    """Both are as warm, so the heat is outside what procedure 3 joins: it stands beside the one taken."""
    curves = read(invented_bench.two_lights().encode(), "two.csv")
    made = by_words(curves, {"day": "2026-06-20", "heat.reading": ""})
    assert len(curves.others) == 1
    moved = {gone.moved.procedure: gone for gone in made.rated.chosen.all}
    assert set(moved) == {"1", "2", "3", "4"}
    assert not moved["3"].moved.within
    assert made.rated.of("power_w").value == pytest.approx(true_w, rel=0.01)


def test_a_file_of_another_panel_is_told(by_words):
    other = read(invented_bench.sweep().replace("0051", "0077").encode(), "other.csv")
    assert by_words(other, {}).said[0] == "LOOK: the file is of serial 0077, the order's are 0051."


def test_a_prediction_is_as_sure_as_the_cells_of_the_serial_are_known(bench):
    """Voc 2.1 % beside the sheet: with only the sheet known it is the lot, with measured cells a fault."""
    rows = invented_bench.sweep().splitlines()
    lower = [
        f"{clock},{0.979 * float(volts):.4f},{rest}"
        for clock, volts, rest in (row.split(",", 2) for row in rows[5:])
    ]
    curve = read("\n".join([*rows[:5], *lower]).encode(), "lower.csv")
    cells = tuple(PlacedFrom(place, "C1", f"c{place}", Rated()) for place in range(1, 37))
    order, words = (FOLDER / "henhouse.toml").read_text(), typed(bench.words)
    lot = order.replace("[cell]", '[cell]\nspread = "2 %"') if "[cell]" in order else order
    assert lot != order
    found = {}
    for text, told in ((order, None), (lot, None), (order, Happened("0051", cells))):
        made = rated(kept.panel(text, "HD-2", "0051", told), curve, words, bench.instruments)
        found[made.prediction.cells.way] = made
        assert made.prediction.cells.told in "\n".join(lines.lines(made))
    assert list(found) == ["nameplate", "lot", "measured"]
    off = {way: "Voc rated against" in made.rating.why for way, made in found.items()}
    assert off == {"nameplate": False, "lot": True, "measured": True}
    assert json.loads(json.dumps(recorded.of_rating(found["measured"])))["cells_known"] == "measured"


def test_a_bare_temperature_is_what_the_back_sensor_read(by_words, of_sweep):
    """A heading that names the cells still counts as theirs."""
    made = {
        name: by_words(read(invented_bench.sweep().replace("Back temp", name).encode(), "heat.csv"), {})
        for name in ("Temperature", "Cell temp")
    }
    assert made["Temperature"].rated.cell_c == pytest.approx(of_sweep.rated.cell_c)
    assert "The heat is the file's: 43.5 degC, behind them." in made["Temperature"].said
    assert made["Cell temp"].rated.cell_c == pytest.approx(43.5, abs=0.05)


def test_a_shop_that_wants_all_in_date_passes_nothing_after_it(by_words, sweep):
    late = {"day": "2026-08-01"}  # the load was due on the first of July
    made = {said: by_words(sweep, {**late, "label.in_date": said}).rating for said in ("", "no", "yes")}
    assert [one.verdict for one in made.values()] == ["pass", "pass", "measure again"]
    assert "load 1, volts was due for calibration on 2026-07-01." in made["yes"].why
