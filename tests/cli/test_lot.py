"""`panewright lot`: what it prints of a table, what it keeps, and with what it answers."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
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
    assert "B002 (row 4), remark: Its row says 'chip, 1/4\" at the edge'. It stays in." in result.output
    graded = result.output.split("By grade, Pmp in W:\n")[1].splitlines()
    counts = [int(line.split(" of ")[1].split()[0]) for line in graded[:2]]
    assert [line.split()[0] for line in graded[:2]] == ["A", "B"]
    assert sum(counts) == 158


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
    assert "light: No row tells in which light the cells were read" in result.output
    text = kept.read_text().replace('quantity = "cell_c"', 'quantity = "cell_c"\nunit = "degF"')
    kept.write_text(text.replace('light = ""', 'light = "850 W/m2"'))
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


def dark(times: float = 1.0) -> str:
    """Forty invented cells of which no column says the light."""
    amps = [(times * (8.6 + 0.01 * (n * 7 % 40)), times * (8.1 + 0.01 * (n * 7 % 40))) for n in range(40)]
    rows = [f"K{n:02},{isc:.4f},0.62,{imp:.4f},0.515" for n, (isc, imp) in enumerate(amps)]
    return "Cell,Isc [A],Voc [V],Imp [A],Vmp [V]\n" + "\n".join(rows)


def middle_w(result: Result) -> float:
    line = next(each for each in result.output.splitlines() if each.startswith("  Pmp, W"))
    return float(line.split()[4])


def test_a_table_without_light_is_not_read_until_it_is_said_and_then_seven_tenths_of_the_current_count(
    tmp_path,
):
    for name, times in (("a.csv", 1.0), ("b.csv", 0.7)):
        (tmp_path / name).write_text(dark(times))
        asked = run(tmp_path / name)
        assert asked.exit_code == 2
        assert "STC of a seller's flash list" in asked.output
    full, less = (run(tmp_path / name, "--light", "STC") for name in ("a.csv", "b.csv"))
    assert middle_w(less) == pytest.approx(0.7 * middle_w(full), rel=0.03)
    dusk = run(tmp_path / "b.csv", "--light", "700 W/m2")
    assert middle_w(dusk) == pytest.approx(middle_w(full), rel=0.03)


def test_what_nobody_knows_of_the_light_is_told_and_counted(tmp_path):
    (tmp_path / "b.csv").write_text(dark(0.7))
    told = run(tmp_path / "b.csv", "--light", "unknown", "--cell", "156 mm mono")
    assert "Nobody knows in which light the cells were read." in told.output
    assert "how good the lot is, is not" in told.output
    known = run(tmp_path / "b.csv", "--light", "STC", "--cell", "156 mm mono")
    off = [
        float(each.output.split("All cells together may be off by ")[1].split("%")[0])
        for each in (told, known)
    ]
    assert off[0] > 5 > off[1]  # lots of a kind lie 5 % apart (common practice, no source)


@pytest.mark.parametrize(
    ("light", "said"), [("850", "A light carries its unit."), ("9 V", "no unit"), ("9 suns", "no light")]
)
def test_a_light_that_is_none_is_told(tmp_path, light, said):
    (tmp_path / "b.csv").write_text(dark())
    result = run(tmp_path / "b.csv", "--light", light)
    assert result.exit_code == 2
    assert said in result.output


def known_to(result: Result) -> float:
    return float(result.output.split("The watts of a cell are known to ")[1].split()[0])


def test_a_coarse_meter_widens_the_band_and_stands_in_the_kept_file(tmp_path):
    file, kept = tmp_path / "lot.csv", tmp_path / "columns.toml"
    file.write_text(dark())
    words = (file, "--cell", "156 mm mono", "--light", "STC")
    fine = run(*words)
    coarse = run(*words, "--error", "current=3%", "--error", "voltage_digit=10 mV", "--keep", kept)
    assert known_to(coarse) > 2 * known_to(fine)
    assert "Errors as said: current 3 %, voltage_digit 0.01 V." in coarse.output
    assert 'current = "3 %"' in kept.read_text()
    assert known_to(run(file, "--cell", "156 mm mono", "--mapping", kept)) == known_to(coarse)
    gain = run(*words, "--error", "light_gain = 8 %")
    assert "All cells together may be off by 8." in gain.output


@pytest.mark.parametrize(
    ("error", "said"),
    [
        ("amps=3%", "error.amps: There is no such error of a reading. Write one of: current, "),
        (
            "current=0%",
            'error.current = 0%: This is no error of a reading. Write it with its unit, such as "0.5 %".',
        ),
        ("heat=3", "error.heat = 3: "),
        ("ammeter=-2 ohm", "error.ammeter = -2 ohm: "),
    ],
)
def test_an_error_that_is_none_is_told(tmp_path, error, said):
    (tmp_path / "lot.csv").write_text(dark())
    result = run(tmp_path / "lot.csv", "--light", "STC", "--error", error)
    assert result.exit_code == 2
    assert said in result.output


def test_every_bad_row_beyond_those_printed_stands_in_the_lists(tmp_path):
    rows = [f"{n};9,{n % 10}1;{'chip' if n % 2 else 610 + n % 9};1000;25" for n in range(1, 121)]
    (tmp_path / "lot.csv").write_text(
        "No;Isc [A];Uoc [mV];E [W/m2];T [degC]\n" + "\n".join([*rows, "", "Mean;9,1"])
    )
    result = run(tmp_path / "lot.csv", "--to", tmp_path / "cells.csv")
    assert "and 20 more; --to lists them all" in result.output
    lines = (tmp_path / "cells-not-read.csv").read_text("utf-8-sig").splitlines()
    assert lines[0].split(",") == ["row", "column", "value", "reason", "cure"]
    assert sum("chip" in line for line in lines) == 60
    assert sum("no cell: " in line for line in lines) == 2
    assert "cells-not-read.csv" in result.output
    assert run(tmp_path / "lot.csv", "--to", tmp_path / "cells.xlsx").exit_code == 1
    book = openpyxl.load_workbook(tmp_path / "cells.xlsx")
    assert len(list(book["rows not read"].rows)) == 63


def needed(*words: str) -> Result:
    return CliRunner().invoke(cli, ["lot", "need", *words])


def test_how_many_to_buy_is_told_without_an_offer():
    """By hand, the binomial law: each passes with 0.98 x 0.97; of 40 four may fail, of 39 three."""
    told = needed("36", "--lost", "arrival: 2 %", "--lost", "bench: 3 %")
    assert told.exit_code == 0, told.output
    assert "For 36 good cells, enough with 95 %: buy 40 cells." in told.output
    assert "of     39 cells:   87.49%" in told.output
    assert "of     40 cells:   95.4" in told.output
    counted = needed("36", "--lost", "soldering: 3 of 100", "--pack", "25", "--sure", "99 %")
    assert "buy 50 cells in 2 packs of 25." in counted.output
    assert "soldering loses 3.47% (by 3 of 100, itself uncertain)" in counted.output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("36", "--lost", "9 of 3"), "lost = 9 of 3: More are lost than there were."),
        (("36", "--lost", "some"), "lost = some: "),
        (("36", "--sure", "100 %"), "sure = 100 %: "),
        (("0",), "0"),
    ],
)
def test_a_need_that_is_none_is_told(words, said):
    told = needed(*words)
    assert told.exit_code == 2
    assert said in told.output
