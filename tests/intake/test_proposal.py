"""A mapping is proposed with its reasons; what could be two things is told; it is kept and used again."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.errors import SheetError
from panewright.intake.mapping import Bound, Mapping
from panewright.intake.mapping_text import as_toml, from_toml
from panewright.intake.measure import UNITS
from panewright.intake.proposal import propose
from panewright.intake.quantity import QUANTITIES
from panewright.intake.reading import read_cells
from panewright.intake.sheet import Sheet, read_sheet


def table(text: str) -> Sheet:
    return read_sheet(text.encode(), "lot.csv")


def bound(header: str, *values: str) -> Bound:
    rows = "".join(f"{place};{value}\n" for place, value in enumerate(values, start=1))
    return propose(table(f"No;{header}\n{rows}")).bound[1]


@pytest.mark.parametrize(
    ("header", "values", "unit"),
    [
        ("Isc", ("9.1", "9.0"), "A"),
        ("Isc", ("9100", "9050"), "mA"),
        ("Isc", ("13.4", "13.2"), "A"),
        ("Voc", ("0.61", "0.6"), "V"),
        ("Voc", ("611", "608"), "mV"),
        ("FF", ("0.76", "0.75"), "1"),
        ("FF", ("76", "75.5"), "%"),
        ("Eff", ("18.2", "18.4"), "%"),
        ("Pmax", ("4.1", "4.2"), "W"),
        ("Pmax", ("4100", "4200"), "mW"),
        ("Irradiance", ("980", "990"), "W/m2"),
        ("Irradiance", ("0.98", "1.01"), "kW/m2"),
        ("T", ("25.1", "26"), "degC"),
        ("T", ("298.1", "299"), "K"),
        ("T", ("90.1", "95"), "degF"),
        ("Isc", ("9.1 A", "9050 mA"), "A"),
    ],
)
def test_a_unit_nobody_wrote_is_told_by_the_figures(header, values, unit):
    told = bound(header, *values)
    assert (told.unit, told.doubt) == (unit, "")


@pytest.mark.parametrize(
    ("header", "values", "choices"),
    [("T", ("77", "78"), ("degC", "degF")), ("Irradiance", ("98", "99"), ("W/m2", "mW/cm2"))],
)
def test_what_may_be_two_units_is_not_guessed(header, values, choices):
    told = bound(header, *values)
    assert (told.unit, told.choices) == ("", choices)
    sheet = table(f"STC\nNo;{header};Isc\n1;{values[0]};9.1\n")
    with pytest.raises(SheetError, match=f"Say which: {', '.join(choices)}") as error:
        read_cells(sheet, propose(sheet))
    (problem,) = error.value.problems
    assert (problem.key, problem.value) == (header, values[0])
    settled = propose(sheet).settle(2, unit=choices[1])
    assert len(read_cells(sheet, settled)) == 1
    assert settled.doubts == ()


@pytest.mark.parametrize(
    ("header", "values", "part"),
    [
        ("Isc [mA]", ("9.1", "9.2"), "Is it A?"),
        ("Voc [V]", ("611", "608"), "Is it mV?"),
        ("Voc", ("37.1", "37.2"), "not likely of a cell in any unit"),
        ("Rsh", ("12", "40"), "ohm is taken"),
        ("Jsc [mA/cm2]", ("37", "38"), "per area"),
        ("Isc [V]", ("9.1", "9.2"), "Left unread"),
        ("Ref cell [mV]", ("85", "86"), "say how many mV it shows in full sun"),
        ("Kurzschlusstrrom", ("9.1", "9.2"), "not written as any name"),
        ("I [A]", ("9.1", "9.2"), "It may be short-circuit current or"),
    ],
)
def test_what_looks_wrong_is_told(header, values, part):
    assert part in bound(header, *values).doubt


def test_a_bare_current_beside_a_fixed_voltage_is_the_current_at_it():
    sheet = table("STC\nNo;V load;I [mA]\n1;0.5;8200\n2;0.5;8300\n")
    mapping = propose(sheet)
    assert [each.quantity for each in mapping.bound] == ["mark", "at_v", "at_a"]
    cells = read_cells(sheet, mapping)
    assert cells.figures["at_v"].tolist() == [0.5, 0.5]
    assert cells.figures["at_a"].tolist() == [8.2, 8.3]


def test_a_current_at_a_voltage_nobody_says_is_refused_until_it_is_given():
    sheet = table("STC\nNo;I load [A]\n1;8.2\n2;8.3\n")
    mapping = propose(sheet)
    with pytest.raises(SheetError, match="no column, heading or given figure says which"):
        read_cells(sheet, mapping)
    assert read_cells(sheet, mapping.giving(at_v=0.5)).figures["at_v"].tolist() == [0.5, 0.5]


def test_light_and_heat_in_a_title_hold_for_every_row_and_are_told():
    sheet = table("Flash list, 1000 W/m², 25 °C\nNo;Isc;Voc\n1;9.1;611\n2;9.0;608\n")
    mapping = propose(sheet)
    assert mapping.given == {"irradiance_w_m2": 1000.0, "cell_c": 25.0}
    cells = read_cells(sheet, mapping)
    assert cells.figures["irradiance_w_m2"].tolist() == [1000.0, 1000.0]
    assert "Taken for every row that does not say it: irradiance_w_m2 1000, cell_c 25." in cells.notes


def test_the_column_that_names_cells_is_the_mark_and_not_the_one_that_counts_rows():
    mapping = propose(table("No;Cell;Isc\n1;a;9.1\n2;a;9.2\n3;b;9.0\n"))
    assert [each.quantity for each in mapping.bound] == ["", "mark", "isc_a"]
    assert "It may be the mark" in mapping.bound[0].doubt


def test_a_column_settled_as_another_quantity_keeps_its_written_unit():
    sheet = table("No;I [mA];U\n;;[mV]\n1;9100;611\n")
    mapping = propose(sheet).settle(2, "isc_a").settle(3, "voc_v")
    assert [each.unit for each in mapping.bound] == ["", "mA", "mV"]
    assert mapping.doubts == ()
    cells = read_cells(sheet, mapping.giving(irradiance_w_m2=980.0))
    assert cells.figures["isc_a"].tolist() == [9.1]
    assert cells.figures["irradiance_w_m2"].tolist() == [980.0]


def test_a_table_without_readings_is_refused():
    sheet = table("No;Remark\n1;good\n")
    with pytest.raises(SheetError, match="No column of the table is a reading of a cell"):
        read_cells(sheet, propose(sheet))


def test_a_table_of_light_and_heat_alone_tells_nothing_of_its_cells():
    sheet = table("No;Light;T;I\n1;990;25;9.1\n2;991;25.2;9.2\n")
    with pytest.raises(SheetError, match="No column of the table is a reading of a cell"):
        read_cells(sheet, propose(sheet))


def test_two_columns_of_the_same_reading_are_refused_with_both_names():
    sheet = table("No;Isc;Voc\n1;9.1;611\n")
    mapping = propose(sheet).settle(3, "isc_a", "mA")
    with pytest.raises(SheetError, match="Isc and Voc are both short-circuit current"):
        read_cells(sheet, mapping)


def test_a_table_of_another_shape_is_refused_with_what_differs():
    mapping = propose(table("No;Isc;Voc\n1;9.1;611\n"))
    with pytest.raises(SheetError, match="it lacks 'Voc'; it has 'Vmp', 'T' instead"):
        read_cells(table("No;Isc;Vmp;T\n1;9.1;511;25\n"), mapping)
    with pytest.raises(SheetError, match="the same in another order"):
        read_cells(table("No;Voc;Isc\n1;611;9.1\n"), mapping)


def test_a_kept_mapping_reads_the_next_file_of_its_shape():
    mapping = propose(table("STC\nNo;Isc;T\n1;9,1;77\n")).settle(3, unit="degF")
    kept = from_toml(as_toml(mapping))
    cells = read_cells(table("Lot 2\nNo;Isc;T\n8;9,3;68\n"), kept)
    assert cells.figures["isc_a"].tolist() == [9.3]
    assert cells.figures["cell_c"].tolist() == pytest.approx([20.0])


UNIT_OF = [(name, unit.name) for name, q in QUANTITIES.items() for unit in UNITS.get(q.kind, ())]
WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=12)


@st.composite
def bounds(draw: st.DrawFn) -> Bound:
    quantity, unit = draw(st.sampled_from([*UNIT_OF, ("", ""), ("mark", ""), ("cell_c", "")]))
    choices = tuple(draw(st.lists(WORDS, max_size=2)))
    at_v = draw(st.none() | st.floats(-20, 1))
    nth = draw(st.integers(0, 9))
    return Bound(1, draw(WORDS), quantity, unit, draw(WORDS), draw(WORDS), choices, draw(WORDS), nth, at_v)


@given(st.lists(bounds(), min_size=1, max_size=5), st.sampled_from(".,"), st.booleans())
def test_a_mapping_comes_back_as_it_was_kept(columns, mark, given_some):
    placed = tuple(dataclasses.replace(each, column=place) for place, each in enumerate(columns, start=1))
    mapping = Mapping(placed, mark, {"cell_c": 25.0} if given_some else {})
    assert from_toml(as_toml(mapping)) == mapping


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("[[column]", "no TOML"),
        ("", "names no column"),
        ('decimal_mark = ";"\n[[column]]\nheader = "a"\nquantity = ""', 'Write "." or ",".'),
        ('[[column]]\nheader = "a"', "a header and a quantity"),
        ('[[column]]\nheader = "a"\nquantity = "isc"', "No such quantity"),
        ('[[column]]\nheader = "a"\nquantity = "isc_a"\nunit = "V"', "no unit of isc_a"),
        ('[[column]]\nheader = "a"\nquantity = "mark"\nunit = "V"', "Leave it out."),
        ('[[column]]\nheader = 3\nquantity = "isc_a"', "wrong kind"),
        ('[[column]]\nheader = "a"\nquantity = []', "wrong kind"),
        ('[[column]]\nheader = "a"\nquantity = ""\nreading = -1', "wrong kind"),
        ('[[column]]\nheader = "a"\nquantity = ""\nat_v = "x"', "wrong kind"),
        ('[[column]]\nheader = "a"\nquantity = ""\ncolour = "x"', "No such key of a column"),
        ('size = 3\n[[column]]\nheader = "a"\nquantity = ""', "No such key of a mapping"),
        ('given = 3\n[[column]]\nheader = "a"\nquantity = ""', "is a table"),
        ('[given]\nisc_a = 9\n[[column]]\nheader = "a"\nquantity = ""', "cannot be given"),
        ('[given]\nat_v = nan\n[[column]]\nheader = "a"\nquantity = ""', "no number"),
        ("column = 7", "names no column"),
        ("column = [7]", "A column is a table"),
    ],
)
def test_a_spoilt_mapping_is_told(text, part):
    with pytest.raises(SheetError) as told:
        from_toml(text, "lot.mapping.toml")
    assert part in str(told.value)
    assert all(problem.file and problem.cure for problem in told.value.problems)
