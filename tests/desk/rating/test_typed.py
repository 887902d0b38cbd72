"""What is typed beside a curve: read in its unit, or refused with place, value, reason and cure."""

from __future__ import annotations

import pytest

from panewright.desk.rating.bench_text import read_bench
from panewright.desk.rating.instruments import Written, known
from panewright.desk.rating.typed import KEYS, typed
from panewright.errors import BenchError

GOOD = {
    "light.by": "reference cell",
    "light.reading": "85,7 mV",
    "heat.by": "back sensor",
    "heat.reading": "113 F",
}


def test_figures_are_read_in_the_units_they_bear():
    told = typed(
        {**GOOD, "safety.earth": "20, 30 mohm", "safety.insulation": "0.14 Mohm", "label.tolerance": "3 %"}
    )
    assert told.light.reading == (pytest.approx(0.0857), "voltage")
    assert told.heat.reading_c == pytest.approx(45.0)
    assert told.tried.earth_ohm == (pytest.approx(0.02), pytest.approx(0.03))
    assert told.tried.insulation_mohm == pytest.approx(0.14)
    assert told.rule.tolerance_share == pytest.approx(0.03)


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("light.by", "the moon", "There is no such way."),
        ("light.by", "", "How was the light known?"),
        ("light.reading", "85.7", "A figure without its unit says nothing."),
        ("light.reading", "bright", "This is no number with its unit."),
        ("light.reading", "85 degC", "is no unit of it"),
        ("heat.reading", "450 C", "450 degC cannot be."),
        ("day", "20.6.2026", "This is no day."),
        ("day", "0026-06-20", "is none of this shop's"),
        ("label.guard", "4", "4 cannot be."),
        ("label.guard", "half", "is no number"),
        ("label.most_unsure", "0 %", "cannot be"),
        ("label.in_date", "often", "neither yes nor no"),
        ("label.reject", "0.8", "A figure without its unit says nothing."),
        ("meters.one", "perhaps", "This is neither yes nor no."),
        ("safety.withstood", "-5 V", "-5 V cannot be."),
        ("safety.earth", "0.02, x ohm", "is no unit of it"),
        ("light.place", "47.1", "This is no place."),
        ("light.place", "97.1, 8", "97.1 degrees cannot be."),
        ("light.turned", "steep", "does not say how it was turned"),
        ("light.moment", "2026-06-20 12:40", "Without its zone this clock says nothing."),
        ("light.moment", "noon", "This is no moment."),
        ("light.haze", "99", "cannot be"),
        ("light.colour", "blue", "There is no such key."),
    ],
)
def test_every_mistake_names_place_value_reason_and_cure(key, value, said):
    with pytest.raises(BenchError) as refused:
        typed({**GOOD, key: value}, "bench.toml")
    (problem,) = refused.value.problems
    assert (problem.key, problem.file, problem.value) == (key, "bench.toml", value if key in KEYS else "")
    assert said in problem.reason
    assert problem.cure


def test_all_mistakes_are_told_at_once():
    with pytest.raises(BenchError) as refused:
        typed({"light.by": "clear sky", "heat.by": "the air", "day": "x"})
    assert len(refused.value.problems) == 5


def test_a_bench_file_tells_every_mistake_in_it():
    text = (
        b'light.reading = 85\n[instrument.m]\nwithin = "much"\ndue = "soon"\n[instrument.n]\nshape = "round"'
    )
    with pytest.raises(BenchError) as refused:
        read_bench(text, "bench.toml")
    assert [each.key for each in refused.value.problems] == [
        "instrument.m.due", "instrument.m.within", "instrument.n", "light.reading",
    ]  # fmt: skip
    with pytest.raises(BenchError, match="no TOML"):
        read_bench(b"light = ", "bench.toml")


def test_an_instrument_that_is_not_named_is_poor_and_never_calibrated():
    poor = known("", "voltmeter", {}, "meters.volts").instrument
    good = known("m", "voltmeter", {"m": Written("m", within="0.5 %", digit="0.01 V")}, "").instrument
    assert poor.sigma(20.0) > good.sigma(20.0) > 0
    assert poor.calibrated is None
    assert poor.name == "a voltmeter without a name"
