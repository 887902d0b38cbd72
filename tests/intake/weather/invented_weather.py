"""A year of weather that nobody measured, written in each format. Sun by pvlib, clouds by a seeded die."""

import json
from dataclasses import dataclass
from functools import cache

import numpy as np
import pandas as pd
import pvlib

LATITUDE, LONGITUDE, ALTITUDE, ZONE = 47.1, 8.6, 430.0, 1
DAYS = pd.date_range("1990-01-01", periods=8760, freq="h")  # the hour that begins then, by the local clock


@dataclass(frozen=True)
class Year:
    level: np.ndarray
    direct: np.ndarray
    diffuse: np.ndarray
    air: np.ndarray
    wind: np.ndarray
    snow_cm: np.ndarray


@cache
def year(minute: float = 30.0, zone: float = ZONE) -> Year:
    """The light of the moments that lie this many minutes after each hour's beginning, by that clock."""
    when = (DAYS + pd.Timedelta(minutes=minute) - pd.Timedelta(hours=zone)).tz_localize("UTC")
    sun = pvlib.solarposition.get_solarposition(when, LATITUDE, LONGITUDE, ALTITUDE)
    up = np.maximum(np.cos(np.radians(sun.apparent_zenith.to_numpy())), 0)
    rng = np.random.default_rng(9)
    cloud = np.repeat(rng.uniform(0, 1, 365), 24)
    direct = np.where(up > 0.02, np.round(900 * (1 - cloud) * up**0.3), 0.0)
    diffuse = np.round(np.where(up > 0, 60 + 250 * cloud, 0) * up**0.5)
    level = np.round(direct * up + diffuse)
    season = np.cos(2 * np.pi * (np.arange(8760) / 8760 - 0.55))
    air = np.round(9 + 10 * season + 4 * np.cos(2 * np.pi * (np.arange(8760) % 24 - 15) / 24), 1)
    wind = np.round(rng.uniform(0.5, 6, 8760), 1)
    snow = np.where(DAYS.day_of_year < 40, 12.0, 0.0)
    return Year(level, direct, diffuse, air, wind, snow)


def listed(lines):
    """The same lines, made once; a test may change its own list."""
    made = cache(lambda: tuple(lines()))
    return lambda: list(made())


@listed
def epw() -> list[str]:
    """Lines of an EPW file."""
    told = year()
    head = [f"LOCATION,Invented,-,NOW,made up,000000,{LATITUDE},{LONGITUDE},{ZONE:.1f},{ALTITUDE}"]
    head += ["DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0"]
    head += ["HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,invented", "COMMENTS 2,invented"]
    head += ["DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"]
    rows = []
    for i in range(8760):
        at = DAYS[i]
        rows.append(
            f"1990,{at.month},{at.day},{at.hour + 1},0,?9?9,{told.air[i]},2.0,70,96000,0,0,300,"
            f"{told.level[i]:.0f},{told.direct[i]:.0f},{told.diffuse[i]:.0f},0,0,0,0,180,{told.wind[i]},"
            f"5,5,20,2000,0,999999999,15,0.1,{told.snow_cm[i]:.0f},88,0.2,0.0,1.0"
        )
    return head + rows


TMY3_HEAD = (
    "Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),"
    "Wspd (m/s),Alb (unitless)"
)


@listed
def tmy3() -> list[str]:
    """Lines of a TMY3 file with the columns that are read."""
    told = year()
    rows = [f'000000,"INVENTED",XX,{ZONE:.1f},{LATITUDE},{LONGITUDE},{ALTITUDE:.0f}', TMY3_HEAD]
    for i, at in enumerate(DAYS):
        rows.append(
            f"{at.month:02}/{at.day:02}/{1980 + at.month},{at.hour + 1:02}:00,0,{told.level[i]:.0f},"
            f"{told.direct[i]:.0f},{told.diffuse[i]:.0f},{told.air[i]},{told.wind[i]},0.180"
        )
    return rows


@listed
def tmy2() -> list[str]:
    """Lines of a TMY2 file; its city has two words."""
    told = year()
    rows = [f" 00000 INVENTED VALE           XX {ZONE:3d} N 47  6 E   8 36   {ALTITUDE:.0f}"]
    for i, at in enumerate(DAYS):
        light = "".join(f"{each[i]:4.0f}H5" for each in (told.level, told.direct, told.diffuse))
        rows.append(
            f" {80 + at.month % 10}{at.month:2d}{at.day:2d}{at.hour + 1:2d}   0   0{light}"
            + "   0?0" * 4 + " 5A7 5A7" + f"{told.air[i] * 10:4.0f}A7" + "  20A7" + " 70A7" + " 960A7"
            + "180A7" + f"{told.wind[i] * 10:3.0f}A7" + " 200A7" + " 2000A7" + "9999999999" + " 15E8"
            + "100E8" + f"{told.snow_cm[i]:3.0f}A7" + "88A7"
        )  # fmt: skip
    return rows


OFFSET_H = 0.1761  # of the light after the stamp


@listed
def pvgis_csv() -> list[str]:
    """Lines of a typical year, by UTC."""
    told = year(OFFSET_H * 60, 0)
    head = [f"Latitude (decimal degrees): {LATITUDE}", f"Longitude (decimal degrees): {LONGITUDE}"]
    head += [f"Elevation (m): {ALTITUDE}", f"Irradiance Time Offset (h): {OFFSET_H}", "month,year"]
    head += [f"{month},{2005 + month}" for month in range(1, 13)]
    head += ["time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP"]
    rows = [
        f"{2005 + at.month}{at.month:02}{at.day:02}:{at.hour:02}00,{told.air[i]},70.0,{told.level[i]},"
        f"{told.direct[i]},{told.diffuse[i]},300.0,{told.wind[i]},180.0,96000.0"
        for i, at in enumerate(DAYS)
    ]
    return [*head, *rows, "", "T2m: 2-m air temperature (degree Celsius)", "PVGIS (c) invented"]


@cache
def pvgis_json() -> str:
    """The same as JSON."""
    told = year(OFFSET_H * 60, 0)
    place = {"latitude": LATITUDE, "longitude": LONGITUDE, "elevation": ALTITUDE}
    hours = [
        {
            "time(UTC)": f"{2005 + at.month}{at.month:02}{at.day:02}:{at.hour:02}00",
            "T2m": float(told.air[i]), "G(h)": float(told.level[i]), "Gb(n)": float(told.direct[i]),
            "Gd(h)": float(told.diffuse[i]), "WS10m": float(told.wind[i]),
        }
        for i, at in enumerate(DAYS)
    ]  # fmt: skip
    months = [{"month": month, "year": 2005 + month} for month in range(1, 13)]
    inputs = {"location": {**place, "irradiance_time_offset": OFFSET_H}}
    return json.dumps(
        {
            "inputs": inputs,
            "outputs": {"months_selected": months, "tmy_hourly": hours},
            "meta": {"inputs": {}, "outputs": {}},
        }
    )


@cache
def pvgis_hours(slope: int = 0, years: tuple[int, ...] = (2011, 2012)) -> tuple[str, ...]:
    """Hours of true years, one of them a leap year, stamped at 11 minutes past."""
    head = [f"Latitude (decimal degrees):\t{LATITUDE}", f"Longitude (decimal degrees):\t{LONGITUDE}"]
    head += [f"Elevation (m):\t{ALTITUDE}", "Radiation database:\tinvented", "", f"Slope: {slope} deg. ", ""]
    rows = ["time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int"]
    told = year(11.0, 0)
    beam = np.maximum(told.level - told.diffuse, 0)
    fields = [
        f"{beam[i]:.1f},{told.diffuse[i]},0.0,10.0,{told.air[i]},{told.wind[i]},0.0" for i in range(8760)
    ]
    days = [f"{at.month:02}{at.day:02}" for at in DAYS[::24]]
    for each in years:
        leap = [(59, "0229")] if each % 4 == 0 else []
        for day, date in [*enumerate(days[:59]), *leap, *enumerate(days[59:], start=59)]:
            rows += [f"{each}{date}:{hour:02}11,{fields[day * 24 + hour]}" for hour in range(24)]
    return (*head, *rows, "", "Gb(i): beam on the plane")


def data(lines) -> bytes:
    return "\r\n".join(lines).encode() + b"\r\n"
