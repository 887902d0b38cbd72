"""The size from which a fault is called: it is called there by readings, and not at half of it."""

import numpy as np
import pytest

from panewright.bench.fault.finding import CALLED_UNDER, found
from panewright.bench.fault.small import as_read, too_small
from panewright.circuit.place import CellAt


@pytest.fixture(scope="module")
def sizes(by, swept):
    """Two seconds, so once."""
    return {each.key: each for each in too_small(by, swept())}


@pytest.mark.parametrize(
    ("key", "place", "scale"),
    [("weak cell", CellAt(0, 5), 0.01), ("dimmed", None, 0.01)],
)
def test_a_fault_is_called_from_its_size_on(by, swept, wrong, sizes, key, place, scale):
    at = sizes[key].size.value * scale
    odds = [
        found(by, as_read(by.foretold, wrong((key, place, each)), swept())).healthy_odds
        for each in (0.5 * at, 1.5 * at)
    ]
    assert odds[0] > CALLED_UNDER > odds[1]


def test_dimming_under_the_error_of_the_light_cannot_be_called(sizes):
    """Light is read to 2 %, and nothing else tells it from less light."""
    assert 2.0 < sizes["dimmed"].size.value < 15.0


def test_what_costs_a_twentieth_is_above_every_size(sizes):
    assert max(each.cost_share for each in sizes.values()) < 0.065
    assert all("would be called from" in each.words for each in sizes.values())


def test_readings_without_scatter_lie_on_the_curve(by, swept, wrong):
    plain = as_read(by.foretold, wrong(), swept(scatter=0.0))
    assert np.abs(plain.voltage_v - swept(scatter=0.0).voltage_v).max() < 0.01 * by.foretold.voc_v
