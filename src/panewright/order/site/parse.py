"""The text of an array becomes a `Site`, or every mistake in it at once."""

from __future__ import annotations

from dataclasses import replace

from panewright.errors import OrderError, Problem
from panewright.order.answers import Answers
from panewright.order.site.boxed import read_battery, read_box, read_draws, read_generator
from panewright.order.site.lying import read_panels, read_stands, read_strings
from panewright.order.site.paid import read_money, read_sizes, read_ways
from panewright.order.site.pumped import read_pump
from panewright.order.site.rows import read_rows
from panewright.order.site.site import Site
from panewright.order.site.things import read_around
from panewright.order.site.where import read_named, read_place, read_rules, read_sky
from panewright.order.source import decoded


def parse_site_bytes(data: bytes, file: str) -> Site:
    """The site in a file's bytes; `OrderError` tells every mistake, also where it is no text at all."""
    return parse_site(decoded(data, file), file)


def parse_site(text: str, file: str) -> Site:
    """The site in a text; `OrderError` tells every mistake with its line, reason and cure."""
    rows = read_rows(text, file)
    answers = Answers(rows.source, rows.questions)
    named = read_named(answers)
    place, zone_h = read_place(answers)
    rules = read_rules(answers, named)
    weather, dirt = read_sky(answers, place)
    stands = read_stands(answers, rows)
    panels = read_panels(answers, rows, stands)
    bank = read_battery(answers)
    pump = read_pump(answers)
    box = read_box(answers, bank, pump)
    strings = read_strings(answers, rows, panels, box.inputs)
    draws, generator = read_draws(answers, rows), read_generator(answers, bank)
    ways, money = read_ways(answers), read_money(answers, named.currency)
    sizes, around = read_sizes(answers, bank), read_around(answers, rows)
    if answers.problems or weather is None:
        raise OrderError(sorted(answers.problems, key=_place))
    counts = [sum(panel.stand == number for panel in panels) for number in range(len(stands))]
    stands = tuple(
        replace(stand, columns=stand.columns or max(count, 1))
        for stand, count in zip(stands, counts, strict=True)
    )
    assumed = tuple(answers.assumptions.values())
    return Site(
        *(named, place, zone_h, rules, weather, stands, panels, strings, box, bank, draws, generator),
        *(ways, money, sizes, around, pump, dirt, assumed, text),
    )


def _place(problem: Problem) -> tuple[int, str]:
    return problem.line or 1_000_000_000, problem.key
