"""`panewright curve`: what it prints of a file, what it keeps and draws, and with what it answers."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from panewright.cli.main import cli

CURVES = Path(__file__).parents[2] / "examples" / "curves"
#: of the invented panel at each light, by the diode that the examples are made with
TRUE_W = {812: 73.79, 809: 73.50, 802: 72.82, 640: 57.24}


def run(*words: object) -> Result:
    return CliRunner().invoke(cli, ["curve", *[str(word) for word in words]])


def record(*words: object) -> dict:
    result = run(*words, "--json")
    assert result.exit_code in (0, 1), result.output
    return json.loads(result.stdout)


@pytest.mark.parametrize(
    ("name", "light", "held"),
    [
        ("bench-load.csv", 809, True),
        ("kondensator.csv", 802, True),
        ("charged.csv", 802, False),
        ("two-ways.csv", 812, False),
        ("cloudy.tsv", 640, False),
    ],
)
def test_every_example_gives_the_invented_panel_s_power_in_its_light(name, light, held):
    found = record(CURVES / name, "--cells", 36)
    (curve,) = found["curves"]
    power = curve["points"]["power_w"]
    assert found["held"] is held
    assert curve["irradiance_w_m2"] == pytest.approx(light, abs=1)
    assert power["value"] == pytest.approx(TRUE_W[light], abs=3 * power["sigma"] + 0.2)
    series = curve["fit"]["figures"]["series_ohm"]
    assert series["value"] == pytest.approx(0.006, rel=0.08 if name != "charged.csv" else 0.5)


def test_a_capacitor_s_sweep_without_a_current_asks_for_the_capacitor(tmp_path):
    lines = (CURVES / "charged.csv").read_text().splitlines(keepends=True)
    bare = tmp_path / "bare.csv"
    bare.write_text("".join(line for line in lines if not line.startswith("Capacitor")))
    result = run(bare)
    assert result.exit_code == 2
    assert "No column is known as the current." in result.output
    assert "write 'Capacitor: 22 mF' above a table that has a time" in result.output
    timeless = tmp_path / "timeless.csv"
    timeless.write_text("".join(line.partition(",")[2] or line for line in lines))
    assert run(timeless).exit_code == 2


def test_columns_rows_quality_points_and_fit_are_printed():
    result = run(CURVES / "two-ways.csv")
    assert result.exit_code == 1
    for part in (
        "I up: current in A, sweep 1 side by side (names current; its greatest figure is likely only in A).",
        "Points read: 140, in 2 sweeps; bad fields: 0.",
        "The current counted as a load's; its sign was turned.",
        "power up against down: 5.67%, at most 1.00%: LOOK. The cells' own charge",
        "Key points of the middle of 2 runs, in that light and heat:",
        "Fit of 36 cells",
    ):
        assert part in result.output


def test_a_sound_file_answers_0():
    assert run(CURVES / "bench-load.csv").exit_code == 0


def test_what_is_typed_goes_before_the_file():
    (curve,) = record(CURVES / "kondensator.csv", "--irradiance", "0,9 sun", "--cell-temp", "100 F")["curves"]
    assert (curve["irradiance_w_m2"], round(curve["cell_c"], 2)) == (900, 37.78)


def test_what_is_not_settled_is_kept_and_read_by_the_mapping_put_right(tmp_path):
    file, kept = tmp_path / "scope.csv", tmp_path / "columns.toml"
    rows = "\n".join(
        f"{n};{0.1 + 0.5 * n};{31 - 0.01 * n - 0.03 * max(n - 30, 0) ** 2.5:.3f}" for n in range(42)
    )
    file.write_text(f"t/ms;CH1 (V);CH2 (mV)\n{rows}\n".replace(".", ","))
    asked = run(file, "--keep", kept)
    assert asked.exit_code == 2
    assert "No column is known as the current." in asked.output
    text = kept.read_text()
    text = text.replace("nth = 1\n", "").replace("nth = 2\n", "")
    head, _, tail = text.rpartition('quantity = "voltage_v"')
    kept.write_text(f'given = {{ shunt_ohm = 0.01 }}\n{head}quantity = "shunt_v"{tail}')
    again = run(file, "--mapping", kept)
    assert again.exit_code in (0, 1), again.output
    assert "CH2 (mV): voltage over the shunt in mV" in again.output
    assert re.search(r"Isc 3\.(09|10)", again.output)


def test_a_chart_is_drawn(tmp_path):
    result = run(CURVES / "two-ways.csv", "--to", tmp_path / "curve.svg")
    assert "Drawn: curve.svg" in result.output
    assert (tmp_path / "curve.svg").read_text().startswith("<svg")


def test_readings_of_a_meter_are_told_with_their_bounds():
    result = run(CURVES / "resistors.toml", "--cell", "156 mm mono")
    assert result.exit_code == 0, result.output
    for part in (
        "4.7 ohm: 18.110 +- 0.064 V, 3.8532 +- 0.027 A (voltage read; current by 4.7 ohm)",
        "Isc went from 4.62 to 4.6 A (-0.4%), read before and after",
        "One of its cells, taken for 156 mm mono in all that the readings do not tell:",
        "Fit of 36 cells",
    ):
        assert part in result.output
    found = record(CURVES / "resistors.toml", "--cell", "156 mm mono")
    assert found["power_low_w"] < TRUE_W[812] < found["power_high_w"]
    assert 36 * found["cell"]["power_low_w"] < TRUE_W[812] < 36 * found["cell"]["power_high_w"]


def test_readings_that_contradict_are_one_clear_error(tmp_path):
    text = (CURVES / "resistors.toml").read_text().replace('"15.03 V"', '"12.5 V"')
    (tmp_path / "meter.toml").write_text(text)
    result = run(tmp_path / "meter.toml")
    assert result.exit_code == 2
    assert "3.3 ohm" in result.output
    assert "no panel gives more current at more voltage" in result.output
    assert "meter.toml" in result.output


def test_every_mistake_in_a_meter_s_file_is_told_at_once(tmp_path):
    file = tmp_path / "meter.toml"
    file.write_text(
        'voc = 20.8\nisc = "4.6 V"\nmoon = 1\ncells = 0\nmeter.volts = "good"\n'
        'meter.amps = "1 % + 2 of 0.01 A"\nmeter.volts_at = "home"\nbefore = 1\n'
        '[[load]]\nresistor = 5\nlamp = "x"\n'
    )
    result = run(file)
    assert result.exit_code == 2
    keys = (
        "moon",
        "cells",
        "voc",
        "isc",
        "meter.volts",
        "meter.volts_at",
        "before",
        "load 1.resistor",
        "load 1.lamp",
    )
    assert [key for key in keys if f"meter.toml: {key}" not in result.output] == []
    file.write_text("voc = ")
    assert "no TOML" in run(file).output


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--irradiance", "812"), "no figure with its unit"),
        (("--cell-temp", "hot"), "no figure with its unit"),
        (("--irradiance", "812 kW/m2"), "is not likely of irradiance"),
    ],
)
def test_a_figure_typed_wrongly_is_told(words, part):
    result = run(CURVES / "kondensator.csv", *words)
    assert result.exit_code == 2
    assert part in result.output


def test_what_a_file_says_of_its_own_isc_is_held_against_its_points(tmp_path):
    text = (CURVES / "kondensator.csv").read_text("cp1252")
    file = tmp_path / "own.csv"
    file.write_text(text.replace("Zellen in Reihe", "Isc: 4,56 A; Voc: 22,5 V\nZellen in Reihe"))
    output = run(file).output
    assert "The file says Isc 4.56 A; its points give 4.56 A, -0.0%." in output
    assert "The file says Voc 22.5 V; its points give 20.78 V, +8.3%. LOOK" in output


def test_a_curve_in_the_dark_is_one_clear_error():
    result = run(CURVES / "kondensator.csv", "--irradiance", "0 W/m2")
    assert result.exit_code == 2
    assert "a curve in the dark has no key points" in result.output


def test_a_file_that_is_not_there_is_told():
    result = run(CURVES / "no-such.csv")
    assert result.exit_code == 2
    assert "cannot be read" in result.output


def test_one_thing_without_a_curve_does_not_hide_the_others(tmp_path):
    file = tmp_path / "two.csv"
    good = "".join(f"A;{v / 2};{3.1 - 0.0005 * v**2:.4f}\n" for v in range(0, 80))
    file.write_text("Serial;U [V];I [A]\n" + good + "B;1;3\nB;1;3\n")
    result = run(file, "--cells", 72)
    assert result.exit_code == 1
    assert "No curve came of B" in result.output
    assert "Serial A" in result.output
