"""Charts out of what the records hold: drifts, few values, peel samples, strings in their own light."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from examples import FOLDER, made
from panewright.bench.readings import readings_of
from panewright.desk.charts import told
from panewright.desk.charts.charted import charts
from panewright.desk.charts.kept import PULL, STRING, ForCharts, Rated
from panewright.ledger.bench.charted import Charted

NOON = datetime(2026, 6, 20, 12, tzinfo=UTC)


def known(strings=(), pulls=(), ratings=(), texts=None):
    return ForCharts(tuple(strings), tuple(pulls), tuple(ratings), texts or {})


def rated(shares):
    return [Rated(f"P-{n:03}", 73.0 * share, 73.0) for n, share in enumerate(shares, start=1)]


def steady(count, seed=3):
    return 1 + 0.01 * np.random.default_rng(seed).standard_normal(count)


def test_a_steady_run_is_as_it_should_be_and_a_drift_is_told():
    good = [*steady(20), *(1 + 0.008 * (-1) ** n for n in range(10))]
    rating, _, _ = charts(known(ratings=rated(good)))
    assert (rating.good, rating.stop) == (20, ())
    sinking = [*good, *(0.99 - 0.003 * n for n in range(12))]
    rating, *_ = charts(known(ratings=rated(sinking)), good=20)
    assert rating.good == 20
    assert any("slow drift" in each for each in rating.stop)
    page = "\n".join(told.lines(rating))
    assert "STOP AND LOOK. power rated against prediction" in page
    assert "Limits by the first 20 that passed" in page


def test_limits_are_of_panels_that_passed_alone():
    """Three poor panels among the first would widen them nearly fourfold."""
    shares = [*steady(20), *steady(6, 8)]
    poor = [replace(each, power_w=73.0 * 0.8, passed=False) for each in rated([0.8] * 3)]
    clean, *_ = charts(known(ratings=rated(shares)))
    mixed, *_ = charts(known(ratings=[*rated(shares)[:5], *poor, *rated(shares)[5:]]))
    assert (mixed.low, mixed.high) == pytest.approx((clean.low, clean.high), rel=1e-3)
    assert len(mixed.values) == 29
    assert mixed.good == 20
    late, *_ = charts(known(ratings=[*rated(shares), *poor]))
    assert any("within three sigma" in each for each in late.stop)
    none, *_ = charts(known(ratings=[replace(each, passed=False) for each in rated(shares)]))
    assert none.centre is None
    assert "0 of 26 passed" in none.said


def test_few_values_make_no_chart_and_say_so():
    for each in charts(known(ratings=rated([1.0, 1.01, 0.99]))):
        assert each.centre is None
        assert "a chart begins with 4" in each.said
    alike, *_ = charts(known(ratings=rated([1.0] * 8)))
    assert "alike" in alike.said


def test_peeled_joints_are_grouped_by_their_sample_and_a_weak_one_is_told():
    rng = np.random.default_rng(4)
    pulls = [
        Charted(f"P-{n:03}", "X-1", f"{PULL}-{k}", middle + 0.1 * rng.standard_normal(), "N/mm", None, None,
                NOON + timedelta(days=n))
        for n in range(12) for k, middle in enumerate([2.2 if n < 10 else 1.5] * 3)
    ]  # fmt: skip
    *_, pull = charts(known(pulls=pulls), good=8)
    assert len(pull.values) == 12
    assert pull.good == 8
    assert "Stop and look at P-01" in pull.stop[0]
    assert "joint pull" in told.seen(known(pulls=pulls), 8)[2].name.lower()


def test_strings_are_held_against_their_own_light_and_heat():
    design = made("henhouse").design
    law = next(each.law for each in readings_of(design, "join-columns") if each.key == STRING)
    lit = [(800.0, 40.0), (950.0, 55.0), (600.0, 30.0), (1000.0, 50.0), (700.0, 45.0), (870.0, 38.0)]
    off = [1.001, 0.999, 1.002, 0.998, 1.0, 0.965]
    strings = [
        Charted(f"P-{n}", "HD-2", f"{STRING}-1", share * law.at(*at), "V", *at, NOON)
        for n, (at, share) in enumerate(zip(lit, off, strict=True))
    ]
    blind = Charted("P-9", "HD-2", f"{STRING}-1", 21.0, "V", None, None, NOON)
    text = {"HD-2": (FOLDER / "henhouse.toml").read_text()}
    _, string, _ = charts(known(strings=[*strings, blind], texts=text), good=5)
    assert string.values == pytest.approx(off)
    assert "Stop and look at P-5" in string.stop[0]
    assert string.said.startswith("1 readings bear no light")
