"""Files that are broken or made to break: each one clear error with place, value, reason and cure."""

from __future__ import annotations

import zipfile
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.errors import SheetError
from panewright.intake.bounds import MOST_BYTES
from panewright.intake.proposal import propose
from panewright.intake.reading import read_cells
from panewright.intake.sheet import read_sheet

BOOK = '<workbook xmlns:r="r"><sheets><sheet name="s" r:id="a"/></sheets></workbook>'
TIES = '<Relationships><Relationship Id="a" Target="worksheets/sheet1.xml"/></Relationships>'


def packed(sheet: str | bytes, **others: str | bytes) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as box:
        box.writestr("xl/workbook.xml", others.pop("book", BOOK))
        box.writestr("xl/_rels/workbook.xml.rels", TIES)
        box.writestr("xl/worksheets/sheet1.xml", sheet)
        for name, content in others.items():
            box.writestr(f"xl/{name}.xml", content)
    return out.getvalue()


def rows(inner: str) -> str:
    return f"<worksheet><sheetData>{inner}</sheetData></worksheet>"


def cell(place: str, text: str) -> str:
    return f'<c r="{place}" t="str"><v>{text}</v></c>'


HEAD = '<row r="1">' + cell("A1", "Cell") + cell("B1", "Isc [A]") + "</row>"
BILLION = "<!DOCTYPE x [<!ENTITY a '" + "a" * 1000 + "'><!ENTITY b '" + "&a;" * 1000 + "'>]>"


@pytest.mark.parametrize(
    ("data", "part"),
    [
        (b"", "The file is empty."),
        (b" \n\n ", "The file is empty."),
        (b"No;Isc\n", "a header and no cell under it"),
        (b"No;Isc\n;\n;\n", "a header and no cell under it"),
        (b"%PDF-1.7\n...", "This is a PDF"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "the old kind"),
        (b"\x1f\x8b\x08\x00", "a packed file"),
        (b"\x89PNG\r\n\x1a\n", "a picture"),
        (b"<!doctype html><table>", "a page of the web"),
        (b"No;Isc\n1;9.1\x00\n", "a byte in it that no text has"),
        (b"No;Isc\n1;\x079.1\n", "a byte in it that no text has"),
        (b"\xff\xfeN\x00o\x00;\x00\x00\xd8;\x00", "its bytes are none from here on"),
        (b'No;Isc\n1;"9.1\n2;9.0\n', "A quotation mark opens here"),
        (b'No;Isc\n1;"9"1\n2;9.0\n', "A quotation mark opens here"),
        (b"No,Isc,Voc\n1,9,12,0,61\n2,9,05,0,60\n", "have more fields than the header"),
        (b";" * 10**6 + b"\n1;2\n", "no row of a table"),
        (b"c;" * 1000 + b"\n" + b"1;" * 1000, "are no table of readings"),
        (b"PK\x03\x04" + bytes(40), "The workbook is broken"),
        (b'"' + b"x" * 140_000 + b"\n1;2\n", "no row of a table"),
        (b'No;Isc\n"' + b"x\n" * 140_000 + b"1;2\n", "A quotation mark opens here"),
        (b";" * 400 + b"\n" + (b";" * 400 + b"\n") * 50_000, "at most 1000000 and 20000000 are read"),
    ],
)
def test_a_broken_file_is_one_clear_error(data, part):
    with pytest.raises(SheetError) as told:
        read_sheet(data, "lot.csv")
    assert part in str(told.value)
    (problem,) = told.value.problems
    assert problem.file.startswith("lot.csv")
    assert problem.cure


@pytest.mark.parametrize(
    ("data", "line"), [(b"No;Isc\n1;9.1\n2;9\x00\n", 3), (b'No;Isc\n1;9\n2;"9.1\n3;4\n', 3), (b"No;Isc\n", 1)]
)
def test_the_row_is_told(data, line):
    with pytest.raises(SheetError) as told:
        read_sheet(data, "lot.csv")
    assert told.value.problems[0].line == line


def test_a_large_file_is_refused_before_it_is_looked_at():
    with pytest.raises(SheetError, match="at most 60 MB"):
        read_sheet(b"No;Isc\n" + b" " * MOST_BYTES, "lot.csv")


@pytest.mark.parametrize(
    ("data", "part"),
    [
        (packed(b" " * (MOST_BYTES + 10)), "Unpacked it is more than 60 MB"),
        (packed(rows(HEAD), sharedStrings=b" " * (MOST_BYTES + 10)), "Unpacked it is more than 60 MB"),
        (packed(BILLION + rows(HEAD)), "broken within"),
        (packed(rows(HEAD) + "<"), "broken within"),
        (packed("\xff\xfe"), "broken within"),
        (packed(rows('<row r="1"><c r="A1" t="s"><v>7</v></c></row>')), "broken within"),
        (packed(rows('<row r="1"><c r="A1" t="s"><v>x</v></c></row>')), "broken within"),
        (packed(rows("<row r='9" + "9" * 5000 + "'/>")), "broken within"),
        (packed(rows(HEAD + '<row r="2">' + cell("XFD2", "1") + "</row>")), "A cell stands in column 16384"),
        (packed(rows("")), "No sheet of the workbook holds anything"),
        (packed(rows(HEAD), book="<workbook/>"), "No sheet of the workbook holds anything"),
        (packed(rows(HEAD), book=""), "no XLSX workbook"),
        (packed(rows(HEAD)), "a header and no cell under it"),
        (packed(rows(HEAD))[:-30], "The workbook is broken"),
    ],
    ids=range(14),
)
def test_a_workbook_made_to_break_is_one_clear_error(data, part):
    with pytest.raises(SheetError) as told:
        read_sheet(data, "lot.xlsx")
    assert part in str(told.value)
    assert len(told.value.problems) == 1


def test_a_workbook_with_thousands_of_files_is_refused():
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as box:
        for number in range(2001):
            box.writestr(f"{number}", b"")
    with pytest.raises(SheetError, match="2001 files"):
        read_sheet(out.getvalue(), "lot.xlsx")


def test_a_cell_at_the_far_corner_costs_nothing():
    far = (
        '<row r="2">'
        + cell("A2", "C1")
        + cell("B2", "9.1")
        + '</row><row r="1048576">'
        + cell("A1048576", "C2")
        + "</row>"
    )
    sheet = read_sheet(packed(rows(HEAD + far)), "lot.xlsx")
    assert sheet.row_numbers.tolist() == [2, 1048576]


def test_a_workbook_of_another_writers_habits_is_read():
    """Prefixed names, shared texts in pieces with reading aids, texts in place, cells without a place."""
    book = BOOK.replace("<workbook ", "<x:workbook xmlns:x='m' ").replace("</workbook>", "</x:workbook>")
    texts = "<sst><si><r><t>Isc </t></r><r><t>[A]</t></r><rPh><t>no</t></rPh></si><si><t>Cell</t></si></sst>"
    inner = (
        '<x:row><x:c t="s"><x:v>1</x:v></x:c><x:c t="s"><x:v>0</x:v></x:c></x:row><x:row>'
        '<x:c t="inlineStr"><x:is><x:t>C1</x:t></x:is></x:c><x:c><x:f>1+8.1</x:f><x:v>9.1</x:v></x:c></x:row>'
    )
    page = f"<x:worksheet xmlns:x='m'><x:sheetData>{inner}</x:sheetData></x:worksheet>"
    sheet = read_sheet(packed(page, book=book, sharedStrings=texts), "lot.xlsx")
    assert sheet.header == ("Cell", "Isc [A]")
    assert sheet.columns == (("C1",), ("9.1",))


def test_a_package_that_lies_about_its_sizes_is_not_believed():
    data = bytearray(packed(b" " * (MOST_BYTES + 10)))
    place = data.rindex(b"xl/worksheets/sheet1.xml") - 46 + 24  # the size that its list of contents states
    data[place : place + 4] = (10).to_bytes(4, "little")
    with pytest.raises(SheetError):
        read_sheet(bytes(data), "lot.xlsx")


def test_joined_cells_without_end_are_borne():
    joined = "".join(f'<mergeCell ref="A1:XFD{1048576 - k}"/>' for k in range(3000))
    body = HEAD + '<row r="2">' + cell("A2", "C1") + cell("B2", "9.1") + "</row>"
    data = packed(f"<worksheet><sheetData>{body}</sheetData><mergeCells>{joined}</mergeCells></worksheet>")
    assert len(read_sheet(data, "lot.xlsx").header) == 2


def test_headings_that_stand_twice_or_not_at_all_are_told():
    sheet = read_sheet(b"STC\nNo;Isc [A];Isc [A];\n1;9.1;9.2;good\n2;9.0;9.1;\n", "lot.csv")
    mapping = propose(sheet)
    assert [each.reading for each in mapping.bound[1:3]] == [1, 2]
    assert "stands there already" in mapping.bound[2].doubt
    assert mapping.bound[3].quantity == ""
    cells = read_cells(sheet, mapping)
    assert cells.figures["isc_a"].tolist() == [9.1, 9.2, 9.0, 9.1]
    assert "Left unread: column 4." in cells.notes


def whole_or_told(data: bytes, name: str) -> bool:
    """Whether a table comes out whole, or every problem has its cure."""
    try:
        sheet = read_sheet(data, name)
    except SheetError as told:
        return all(problem.reason and problem.cure for problem in told.problems)
    return all(len(column) == len(sheet) for column in sheet.columns)


@given(st.binary(max_size=400))
def test_any_bytes_are_a_table_or_one_clear_error(data):
    assert whole_or_told(data, "lot.csv")


@given(st.text("No;Isc[A]1,.9\n\t\"'=-", max_size=200))
def test_any_letters_are_a_table_or_one_clear_error(text):
    assert whole_or_told(text.encode(), "lot.csv")


@given(st.binary(max_size=300), st.integers(0, 2000))
def test_a_workbook_with_any_bytes_put_in_is_a_table_or_one_clear_error(noise, place):
    body = HEAD + '<row r="2">' + cell("A2", "C1") + cell("B2", "9.1") + "</row>"
    data = packed(rows(body))
    assert whole_or_told(data[:place] + noise + data[place + len(noise) :], "lot.xlsx")


@given(st.text("<>/rowcv \"='A1t&;", max_size=200))
def test_a_sheet_of_any_markup_is_a_table_or_one_clear_error(inner):
    assert whole_or_told(packed(rows(HEAD + inner)), "lot.xlsx")
