"""The bench of a serial in the shop: a curve looked at and kept, a meter's readings, columns settled."""

from __future__ import annotations

import re
from html import unescape

import numpy as np
import pytest

from examples import FOLDER

BENCH = FOLDER / "bench"
WORDS = {
    "light.by": "reference cell",
    "light.instrument": "cell 1",
    "heat.by": "back sensor",
    "what": "look",
}
TESTED = {
    "safety.withstood": "500 V",
    "safety.insulation": "140 Mohm",
    "safety.insulation_at": "500 V",
    "safety.earth": "0.02, 0.03, 0.02, 0.04 ohm",
    "safety.earth_current": "25 A",
    "safety.diodes": "0.31, 0.32, 0.31 V",
    "safety.polarity": "19.8 V",
    "safety.strings": "3.4 A",
    "safety.pull": "50, 50 N",
}


@pytest.fixture
def bench(client):
    """A shop with the panel begun and a reference cell that has its paper."""
    content = (FOLDER / "henhouse.toml").read_bytes()
    client.post("/orders/take", files={"file": ("henhouse.toml", content)})
    client.post("/build/HD-2/begin")
    client.post(
        "/instruments",
        data={"name": "cell 1", "kind": "reference cell", "day": "2026-02-03", "due": "2027-02-03"},
    )
    client.post("/instruments/cell%201/accurate", data={"certificate": "1.8 %"})
    return client


def rated(client, name="henhouse-sweep.csv", data=None, **more):
    content = (BENCH / name).read_bytes() if data is None else data
    return client.post("/rate/0051", data={**WORDS, **more}, files={"file": (name, content)})


def taken(answer):
    """The curve as the page holds it, to be sent again."""
    found = {name: re.search(rf'name="{name}" value="([^"]*)"', answer.text) for name in ("curve", "mapping")}
    return {name: unescape(each.group(1)) for name, each in found.items()}


def test_a_dropped_curve_is_looked_at_then_kept_with_its_report(bench):
    assert "Not rated yet" in bench.get("/rate/0051").text
    answer = rated(bench, **TESTED)
    page = unescape(answer.text)
    assert answer.status_code == 200
    assert "PASS, label 73.0\u2009W" in page
    assert "72.37\u2009W" in page
    assert "not kept yet" in page
    assert page.count("data-points=") == 2
    assert "Not rated yet" in bench.get("/rate/0051").text
    again = {**taken(answer), **TESTED, **WORDS, "what": "keep"}
    kept = bench.post("/rate/0051", data=again)
    assert (kept.status_code, kept.headers["location"]) == (303, "/rate/0051")
    page = unescape(bench.get("/rate/0051").text)
    assert "PASS, label 73.0\u2009W" in page
    report = re.search(r'href="(/kept/[0-9a-f]+)" download>Test report', page).group(1)
    assert bench.get(report).content.startswith(b"%PDF")
    record = unescape(bench.get("/serial/0051").text)
    assert "henhouse-sweep.csv" in record
    assert "Rated power" in record


def test_the_guard_stands_beside_the_label_and_may_be_another_than_the_shop_s(bench):
    page = unescape(rated(bench, **TESTED).text)
    assert "PASS, label 73.0\u2009W, guard 0" in page
    assert re.search(
        r"a label of 76 W at an even risk, surely \(its whole uncertainty off\) 7[0-3] W\.", page
    )
    strict = unescape(rated(bench, **TESTED, **{"label.guard": "1", "label.tolerance": "3 %"}).text)
    assert "REWORK, label 73.0\u2009W, guard 1" in strict
    assert "cannot be" in unescape(rated(bench, **{"label.guard": "7"}).text)


def test_readings_of_a_multimeter_are_rated_and_kept_as_their_file(bench):
    typed = {
        "m-voc": "20.85", "m-isc": "3.56", "m-ohm-1": "3.9 ohm, 1 %", "m-at-1": "13.71",
        "m-ohm-2": "4.7 ohm, 1 %", "m-at-2": "15.96", "m-ohm-3": "6.8", "m-at-3": "18.09",
        "light.reading": "856 W/m2", "heat.reading": "43.4 C", "day": "2026-06-20",
    }  # fmt: skip
    answer = bench.post("/rate/0051", data={**WORDS, **typed}, files={"file": ("", b"")})
    page = unescape(answer.text)
    assert answer.status_code == 200, page
    assert "Between the readings" in page
    assert "few points" not in page  # five readings are what a meter gives
    assert "meter.toml" in page


def test_a_lamp_and_a_resistor_are_typed_side_by_side(bench):
    """A lamp has no resistance that one could name: its volts and amperes are read at once."""
    typed = {
        "m-voc": "20.85", "m-isc": "3.56", "m-ohm-1": "3.9 ohm, 1 %", "m-at-1": "13.71",
        "m-at-2": "15.96", "m-amp-2": "3.39", "m-ohm-3": "6.8", "m-at-3": "18.09",
        "light.reading": "856 W/m2", "heat.reading": "43.4 C", "day": "2026-06-20",
    }  # fmt: skip
    answer = bench.post("/rate/0051", data={**WORDS, **typed}, files={"file": ("", b"")})
    page = unescape(answer.text)
    assert answer.status_code == 200, page
    assert "5 points" in page
    assert 'name="m-amp-2" value="3.39"' in page
    half = {**WORDS, **typed, "m-amp-2": ""}
    told = unescape(bench.post("/rate/0051", data=half, files={"file": ("", b"")}).text)
    assert "Read both its voltage and its current: a lamp's resistance moves." in told


def test_continuity_polarity_and_leads_are_asked_for_before_a_panel_passes(bench):
    some = {key: text for key, text in TESTED.items() if key not in ("safety.polarity", "safety.pull")}
    page = unescape(rated(bench, **some).text)
    assert "MEASURE AGAIN, label" in page
    assert "Voltage at the ends of the leads, red on plus: It was not measured." in page
    turned = unescape(rated(bench, **{**TESTED, "safety.polarity": "-19.8 V"}).text)
    assert "REWORK, label" in turned
    assert "The leads are exchanged" in turned


def test_what_lacks_is_told_and_what_was_typed_stays(bench):
    answer = rated(bench, **{"heat.by": "", "safety.withstood": "many"})
    page = unescape(answer.text)
    assert answer.status_code == 422
    assert "How was the cells' heat known?" in page
    assert 'value="many"' in page
    assert "henhouse-sweep.csv" in page  # it need not be dropped again
    nothing = bench.post("/rate/0051", data=WORDS)
    assert "There is nothing to rate." in nothing.text
    assert bench.get("/rate/0099").status_code == 404


def test_an_open_column_is_settled_and_known_the_next_time(bench):
    rows = (BENCH / "henhouse-sweep.csv").read_text().splitlines()[5:]
    strange = "\n".join(["p,q,r,E (W/m2),Back temp (C)", *rows]).encode()
    answer = rated(bench, "strange.csv", strange, day="2026-06-20")
    page = unescape(answer.text)
    assert answer.status_code == 422
    assert "What its columns are" in page
    told = {"quantity-1-2": "voltage_v", "unit-1-2": "V", "quantity-1-3": "current_a", "unit-1-3": "A"}
    form = {**taken(answer), "day": "2026-06-20", **told}
    settled = unescape(bench.post("/rate/0051", data={**WORDS, **form}).text)
    assert "72.37\u2009W" in settled
    assert bench.post("/rate/0051", data={**WORDS, **form, "what": "keep"}).status_code == 303
    assert "72.37\u2009W" in unescape(rated(bench, "next.csv", strange, day="2026-06-20").text)


def charging() -> bytes:
    """The invented sweep as the voltage of a capacitor of 4.7 mF that the panel charges, every 50 us."""
    rows = [row.split(",") for row in (BENCH / "henhouse-sweep.csv").read_text().splitlines()[5:]]
    volts, amps = (np.array([float(row[column]) for row in rows]) for column in (1, 2))
    lines = ["Serial: 0051", "Irradiance: 856 W/m2", "Back temp: 43.5 C", "t [ms],U [V]"]
    volt = 0.0
    for step in range(900):
        lines.append(f"{0.05 * step:.2f},{volt:.4f}")
        volt += 5e-5 * float(np.interp(volt, volts, amps)) / 0.0047
    return "\n".join(lines).encode()


def test_a_kept_rating_is_set_aside_with_a_reason_and_may_count_again(bench):
    bench.post("/rate/0051", data={**taken(rated(bench, **TESTED)), **TESTED, **WORDS, "what": "keep"})
    page = unescape(bench.get("/rate/0051").text)
    number = re.search(r'action="/rate/0051/aside".*?name="rating" value="(\d+)"', page).group(1)
    bare = bench.post("/rate/0051/aside", data={"rating": number, "why": " "})
    assert bare.status_code == 422
    assert "No reason is written." in unescape(bare.text)
    gone = bench.post("/rate/0051/aside", data={"rating": number, "why": "the reference cell lay in shade"})
    assert gone.status_code == 303
    page = unescape(bench.get("/rate/0051").text)
    assert "Not rated yet" in page
    assert "pass; set aside" in page
    assert "the reference cell lay in shade" in page
    assert "set aside: the reference cell lay in shade" in unescape(bench.get("/serial/0051").text)
    assert "No curve yet" in bench.get("/fault/0051").text
    assert bench.post("/rate/0051/aside", data={"rating": number, "why": "twice"}).status_code == 422
    assert bench.post("/rate/0051/aside", data={"rating": number, "what": "again"}).status_code == 303
    assert "PASS, label 73.0\u2009W" in unescape(bench.get("/rate/0051").text)
    assert bench.post("/rate/0051/aside", data={"rating": "999", "why": "none"}).status_code == 422


def test_a_capacitor_s_sweep_without_a_current_is_rated_once_its_size_is_typed(bench):
    answer = rated(bench, "charged.csv", charging())
    assert answer.status_code == 422
    assert "No column is known as the current." in unescape(answer.text)
    form = {**WORDS, **taken(answer), "day": "2026-06-20"}
    assert "This is no capacitor." in unescape(
        bench.post("/rate/0051", data={**form, "capacity": "big"}).text
    )
    page = unescape(bench.post("/rate/0051", data={**form, "capacity": "4,7 mF"}).text)
    found = re.search(r"Pmp</td><td class=\"n\"><b>([0-9.]+)", page)
    assert found, page
    assert float(found.group(1)) == pytest.approx(72.4, rel=0.02)


def test_accuracy_that_is_none_is_told(bench):
    wrong = bench.post("/instruments/cell%201/accurate", data={"within": "fine"}, headers={"x-tap": "t" * 24})
    assert wrong.status_code == 422
    assert "This is no number with its unit." in wrong.text
    assert 'value="1.8 %"' in bench.get("/instruments/cell%201").text
