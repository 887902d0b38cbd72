"""Every example array is sound, says that it is invented, and is planned and told."""

from functools import cache
from pathlib import Path

import pytest

from panewright.desk.arrays.by_command import write
from panewright.desk.arrays.known import Sources, in_folder
from panewright.desk.arrays.lines import lines
from panewright.desk.arrays.planned import planned

FOLDER = Path(__file__).parents[2] / "examples" / "arrays"
NAMES = sorted(path.stem for path in FOLDER.glob("*.toml"))


@cache
def plan(name):
    path = FOLDER / f"{name}.toml"
    return planned(path.read_text("utf-8"), Sources(in_folder(FOLDER), None, path.name))


@pytest.mark.parametrize("name", NAMES)
def test_an_example_keeps_its_rules_and_says_that_it_is_invented(name):
    made = plan(name)
    assert "Invented demonstration" in made.site.text.splitlines()[0]
    assert made.proven, [check for check in made.checks if not check.passed]
    assert made.year.kwh > 0


@pytest.mark.parametrize("name", NAMES)
def test_the_report_tells_every_panel_every_check_and_every_caution(name):
    made = plan(name)
    told = "\n".join(lines(made))
    assert all(panel.serial in told for panel in made.panels)
    runs = tuple(f"{leg.title}: " for leg in made.legs)  # their names stand over their rules
    for check in made.checks:
        run = next((name for name in runs if check.rule.startswith(name)), "")
        assert f"    {check.rule.removeprefix(run)}: " in told
        assert f"Run {run.removesuffix(': ')}" in told
    assert all(caution in told for caution in made.cautions)
    assert all(need.thing in told for need in made.needs)
    assert "nan" not in told
    assert "None" not in told


def test_the_examples_cover_both_families_and_the_ways_to_feed():
    sites = [plan(name).site for name in NAMES]
    assert {site.rules.family for site in sites} == {"IEC", "NEC"}
    assert {site.box.controller.kind for site in sites} == {"direct", "mppt"}
    assert {site.bank is None for site in sites} == {True, False}
    assert {bool(site.strings) for site in sites} == {True, False}


def test_typed_strings_of_the_example_are_beaten_by_the_best_and_that_is_told():
    made = plan("granary")
    assert made.best.kwh > 0
    assert "The best found gives +" in "\n".join(lines(made))


def test_the_same_array_gives_the_same_files(tmp_path):
    first, second = tmp_path / "a", tmp_path / "b"
    names = write(plan("allotment"), first)
    plan.cache_clear()
    assert write(plan("allotment"), second) == names
    for name in names:
        assert (first / name).read_bytes() == (second / name).read_bytes()
