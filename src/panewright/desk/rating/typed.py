"""What a person says beside a curve, by key and in words: from a file, a command or a form, read alike.

The words stay as they were typed and are kept so; what they mean is read in one place, every mistake at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TypeVar, cast, get_args

from panewright.bench.rate.checklist import Tried
from panewright.bench.rate.heat import How as HeatHow
from panewright.bench.rate.light import How as LightHow
from panewright.desk.rating.figure import NoFigure, figure_of, within
from panewright.errors import BenchError, Problem

LIGHTS = ("reference cell", "second panel", "light meter", "telephone", "clear sky", "own Isc")
HEATS = get_args(HeatHow)
KEYS = {
    "day": "the day it was measured: 2026-06-20",
    "light.by": f"one of: {', '.join(LIGHTS)}",
    "light.reading": "what it read: '85.7 mV', '4.05 A', '851 W/m2'; left out where the curve's file says it",
    "light.at_stc": "what it reads at STC, where its instrument does not say: '100 mV'",
    "light.heat": "how hot it was itself: '42 C'",
    "light.instrument": "which instrument of the shop",
    "light.place": "for a clear sky: latitude, longitude, height: '47.1, 8.6, 430 m'",
    "light.turned": "for a clear sky: the panel's tilt and where it faces: '35, 180'",
    "light.moment": "for a clear sky: day, clock and zone: '2026-06-20 12:40 +02:00'",
    "light.haze": "for a clear sky: Linke's turbidity, where it is known: '3'",
    "heat.by": f"one of: {', '.join(HEATS)}",
    "heat.reading": "what it read: '45.4 C'; left out where the curve's file says it",
    "heat.wind": "for the air: '2 m/s'",
    "heat.instrument": "which instrument of the shop",
    "meters.volts": "which instrument read the voltage",
    "meters.amps": "which instrument read the current",
    "meters.one": "yes, where the light was read as a current by the same ammeter",
    "label.tolerance": "how far under its label a panel may lie: '5 %'",
    "label.step": "labels are cut to whole steps: '1 W'",
    "safety.withstood": "the test voltage borne for a minute: '500 V'; 0 V where it broke down",
    "safety.insulation": "between cells and frame: '85 Mohm'",
    "safety.insulation_at": "at which voltage: '500 V'",
    "safety.wet": "the same in water: '60 Mohm'",
    "safety.earth": "each rail to the earth point: '0.02, 0.03, 0.02, 0.05 ohm'",
    "safety.earth_current": "the current of that test: '25 A'",
    "safety.diodes": "each bypass diode on the meter's diode range: '0.31, 0.32 V'",
}
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class LightTyped:
    """How the light was known."""

    by: str = ""
    reading: tuple[float, str] | None = None  #: in SI, and its kind
    at_stc: tuple[float, str] | None = None
    sensor_c: float | None = None
    instrument: str = ""
    place: tuple[float, ...] = ()
    turned: tuple[float, ...] = ()
    moment: datetime | None = None
    haze: float | None = None

    @property
    def how(self) -> LightHow:
        """Of the ways that the rating knows: a telephone is a light meter."""
        return cast(LightHow, "light meter" if self.by == "telephone" else self.by)


@dataclass(frozen=True, slots=True)
class HeatTyped:
    """How the heat was known."""

    by: str = ""
    reading_c: float | None = None
    wind_m_s: float = 0.0
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Typed:
    """All that was said, read."""

    day: date | None = None
    light: LightTyped = field(default_factory=LightTyped)
    heat: HeatTyped = field(default_factory=HeatTyped)
    volts: str = ""
    amps: str = ""
    one_ammeter: bool = False
    tolerance_share: float | None = None
    step_w: float | None = None
    tried: Tried = field(default_factory=Tried)
    wet: bool = False
    words: tuple[tuple[str, str], ...] = ()  #: as they were typed, by key


def typed(words: Mapping[str, str], file: str = "") -> Typed:
    """What the words say; `BenchError` with every mistake in them."""
    reader = _Reader({key: " ".join(text.split()) for key, text in words.items() if text.strip()}, file)
    made = reader.whole()
    if reader.problems:
        raise BenchError(reader.problems)
    return made


class _Reader:
    """Reads every key and gathers what is wrong."""

    def __init__(self, words: Mapping[str, str], file: str) -> None:
        self.words, self.file = words, file
        self.problems: list[Problem] = []

    def whole(self) -> Typed:
        for key in self.words:
            if key not in KEYS:
                cure = f"There are: {', '.join(KEYS)}."
                self.problems.append(Problem("There is no such key.", cure, self.file, key=key[:60]))
        return Typed(
            day=self.read("day", _day),
            light=self.light(),
            heat=self.heat(),
            volts=self.words.get("meters.volts", ""),
            amps=self.words.get("meters.amps", ""),
            one_ammeter=bool(self.read("meters.one", _yes)),
            tolerance_share=self.one("label.tolerance", (0, 0.5), "of it", "share"),
            step_w=self.one("label.step", (1e-3, 100), "W", "power"),
            tried=self.tried(),
            wet="safety.wet" in self.words,
            words=tuple(sorted(self.words.items())),
        )

    def light(self) -> LightTyped:
        by = self.choice("light.by", LIGHTS, "How was the light known?")
        made = LightTyped(
            by=by,
            reading=self.read("light.reading", lambda text: figure_of(text, *_OF_LIGHT)),
            at_stc=self.read("light.at_stc", lambda text: figure_of(text, *_OF_LIGHT)),
            sensor_c=self.one("light.heat", (-40, 120), "degC", "heat"),
            instrument=self.words.get("light.instrument", ""),
            place=self.read("light.place", _place) or (),
            turned=self.read("light.turned", _turned) or (),
            moment=self.read("light.moment", _moment),
            haze=self.read("light.haze", lambda text: within(_bare(text), 1, 12, "(Linke's)")),
        )
        if by == "clear sky":
            for name in ("place", "turned", "moment"):
                if f"light.{name}" not in self.words:
                    self.wrong(
                        f"light.{name}", "A clear sky tells no light without it.", f"{KEYS[f'light.{name}']}."
                    )
        return made

    def heat(self) -> HeatTyped:
        by = self.choice("heat.by", HEATS, "How was the cells' heat known?")
        wind = self.one("heat.wind", (0, 40), "m/s", "wind")
        if by == "the air" and wind is None:
            self.wrong(
                "heat.wind", "The air cools as the wind blows.", "Write it: '2 m/s'; '0 m/s' in a calm."
            )
        return HeatTyped(
            by,
            self.one("heat.reading", (-40, 120), "degC", "heat"),
            wind or 0.0,
            self.words.get("heat.instrument", ""),
        )

    def tried(self) -> Tried:
        return Tried(
            withstood_v=self.one("safety.withstood", (0, 10_000), "V", "voltage"),
            insulation_mohm=self.mohm("safety.insulation"),
            insulation_v=self.one("safety.insulation_at", (0, 10_000), "V", "voltage"),
            wet_mohm=self.mohm("safety.wet"),
            earth_ohm=self.read("safety.earth", lambda text: _several(text, "resistance")) or (),
            earth_a=self.one("safety.earth_current", (0, 200), "A", "current"),
            drops_v=self.read("safety.diodes", lambda text: _several(text, "voltage")) or (),
        )

    def choice(self, key: str, among: tuple[str, ...], asked: str) -> str:
        said = self.words.get(key, "")
        found = next((each for each in among if each.casefold() == said.casefold()), "")
        if not found:
            reason = "There is no such way." if said else asked
            self.wrong(key, reason, f"Write one of: {', '.join(among)}.")
        return found

    def one(self, key: str, span: tuple[float, float], unit: str, kind: str) -> float | None:
        return self.read(key, lambda text: within(figure_of(text, kind)[0], *span, unit))

    def mohm(self, key: str) -> float | None:
        found = self.one(key, (0, 1e13), "ohm", "resistance")
        return None if found is None else found / 1e6

    def read(self, key: str, of: Callable[[str], T]) -> T | None:
        """One key's value; None where nothing is written or it is wrong, which is noted."""
        text = self.words.get(key, "")
        if not text:
            return None
        try:
            return of(text)
        except NoFigure as none:
            self.wrong(key, none.reason, none.cure)
        return None

    def wrong(self, key: str, reason: str, cure: str) -> None:
        self.problems.append(Problem(reason, cure, self.file, key=key, value=self.words.get(key, "")[:60]))


_OF_LIGHT = ("light", "voltage", "current")


def _day(text: str) -> date:
    try:
        found = date.fromisoformat(text)
    except ValueError as none:
        raise NoFigure("This is no day.", "Write year, month, day: 2026-06-20.") from none
    if not 2000 <= found.year <= 2199:
        raise NoFigure(
            f"The year {found.year} is none of this shop's.", "Write year, month, day: 2026-06-20."
        )
    return found


def _moment(text: str) -> datetime:
    cure = "Write day, clock and zone: 2026-06-20 12:40 +02:00."
    try:
        found = datetime.fromisoformat(text.replace(" +", "+").replace(" -", "-").replace(" Z", "Z"))
    except ValueError as none:
        raise NoFigure("This is no moment.", cure) from none
    if found.tzinfo is None:
        raise NoFigure("Without its zone this clock says nothing.", cure)
    return found


def _yes(text: str) -> bool:
    if text.casefold() not in ("yes", "no", "true", "false"):
        raise NoFigure("This is neither yes nor no.", "Write yes or no.")
    return text.casefold() in ("yes", "true")


def _place(text: str) -> tuple[float, ...]:
    """Latitude, longitude, and height where it is told."""
    parts = [each.strip() for each in text.split(",")]
    if len(parts) not in (2, 3):
        raise NoFigure("This is no place.", "Write latitude, longitude and height: 47.1, 8.6, 430 m.")
    height = figure_of(parts[2], "height")[0] if len(parts) == 3 else 0.0
    return within(_bare(parts[0]), -90, 90, "degrees"), within(_bare(parts[1]), -180, 180, "degrees"), height


def _turned(text: str) -> tuple[float, ...]:
    """Tilt and azimuth."""
    parts = [each.strip() for each in text.split(",")]
    if len(parts) != 2:
        raise NoFigure("This does not say how it was turned.", "Write tilt and where it faces: 35, 180.")
    return within(_bare(parts[0]), 0, 90, "degrees"), within(_bare(parts[1]), 0, 360, "degrees")


def _bare(text: str) -> float:
    try:
        return float(text.removesuffix("°").removesuffix("deg"))
    except ValueError as none:
        raise NoFigure(f"{text[:20]!r} is no number.", "Write a plain number with a decimal point.") from none


def _several(text: str, kind: str) -> tuple[float, ...]:
    """Readings with commas between, the unit once at the end or at each."""
    *firsts, last = [each.strip() for each in text.split(",")]
    unit = last.lstrip("0123456789.+- ")
    return tuple(_all(firsts, last, unit, kind))


def _all(firsts: list[str], last: str, unit: str, kind: str) -> Iterator[float]:
    for each in firsts:
        yield figure_of(each if each[-1:].isalpha() else f"{each} {unit}", kind)[0]
    yield figure_of(last, kind)[0]
