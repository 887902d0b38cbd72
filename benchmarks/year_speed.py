"""A year of an array, hour by hour, beside a plain year of pvlib's single diode.

Three lines. One panel in the open, the peer's way and ours, both from the weather's file: the same sun, sky,
face and heat, then one equation for the panel there and its whole curve here. Twenty panels no two of which
are alike, posts, a tree, a wall and the row in front throwing shadows on single cells, four strings at one
input, a bank, a load: the peer has no such thing, and the limit is ten seconds. And twenty made years gone
through with every bank and number of strings that matters: a minute on two cores.
"""

from __future__ import annotations

import sys
from decimal import Decimal
from pathlib import Path

import numpy as np
from clock import best_s, once_s
from row import Row

from panewright.array.member import Member
from panewright.array.sized import Asked, Choice, Prices, Shop, front
from panewright.array.stored import Supply
from panewright.array.wiring import Input
from panewright.array.wiring import Row as Line
from panewright.array.worth import Life
from panewright.array.year import Span, Year, year_of
from panewright.battery.bank import Bank
from panewright.battery.load import Battery
from panewright.intake.weather.weather import read_weather
from panewright.sky.course import _course
from panewright.sky.hours import Hours
from panewright.sky.made.means import Means
from panewright.sky.made.years import make_years
from panewright.sky.place import Plane
from panewright.sky.shadow.pane import Pane
from panewright.sky.shadow.shade import Surroundings
from panewright.sky.shadow.things import Crown, Post, Slab, Wall

sys.path.append(str(Path(__file__).parents[1] / "tests"))
sys.path.append(str(Path(__file__).parents[1] / "tests" / "array"))

LEAVES = (0.6, 0.6, 0.5, 0.3, 0.2, 0.2, 0.2, 0.2, 0.3, 0.4, 0.6, 0.6)
OPEN = Surroundings()
BUSY = Surroundings(
    (
        Post(3.0, -2.0, 4.0, 0.15),
        Crown(-4.0, -6.0, 4.0, 4.0, 5.0, LEAVES),
        Wall((12.0, -6.0), (12.0, 4.0), 3.0),
        Slab((0.0, 0.0, 0.5), Plane(35, 180), 10.5, 1.65),
    )
)
TEN_S, MINUTE_S = 10.0, 60.0


def rows() -> list[Row]:
    """The year of alike panels, of unlike ones, and many years."""
    from test_year import ALIKE, plain_year_kwh

    hours = weather()
    one, wires, spans = ALIKE[:1], (Input((Line((0,)),)),), (Span(10.0, 200.0, (24.0,)),)
    ours, peers = year_of(hours, OPEN, one, wires, spans).kwh, plain_year_kwh(hours) / 4

    def from_the_file() -> Year:
        _course.cache_clear()  # where the sun stands is kept; the peer keeps nothing
        return year_of(weather(), OPEN, one, wires, spans)

    return [
        Row(
            "a year of one panel in the open, from the file: its whole curve in every hour",
            best_s(from_the_file, 3),
            "pvlib, single diode",
            best_s(lambda: plain_year_kwh(hours), 3),
            note=f"{ours / peers - 1:+.2%} of the peer's energy",
        ),
        Row(
            "a year of 20 unlike panels, shadows on cells, a bank",
            once_s(lambda: unlike(hours)),
            most_s=TEN_S,
        ),
        Row(
            "20 made years, every bank that matters for 6 numbers of strings",
            once_s(lambda: reliable(hours)),
            most_s=MINUTE_S,
        ),
    ]


def weather() -> Hours:
    """Greensboro's typical year, which pvlib carries."""
    import pvlib

    file = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
    return read_weather(file.read_bytes(), file.name)


def unlike(hours: Hours) -> Year:
    """Two rows of ten panels of 60 cells, five in a string."""
    from invented_panels import Made

    at = [(0.02 + 0.16 * (k // 10), 0.02 + 0.16 * (k % 10)) for k in range(60)]
    cells = tuple((x, y, x + 0.156, y + 0.156) for x, y in at)
    places = [
        Pane((col * 1.05, row * 3.0, 0.5), Plane(35, 180), cells) for row in range(2) for col in range(10)
    ]
    panels = [
        Member(f"P{seed}", Made(60, 3, seed=seed).law(), place, 265.0) for seed, place in enumerate(places)
    ]
    lines = tuple(Line(tuple(range(k, k + 5)), 0.05) for k in range(0, 20, 5))
    year = year_of(
        hours, BUSY, panels, (Input(lines, 0.03),), (Span(20.0, 300.0, tuple(np.linspace(90, 150, 7))),)
    )
    banked(year)
    return year


def banked(year: Year) -> None:
    """A load of 500 W through that year."""
    shop = Shop(Bank(Battery("lfp", 51.2), 1.0), (1,), (300.0, 301.0), PRICES, LIFE)
    front(shop, [supply(year)], Asked(np.full(8760, 500.0), (0.5,)))


def supply(year: Year) -> Supply:
    """What a controller of 96 % makes of the inputs' power."""
    return Supply(0.96 * year.input_w.sum(axis=1), np.array([40.0, 60.0]), np.zeros((8760, 2)), 1e3)


PRICES, LIFE = Prices(Decimal(90), Decimal(180), Decimal(150)), Life(20, 0.04)


def reliable(hours: Hours) -> tuple[Choice, ...]:
    """Twenty years made of the file's means; a string of two panels, one to eight of them; 20 to 800 Ah."""
    from test_year import UNLIKE

    light, count = hours.by_month(hours.level_w_m2) / 1e3, hours.by_month(np.ones(8760))
    made = make_years(Means(hours.place, tuple(light), tuple(hours.by_month(hours.air_c) / count)), 1, 20)
    wires, spans = (Input((Line((0, 1)),)),), (Span(10.0, 200.0, (24.0,)),)
    years = [supply(year_of(made.year(k), OPEN, UNLIKE[:2], wires, spans)) for k in range(20)]
    shop = Shop(Bank(Battery("lfp", 25.6), 1.0), (1, 2, 3, 4, 6, 8), (20.0, 800.0), PRICES, LIFE)
    return front(shop, years, Asked(np.full(8760, 40.0)))


if __name__ == "__main__":
    from table import told

    for line in rows():
        print(told(line))
