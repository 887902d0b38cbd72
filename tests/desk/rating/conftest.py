"""One design and its invented measurements, for every test of a rating."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from examples import made

sys.path.append(str(Path(__file__).parent))

from invented_bench import BENCH

from panewright.desk.rating.bench_text import read_bench
from panewright.desk.rating.measured import read
from panewright.desk.rating.rated import Panel, rated
from panewright.desk.rating.typed import typed


@pytest.fixture(scope="package")
def design():
    return made("henhouse").design


@pytest.fixture(scope="package")
def bench():
    return read_bench((BENCH / "henhouse-bench.toml").read_bytes(), "henhouse-bench.toml")


@pytest.fixture(scope="package")
def sweep():
    return read((BENCH / "henhouse-sweep.csv").read_bytes(), "henhouse-sweep.csv")


@pytest.fixture(scope="package")
def meter():
    return read((BENCH / "henhouse-meter.toml").read_bytes(), "henhouse-meter.toml")


@pytest.fixture(scope="package")
def of_sweep(design, bench, sweep):
    return rated(Panel(design), sweep, typed(bench.words), bench.instruments)


@pytest.fixture(scope="package")
def by_words(design, bench):
    """Rates with other words than the bench file has."""

    def made_so(curve, words):
        return rated(Panel(design), curve, typed({**bench.words, **words}), bench.instruments)

    return made_so
