"""What one shaded cell does: watts, heat as two bounds, what the bypass diodes are for."""

from __future__ import annotations

from math import isfinite

from panewright.drawing.chart import Chart, Mark, Series, draw_chart
from panewright.drawing.sheet import Block, Caution, Figure, Page, Verdicts, Words
from panewright.pack.bench import Bench
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.panel.electric.hot import absorbed_w

SHADE = "One cell in the shade"  #: title of the page
_POINTS = 33  # of the line of shades, most of them where shade is little
_NOTHING_W = 0.05


def shade_page(bench: Bench) -> Page:
    """The worst shade, how hot it makes the cell, and its rule."""
    blocks: list[Block] = [
        Words(_lead(bench), "lead"),
        Words(_why(bench)),
        *_line(bench),
        words_table(("What", "Value"), _rows(bench)),
        Words(_between(bench)),
        Verdicts(bench.design.electrical.hot.checks),
        Caution(caution.HOT_SPOT),
    ]
    return Page(SHADE, tuple(blocks))


def _lead(bench: Bench) -> str:
    hot = bench.design.electrical.hot
    if hot.absorbed_w < _NOTHING_W:
        return "No shade on one cell makes it take in more than the sun's own warmth."
    return (
        f"At worst a shaded cell takes in {bench.say(hot.absorbed_w, 'W')} from the others and gets "
        f"{bench.say(hot.heat.even_c, 'degC')} hot."
    )


def _why(bench: Bench) -> str:
    air = bench.say(bench.design.structural.temperatures.hot_air_c, "degC")
    return (
        "One current runs through all cells of a string. A cell with less light cannot make it, so the "
        f"others drive it backward, and it turns their power into heat. {_guard(bench)} Worst is a panel in "
        "full sun whose leads are joined; maximum power or a battery is milder. Reckoned with cool cells, "
        f"which push harder than warm ones, in air at the record heat of {air} with a breeze."
    )


def _guard(bench: Bench) -> str:
    """Who pushes, and what holds them back."""
    if bench.design.electrical.bypass is None:
        cells = len(bench.design.electrical.network.strings[0].substrings[0].cells)
        return f"There is no bypass diode: all {cells} cells of the string push."
    return f"The bypass diodes ({_diodes(bench)}) leave only the cells under the same diode to push."


def _diodes(bench: Bench) -> str:
    """Number of diodes and how far each reaches."""
    strings = bench.design.electrical.network.strings
    runs = [len(part.cells) for string in strings for part in string.substrings]
    over = f"{max(runs)}" if min(runs) == max(runs) else f"{min(runs)} to {max(runs)}"
    return f"{len(runs)}, each over {over} cells" if len(runs) > 1 else f"1, over {over} cells"


def _rows(bench: Bench) -> tuple[tuple[str, str], ...]:
    hot = bench.design.electrical.hot
    wide = bench.size(2 * hot.spot_radius_mm)
    return (
        ("share of the cell in the worst shade", f"{100 * hot.spot.shade:.0f}\u2009%"),
        ("voltage of the cell then, backward", bench.say(abs(hot.spot.voltage_v), "V")),
        ("current through it", bench.say(hot.spot.current_a, "A")),
        ("watts it takes in", bench.say(hot.absorbed_w, "W")),
        ("as hot as, all of the cell taking its share", bench.say(hot.heat.even_c, "degC")),
        (f"as hot as, all of it through one spot {wide} wide", bench.say(hot.heat.spot_c, "degC")),
        ("watts that such a spot bears until the limit below", bench.say(hot.spot_bears_w, "W", 2)),
    )


def _between(bench: Bench) -> str:
    hot = bench.design.electrical.hot
    bears = bench.say(hot.spot_bears_w, "W", 2)
    if hot.absorbed_w > hot.spot_bears_w:
        second = "The second is no forecast: so hot a spot burns through before."
    else:
        second = "Here the second holds it too."
    return (
        f"The truth lies between these two heats, and the check holds the first. {second} A cell that leaks "
        f"in a single point bears no more than {bears} there. So sort out every cell that glows in one place "
        "to a thermal camera. How cells leak in reverse scatters widely within a kind; it is assumed here, "
        "not measured."
    )


def _line(bench: Bench) -> tuple[Figure, ...]:
    """Watts against shade; nothing where no shade heats."""
    made = bench.design.electrical
    hot, network = made.hot, made.network
    shades = sorted({*((k / (_POINTS - 1)) ** 2 for k in range(_POINTS)), hot.spot.shade})
    watts = absorbed_w(network, hot.spot.place, shades)
    if hot.absorbed_w < _NOTHING_W or not all(map(isfinite, watts)):
        return ()
    share = tuple(100 * shade for shade in shades)
    at = 100 * hot.spot.shade
    worst = Mark(at, hot.absorbed_w, f"{at:.0f}\u2009%, {bench.say(hot.absorbed_w, 'W')}")
    series = (Series(share, tuple(max(0.0, each) for each in watts)),)
    chart = Chart("", "share of the cell in the shade, %", "taken in, W", series, (worst,), x_to=100.0)
    return (Figure(draw_chart(chart, 164.0, 62.0), 1.0, "Watts into the shaded cell", to_scale=False),)
