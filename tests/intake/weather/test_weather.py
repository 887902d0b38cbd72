"""Invented weather in every format comes back as it was; what is strange in a file is told or refused.

Beside our readers stand those of pvlib, on its own typical years and on the invented ones.
"""

import io
from pathlib import Path

import numpy as np
import pvlib
import pytest
from invented_weather import (
    ALTITUDE,
    LATITUDE,
    LONGITUDE,
    OFFSET_H,
    data,
    epw,
    pvgis_csv,
    pvgis_hours,
    pvgis_json,
    tmy2,
    tmy3,
    year,
)

from panewright.errors import SheetError
from panewright.intake.weather.weather import read_weather
from panewright.sky.course import course_over

REAL = Path(pvlib.__file__).parent / "data"


def read(lines, name="invented.epw", **asked):
    return read_weather(lines.encode() if isinstance(lines, str) else data(lines), name, **asked)


def alike(ours, theirs, off=1e-6):
    """Whether two years are the same, hour by hour."""
    return ours.shape == theirs.shape and np.abs(ours - theirs).max() <= off


def refusal(lines, **asked):
    with pytest.raises(SheetError) as wrong:
        read(lines, **asked)
    (problem,) = wrong.value.problems
    assert problem.reason
    assert problem.cure
    assert problem.file == "invented.epw"
    return problem


@pytest.mark.parametrize("lines", [epw(), tmy3(), tmy2()], ids=["EPW", "TMY3", "TMY2"])
def test_a_year_by_the_local_clock_comes_back_as_it_was(lines):
    found, told = read(lines), year()
    assert alike(found.level_w_m2, told.level)
    assert alike(found.direct_w_m2, told.direct)
    assert alike(found.diffuse_w_m2, told.diffuse)
    assert alike(found.air_c, told.air, 1e-9)
    assert alike(found.wind_m_s, told.wind, 1e-9)
    assert (found.place.latitude_deg, found.place.longitude_deg) == pytest.approx((LATITUDE, LONGITUDE))
    assert (found.place.altitude_m, found.zone_h) == (ALTITUDE, 1.0)
    assert str(found.middles[0]) == "1989-12-31T23:30:00"
    assert (found.months[0], found.months[-1]) == (0, 11)
    assert "30 min before its stamp: light closes best" in " ".join(found.said)


def test_snow_and_albedo_come_in_where_they_are_told():
    assert read(epw()).snow_mm[:960:240] == pytest.approx([120.0] * 4)
    assert read(tmy2()).snow_mm.max() == 120.0
    assert read(tmy3()).snow_mm is None
    assert read(tmy3()).albedo == pytest.approx(0.18)
    assert read(tmy2()).albedo is None


@pytest.mark.parametrize("text", [pvgis_csv(), pvgis_json()], ids=["CSV", "JSON"])
def test_pvgis_light_is_that_of_a_moment_and_closes_there(text):
    found, told = read(text), year(OFFSET_H * 60, 0)
    assert alike(found.level_w_m2, told.level)
    assert alike(found.air_c, told.air)
    assert str(found.middles[0]) == "1990-01-01T00:10:34"
    assert found.zone_h == 1.0  # by the longitude: the months are the place's own
    assert found.months[-1] == 0
    assert "11 min after its stamp: light closes best" in " ".join(found.said)


def test_a_head_of_pvgis_that_does_not_say_its_moment_is_proved_to_ten_minutes():
    lines = [line for line in pvgis_csv() if not line.startswith("Irradiance")]
    found = read(lines)
    assert str(found.middles[0]) == "1990-01-01T00:10:00"
    assert "10 min after its stamp, not at its stamp as the format says" in " ".join(found.said)


def test_true_years_on_level_ground_are_asked_for_one_by_one():
    found, told = read(pvgis_hours(), year=2012), year(11.0, 0)
    assert alike(found.level_w_m2, told.level, 2)
    sunny = told.level - told.diffuse > 100
    assert found.direct_w_m2[sunny] == pytest.approx(told.direct[sunny], rel=0.02)
    assert "24 hours of 29 February are left out" in " ".join(found.said)
    assert "hours without direct light are made of the other two kinds." in " ".join(found.said)
    assert refusal(pvgis_hours()).reason == "The file has 2 years; whole ones: 2011, 2012."
    assert refusal(pvgis_hours(), year=2013).value == "2013"
    assert "Name no year" in refusal(pvgis_csv(), year=2010).cure
    assert "30 degrees steep" in refusal(pvgis_hours(slope=30), year=2011).reason


def test_each_reader_beside_pvlib_s_own_on_the_invented_year():
    theirs, _ = pvlib.iotools.read_epw(io.StringIO("\n".join(epw())))
    ours = read(epw())
    assert alike(ours.level_w_m2, theirs.ghi.to_numpy())
    assert alike(ours.wind_m_s, theirs.wind_speed.to_numpy())
    assert alike(ours.snow_mm, theirs.snow_depth.to_numpy() * 10)
    assert alike(ours.albedo, theirs.albedo.to_numpy())
    theirs, _ = pvlib.iotools.read_pvgis_tmy(io.BytesIO(data(pvgis_csv())), pvgis_format="csv")
    assert alike(read(pvgis_csv()).direct_w_m2, theirs.dni.to_numpy())
    theirs, _ = pvlib.iotools.read_pvgis_tmy(io.StringIO(pvgis_json()), pvgis_format="json")
    assert alike(read(pvgis_json()).diffuse_w_m2, theirs.dhi.to_numpy())


@pytest.mark.parametrize("file", ["723170TYA.CSV", "703165TY.csv"])
def test_real_years_beside_pvlib_s_reader(file):
    theirs, _ = pvlib.iotools.read_tmy3(REAL / file, map_variables=True)
    ours = read_weather((REAL / file).read_bytes(), file)
    for own, their in (("level_w_m2", "ghi"), ("direct_w_m2", "dni"), ("diffuse_w_m2", "dhi")):
        assert alike(getattr(ours, own), theirs[their].to_numpy())
    assert alike(ours.air_c, theirs.temp_air.to_numpy())
    assert alike(ours.wind_m_s, theirs.wind_speed.to_numpy())


def test_a_real_tmy2_beside_pvlib_s_reader_which_stamps_it_an_hour_earlier():
    theirs, _ = pvlib.iotools.read_tmy2(REAL / "12839.tm2")
    ours = read_weather((REAL / "12839.tm2").read_bytes(), "12839.tm2")
    assert alike(ours.level_w_m2, theirs.GHI.to_numpy())
    assert alike(ours.air_c, theirs.DryBulb.to_numpy() / 10)
    assert alike(ours.wind_m_s, theirs.Wspd.to_numpy() / 10)
    assert str(ours.middles[0]) == "1990-01-01T05:30:00"
    assert theirs.index[0].hour == 0  # their stamp is where the hour begins, in the files it is where it ends


# When an hour is


@pytest.mark.parametrize(("after", "words"), [(0, "at its stamp"), (30, "30 min after its stamp")])
def test_light_says_when_the_format_does_not(after, words):
    """The same rows, but of moments that lie half an hour or an hour later than the format says."""
    told, lines = year(60.0 + after), epw()
    for i in range(8760):
        fields = lines[8 + i].split(",")
        fields[13:16] = [f"{each[i]:.0f}" for each in (told.level, told.direct, told.diffuse)]
        lines[8 + i] = ",".join(fields)
    found = read(lines)
    assert f"middle lies {words}, not 30 min before its stamp as the format says" in " ".join(found.said)
    course = course_over(found.place, found.middles)
    miss = found.level_w_m2 - found.direct_w_m2 * course.upright - found.diffuse_w_m2
    assert np.sqrt(np.mean(miss[found.direct_w_m2 > 20] ** 2)) < 2


def test_a_wrong_time_zone_in_the_head_is_refused_with_the_one_that_closes():
    lines = epw()
    lines[0] = lines[0].replace(",1.0,", ",-5.0,")
    problem = refusal(lines)
    assert problem.key == "time zone"
    assert "with the clock +1 h from UTC" in problem.reason


def test_a_file_without_direct_light_and_sky_light_is_split_and_says_that_nothing_proves_its_hours():
    lines = epw()
    for i in range(8760):
        fields = lines[8 + i].split(",")
        fields[14:16] = ["9999", "9999"]
        lines[8 + i] = ",".join(fields)
    found = read(lines)
    assert "nothing proves it" in " ".join(found.said)
    assert "hours have light on level ground alone: parted by Erbs." in " ".join(found.said)
    assert alike(found.level_w_m2, year().level)
    assert found.diffuse_w_m2.max() > 100


def test_light_that_closes_nowhere_is_read_and_told():
    rng, lines = np.random.default_rng(4), epw()
    for i in range(8760):
        fields = lines[8 + i].split(",")
        fields[14] = f"{min(float(fields[14]) * rng.uniform(0.2, 1.8), 1000):.0f}"
        lines[8 + i] = ",".join(fields)
    assert "That is poor" in " ".join(read(lines).said)


def test_half_hours_are_not_taken_for_two_years():
    lines = epw()
    twice = [line for row in lines[8:] for line in (row, row)]
    assert refusal(lines[:8] + twice).reason == "The hour of row 9 stands here again."


def test_a_clock_half_an_hour_beside_the_whole_hours():
    told, lines = year(30.0, 5.5), epw()
    lines[0] = lines[0].replace(",1.0,", ",5.5,")
    for i in range(8760):
        fields = lines[8 + i].split(",")
        fields[13:16] = [f"{each[i]:.0f}" for each in (told.level, told.direct, told.diffuse)]
        lines[8 + i] = ",".join(fields)
    found = read(lines)
    assert "lies 30 min before its stamp: light" in " ".join(found.said)
    assert str(found.middles[0]) == "1989-12-31T19:00:00"
    assert found.months[0] == 0


def test_a_true_leap_year_of_rows():
    lines = epw()
    rows = [line.replace("1990,", "2012,", 1) for line in lines[8:]]
    at = next(place for place, line in enumerate(rows) if line.startswith("2012,3,1,"))
    leap = [line.replace("2012,2,28,", "2012,2,29,") for line in rows[at - 24 : at]]
    found = read(lines[:8] + rows[:at] + leap + rows[at:])
    assert alike(found.level_w_m2, year().level)
    assert "24 hours of 29 February are left out: a year here has 365 days." in found.said


# Gaps


def without(lines, rows, head=8):
    return [line for place, line in enumerate(lines) if place - head not in rows]


def test_short_gaps_are_filled_and_told_and_long_ones_refused():
    found = read(without(epw(), {12, 13, 14}))
    assert "3 hours without air are filled from their neighbours, first 01-01 12:00." in found.said
    assert found.air_c[13] == pytest.approx((year().air[11] + year().air[15]) / 2, abs=1e-9)
    assert "missing for 4 hours from 01-01 12:00 on" in refusal(without(epw(), {12, 13, 14, 15})).reason
    assert refusal(epw()[:4000]).reason == "The file has 3992 hours of the 8760 of a year."


def test_hours_marked_as_missing_are_gaps_too_but_at_night_there_is_no_light_to_miss():
    lines = epw()
    for i in (0, 1, 2, 3, 4):
        lines[8 + i] = lines[8 + i].replace(",300,0,0,0,", ",300,9999,9999,9999,")
    found = read(lines)
    assert found.level_w_m2[:5] == pytest.approx(0)
    assert not any("without light" in each for each in found.said)


def test_a_file_without_any_light_is_no_weather():
    lines = epw()
    for i in range(8760):
        fields = lines[8 + i].split(",")
        fields[13:16] = ["0", "0", "0"]
        lines[8 + i] = ",".join(fields)
    assert refusal(lines).reason == "In no hour is there as much as 50 W/m2 of light."


def test_an_hour_that_lacks_one_kind_of_light_gets_it_from_the_other_two():
    lines = epw()
    noon = 200 * 24 + 12
    fields = lines[8 + noon].split(",")
    fields[15] = "9999"
    lines[8 + noon] = ",".join(fields)
    found = read(lines)
    assert found.diffuse_w_m2[noon] == pytest.approx(year().diffuse[noon], abs=3)
    assert "1 hours without light of the sky are made of the other two kinds." in found.said


def test_an_albedo_or_a_depth_of_snow_that_cannot_be_is_left_out():
    lines = epw()
    fields = lines[9].split(",")
    fields[30], fields[32] = "deep", "7"
    lines[9] = ",".join(fields)
    found = read(lines)
    assert found.snow_mm[1] == pytest.approx(120.0)
    assert found.albedo[1] == pytest.approx(0.2)


def test_wind_that_is_not_told_is_no_reason_to_refuse():
    lines = [
        line.replace(f",180,{line.split(',')[21]},", ",180,999,") if line[:4] == "1990" else line
        for line in epw()
    ]
    found = read(lines)
    assert found.wind_m_s == pytest.approx(2.0)
    assert "The file tells no wind: 2 m/s is taken all year (common practice)." in found.said


# What is refused


@pytest.mark.parametrize(
    ("row", "place", "text", "key", "reason"),
    [
        (100, 13, "bright", "level", "This is no figure."),
        (100, 13, "5000", "level [W/m2]", "This cannot be."),
        (100, 6, "-120", "air [degC]", "This cannot be."),
        (100, 14, "inf", "direct", "This is no figure."),
        (100, 1, "13", "month", "This is no date."),
        (100, 2, "1.5", "day", "This is no date."),
        (900, 2, "31", "date", "There is no such day."),
        (100, 3, "25", "hour", "This is no date."),
    ],
)
def test_a_field_that_cannot_be_is_told_with_its_row(row, place, text, key, reason):
    lines = epw()
    fields = lines[row].split(",")
    fields[place] = text
    lines[row] = ",".join(fields)
    problem = refusal(lines)
    assert (problem.line, problem.key, problem.reason) == (row + 1, key, reason)


def test_an_hour_that_stands_twice_is_told_with_both_rows():
    lines = epw()
    lines[20] = lines[19]
    problem = refusal(lines)
    assert (problem.line, problem.reason) == (21, "The hour of row 20 stands here again.")


def test_a_row_cut_off_and_a_head_without_a_place_are_told():
    lines = epw()
    lines[200] = lines[200][:30]
    assert refusal(lines).line == 201
    assert refusal([epw()[0].replace("47.1", "north"), *epw()[1:]]).key == "latitude"
    assert refusal([epw()[0].replace("47.1", "147.1"), *epw()[1:]]).key == "latitude"
    assert refusal([epw()[0].replace(",1.0,", ",99,"), *epw()[1:]]).key == "time zone"
    assert refusal(epw()[:8]).reason == "No row of an hour follows the file's head."
    assert refusal([tmy3()[0], tmy3()[1].replace("GHI", "Sun"), *tmy3()[2:]]).key == "GHI (W/m^2)"
    assert refusal([*tmy3()[:5], tmy3()[5].replace("01/01/", "1 Jan "), *tmy3()[6:]]).line == 6
    assert refusal([*tmy2()[:5], tmy2()[5][:90], *tmy2()[6:]]).line == 6
    assert refusal('{"inputs": {}, "outputs": {}}').key == "location"
    no_hours = '{"inputs": {"location": {"latitude": 1, "longitude": 2, "elevation": 3}}, "outputs": {}}'
    assert refusal(no_hours).key == "outputs.tmy_hourly"
    assert refusal('{"inputs": ').reason == "It begins as JSON, but is not whole."
    assert refusal(pvgis_json().replace('"T2m"', '"heat"')).key == "T2m"
    assert refusal(["a;b;c", "1;2;3"]).reason.startswith("This is no weather file")


def test_more_columns_a_city_with_a_comma_or_of_two_words_and_a_leap_day_are_read():
    """Each of them ends the readers of pvlib 0.16.1, or doubles 1 March."""
    wide = [line + ",0.5" if line[:4] == "1990" else line for line in epw()]
    comma = [wide[0].replace("Invented", '"Invented, North"'), *wide[1:]]
    assert alike(read(comma).level_w_m2, year().level)
    feb = [line.replace("02/28/1982", "02/29/1988") for line in tmy3() if line.startswith("02/28")]
    at = next(place for place, line in enumerate(tmy3()) if line.startswith("03/01"))
    leap = read([*tmy3()[:at], *feb, *tmy3()[at:]])
    assert alike(leap.level_w_m2, year().level)
    assert "24 hours of 29 February are left out" in " ".join(leap.said)


def told_of(broken):
    """What is told of a file that is refused; nothing of one that is read."""
    try:
        read_weather(broken, "broken")
    except SheetError as wrong:
        return wrong.problems
    return ()


def test_a_file_however_damaged_is_read_or_refused():
    rng = np.random.default_rng(3)
    whole = [data(lines()) for lines in (epw, tmy3, tmy2, pvgis_csv)] + [pvgis_json().encode()]
    for turn in range(20):
        broken = bytearray(whole[turn % 5])
        for _ in range(rng.integers(1, 4)):
            at = int(rng.integers(len(broken) if turn % 2 else 900))
            broken[at : at + int(rng.integers(0, 3))] = bytes(rng.integers(32, 256, 2, dtype=np.uint8))
        end = None if turn % 3 else int(rng.integers(len(broken)))
        assert all(each.cure for each in told_of(bytes(broken[:end])))
