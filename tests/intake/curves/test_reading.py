"""Files of every habit become the same points, and no row of them is lost without a word."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date, datetime
from io import BytesIO

import numpy as np
import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_curves import AT_W_M2, EXAMPLES, FILES, amperes, comma

from panewright.errors import SheetError
from panewright.intake.curves.blocks import read_blocks
from panewright.intake.curves.mapping_text import as_toml, from_toml
from panewright.intake.curves.naming import named
from panewright.intake.curves.proposal import propose
from panewright.intake.curves.reading import read_sweeps
from panewright.intake.curves.sweeps import SweepsRead

VOLTS = (0.0, 5.0, 10.0, 15.0, 18.0, 20.5)
AMPERES = (4.61, 4.6, 4.59, 4.5, 3.9, 1.2)


def read(text: str | bytes, name: str = "curve.csv") -> SweepsRead:
    blocks = read_blocks(text if isinstance(text, bytes) else text.encode(), name)
    return read_sweeps(blocks, propose(blocks))


def table(head: str, mark: str = ";", rows: tuple[str, ...] = ()) -> str:
    points = rows or tuple(f"{v}{mark}{i}" for v, i in zip(VOLTS, AMPERES, strict=True))
    return "\n".join((head, *points)) + "\n"


def points(row: Callable[[float, float], str]) -> tuple[str, ...]:
    return tuple(row(v, i) for v, i in zip(VOLTS, AMPERES, strict=True))


HABITS = {
    "plain": table("Voltage (V),Current (A)", ","),
    "turned columns": table("I/A;U/V", rows=points(lambda v, i: f"{i};{v}")),
    "millis": table("mV\tmA", rows=points(lambda v, i: f"{1e3 * v:.0f}\t{1e3 * i:.0f}")),
    "units below": table(
        "Spannung;Strom\n[mV];[A]", rows=points(lambda v, i: f"{1e3 * v:.0f};{comma(i, 2)}")
    ),
    "comma": table("Tension (V);Courant (A)", rows=points(lambda v, i: f"{comma(v, 1)};{comma(i, 2)}")),
    "gaps": table("V   I", rows=points(lambda v, i: f"{v}    {i}")),
    "bare": table("", rows=points(lambda v, i: f"{comma(v, 1)} {comma(i, 2)}")),
    "remarked": table("# u, i", ", "),
    "by load": table(
        "R (ohm);U (V)", rows=points(lambda v, i: f"{max(v, 4.61e-4) / i:.9g};{max(v, 4.61e-4)}")
    ),
    "by shunt": "Shunt: 10 mOhm\n" + table("U [V];U_Shunt [mV]", rows=points(lambda v, i: f"{v};{10 * i}")),
    "unit beside": table("Napięcie;Prąd", rows=points(lambda v, i: f"{v} V;{1e3 * i:.0f} mA")),
    "with power": table("U;I;P", rows=points(lambda v, i: f"{v};{i};{v * i:.3f}")),
    "only figures and power": table("", rows=points(lambda v, i: f"{v};{i};{v * i:.3f}")),
}


@pytest.mark.parametrize("habit", HABITS)
def test_every_habit_gives_the_same_points(habit):
    (sweep,) = read(HABITS[habit]).sweeps
    assert sweep.voltage_v.tolist() == pytest.approx(VOLTS, abs=1e-3)
    assert sweep.current_a.tolist() == pytest.approx(AMPERES, abs=1e-3)


def test_a_workbook_may_have_a_sweep_on_each_sheet():
    file = BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    for title in ("up", "down"):
        sheet = book.add_worksheet(title)
        sheet.write_row(0, 0, ["Irradiance", 812, "W/m2"])
        sheet.write_row(1, 0, ["V", "I"])
        for row, point in enumerate(zip(VOLTS, AMPERES, strict=True), start=2):
            sheet.write_row(row, 0, point)
    book.add_worksheet("notes").write(0, 0, "hello")
    book.close()
    found = read(file.getvalue(), "curve.xlsx")
    assert [each.name for each in found.sweeps] == ["sheet up, rows 3 to 8", "sheet down, rows 3 to 8"]
    assert all(each.said.during["irradiance_w_m2"] == 812 for each in found.sweeps)
    assert "No curve was found on: notes." in found.notes


def test_columns_side_by_side_are_sweeps_of_their_own():
    found = read("V1;I1;V2;I2\n0;4,6;0;4,5\n10;4,5;10;4,4\n20;1,9;20;1,8\n;;21;0,4\n")
    assert [len(each) for each in found.sweeps] == [3, 4]
    assert [str(each) for each in found.passed] == ["row 5: no voltage or no current of sweep 1 stands in it"]


def test_sweeps_may_be_told_by_a_column():
    found = read("Sweep;U;I\n1;0;4,6\n2;0;4,5\n1;20;1,9\n2;20;1,8\n")
    assert [each.voltage_v.tolist() for each in found.sweeps] == [[0, 20], [0, 20]]
    assert found.sweeps[1].row_numbers.tolist() == [3, 5]


def test_empty_rows_part_sweeps_but_not_every_second_row():
    parted = read(
        "U;I\n"
        + "".join(f"{v};4,{9 - v % 9}\n" for v in range(7))
        + "\n"
        + "".join(f"{v};4,5\n" for v in range(7))
    )
    assert [len(each) for each in parted.sweeps] == [7, 7]
    loose = read("U;I\n" + "\n".join(f"{v};4,5\n" for v in range(1, 9)))
    assert [len(each) for each in loose.sweeps] == [8]


def test_lines_tell_light_heat_moment_serial_and_what_was_read_before_and_after():
    (log,) = read((EXAMPLES / "bench-load.csv").read_bytes()).sweeps
    assert (log.said.serial, log.said.during["cells"]) == ("0042", 36)
    assert log.said.moment == datetime(2026, 5, 4, 11, 41, 8)
    assert log.time_s is not None
    assert log.time_s[-1] == 103
    (sweep,) = read((EXAMPLES / "kondensator.csv").read_bytes()).sweeps
    assert (sweep.said.before, sweep.said.after) == ({"irradiance_w_m2": 806}, {"irradiance_w_m2": 798})
    assert sweep.said.during["cell_c"] == 42.5
    assert sweep.said.during["shunt_ohm"] == 0.01


def test_a_line_under_the_last_block_that_was_told_above_was_read_after_it():
    (sweep,) = read("Irradiance: 812 W/m2\n" + HABITS["plain"] + "Irradiance: 801 W/m2\n").sweeps
    assert (sweep.said.during["irradiance_w_m2"], sweep.said.after["irradiance_w_m2"]) == (812, 801)


def test_light_holds_for_the_blocks_that_follow_and_a_time_of_day_does_not():
    text = (
        "Serial: 7\nG: 812 W/m2\nDate: 2026-05-04\nTime: 12:00\n"
        + HABITS["with power"]
        + "\nSweep 2\n"
        + HABITS["with power"]
    )
    first, second = read(text).sweeps
    assert second.said.during == first.said.during == {"irradiance_w_m2": 812}
    assert (first.said.moment, second.said.moment) == (datetime(2026, 5, 4, 12), None)
    assert second.name == "sweep 2, rows 15 to 20"


@pytest.mark.parametrize(
    ("line", "light"),
    [
        ("Irradiance: 1,012 W/m2", 1012),
        ("E = 0,812 kW/m²", 812),
        ("Einstrahlung;81,2;mW/cm2", 812),
        ("G 812", 812),
        ("irradiance [W/m2]: 1.012", 1012),
        ("Sun: 0.9 sun", 900),
    ],
)
def test_light_is_read_however_it_is_written(line, light):
    (sweep,) = read(line + "\n" + table("U;I", ";")).sweeps
    assert sweep.said.during["irradiance_w_m2"] == pytest.approx(light)


def test_an_unlikely_fact_is_not_taken_and_told():
    found = read("Irradiance: 81200 W/m2\n" + HABITS["with power"])
    assert found.sweeps[0].said.during == {}
    assert (
        found.notes[-1]
        == "row 1, Irradiance: 81200 W/m2: It is no likely figure in any unit, and was not taken."
    )


def test_a_bad_field_of_the_light_leaves_the_point():
    found = read("U;I;G [W/m2]\n0;4,6;812\n10;4,5;OL\n20;1,9;811\n")
    assert len(found.sweeps[0]) == 3
    assert [(each.row, each.column) for each in found.bad] == [(3, "G [W/m2]")]


def test_a_remark_beside_a_point_is_kept_with_its_row():
    sweep = read((EXAMPLES / "cloudy.tsv").read_bytes()).sweeps[0]
    assert sweep.said.remarks == ("row 19: hand shook",)


def test_a_shunt_is_said_for_every_block_or_it_is_asked_for():
    head = "U [V];U_Shunt [mV]"
    assert len(read(f"Shunt: 10 mohm\n{head}\n1;30\n2;20\n\n{head}\n1;29\n2;19\n").sweeps) == 2
    with pytest.raises(SheetError, match="resistance is not said"):
        read(f"{head}\n1;30\n2;20\n\nShunt: 10 mohm\n{head}\n1;29\n2;19\n")


def test_a_time_that_cannot_be_read_leaves_the_point():
    found = read("t [s];U;I\n0;0,1;3,1\n1 x;5;3\n2;19;1\n")
    assert [(each.row, each.column, each.cure) for each in found.bad] == [
        (3, "t [s]", "Write the number alone.")
    ]
    assert len(found.sweeps[0]) == 3


def test_a_workbook_s_own_dates_and_times_are_moments():
    file = BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet()
    whole = book.add_format({"num_format": "yyyy-mm-dd hh:mm:ss"})
    sheet.write_row(0, 0, ["Timestamp", "U (V)", "I (A)"])
    for row, (volts, drawn) in enumerate(zip(VOLTS, AMPERES, strict=True), start=1):
        sheet.write_datetime(row, 0, datetime(2026, 5, 4, 12, 0, row), whole)
        sheet.write_row(row, 1, [volts, drawn])
    book.close()
    (sweep,) = read(file.getvalue(), "log.xlsx").sweeps
    assert sweep.said.moment == datetime(2026, 5, 4, 12, 0, 1)
    assert sweep.time_s is not None
    assert sweep.time_s.tolist() == pytest.approx([0, 1, 2, 3, 4, 5])


@pytest.mark.parametrize("name", FILES)
def test_the_examples_are_what_the_program_writes(name):
    assert (EXAMPLES / name).read_bytes() == FILES[name]()


@pytest.mark.parametrize("name", FILES)
def test_every_row_of_an_example_is_somewhere(name):
    found = read((EXAMPLES / name).read_bytes(), name)
    blocks = read_blocks((EXAMPLES / name).read_bytes(), name)
    told = {row for each in found.sweeps for row in each.row_numbers.tolist()}
    told |= {each.row for each in found.bad}
    told |= {row for each in found.passed for row in range(each.first, each.last + 1)}
    told |= {fact.row for block in blocks.blocks for fact in block.facts}
    rows = (EXAMPLES / name).read_bytes().decode("cp1252").splitlines()
    headers = [row for row, line in enumerate(rows, start=1) if row not in told]
    assert [row + 1 in told for row in headers] == [True] * len(headers)  # only headers, each over a point
    assert len(headers) == len({block.row_numbers[0] for block in blocks.blocks})


def test_the_points_of_an_example_are_the_invented_panel_s():
    (sweep,) = read((EXAMPLES / "bench-load.csv").read_bytes()).sweeps
    assert sweep.irradiance_w_m2 is not None
    off = sweep.current_a - np.maximum(amperes(sweep.voltage_v, sweep.irradiance_w_m2), 0)
    assert float(np.median(np.abs(off))) < 0.01
    assert sweep.irradiance_w_m2[0] == pytest.approx(AT_W_M2, abs=3)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("t/ms;CH1 (V);CH2 (V)\n0;0,1;0,03\n1;5;0,02\n", "No column is known as the current."),
        ("U (V);U_shunt (mV)\n0;31\n5;30\n", "over a shunt whose resistance is not said"),
        ("Cell,Isc,Voc\n1,9.1,0.61\n2,9.0,0.60\n", "This is a table of cells"),
        ("hello\nworld\n", "No row of the file is a point of a curve"),
        ("U;I\nOL;OL\n", "No row has both a voltage and a current that can be read"),
        ("U,I\n0,1,3,1\n0,2,3,0\n", "have more fields than the header"),
        ("U;I\n250;4,6\n10;4,5\n", "The unit of the voltage is not settled. 250 is likely in no unit."),
        ("", "is empty"),
    ],
)  # fmt: skip
def test_a_file_that_is_no_curve_is_one_clear_error(text, part):
    with pytest.raises(SheetError) as told:
        read(text)
    assert part in str(told.value)
    (problem,) = told.value.problems
    assert problem.file == "curve.csv"
    assert problem.cure


def test_what_a_person_settles_is_kept_and_read_again():
    blocks = read_blocks(b"t/ms;CH1 (V);CH2 (V)\n0;0,1;0,03\n1;5;0,02\n", "scope.csv")
    mapping = propose(blocks).settle(2, nth=0).settle(3, "shunt_v", nth=0).giving(shunt_ohm=0.01)
    kept = from_toml(as_toml(mapping), "kept.toml")
    assert kept == mapping
    (sweep,) = read_sweeps(blocks, kept).sweeps
    assert sweep.current_a.tolist() == pytest.approx([3, 2])


def test_a_mapping_of_other_headings_is_refused():
    kept = propose(read_blocks(b"U;I\n0;3\n1;2\n", "one.csv"))
    with pytest.raises(SheetError, match="other headings"):
        read_sweeps(read_blocks(b"I;U\n0;3\n1;2\n", "other.csv"), kept)


def test_every_mistake_in_a_kept_mapping_is_told_at_once():
    text = """
        decimal_mark = ";"
        counted = "both"
        colour = 1
        given = { irradiance_w_m2 = "sunny", moon = 1 }
        [[table]]
        column = [{ header = "U", quantity = "volts" }, { header = "I", quantity = "current_a", unit = "V" },
                  { header = 3, quantity = "" }, { quantity = "" }, "x",
                  { header = "", quantity = "", nth = true }]
        [[table]]
    """
    with pytest.raises(SheetError) as told:
        from_toml(text, "kept.toml")
    assert len(told.value.problems) == 12
    assert all(each.cure and each.file == "kept.toml" for each in told.value.problems)
    with pytest.raises(SheetError, match="is no TOML"):
        from_toml("decimal_mark =", "kept.toml")
    with pytest.raises(SheetError, match="has no table"):
        from_toml("decimal_mark = ','", "kept.toml")


@settings(max_examples=60, deadline=None)
@given(st.text(alphabet="UIVA0123456789.,;:=\n\t #[]()mGWt-/%eE\"'é", max_size=200))
def test_no_text_breaks_it(text):
    try:
        found = read(text)
    except SheetError:
        pass  # what it says is looked at elsewhere
    else:
        assert all(
            np.isfinite(each.voltage_v).all() and np.isfinite(each.current_a).all() for each in found.sweeps
        )


def test_a_hundred_thousand_rows_take_a_moment():
    row = "\n".join(f"{place / 100:.2f};{place % 1000 / 50:.3f};4.{place % 7}" for place in range(100_000))
    begun = time.process_time()
    (sweep,) = read("t [s];U [V];I [A]\n" + row).sweeps
    assert len(sweep) == 100_000
    assert time.process_time() - begun < 3.0


@pytest.mark.parametrize("name", ["Temperatura trasera", "Temperatura posteriore", "Temperature arrière"])
def test_a_heat_behind_the_panel_is_not_taken_for_the_cells(name):
    found = read(
        f"V,I,{name} (C)\n" + "\n".join(f"{v},{i},43.4" for v, i in zip(VOLTS, AMPERES, strict=True))
    )
    assert found.sweeps[0].back_c is not None
    assert found.sweeps[0].cell_c is None


@pytest.mark.parametrize(("line", "day"), [("Date: 2026-05-04", date(2026, 5, 4)), ("Date: 5/4/2026", None)])
def test_a_day_is_known_without_a_time_of_day_unless_it_may_be_two(line, day):
    rows = (f"{v},{i}" for v, i in zip(VOLTS, AMPERES, strict=True))
    (sweep,) = read("\n".join([line, "V,I", *rows])).sweeps
    assert (sweep.said.day, sweep.said.moment) == (day, None)


@pytest.mark.parametrize(
    ("name", "cells"),
    [("Temperature (C)", False), ("T [°C]", False), ("Zelltemperatur [°C]", True), ("Tc (C)", True)],
)
def test_a_heat_says_whether_it_is_the_cells_own(name, cells):
    rows = [f"{v},{i}" for v, i in zip(VOLTS, AMPERES, strict=True)]
    in_column = read("\n".join([f"V,I,{name}", *(f"{row},43.4" for row in rows)]))
    above = read("\n".join([f"{name}: 43.4", "V,I", *rows]))
    assert [found.sweeps[0].cells_named for found in (in_column, above)] == [cells, cells]


OTHERS = [
    "Ref cell temp (C)",
    "T_ref [°C]",
    "Referenzzellentemperatur",
    "Temperatura cella di riferimento",
    "Load temp",
]


@pytest.mark.parametrize("name", OTHERS)
def test_the_heat_of_another_thing_is_asked_of_and_never_taken_for_the_panel_s(name):
    rows = [f"{v},{i}" for v, i in zip(VOLTS, AMPERES, strict=True)]
    mapping = propose(
        read_blocks("\n".join([f"V,I,{name}", *(f"{row},31.4" for row in rows)]).encode(), "curve.csv")
    )
    assert [name in each and "left unread" in each for each in mapping.doubts] == [True]
    settled = mapping.settle(3, "back_c", "degC")
    assert not settled.doubts
    in_column = read("\n".join([f"V,I,{name}", *(f"{row},31.4" for row in rows)]))
    above = read("\n".join([f"{name}: 31.4", "Cell temp: 44 C", "V,I", *rows]))
    assert in_column.sweeps[0].cell_c is None is in_column.sweeps[0].back_c
    assert above.sweeps[0].said.during == {"cell_c": 44.0}
    assert above.sweeps[0].cells_named
    assert any(name in note and "was not taken" in note for note in above.notes)


def test_a_reference_cell_s_millivolts_beside_a_curve_are_no_second_voltage():
    rows = [f"{v},{i},61.2" for v, i in zip(VOLTS, AMPERES, strict=True)]
    text = "\n".join(["U [V],I [A],Ref cell [mV]", *rows])
    (doubt,) = propose(read_blocks(text.encode(), "curve.csv")).doubts
    assert "how many mV it shows in full sun" in doubt
    (sweep,) = read(text).sweeps
    assert sweep.voltage_v == pytest.approx(VOLTS)
    assert named("Intensity [A]").quantity == "current_a"
    assert named("E [V]").quantity == "voltage_v"


def test_volts_of_nothing_named_beside_a_curve_are_asked_of_and_are_no_second_sweep():
    rows = [f"{v},{i},0.61" for v, i in zip(VOLTS, AMPERES, strict=True)]
    text = "\n".join(["U [V],I [A],Sensor (V)", *rows])
    (doubt,) = propose(read_blocks(text.encode(), "curve.csv")).doubts
    assert "Whose volts are these?" in doubt
    (sweep,) = read(text).sweeps
    assert sweep.voltage_v == pytest.approx(VOLTS)
    alone = read("\n".join(["CH1 (V),CH2 (A)", *(row.rpartition(",")[0] for row in rows)]))
    assert alone.sweeps[0].voltage_v == pytest.approx(VOLTS)
