"""A weather file becomes a year of 8760 hours.

    bytes -> which kind it is -> its rows -> one year -> when its hours are (closure) -> gaps -> Hours

Whatever is wrong is told with its row, its value and a cure; nothing is guessed that the light can prove.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.intake.encoding import as_text
from panewright.intake.grid import refuse
from panewright.intake.weather import epw, pvgis, tmy2, tmy3
from panewright.intake.weather.calendar import one_year, slots, typical, without_leap_days
from panewright.intake.weather.closure import closure
from panewright.intake.weather.gaps import bridged, filled, wind
from panewright.intake.weather.light import whole_light
from panewright.intake.weather.rows import AGAIN, Rows, within
from panewright.sky.course import course_over
from panewright.sky.hours import YEAR_HOURS, Floats, Hours

_LEAST_HOURS = YEAR_HOURS - 24  # a day or more missing is no year
_SOME_LIGHT_W_M2 = 50.0


def read_weather(data: bytes, name: str, year: int | None = None) -> Hours:
    """The year in a file; of true years the one asked for. `SheetError` where there is none."""
    text, notes = as_text(data, name)
    rows = one_year(weather_rows(text, name), year)
    figures = {key: within(key, found, rows.lines, name) for key, found in rows.figures.items()}
    rows = without_leap_days(replace(rows, figures=figures))
    _must_be_a_year(rows)
    proof = closure(rows)
    return _hours(rows, proof.after_min, (*notes, *rows.said, proof.told(rows.usual_min)))


def weather_rows(text: str, name: str) -> Rows:
    """The rows of a file of any of the kinds; `SheetError` for one that is none of them."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if pvgis.is_json(text):
        return pvgis.json_rows(text, name)
    for belongs, read in (
        (epw.is_epw, epw.epw_rows),
        (tmy3.is_tmy3, tmy3.tmy3_rows),
        (tmy2.is_tmy2, tmy2.tmy2_rows),
        (pvgis.is_csv, pvgis.csv_rows),
    ):
        if belongs(lines):
            return read(lines, name)
    reason = "This is no weather file that is known here: its first lines are of none."
    cure = "EPW, TMY3, TMY2 and PVGIS (CSV or JSON) are read, each as it was downloaded."
    raise refuse(name, reason, cure, line=1, value=lines[0].strip()[:60])


def _must_be_a_year(rows: Rows) -> None:
    if len(rows.lines) < _LEAST_HOURS:
        reason = f"The file has {len(rows.lines)} hours of the {YEAR_HOURS} of a year."
        raise refuse(rows.name, reason, AGAIN, line=int(rows.lines[-1]) if len(rows.lines) else None)


def _must_have_light(figures: dict[str, Floats], rows: Rows) -> None:
    kinds = [figures[key] for key in ("level", "direct", "diffuse")]
    if not any(np.nan_to_num(each).max() >= _SOME_LIGHT_W_M2 for each in kinds):
        reason = f"In no hour is there as much as {_SOME_LIGHT_W_M2:g} W/m2 of light."
        raise refuse(rows.name, reason, "Take a file with light in it, or type twelve means.", key="level")


def _hours(rows: Rows, after_min: float, said: tuple[str, ...]) -> Hours:
    hours = slots(rows, after_min)
    figures = {key: _spread(found, hours) for key, found in rows.figures.items()}
    middles = typical(np.arange(YEAR_HOURS), rows, after_min)
    _must_have_light(figures, rows)
    light, of_light = whole_light(figures, course_over(rows.place, middles), rows.name)
    air, of_air = filled("air", figures["air"], rows.name)
    blown, of_wind = wind(figures["wind"])
    none = np.full(YEAR_HOURS, np.nan)
    albedo, snow = (bridged(figures.get(key, none)) for key in ("albedo", "snow"))
    return Hours(
        place=rows.place,
        zone_h=rows.zone_h if rows.local_h is None else rows.local_h,
        middles=middles,
        level_w_m2=light["level"],
        direct_w_m2=light["direct"],
        diffuse_w_m2=light["diffuse"],
        air_c=air,
        wind_m_s=blown,
        source=", ".join(part for part in (rows.kind, rows.title, rows.name) if part),
        albedo=albedo,
        snow_mm=snow,
        said=(*said, *of_light, *of_air, *of_wind),
    )


def _spread(found: Floats, hours: np.ndarray[tuple[int, ...], np.dtype[np.int64]]) -> Floats:
    """Figures of the rows put to the hours of the year, nan where no row is."""
    year = np.full(YEAR_HOURS, np.nan)
    year[hours] = found
    return year
