"""[array], [place], [rules] and [sky]: what it is called, where it stands, under which rules and weather."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, cast

from panewright.errors import SkyError
from panewright.order.answers import Answers
from panewright.order.site.figures import TWELVE, several
from panewright.order.site.site import Ground, Named, OfClearness, OfFile, OfMeans, Rules, Twelve, Weather
from panewright.sky.made.means import of_days
from panewright.sky.monthly import USUAL_DIRT
from panewright.sky.place import Place
from panewright.wire.laid import Family

_HOUR_S = 3600.0
_YEARS = 10
_LIGHT_CURE = 'Write twelve figures, January first: light = "0.9 1.7 ... 0.7 kWh/m2/d".'
_AIR_CURE = 'Write twelve figures, January first: air = "0 1 5 ... 1 degC".'
_DIRT_CURE = 'Write one share or twelve, January first, from 0 to 95 %: dirt = "2 %".'
_WAYS = {"weather": "a weather file", "light": "twelve means of the light", "clearness": "a clearness"}


def read_named(answers: Answers) -> Named:
    """The [array] section."""
    units = cast(Literal["metric", "us"], answers.word("array.units"))
    answers.assume("array.paper", "Letter" if units == "us" else "A4", f"usual where units are {units}")
    paper = cast(Literal["A4", "Letter"], answers.word("array.paper"))
    return Named(answers.word("array.name"), units, answers.word("array.currency").upper(), paper)


def read_place(answers: Answers) -> tuple[Place, float]:
    """The [place] section: where, and how many hours the local clock is ahead of UTC."""
    place = Place(*(answers.number(f"place.{name}") for name in ("latitude", "longitude", "altitude")))
    answers.assume(
        "place.zone",
        f"{round(place.longitude_deg / 15)} h",
        "by the sun at this longitude, without summer time",
    )
    return place, answers.number("place.zone") / _HOUR_S


def read_rules(answers: Answers, named: Named) -> Rules:
    """The [rules] section."""
    answers.assume(
        "rules.family", "NEC" if named.units == "us" else "IEC", f"usual where units are {named.units}"
    )
    cold, hot = answers.number("rules.coldest"), answers.number("rules.hottest_air")
    if cold >= hot:
        reason = f"The coldest air, {cold:g} degC, is not below the hottest, {hot:g} degC."
        answers.wrong("rules.coldest", reason, "Exchange the two, or mend one.")
    family, on = cast(Family, answers.word("rules.family")), cast(Ground, answers.word("rules.on"))
    return Rules(family, cold, hot, on)


def read_sky(answers: Answers, place: Place) -> tuple[Weather | None, Twelve]:
    """The [sky] section: weather, None where it is wrong; and dirt."""
    return _weather(answers, place), _dirt(answers)


def _dirt(answers: Answers) -> Twelve:
    answers.word("sky.dirt")
    return several(answers, "sky.dirt", "share", TWELVE, (0.0, 0.95), _DIRT_CURE) or USUAL_DIRT


def _weather(answers: Answers, place: Place) -> Weather | None:
    """One of three ways, and not two of them."""
    told = [name for name in _WAYS if answers.given(f"sky.{name}")]
    if not told:
        reason = "Nothing says what the weather is."
        cure = 'Name a file by weather = "...", or write light and air, or clearness and air.'
        answers.wrong("sky.weather", reason, cure)
        return None
    for name in told[1:]:
        reason = f"The text tells {_WAYS[told[0]]} and {_WAYS[name]} too; one of them is the weather."
        answers.wrong(f"sky.{name}", reason, f"Drop {name} or {told[0]}.")
    _bars_others(answers, told[0])
    if told[0] == "weather":
        return OfFile(answers.word("sky.weather"))
    air = _air(answers)
    if told[0] == "clearness":
        return OfClearness(float(answers.exact("sky.clearness")), air) if air else None
    return _means(answers, place, air)


def _bars_others(answers: Answers, way: str) -> None:
    """Keys of another way than the one told."""
    others = {"weather": ("air", "years", "seed"), "clearness": ("years", "seed"), "light": ()}[way]
    for name in others:
        cure = f"Drop {name}."
        answers.bars(f"sky.{name}", f"{name} does not belong to {_WAYS[way]}.", cure)


def _air(answers: Answers) -> Twelve | None:
    answers.needs("sky.air", "the heat of the cells follows from it.")
    return several(answers, "sky.air", "temperature", TWELVE, (-60.0, 50.0), _AIR_CURE)


def _means(answers: Answers, place: Place, air: Twelve | None) -> OfMeans | None:
    light = several(answers, "sky.light", "daily light", (12,), (0.0, 13.0), _LIGHT_CURE)
    answers.assume("sky.years", _YEARS, "enough to see a bad one; more take longer")
    answers.assume("sky.seed", 1, "the same years each time")
    years, seed = answers.count("sky.years"), answers.count("sky.seed")
    if light is None or air is None or any(answers.faulty(f"place.{n}") for n in ("latitude", "longitude")):
        return None
    for reason, cure in _not_there(place, light, air):
        answers.wrong("sky.light", reason, cure)
    return OfMeans(light, air, years, seed)


def _not_there(place: Place, light: Twelve, air: Twelve) -> Iterator[tuple[str, str]]:
    """Means that no place at this latitude has."""
    try:
        of_days(place, light, air)
    except SkyError as mistake:
        for problem in mistake.problems:
            month = problem.key.partition(", ")[2]
            yield f"{month}, {problem.value} in the month: {problem.reason}", problem.cure
