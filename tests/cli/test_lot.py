"""`panewright lot`: what it prints of a table, what it keeps, and with what it answers."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from panewright.cli.main import cli

LOTS = Path(__file__).parents[2] / "examples" / "lots"
SOUND = "No;Isc [A];Uoc [mV];E [W/m2];T [degC]\n" + "".join(
    f"{n};{9.1 + 0.013 * (n % 7):.3f};{612 + 3 * (n * 5 % 9)};{990 + n % 4};{25 + n % 3}\n"
    for n in range(1, 41)
).replace(".", ",")


def run(*words: object) -> Result:
    return CliRunner().invoke(cli, ["lot", "read", *[str(word) for word in words]])


def test_columns_bad_rows_spread_and_suspects_are_printed():
    result = run(LOTS / "barn-roof.csv")
    assert result.exit_code == 1
    assert (
        "Isc (mA): short-circuit current in mA (names short-circuit current; the heading says mA)."
        in result.output
    )
    assert "bad, row 41, Isc (mA): 'OL'" in result.output
    assert "Rows read: 158; bad: 2" in result.output
    assert "Cells: 158, taken for 156 mm mono" in result.output
    assert "B056 (row 58), shunt: " in result.output


def test_a_sound_table_answers_0(tmp_path):
    (tmp_path / "lot.csv").write_text(SOUND)
    result = run(tmp_path / "lot.csv", "--cell", "156 mm poly")
    assert result.exit_code == 0, result.output
    assert "No suspects." in result.output
    assert "as told" in result.output


def test_what_is_not_settled_is_kept_asked_for_and_read_by_the_mapping_put_right(tmp_path):
    (tmp_path / "lot.csv").write_text(SOUND.replace("T [degC]", "Temp").replace(";25", ";77"))
    file, kept = tmp_path / "lot.csv", tmp_path / "columns.toml"
    result = run(file, "--keep", kept)
    assert result.exit_code in (1, 2)
    text = kept.read_text()
    again = run(file, "--keep", kept)
    assert again.exit_code == 2
    assert "there already" in again.output
    assert kept.read_text() == text
    assert run(file, "--mapping", kept).exit_code == result.exit_code
    told = text.replace('[[column]]\nheader = "Temp"', '[[column]]\nunit = "degF"\nheader = "Temp"')
    assert told != text


def test_an_open_unit_is_asked_for_and_settled_in_the_kept_file(tmp_path):
    lines = ["No;Isc [A];Uoc [mV];Temp"] + [f"{n};9,{n % 10}1;61{n % 10};7{n % 3 + 6}" for n in range(1, 31)]
    file, kept = tmp_path / "lot.csv", tmp_path / "columns.toml"
    file.write_text("\n".join(lines))
    result = run(file, "--keep", kept)
    assert result.exit_code == 2
    assert "Say which: degC, degF." in result.output
    kept.write_text(kept.read_text().replace('quantity = "cell_c"', 'quantity = "cell_c"\nunit = "degF"'))
    settled = run(file, "--mapping", kept)
    assert settled.exit_code in (0, 1), settled.output
    assert "Cells: 30" in settled.output


def test_every_cell_is_written_where_asked(tmp_path):
    result = run(LOTS / "half-a-volt.xlsx", "--to", tmp_path / "cells.csv")
    assert (tmp_path / "cells.csv").read_text("utf-8-sig").count("\n") == 135
    assert f"{tmp_path / 'cells.csv'} lists every cell." in result.output


def test_what_is_no_table_is_told_without_a_traceback(tmp_path):
    (tmp_path / "lot.xls").write_bytes(b"\xd0\xcf\x11\xe0" + bytes(600))
    for name in ("lot.xls", "none.csv"):
        result = run(tmp_path / name)
        assert result.exit_code == 2
        assert result.exception is None or isinstance(result.exception, SystemExit)


def test_offers_are_ranked_and_listed(tmp_path):
    words = ("lot", "offers", LOTS / "offers.toml", LOTS.parent / "frost-sensor.toml", "--times", "20")
    made = CliRunner().invoke(cli, [*map(str, words), "--to", str(tmp_path / "offers.csv")])
    assert made.exit_code == 0, made.output
    assert "1. mixed box, measured here costs" in made.output
    assert "A grade" in (tmp_path / "offers.csv").read_text("utf-8-sig")


def test_offers_that_are_none_are_told(tmp_path):
    (tmp_path / "offers.toml").write_text("[[offer]]\nname = 3\n")
    words = ("lot", "offers", tmp_path / "offers.toml", LOTS.parent / "frost-sensor.toml")
    made = CliRunner().invoke(cli, [*map(str, words)])
    assert made.exit_code == 2
    assert "offer.price" in made.output
