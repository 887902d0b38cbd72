"""[[thing]] and [skyline]: what stands in the way of the light."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.errors import SkyError
from panewright.order.answers import Answers
from panewright.order.site.figures import TWELVE, parts, several
from panewright.order.site.rows import Rows
from panewright.order.site.schema_stand import BELONGS
from panewright.sky.place import Plane
from panewright.sky.shadow.shade import Skyline, Surroundings
from panewright.sky.shadow.things import OPAQUE, Crown, Post, Slab, Thing, Wall
from panewright.units import UnitError, read

_POINTS = 'Write directions and heights as in points = "90 deg: 5 deg, 180 deg: 8 deg".'
_THROUGH = 'Write one share or twelve, January first: lets_through = "15 %".'


def read_around(answers: Answers, rows: Rows) -> Surroundings:
    """All of it."""
    things = [thing for row in rows.of("thing") if (thing := _thing(answers, row)) is not None]
    return Surroundings(tuple(things), _skyline(answers))


def _thing(answers: Answers, row: str) -> Thing | None:
    """One thing; None where it is wrong."""
    kind = answers.word(f"{row}.kind")
    if kind not in BELONGS:
        return None
    needed, more = BELONGS[kind]
    for name in needed:
        answers.needs(f"{row}.{name}", f"a {kind} has it.")
    for name in sorted({each for both in BELONGS.values() for keys in both for each in keys}):
        if name not in (*needed, *more):
            answers.bars(f"{row}.{name}", f"A {kind} has no {name}.", f"Drop {name}, or write another kind.")
    if any(answers.sound(f"{row}.{name}") is None for name in ("east", "north", *needed)):
        return None
    try:
        return _made(answers, row, kind)
    except SkyError as mistake:
        for problem in mistake.problems:
            key = f"{row}.{problem.key}" if problem.key in needed else row
            answers.wrong(
                key, f"{problem.reason} {problem.value}".strip(), "Mend its sizes: above 0, top over foot."
            )
        return None


def _made(answers: Answers, row: str, kind: str) -> Thing:
    def told(name: str) -> float:
        return answers.sound_number(f"{row}.{name}") or 0.0

    at = told("east"), told("north")
    if kind == "post":
        return Post(*at, told("height"), told("width"), told("foot"))
    if kind == "wall":
        return Wall(at, (told("to_east"), told("to_north")), told("height"), told("foot"))
    if kind == "row":
        return Slab((*at, told("foot")), Plane(told("tilt"), told("azimuth")), told("width"), told("length"))
    through = several(answers, f"{row}.lets_through", "share", TWELVE, (0.0, 1.0), _THROUGH)
    return Crown(*at, told("middle"), told("width"), told("height"), through or OPAQUE)


def _skyline(answers: Answers) -> Skyline:
    line = answers.sound_word("skyline.points")
    if line is None:
        return Skyline()
    points, told = list(_points(parts(line))), len(parts(line))
    if len(points) < told or not points:
        answers.wrong("skyline.points", "A point is a direction and a height there.", _POINTS)
        return Skyline()
    try:
        return Skyline(tuple(points))
    except SkyError as mistake:
        for problem in mistake.problems:
            answers.wrong("skyline.points", problem.reason, problem.cure)
        return Skyline()


def _points(told: tuple[str, ...]) -> Iterator[tuple[float, float]]:
    """Those that can be read; 360 degrees are 0."""
    for each in told:
        azimuth, colon, height = each.partition(":")
        try:
            if colon:
                yield read(azimuth, "angle") % 360, read(height, "angle")
        except UnitError:
            continue
