"""What a person says beside a curve, by key and in words: from a file, a command or a form, read alike.

The words stay as they were typed and are kept so; what they mean is read in one place, every mistake at once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TypeVar, cast, get_args

from panewright.bench.fault.kinds import Group
from panewright.bench.fault.place.setting import AtHand
from panewright.bench.fault.shares import why_not
from panewright.bench.rate.checklist import Tried
from panewright.bench.rate.heat import How as HeatHow
from panewright.bench.rate.light import How as LightHow
from panewright.bench.rate.rating import Rule
from panewright.desk.rating import spelt
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
    "label.guard": "how much of the uncertainty (k = 2) the power must lie above that: '0' to '3'",
    "label.most_unsure": "from which uncertainty (k = 2) on nothing is told: '8 %'",
    "label.reject": "surely under so much of the prediction a rework does not pay: '80 %'",
    "label.in_date": "yes: nothing passes that an instrument past its calibration read; no: it is flagged",
    "safety.withstood": "the test voltage borne for a minute: '500 V'; 0 V where it broke down",
    "safety.insulation": "between cells and frame: '85 Mohm'",
    "safety.insulation_at": "at which voltage: '500 V'",
    "safety.wet": "the same in water: '60 Mohm'",
    "safety.earth": "each rail to the earth point: '0.02, 0.03, 0.02, 0.05 ohm'",
    "safety.earth_current": "the current of that test: '25 A'",
    "bench.has": "what is at hand beside a meter: 'load, supply, 1.5 ohm, 3.3 ohm', or 'meter'",
    "safety.diodes": "each bypass diode on the meter's diode range: '0.31, 0.32 V'",
    "safety.polarity": "volts at the leads' ends in light, the meter's red lead on plus: '19.8 V'",
    "safety.strings": "current of each string by itself, in one light: '3.4 A'",
    "safety.pull": "what each lead bore for a minute: '50, 50 N'",
}
GROUPS: Mapping[str, Group] = {f"shares.{group.replace(' ', '_')}": group for group in get_args(Group)}
KEYS |= {key: f"how many of the shop's panels are so: '5 %' ({group})" for key, group in GROUPS.items()}
T = TypeVar("T")
LEAST_SOUND = 0.01  #: of all panels: where none is, no reading clears one
_OF_LIGHT = ("light", "voltage", "current")


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
    rule: Rule = field(default_factory=Rule)
    tried: Tried = field(default_factory=Tried)
    wet: bool = False
    shares: tuple[tuple[Group, float], ...] = ()  #: of the shop's panels, before any reading
    words: tuple[tuple[str, str], ...] = ()  #: as they were typed, by key
    at_hand: AtHand | None = None  #: what else a fault can be sought with; None where it is not said


def typed(words: Mapping[str, str], file: str = "") -> Typed:
    """What the words say; `BenchError` with every mistake in them."""
    reader = _Reader({key: " ".join(text.split()) for key, text in words.items() if text.strip()}, file)
    made = reader.whole()
    if reader.problems:
        raise BenchError(reader.problems)
    return made


def refuse_wrong_rules(words: Mapping[str, str], file: str) -> None:
    """`BenchError` with every mistake in what a shop says once for all its panels."""
    reader = _Reader(words, file)
    reader.known_keys()
    reader.rule()
    reader.shares()
    if reader.problems:
        raise BenchError(reader.problems)


class _Reader:
    """Reads every key and gathers what is wrong."""

    def __init__(self, words: Mapping[str, str], file: str) -> None:
        self.words, self.file = words, file
        self.problems: list[Problem] = []

    def known_keys(self) -> None:
        for key in self.words:
            if key not in KEYS:
                cure = f"There are: {', '.join(KEYS)}."
                self.problems.append(Problem("There is no such key.", cure, self.file, key=key[:60]))

    def whole(self) -> Typed:
        self.known_keys()
        return Typed(
            day=self.read("day", spelt.day),
            light=self.light(),
            heat=self.heat(),
            volts=self.words.get("meters.volts", ""),
            amps=self.words.get("meters.amps", ""),
            one_ammeter=bool(self.read("meters.one", spelt.yes)),
            rule=self.rule(),
            tried=self.tried(),
            wet="safety.wet" in self.words,
            shares=tuple(self.shares().items()),
            words=tuple(sorted(self.words.items())),
            at_hand=self.read("bench.has", _at_hand),
        )

    def light(self) -> LightTyped:
        by = self.choice("light.by", LIGHTS, "How was the light known?")
        made = LightTyped(
            by=by,
            reading=self.read("light.reading", lambda text: figure_of(text, *_OF_LIGHT)),
            at_stc=self.read("light.at_stc", lambda text: figure_of(text, *_OF_LIGHT)),
            sensor_c=self.one("light.heat", (-40, 120), "degC", "heat"),
            instrument=self.words.get("light.instrument", ""),
            place=self.read("light.place", spelt.place) or (),
            turned=self.read("light.turned", spelt.turned) or (),
            moment=self.read("light.moment", spelt.moment),
            haze=self.read("light.haze", lambda text: within(spelt.bare(text), 1, 12, "(Linke's)")),
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

    def rule(self) -> Rule:
        """As it is said; what is not said as shops have it."""
        said = {
            "tolerance_share": self.one("label.tolerance", (0, 0.5), "of it", "share"),
            "step_w": self.one("label.step", (1e-3, 100), "W", "power"),
            "guard": self.read("label.guard", lambda text: within(spelt.bare(text), 0, 3, "")),
            "most_unsure_share": self.one("label.most_unsure", (1e-3, 0.5), "of it", "share"),
            "reject_share": self.one("label.reject", (0, 0.99), "of it", "share"),
        }
        in_date = bool(self.read("label.in_date", spelt.yes))
        return Rule(**{name: value for name, value in said.items() if value is not None}, in_date=in_date)

    def shares(self) -> dict[Group, float]:
        """Of those groups that the shop says anything of."""
        said = {group: self.one(key, (0, 0.9999), "of all", "share") for key, group in GROUPS.items()}
        given = {group: share for group, share in said.items() if share is not None}
        if given.get("healthy", 1.0) < LEAST_SOUND:
            self.wrong("shares.healthy", "Some panels are sound.", "Write '1 %' or more.")
        if wrong := why_not(given, dict.fromkeys(GROUPS.values(), 1.0)):
            self.wrong(next(key for key in GROUPS if key in self.words), wrong, "Let them add up to 100 %.")
        return given

    def tried(self) -> Tried:
        return Tried(
            withstood_v=self.one("safety.withstood", (0, 10_000), "V", "voltage"),
            insulation_mohm=self.mohm("safety.insulation"),
            insulation_v=self.one("safety.insulation_at", (0, 10_000), "V", "voltage"),
            wet_mohm=self.mohm("safety.wet"),
            earth_ohm=self.read("safety.earth", lambda text: spelt.several(text, "resistance")) or (),
            earth_a=self.one("safety.earth_current", (0, 200), "A", "current"),
            drops_v=self.read("safety.diodes", lambda text: spelt.several(text, "voltage")) or (),
            ends_v=self.one("safety.polarity", (-300, 300), "V", "voltage"),
            strings_a=self.read("safety.strings", lambda text: spelt.several(text, "current")) or (),
            pulled_n=self.read("safety.pull", lambda text: spelt.several(text, "force")) or (),
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


def _at_hand(text: str) -> AtHand:
    """What the bench has beside a meter."""
    parts = {each.strip().casefold() for each in text.split(",")} - {"meter", "a meter"}
    loads = tuple(sorted(_ohm(each) for each in parts - {"load", "supply"}))
    return AtHand("load" in parts, "supply" in parts, loads)


def _ohm(text: str) -> float:
    try:
        return within(figure_of(text, "resistance")[0], 1e-3, 1e5, "ohm")
    except NoFigure as none:
        cure = f"{none.cure} There are also: load, supply, meter."
        raise NoFigure(f"{text[:20]!r} is nothing to measure with. {none.reason}", cure) from none
