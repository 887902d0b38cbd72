"""Strange files of a curve: each command gives one clear answer, and no finding out of nothing."""

from __future__ import annotations

import pytest
from click.testing import CliRunner, Result

from examples import FOLDER
from panewright.cli.main import cli

BENCH = FOLDER / "bench"
SWEEP = (BENCH / "henhouse-sweep.csv").read_text().splitlines()
TOP = next(k for k, line in enumerate(SWEEP) if line.startswith("Time")) + 1

BAD = {
    "empty": (b"", "The file is empty."),
    "bytes": (bytes(range(256)), "There is a byte in it that no text has"),
    "words": (b"The panel is fine.\nYours, Ann\n", "No row of the file is a point of a curve."),
    "a heading": ("\n".join(SWEEP[:TOP]).encode(), "No row of the file is a point of a curve."),
    "one row": ("\n".join(SWEEP[: TOP + 1]).encode(), "No run of the points is a curve."),
}


def run(command: str, path) -> Result:
    words = [command, path] if command == "curve" else [command, FOLDER / "henhouse.toml", path]
    given = [] if command == "curve" else ["--bench", BENCH / "henhouse-bench.toml"]
    return CliRunner().invoke(cli, [str(word) for word in [*words, *given]])


def written(tmp_path, change, heading=lambda line: line):
    """The sweep with every point changed: time, volts, amperes, light, heat."""
    rows = [",".join(change(*line.split(","))) for line in SWEEP[TOP:] if line.strip()]
    file = tmp_path / "strange.csv"
    file.write_text("\n".join([*SWEEP[: TOP - 1], heading(SWEEP[TOP - 1]), *rows]) + "\n")
    return file


@pytest.mark.parametrize("name", BAD)
@pytest.mark.parametrize("command", ["curve", "rate", "fault"])
def test_what_is_no_curve_is_refused_in_one_sentence(tmp_path, command, name):
    data, said = BAD[name]
    file = tmp_path / "strange.csv"
    file.write_bytes(data)
    result = run(command, file)
    assert result.exit_code == 2
    assert said in result.output
    assert "Traceback" not in result.output


TURNED = {
    "in mA": (lambda t, v, i, *more: (t, v, f"{1000 * float(i):.1f}", *more), ("I (A)", "I (mA)")),
    "both signs": (lambda t, v, i, *more: (t, f"-{v}", f"{-float(i)}", *more), ("", "")),
    "degF": (lambda *row: (*row[:4], f"{1.8 * float(row[4]) + 32:.1f}"), ("temp (C)", "temp (F)")),
}


@pytest.mark.parametrize("name", TURNED)
def test_other_units_and_signs_are_rated_as_they_were(tmp_path, name):
    change, (old, new) = TURNED[name]
    result = run("rate", written(tmp_path, change, lambda line: line.replace(old, new)))
    assert result.exit_code == 0, result.output
    assert "PASS, label 73 W" in result.output


def test_a_current_in_mA_under_a_heading_in_A_is_doubted_by_both(tmp_path):
    file = written(tmp_path, TURNED["in mA"][0])
    rated, found = run("rate", file), run("fault", file)
    assert "A is not likely of current" in rated.output
    assert "A is not likely of current" in found.output
    assert "LOOK: nothing that is supposed explains these readings" in found.output


def test_a_top_cut_off_by_the_meters_range_makes_no_fault(tmp_path):
    top = 0.95 * max(float(line.split(",")[2]) for line in SWEEP[TOP:] if line.strip())
    file = written(tmp_path, lambda t, v, i, *more: (t, v, f"{min(float(i), top):.4f}", *more))
    result = run("fault", file)
    assert result.exit_code == 0
    assert "Nothing wrong is to be seen" in result.output


def test_a_range_that_cut_off_short_circuit_is_named_as_the_cause(tmp_path):
    file = written(tmp_path, lambda t, v, i, *more: (t, v, f"{min(float(i), 3.2):.4f}", *more))
    result = run("rate", file)
    assert result.exit_code == 2
    assert "The meter's range cut" in result.output
    assert "Choose a wider range" in result.output


def test_a_sweep_that_ends_short_of_open_circuit_is_rated_without_voc_and_flagged(tmp_path):
    top = 0.92 * max(float(line.split(",")[1]) for line in SWEEP[TOP:] if line.strip())
    rows = [line for line in SWEEP[TOP:] if line.strip() and float(line.split(",")[1]) < top]
    file = tmp_path / "short.csv"
    file.write_text("\n".join([*SWEEP[:TOP], *rows]) + "\n")
    result = run("rate", file)
    assert "Pmp: 72.4" in result.output
    assert "Voc: not rated. The sweep does not reach it." in result.output
    assert "sweep not past Voc" in result.output


def test_spares_are_asked_of_the_records_alone():
    words = ["fault", FOLDER / "henhouse.toml", BENCH / "henhouse-sweep.csv", "--spares", "barn"]
    result = CliRunner().invoke(cli, [str(word) for word in words])
    assert result.exit_code == 2
    assert "Spares are of the shop's records" in result.output
