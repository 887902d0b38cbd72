"""How a stand should be turned: the best tilt and azimuth, seasons with a tilt of their own, the worst month.

A year's light is laid on planes fifteen degrees of tilt and twenty of azimuth apart; between them each
month's energy is a smooth surface (cubic), read at every whole degree. Energy is each panel at its own best
in the light and heat of each hour, from a table of its curves. What the best gives is reckoned again.

Shadows take straight light by their mean over the cells, as on a level panel at the same place: so no plane
hides the sun from itself. A shadow on few cells costs more than that, and where it falls moves with the
stand: so with things close by the year of the array at the new tilt is to be asked.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from scipy.interpolate import RectBivariateSpline, RegularGridInterpolator

from panewright.array.member import Member
from panewright.circuit.chords.panels import Panels, compiled, curve_of, panels_of
from panewright.climate.hourly import hourly_cell_c
from panewright.sky.course import course_over
from panewright.sky.hours import MONTH_DAYS, Floats, Hours
from panewright.sky.received import Seen, Standing, received
from panewright.sky.shadow.cast import DARK
from panewright.sky.shadow.shade import Surroundings, dome_share, shade

_TILTS, _AZIMUTHS = np.arange(0.0, 91.0, 15.0), np.arange(0.0, 360.0, 20.0)
_WHOLE_TILTS, _WHOLE_AZIMUTHS = np.arange(91), np.arange(360)
_WRAPPED = 3  # azimuths that are told again beyond each end, so that north is no edge
_LIGHTS = np.geomspace(1.0, 1500.0, 22)
_HEATS = np.arange(-50.0, 111.0, 10.0)
_SUMMER, _WINTER = 6, 0  # months in which trees let least and most through
_NIGHT_KWH = 1e-4  # of the best month: less is a month without sun
_GAIN = 1e-9
_WH = 1000.0
_LEAST_TOLD = 0.1  # of the work, for the table of the panels
Progress = Callable[[float], None]


@dataclass(frozen=True, slots=True)
class Season:
    """Months with one tilt, and what they give."""

    months: tuple[int, ...]  #: 1 to 12, in their order
    tilt_deg: float
    kwh: float


@dataclass(frozen=True, slots=True)
class Dull:
    """The plane whose worst month gives most: for a load that is the same all year."""

    tilt_deg: float
    azimuth_deg: float
    kwh_day: float  #: of its worst month
    now_kwh_day: float  #: of the worst month as the stand is now
    kwh: float  #: of its year


@dataclass(frozen=True, slots=True)
class Turns:
    """How a stand could be turned; energy is each panel's at its own best, wires and controller apart."""

    tilt_deg: float
    azimuth_deg: float
    kwh: float
    now_kwh: float
    held_tilt_deg: float  #: the best tilt at the azimuth as it is now
    held_kwh: float
    seasons: tuple[Season, ...]  #: two tilts a year, at the best azimuth
    quarters: tuple[Season, ...]  #: four
    dull: Dull

    @property
    def gain_share(self) -> float:
        """What the best plane brings over the one now."""
        return self.kwh / self.now_kwh - 1 if self.now_kwh > 0 else 0.0

    @property
    def held_gain_share(self) -> float:
        """What the best tilt brings where it looks as now."""
        return self.held_kwh / self.now_kwh - 1 if self.now_kwh > 0 else 0.0

    def more_share(self, seasons: Sequence[Season]) -> float:
        """What tilts by the season bring over the best plane."""
        return season_kwh(seasons) / self.kwh - 1 if self.kwh > 0 else 0.0


def season_kwh(seasons: Sequence[Season]) -> float:
    """Energy of all seasons together."""
    return sum(season.kwh for season in seasons)


@dataclass(frozen=True)
class _Stand:
    """Panels on one plane, and what is the same however it is turned."""

    hours: Hours
    first: Member
    watts: RegularGridInterpolator  #: of all panels, by W/m2: over the logarithm of light, and heat
    seen: Seen

    def months_kwh(self, tilt_deg: float, azimuth_deg: float) -> Floats:
        """Energy of each month so turned."""
        plane = replace(self.first.pane.plane, tilt_deg=float(tilt_deg), azimuth_deg=float(azimuth_deg))
        got = received(self.hours, Standing(plane, self.first.face, self.first.dirt, self.seen))
        heat = hourly_cell_c(got.plane_w_m2, self.hours.air_c, self.hours.wind_m_s, self.first.behind)
        light = got.cells_w_m2
        watts = np.zeros_like(light)
        lit = light >= _LIGHTS[0]
        at = np.log(np.minimum(light[lit], _LIGHTS[-1])), np.clip(heat[lit], _HEATS[0], _HEATS[-1])
        watts[lit] = light[lit] * self.watts(at)
        return self.hours.by_month(watts) / _WH

    def at(self, tilt_deg: float, azimuth_deg: float) -> _Turned:
        """What a year gives so turned."""
        return _Turned(float(tilt_deg), float(azimuth_deg), self.months_kwh(tilt_deg, azimuth_deg))


@dataclass(frozen=True)
class _Turned:
    tilt_deg: float
    azimuth_deg: float
    months_kwh: Floats

    @property
    def kwh(self) -> float:
        return float(self.months_kwh.sum())

    @property
    def worst_kwh_day(self) -> float:
        """Of the worst month in which the sun rises."""
        return float(_worst(self.months_kwh))


def turns_of(
    hours: Hours, around: Surroundings, members: Sequence[Member], told: Progress = lambda _: None
) -> Turns:
    """How the stand of these panels could be turned; `ValueError` where they are not on one plane."""
    plane = members[0].pane.plane
    if any(member.pane.plane != plane for member in members):
        raise ValueError("the panels of one stand lie on one plane")
    stand = _Stand(hours, members[0], _watts(members), _seen(hours, around, members[0]))
    told(_LEAST_TOLD)
    months = _everywhere(stand, lambda share: told(_LEAST_TOLD + (1 - _LEAST_TOLD) * share))
    year, turned = months.sum(axis=0), round(plane.azimuth_deg) % _WHOLE_AZIMUTHS.size
    now = stand.at(plane.tilt_deg, plane.azimuth_deg)
    held = max(now, stand.at(int(np.argmax(year[:, turned])), plane.azimuth_deg), key=lambda it: it.kwh)
    best = max(held, stand.at(*_top(year)), key=lambda it: it.kwh)
    dull = max(now, stand.at(*_top(_worst(months))), key=lambda it: it.worst_kwh_day)
    column = months[:, :, round(best.azimuth_deg) % _WHOLE_AZIMUTHS.size]
    return Turns(
        best.tilt_deg,
        best.azimuth_deg,
        best.kwh,
        now.kwh,
        held.tilt_deg,
        held.kwh,
        _seasons(column, 2),
        _seasons(column, 4),
        Dull(dull.tilt_deg, dull.azimuth_deg, dull.worst_kwh_day, now.worst_kwh_day, dull.kwh),
    )


def _everywhere(stand: _Stand, told: Progress) -> Floats:
    """Energy by month, whole degree of tilt and whole degree of azimuth. [kWh]"""
    known = np.empty((len(MONTH_DAYS), _TILTS.size, _AZIMUTHS.size))
    for t, tilt in enumerate(_TILTS):
        for a, azimuth in enumerate(_AZIMUTHS):
            known[:, t, a] = known[:, t, 0] if tilt == 0 and a else stand.months_kwh(tilt, azimuth)
        told((t + 1) / _TILTS.size)
    beyond = np.arange(-_WRAPPED, _AZIMUTHS.size + _WRAPPED)
    wide = known[:, :, beyond % _AZIMUTHS.size]
    each = [RectBivariateSpline(_TILTS, beyond * _AZIMUTHS[1], month) for month in wide]
    return np.array([spline(_WHOLE_TILTS, _WHOLE_AZIMUTHS) for spline in each])


def _top(over: Floats) -> tuple[int, int]:
    """Tilt and azimuth of the greatest."""
    tilt, azimuth = np.unravel_index(np.argmax(over), over.shape)
    return int(tilt), int(azimuth)


def _worst(months: Floats) -> Floats:
    """Energy of a day of the worst month in which the sun rises; months along the first axis. [kWh]"""
    days = np.array(MONTH_DAYS).reshape(-1, *(1,) * (months.ndim - 1))
    lit = months.reshape(len(MONTH_DAYS), -1).max(axis=1) > _NIGHT_KWH * months.max()
    return np.asarray((months / days)[lit].min(axis=0)) if lit.any() else np.zeros(months.shape[1:])


def _seasons(column: Floats, count: int) -> tuple[Season, ...]:
    """The year parted in so many seasons, each with its best tilt; `column` by month and tilt."""
    best: tuple[Season, ...] = ()
    for starts in combinations(range(12), count):
        ends = (*starts[1:], starts[0] + 12)
        found = tuple(_season(column, first, end) for first, end in zip(starts, ends, strict=True))
        if not best or sum(s.kwh for s in found) > sum(s.kwh for s in best) * (1 + _GAIN):
            best = found
    return best


def _season(column: Floats, first: int, end: int) -> Season:
    months = [month % 12 for month in range(first, end)]
    over = column[months].sum(axis=0)
    tilt = int(np.argmax(over))
    return Season(tuple(month + 1 for month in months), float(tilt), float(over[tilt]))


def _watts(members: Sequence[Member]) -> RegularGridInterpolator:
    """Greatest power of all panels in even light, a W/m2 of it."""
    panels = panels_of([member.law for member in members])
    table = np.zeros((_LIGHTS.size, _HEATS.size))
    for g, light in enumerate(_LIGHTS):
        for t, heat in enumerate(_HEATS):
            table[g, t] = sum(
                _peak_w(panels, p, light * member.left, heat) for p, member in enumerate(members)
            )
    return RegularGridInterpolator((np.log(_LIGHTS), _HEATS), table / _LIGHTS[:, None])


def _peak_w(panels: Panels, p: int, light_w_m2: float, cell_c: float) -> float:
    curve = curve_of(panels, p, light_w_m2, cell_c)
    volt, amp = compiled()["peak"](np.array(curve.voltage_v), np.array(curve.current_a), len(curve.current_a))
    return float(volt * amp)


def _seen(hours: Hours, around: Surroundings, member: Member) -> Seen:
    """What things around leave of straight light, hour by hour, and of the dome: of a level panel there."""
    if not around.things and not around.skyline.points_deg:
        return Seen()
    pane = replace(member.pane, plane=replace(member.pane.plane, tilt_deg=0.0))
    course = course_over(hours.place, hours.middles)
    found = shade(pane, around, course.zenith_deg, course.azimuth_deg, hours.months)
    sun = np.where(found.row == DARK, 0.0, 1.0)
    some = found.row >= 0
    sun[some] = 1 - found.shares[found.row[some]].mean(axis=1)
    dome = [dome_share(pane, around, month).mean() for month in (_SUMMER, _WINTER)]
    return Seen(sun=sun, dome=float(np.mean(dome)))
