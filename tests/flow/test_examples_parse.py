"""Every example order is sound, and leaves the choice to the tool where it can."""

from pathlib import Path

import pytest

from panewright.order.parse import parse_bytes
from panewright.shelf.load import load_shelf

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def test_there_are_examples_for_the_usual_jobs():
    names = {path.stem for path in EXAMPLES}
    assert names >= {"jetty", "henhouse", "workshop", "frost-sensor", "bathhouse", "fence"}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_a_sound_order_and_says_that_it_is_invented(path):
    data = path.read_bytes()
    order = parse_bytes(data, path.name, load_shelf())
    assert order.text == data.decode()
    assert "Invented demonstration" in order.text.splitlines()[0]
    assert len(order.assumptions) >= 5


def test_the_examples_cover_both_families_and_both_ways_of_charging():
    orders = [parse_bytes(path.read_bytes(), path.name, load_shelf()) for path in EXAMPLES]
    assert {order.site.family for order in orders} == {"EN", "ASCE"}
    assert {order.load.controller.kind for order in orders} == {"direct", "mppt"}
    assert {order.job.units for order in orders} == {"metric", "us"}
    assert {order.parts.front for order in orders} == {"glass", "acrylic"}
