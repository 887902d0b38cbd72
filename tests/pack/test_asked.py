"""What a step asks to be read agrees with what the step says, and finds the faults it is there for."""

from pathlib import Path

import pytest

from panewright import desk
from panewright.pack.bench import Bench
from panewright.pack.steps.asked import asked, step_key
from panewright.pack.steps.expect import cells_voc_v
from panewright.pack.steps.steps import steps

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def bench(request):
    made = desk.design(request.param.read_bytes(), request.param.name)
    return Bench(made.design, made.quote)


def test_every_step_with_a_figure_in_volts_or_ohms_asks_for_it(bench):
    for step in steps(bench):
        if step.title.startswith(("String each", "Solder the bus", "Check", "Measure", "Fit the bypass")):
            assert asked(bench.design, step_key(step.title)), step.title


def test_what_is_expected_in_full_sun_stands_in_the_step(bench):
    said = {step_key(step.title): step.expect for step in steps(bench)}
    string = asked(bench.design, "solder-the-bus-ribbon")[0]
    assert bench.say(string.expected, "V") in said["solder-the-bus-ribbon"]
    volts, amps = asked(bench.design, "check-polarity-and-current")
    assert bench.say(volts.expected, "V") in said["check-polarity-and-current"]
    assert bench.say(amps.expected, "A") in said["check-polarity-and-current"]
    assert f"{asked(bench.design, 'check-the-insulation')[0].least:g}\u2009MΩ" in said["check-the-insulation"]


@pytest.mark.parametrize(("light", "heat"), [(1000.0, 25.0), (200.0, 15.0), (800.0, 50.0)])
def test_a_missing_cell_is_found_in_any_light_and_a_sound_column_passes(bench, light, heat):
    rows = bench.design.layup.plan.rows
    for ask in asked(bench.design, "string-each-column-on-the-template", light, heat):
        assert ask.holds(cells_voc_v(bench.design, rows, light, heat))
        assert not ask.holds(cells_voc_v(bench.design, rows - 1, light, heat))


def test_every_step_has_a_key_of_its_own(bench):
    keys = [step_key(step.title) for step in steps(bench)]
    assert len(set(keys)) == len(keys)
