"""Every row of a file is read, bad, or told as no cell; what is read is what was written."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_lots import EXAMPLES, MADE, continental_csv, lot, us_csv, workbook

from panewright.errors import SheetError
from panewright.intake.cells import CellRows
from panewright.intake.proposal import propose
from panewright.intake.reading import read_cells
from panewright.intake.sheet import read_sheet


def read(data: bytes | str, name: str = "lot.csv") -> CellRows:
    sheet = read_sheet(data.encode() if isinstance(data, str) else data, name)
    mapping = propose(sheet)
    return read_cells(sheet, mapping.unlit() if mapping.open_light else mapping)


NUMBERS = ("", "9.1", "9,05", "611", "n/a", "OL", "9.1 A", "0.61 V", "-", "1e5", "9.1.1", "12 500", "-3")
WORDS = ("chip", " ", "#REF!", "=A1", "Total", "Mean", "No", "Isc [A]", "Größe", "C 17 broken", "5. Mai")
FIELDS = st.sampled_from(NUMBERS) | st.sampled_from(WORDS)


@given(st.lists(st.lists(FIELDS, max_size=6), min_size=1, max_size=25), st.sampled_from(";\t|"))
def test_rows_in_are_rows_read_bad_or_told(rows, mark):
    lines = [["No", "Isc [A]", "Voc [mV]", "Remark"], ["1", "9.1", "611", ""], *rows]
    data = "".join(mark.join(row) + "\n" for row in lines)
    try:
        cells = read(data)
    except SheetError as told:
        assert "have more fields than the header" in str(told)  # noqa: PT017
        return
    told = [
        set(cells.row_numbers.tolist()),
        {each.row for each in cells.bad},
        {each.row for each in cells.passed},
    ]
    assert set.union(*told) == set(range(2, len(lines) + 1))
    assert sum(map(len, told)) == len(lines) - 1  # each row in one of the three, and in no other
    assert all(each.reason and each.cure for each in cells.bad)


def test_a_bad_row_names_row_column_value_reason_and_cure():
    cells = read("No;Isc [A];Voc [mV]\n1;9.1;611\n2;OL;chip\n3;9.0;610\n;9;608\n")
    assert [(each.row, each.column, each.value) for each in cells.bad] == [
        (3, "Isc [A]", "OL"),
        (3, "Voc [mV]", "chip"),
        (5, "No", ""),
    ]
    assert all(each.reason and each.cure for each in cells.bad)
    assert cells.marks == ("1", "3")


def test_a_cell_that_was_never_read_stays_with_its_mark():
    cells = read("No;Isc [A];Voc [mV];Remark\n1;9.1;611;\n2;;;in reserve\n")
    assert cells.marks == ("1", "2")
    assert cells.remarks == ("", "in reserve")
    assert np.isnan(cells.figures["isc_a"][1])


def test_several_readings_of_a_row_stay_several_and_share_light_and_heat():
    cells = read(
        "Cell;Isc 1 [A];Isc 2 [A];Voc [mV];I @ 0.5 V [A];I @ 0.4 V [A];E [W/m2];Grade\n"
        "a;9.1;9.2;611;8;9;980;A\nb;9;;608;;;970;B\n"
    )
    assert cells.marks == ("a", "a", "b")
    assert cells.row_numbers.tolist() == [2, 2, 3]
    assert cells.figures["isc_a"].tolist() == [9.1, 9.2, 9.0]
    np.testing.assert_array_equal(cells.figures["voc_v"], [0.611, np.nan, 0.608])
    np.testing.assert_array_equal(cells.figures["at_v"], [0.5, 0.4, np.nan])
    np.testing.assert_array_equal(cells.figures["at_a"], [8, 9, np.nan])
    assert cells.figures["irradiance_w_m2"].tolist() == [980, 980, 970]
    assert cells.grades == ("A", "A", "B")


def test_rows_that_bear_the_same_mark_stay_apart():
    assert read("Cell;Isc [A]\na;9.1\nb;9.0\na;9.2\n").marks == ("a", "b", "a")


def test_a_current_backwards_is_kept_as_two_positive_sizes():
    cells = read("Cell;Isc [A];Irev @ -12 V [mA]\na;9.1;-35\nb;9.0;-1200\n")
    assert cells.figures["reverse_v"].tolist() == [12, 12]
    assert cells.figures["reverse_a"].tolist() == pytest.approx([0.035, 1.2])


def test_every_quantity_comes_to_si():
    text = (
        "Cell;Isc [mA];Voc [mV];Imp [mA];Vmp [mV];Pmp [mW];FF [%];Eta [%];Rsh [kOhm];E [mW/cm2];T [degF]\n"
        "a;9100;611;8500;512;4352;78.3;18;0.02;98;77\n"
    )
    figures = {name: column[0] for name, column in read(text).figures.items()}
    assert figures == pytest.approx(
        {"isc_a": 9.1, "voc_v": 0.611, "imp_a": 8.5, "vmp_v": 0.512, "pmp_w": 4.352, "fill_factor": 0.783}
        | {"efficiency": 0.18, "shunt_ohm": 20.0, "irradiance_w_m2": 980.0, "cell_c": 25.0}
    )


def test_without_marks_cells_go_by_their_row_and_it_is_told():
    cells = read("Isc [A];Voc [V]\n9.1;0.61\n9.0;0.6\n")
    assert cells.marks == ("2", "3")
    assert any("go by the number of their row" in note for note in cells.notes)


def test_a_spreadsheets_whole_numbers_are_marks_as_people_write_them():
    assert read("No;Isc [A]\n1.0;9.1\n2.0;9\n").marks == ("1", "2")


@pytest.mark.parametrize("name", MADE)
def test_the_examples_are_as_they_were_made(name):
    kept, made = (EXAMPLES / name).read_bytes(), MADE[name]()
    if name.endswith("csv"):
        assert kept == made
    assert read_sheet(kept, name).columns == read_sheet(made, name).columns
    assert "INVENTED" in " ".join(read_sheet(kept, name).titles) or "ERFUNDEN" in " ".join(
        read_sheet(kept, name).titles
    )


BOOK_BAD = {12: "=B11*C12/C11", 25: "#DIV/0!", 40: "2020-05-09 00:00:00", 55: "broken", 70: "", 81: "OL"}


@pytest.mark.parametrize(
    ("data", "name", "rows", "readings", "bad"),
    [
        (us_csv(), "a.csv", 160, 158, {41: "OL", 103: "warm"}),
        (continental_csv(), "b.csv", 122, 236, {21: "leer", 58: ""}),
        (workbook(), "c.xlsx", 140, 134, BOOK_BAD),
    ],
    ids=["us", "continental", "workbook"],
)
def test_invented_lots_are_read_whole(data, name, rows, readings, bad):
    cells = read(data, name)
    assert {each.row: each.value for each in cells.bad} == bad
    assert len(cells) == readings
    assert len(set(cells.row_numbers.tolist())) + len(bad) + len(cells.passed) == rows
    assert not any("LOOK" in note for note in cells.notes)


def test_what_is_read_is_what_the_invented_cells_show():
    made, cells = lot(160, 1), read(us_csv())
    places = [int(mark[1:]) - 1 for mark in cells.marks]
    true = np.array([[made.points(k).isc_a, made.points(k).voc_v, made.points(k).imp_a] for k in places])
    told = np.array([cells.figures[name] for name in ("isc_a", "voc_v", "imp_a")]).T
    assert np.nanmax(np.abs(told / true - 1)) < 0.01
    np.testing.assert_allclose(cells.figures["cell_c"], made.cell_c[places], atol=0.05)


def test_invented_lots_hang_together_as_real_ones_do():
    made = lot(400, 5)
    isc = np.array([cell.stc.light_a for cell in made.cells])
    voc = np.log(isc / [cell.stc.saturation_a for cell in made.cells])
    assert np.corrcoef(isc[~made.chipped], voc[~made.chipped])[0, 1] > 0.5
    assert 0.03 < np.mean([cell.stc.shunt_ohm < 5 for cell in made.cells]) < 0.2
    assert made.irradiance_w_m2[20:60].mean() > made.irradiance_w_m2[-40:].mean() + 10


def test_a_hundred_thousand_rows_keep_every_one():
    head, *rows = us_csv().decode("utf-8-sig").split("\r\n")[1:-1]
    many = "\r\n".join([head, *(rows * 625)]).encode()
    cells = read(many)
    assert len(cells) + len({each.row for each in cells.bad}) == 625 * len(rows)


def test_examples_say_that_they_are_invented():
    assert "No figure in them was measured" in (Path(EXAMPLES) / "README.md").read_text("utf-8")
