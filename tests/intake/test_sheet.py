"""Tables as people have them: letters, delimiters, titles, units, totals, joined cells."""

from __future__ import annotations

from io import BytesIO

import pytest

from panewright.errors import SheetError
from panewright.intake.delimited import read_delimited
from panewright.intake.sheet import Sheet, read_sheet

TABLE = "Zelle;Isc [A];Uoc [mV];Bemerkung\n1;9,12;611;Größe\n2;9,05;608;\n"


def read(text: str | bytes) -> Sheet:
    return read_sheet(text.encode() if isinstance(text, str) else text, "lot.csv")


def workbook(*rows: list[object], joined: tuple[str, ...] = ()) -> bytes:
    import openpyxl

    book = openpyxl.Workbook()
    page = book.active
    assert page is not None
    for row in rows:
        page.append(row)
    for each in joined:
        page.merge_cells(each)
    out = BytesIO()
    book.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    "letters", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "latin-1"]
)
def test_the_same_table_in_any_letters(letters):
    sheet = read(TABLE.encode(letters))
    assert sheet.header == ("Zelle", "Isc [A]", "Uoc [mV]", "Bemerkung")
    assert sheet.columns[3] == ("Größe", "")


@pytest.mark.parametrize("mark", [";", "\t", "|", ","])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_the_same_table_under_any_mark_and_line_end(mark, end):
    text = TABLE.replace(",", ".").replace(";", mark).replace("\n", end)
    sheet = read(text)
    assert sheet.columns[1] == ("9.12", "9.05")
    assert sheet.row_numbers.tolist() == [2, 3]


def test_a_spreadsheets_own_first_line_tells_the_mark():
    sheet = read("sep=;\n" + TABLE)
    assert sheet.columns[0] == ("1", "2")
    assert sheet.row_numbers.tolist() == [3, 4]


def test_lines_of_two_habits_are_each_read_by_their_own_and_told():
    lines = TABLE.splitlines(keepends=True)
    sheet = read(lines[0].encode() + lines[1].encode("cp1252") + "3;9,0;607;Öl\n".encode())
    assert sheet.columns[3] == ("Größe", "Öl")
    assert any("Windows-1252 in rows 2" in note for note in sheet.notes)


def test_titles_units_empty_rows_totals_and_the_header_again_are_told_apart():
    text = (
        "Lot 12, roof\n\nMeasured on 3 Nov at 1000 W/m2\nNo;Isc;Voc;Remark\n;[A];[mV];\n1;9.1;611;\n;;;\n"
        "No;Isc;Voc;Remark\n2;9.0;608;\nMean;9.05;609.5;\nTotal cells: 2;;;\nread by the two of us;;;\n"
    )
    sheet = read(text)
    assert sheet.titles == ("Lot 12, roof", "Measured on 3 Nov at 1000 W/m2")
    assert sheet.units == ("", "A", "mV", "")
    assert sheet.columns[0] == ("1", "2")
    assert sheet.row_numbers.tolist() == [6, 9]
    passed = [(each.row, each.reason) for each in sheet.passed]
    assert passed == [(7, "empty"), (8, "the header again"), (10, "a total"), (11, "a total"), (12, "a note")]


def test_columns_may_be_parted_by_mere_gaps():
    sheet = read("Lot of eight\n\nCell   Isc[A]  Voc[mV]\n1      9.12    611\n2      9.05    608\n")
    assert sheet.header == ("Cell", "Isc[A]", "Voc[mV]")
    assert sheet.columns[2] == ("611", "608")
    assert sheet.row_numbers.tolist() == [4, 5]


def test_many_empty_rows_above_do_not_hide_a_header():
    assert read("\n" * 200 + TABLE).columns[0] == ("1", "2")


def test_a_quoted_field_may_hold_marks_quotes_and_lines():
    sheet = read('No,Isc,Remark\n1,9.1,"chip, 1/4"" at\nthe edge"\n2,9.0,\n')
    assert sheet.columns[2][0] == 'chip, 1/4" at\nthe edge'
    assert sheet.row_numbers.tolist() == [2, 4]


def test_rows_of_other_lengths_are_told():
    sheet = read("No;Isc;Voc\n1;9.1;611\n2;9.0\n3;9.2;610;;\n4;9.1;612;oops\n5;9;609\n")
    assert sheet.columns[0] == ("1", "2", "3", "5")
    assert sheet.columns[2] == ("611", "", "610", "609")
    assert [(each.row, each.value) for each in sheet.bad] == [(5, "oops")]
    assert any("1 rows are shorter" in note for note in sheet.notes)


def test_a_table_without_a_header_goes_by_place():
    sheet = read("1;9.1;611\n2;9.0;608\n")
    assert sheet.header == ("", "", "")
    assert sheet.called(1) == "column 2"
    assert len(sheet) == 2


def test_headings_nobody_knows_are_still_a_header():
    assert read("alpha;beta;gamma\n1;9.1;611\n2;9.0;608\n").header == ("alpha", "beta", "gamma")


def test_a_workbooks_best_sheet_is_read_and_the_others_told():
    import openpyxl

    book = openpyxl.Workbook()
    book.active.append(["nothing here"])
    page = book.create_sheet("data")
    for row in (["Cell", "Isc (A)"], ["a", 9.1], ["b", 9.0]):
        page.append(row)
    out = BytesIO()
    book.save(out)
    sheet = read_sheet(out.getvalue(), "lot.xlsx")
    assert sheet.columns == (("a", "b"), ("9.1", "9"))
    assert sheet.notes == ("Sheet data was read; left aside: Sheet.",)
    with pytest.raises(SheetError, match=r"no such sheet.*Write one of: Sheet, data"):
        read_sheet(out.getvalue(), "lot.xlsx", "cells")


def test_a_mark_that_is_joined_over_two_rows_is_of_both():
    data = workbook(
        ["Lot 3"], ["Cell", "Isc [A]", "Voc [V]"], ["C1", 9.1, 0.61], ["", 9.2, 0.61], ["C2", 9.0, 0.6],
        joined=("A1:C1", "A3:A4"),
    )  # fmt: skip
    sheet = read_sheet(data, "lot.xlsx")
    assert sheet.columns[0] == ("C1", "C1", "C2")
    assert sheet.titles == ("Lot 3",)


def test_headings_joined_over_several_columns_stand_before_those_under_them():
    top, low = ["", "Isc", None, "Voc", None], ["Cell", "1 [A]", "2 [A]", "1 [mV]", "2 [mV]"]
    over = workbook(top, low, ["C1", 9.1, 9.2, 611, 612], joined=("B1:C1", "D1:E1"))
    sheet = read_sheet(over, "lot.xlsx")
    assert sheet.header == ("Cell", "Isc 1 [A]", "Isc 2 [A]", "Voc 1 [mV]", "Voc 2 [mV]")
    assert sheet.row_numbers.tolist() == [3]


def test_groups_over_headings_that_do_not_say_which_need_not_be_joined():
    sheet = read(
        ";short circuit;;open circuit;MPP;MPP\ncell no;I;E;U;I;U\n;A;W/m2;V;A;V\n1;9,1;990;0,61;8,6;0,5\n"
    )
    assert sheet.header == ("cell no", "short circuit I", "E", "open circuit U", "MPP I", "MPP U")
    assert sheet.units == ("", "A", "W/m2", "V", "A", "V")
    assert sheet.row_numbers.tolist() == [4]


def test_a_title_is_no_group():
    sheet = read("short circuit, barn roof\ncell no;I;U\n1;9,1;0,61\n")
    assert sheet.header == ("cell no", "I", "U")


def test_a_word_among_units_is_no_cell_of_the_lot():
    sheet = read("Cell;Isc;;Voc;Light\n;A;again;mV;W/m²\n1;9,1;9,2;611;990\nx;y;A;z;V\n")
    assert sheet.units == ("", "A", "", "mV", "W/m²")
    assert sheet.row_numbers.tolist() == [3, 4]


def test_a_formula_without_its_value_and_a_date_stay_visible():
    import datetime

    sheet = read_sheet(
        workbook(["Cell", "Isc [A]"], ["a", "=B3*2"], ["b", datetime.date(2026, 5, 9)], ["c", 9.1]),
        "lot.xlsx",
    )
    assert sheet.columns[1] == ("=B3*2", "2026-05-09 00:00:00", "9.1")


@pytest.mark.parametrize("text", ["0,1 3,21\n0,2 3,20\n0,3 3,19\n", "0.1   3.21\n0.2  3.20\n 0.3 3.19\n"])
def test_figures_without_a_heading_may_be_parted_by_gaps(text):
    grid = read_delimited(text.encode(), "lot.txt")
    assert [len(row) for row in grid.rows] == [2, 2, 2]


def test_a_comma_and_a_gap_are_a_comma():
    grid = read_delimited(b"1, 3.21\n2, 3.20\n3, 3\n", "lot.txt")
    assert [row[0] for row in grid.rows] == ["1", "2", "3"]
