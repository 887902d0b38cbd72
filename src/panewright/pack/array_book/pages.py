"""The pages of an array's book, each for one question."""

from __future__ import annotations

from functools import partial

from panewright.array.likely import Likely
from panewright.array.plan.plan import Balance, Plan
from panewright.array.turned import Season, Turns, season_kwh
from panewright.drawing.chart import Chart, draw_chart
from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size, figure_area, scale_to_fit, text_area
from panewright.drawing.sheet import (
    Block,
    Caution,
    Figure,
    Heading,
    Page,
    Pointers,
    Verdicts,
    Words,
)
from panewright.pack.array_book import cautions, tables
from panewright.pack.array_book.drawn.bank import charge_chart, front_chart
from panewright.pack.array_book.drawn.energy import day_chart, month_bars, water_bars
from panewright.pack.array_book.drawn.schemed import scheme_of
from panewright.pack.array_book.drawn.single_line import sheets
from panewright.pack.array_book.drawn.stand import stand_drawing
from panewright.pack.array_book.saying import MONTHS, heat, percent, say, water
from panewright.pack.bench import count
from panewright.pack.figures.scale import figure
from panewright.pack.figures.small_bars import BarRow, small_bars
from panewright.pack.pages.front import HOW_TO_READ
from panewright.pack.pages.table import words_table
from panewright.pack.verdict import by_need

WORK, LINE, ONE_BY_ONE = "In which order", "Single-line drawing", "Strings one by one"
STRINGS, CABLES, NEEDS, LIMITS = "Strings and panels", "Cables", "What protects it", "Limits"
ENERGY, SURE, BANK, PUMP, COST = "Energy", "How sure", "The battery", "The pump", "What it costs"
ASSUMED = "What was assumed"
_UNDER_LINE_MM, _UNDER_STAND_MM = 24.0, 52.0  # words beside a figure
_CHART_MM = 76.0
_SIGNS = (
    "Tint, pattern and letter are the string's; the number is the place in it, from the minus end. Rings are "
    "plus and minus, in a square where they are an end of the string: that lead goes to where strings meet. "
    "Which way round a panel lies, its own leads say."
)
_DROP = (
    "Drop: both conductors, at the working current and their own heat; the share is of the working voltage. "
    "Lost a year: all runs of the kind together."
)
_ARTICLES = "Articles are recalled and move from print to print. The office that inspects has the last word."
_UNSURE = (
    "What is not known, the greatest first. Each figure is one standard uncertainty, of the year's energy; "
    "causes know nothing of each other, so their squares add."
)


def work_page(plan: Plan) -> Page:
    """Cautions, then the work in its order."""
    asked = [
        cautions.BEFORE,
        *cautions.volts(plan),
        cautions.LOAD,
        *cautions.bank_cautions(plan),
        cautions.LISTED,
    ]
    blocks: list[Block] = [Caution(words, close=True) for words in asked]
    return Page(WORK, (*blocks, *cautions.work(plan), Words(cautions.AID, "small")))


def line_pages(plan: Plan) -> tuple[Page, ...]:
    """The single-line drawing, and strings one by one where they have no room on it."""
    paper = plan.site.named.paper
    whole = figure_area(paper)
    found = sheets(scheme_of(plan), Size(whole.width_mm, whole.height_mm - _UNDER_LINE_MM))
    more: tuple[Block, ...] = ()
    if found.strings:
        more = (Pointers((("Alike strings are one row here; each with its serials", ONE_BY_ONE),)),)
    first = Page(LINE, (_diagram(plan, found.first), *more, Caution(cautions.LOAD, close=True)))
    if not found.strings:
        return (first,)
    return (first, Page(ONE_BY_ONE, tuple(_diagram(plan, drawing) for drawing in found.strings)))


def _diagram(plan: Plan, drawing: Drawing) -> Figure:
    scale = scale_to_fit(drawing, figure_area(plan.site.named.paper))
    return Figure(drawing, scale, to_scale=False)


def stand_title(plan: Plan, stand: int) -> str:
    """Title of a stand's page."""
    return f"Where the panels lie: {plan.site.stands[stand].name}"


def stand_pages(plan: Plan) -> tuple[Page, ...]:
    """Each stand that bears panels."""
    used = sorted({placed.stand for placed in plan.panels})
    return tuple(_stand_page(plan, stand) for stand in used)


def _stand_page(plan: Plan, stand: int) -> Page:
    named, plane = plan.site.named, plan.site.stands[stand].plane
    whole = figure_area(named.paper)
    room = Size(whole.width_mm, whole.height_mm - _UNDER_STAND_MM)
    drawn = figure(partial(stand_drawing, plan, stand), room, plan.site.stands[stand].name, named.units)
    turned = f"tilt {plane.tilt_deg:g}°, looking to {plane.azimuth_deg:g}° from north over east"
    roof = (Caution(cautions.ROOF, close=True),) if plan.site.rules.on_building else ()
    blocks: tuple[Block, ...] = (
        *roof,
        Words(f"Seen from its face; {turned}. {_SIGNS}"),
        drawn,
    )
    return Page(stand_title(plan, stand), blocks, "sunny side up")


def strings_page(plan: Plan) -> Page:
    """Strings, then the panels and by what they are known."""
    rules = plan.site.rules
    out = tables.unwired_words(plan)
    blocks: list[Block] = [
        Words(
            f"Cold: open, cells as cold as the record low, {heat(plan, rules.coldest_c)}. Hot: at work, "
            f"cells at {heat(plan, plan.hot_cell_c)}. Isc: of the strongest panel, 25 °C, full sun."
        ),
        tables.strings_table(plan),
    ]
    blocks += [Caution(out, close=True)] if out else []
    return Page(STRINGS, (*blocks, Words(arranged_words(plan)), Heading("Panels"), tables.known_table(plan)))


def arranged_words(plan: Plan) -> str:
    """Who arranged the strings, and what that is worth."""
    kept = percent(plan.kept_share)
    alone = f"Together they keep {kept} of what each panel would give on a tracker of its own."
    if plan.arrangement is not None:
        return f"The program arranged the strings. {alone}"
    best = plan.best
    if best is None:
        return f"The strings are as typed. {alone}"
    would, typed = percent(1 - best.lost_share), percent(plan.weighed_share)
    weighed = f"{typed} as typed, {would} as the program would arrange them"
    return f"The strings are as typed. {alone} Weighed in some moments of the year: {weighed}."


def cables_page(plan: Plan) -> Page:
    """Runs, why these sections, what to buy."""
    blocks: list[Block] = [
        tables.cables_table(plan),
        Words(_DROP),
        Heading("Why these sections"),
        Words(
            "Of those that keep every rule the one of least cost over life is taken. Figures are of one run."
        ),
        tables.why_table(plan),
        Heading("To buy"),
        tables.wire_table(plan),
        Words("A tenth is on top for bends and ends.", "small"),
    ]
    return Page(CABLES, tuple(blocks))


def needs_page(plan: Plan) -> Page:
    """Fuses and what else protects."""
    blocks: list[Block] = [Heading("String by string"), tables.fuses_table(plan)]
    blocks += [Heading("Everything that may be asked for"), tables.needs_table(plan)]
    if (passed := tables.thresholds_table(plan)) is not None:
        blocks += [Heading("Voltages from which more is asked"), passed]
    return Page(NEEDS, (*blocks, Words(_ARTICLES, "small"), Caution(cautions.LISTED, close=True)))


def limits_page(plan: Plan) -> Page:
    """The nearest limits as bars, then all of them."""
    nearest = by_need(plan.checks)[:6]
    fails = sum(not check.passed for check in plan.checks)
    said = f"{count(fails, 'limit')} broken." if fails else f"All {count(len(plan.checks), 'limit')} hold."
    blocks = (Words(said, "lead"), Verdicts(nearest), Heading("All limits"), tables.limits_table(plan))
    return Page(LIMITS, (*blocks, Words(HOW_TO_READ, "small")))


def energy_page(plan: Plan) -> Page:
    """By month, by cause, by the hour of the day."""
    rows = tuple(BarRow(*row) for row in tables.account(plan))
    blocks: tuple[Block, ...] = (
        Words(f"{say(plan, plan.year.kwh, 'kWh')} a year where the strings' run ends.", "lead"),
        Figure(month_bars(plan), 1.0, "By month: what is given, and what each cause takes", to_scale=False),
        small_bars(rows, ("kWh", "Of the light"), "Where the year's energy goes"),
        _chart(plan, day_chart(plan), "A day in each season, its mean"),
        tables.causes_table(plan),
        Words(tables.controlled_words(plan)),
    )
    return Page(ENERGY, blocks)


def _chart(plan: Plan, chart: Chart, caption: str) -> Figure:
    wide = min(text_area(plan.site.named.paper).width_mm - 2.0, 172.0)
    return Figure(draw_chart(chart, wide, _CHART_MM), 1.0, caption, to_scale=False)


def sure_page(plan: Plan) -> Page | None:
    """The likely range with its causes, and how the stand might be turned."""
    blocks: list[Block] = []
    if plan.likely is not None:
        blocks += _range(plan, plan.likely)
    if plan.turns is not None:
        blocks += _turned(plan, _stand_of_most(plan), plan.turns)
    return Page(SURE, tuple(blocks)) if blocks else None


def _range(plan: Plan, likely: Likely) -> tuple[Block, ...]:
    years = round(10 * likely.coverage)
    low, high = (say(plan, value, "kWh") for value in (likely.low_kwh, likely.high_kwh))
    rows = tuple((cause.name, f"± {percent(cause.share)}", cause.why) for cause in likely.causes)
    return (
        Words(f"In {years} years of 10 it will give between {low} and {high}.", "lead"),
        Words(_UNSURE),
        words_table(("Cause", "Share", "Why"), rows),
    )


def _turned(plan: Plan, stand: str, turns: Turns) -> tuple[Block, ...]:
    """The best plane of a stand, seasons with a tilt of their own, the worst month."""
    now = say(plan, turns.now_kwh, "kWh")
    rows = [
        ("best plane", _plane(turns.tilt_deg, turns.azimuth_deg), say(plan, turns.kwh, "kWh")),
        ("best tilt, azimuth as it is", f"{turns.held_tilt_deg:.0f}°", say(plan, turns.held_kwh, "kWh")),
    ]
    for name, seasons in (("two tilts a year", turns.seasons), ("four tilts a year", turns.quarters)):
        if seasons:
            kwh_year = season_kwh(seasons)
            rows.append((name, "; ".join(_season(season) for season in seasons), say(plan, kwh_year, "kWh")))
    dull = turns.dull
    day = f"worst month {say(plan, dull.kwh_day, 'kWh')} a day, now {say(plan, dull.now_kwh_day, 'kWh')}"
    rows.append(("best for the worst month", _plane(dull.tilt_deg, dull.azimuth_deg), day))
    return (
        Heading(f"How {stand} might be turned"),
        Words(f"As it stands: {now} a year, each panel at its own best, wires and controller apart."),
        words_table(("Turned", "How", "Gives"), tuple(rows)),
    )


def _stand_of_most(plan: Plan) -> str:
    """Name of the stand with the most watts: the one that is asked how it could be turned."""
    watts = [0.0] * len(plan.site.stands)
    for placed in plan.panels:
        watts[placed.stand] += placed.member.rated_w
    return plan.site.stands[watts.index(max(watts))].name


def _plane(tilt: float, azimuth: float) -> str:
    return f"tilt {tilt:.0f}°, looking to {azimuth:.0f}°"


def _season(season: Season) -> str:
    return f"{', '.join(MONTHS[month - 1] for month in season.months)}: {season.tilt_deg:.0f}°"


def bank_page(plan: Plan) -> Page | None:
    """The bank through the year."""
    balance = plan.balance
    if balance is None:
        return None
    blocks: list[Block] = [Caution(words, close=True) for words in cautions.bank_cautions(plan)]
    blocks += [
        Words(bank_words(balance)),
        _chart(plan, charge_chart(balance), "Charge through the first year: each day's mean, least and most"),
        Words(f"By month, means of {count(balance.years, 'year')}:"),
        tables.balance_table(balance),
    ]
    if (way := tables.way_table(balance)) is not None:
        blocks.append(way)
    return Page(BANK, tuple(blocks))


def pump_page(plan: Plan) -> Page | None:
    """Water by month; none without a pump."""
    own = plan.pumped
    if own is None:
        return None
    reaches, most = percent(own.used_share, 0), say(plan, float(own.volt.max()), "V")
    stands = f"It stands in {own.stalled.sum():.0f} hours of light a year"
    over = f"; in {own.over.sum():.0f} it gets more volts than it bears" if own.over.any() else ""
    blocks: tuple[Block, ...] = (
        Words(f"{water(plan, float(own.flow_m3_h.sum()))} of water a year.", "lead"),
        Figure(water_bars(plan, own), 1.0, "A day in each month, its mean", to_scale=False),
        Words(
            f"{reaches} of what the strings could give reaches its motor, at {most} at most. {stands}{over}."
        ),
    )
    return Page(PUMP, blocks)


def bank_words(balance: Balance) -> str:
    """How well the bank serves, and how long it lasts."""
    served, worst = percent(balance.served_share), percent(balance.worst_share)
    return (
        f"It serves {served} of what the loads ask; in the worst year {worst}. In {balance.dark_hours:.0f} "
        f"hours a year some load stays dark; the generator runs {balance.generator_hours:.0f} hours. "
        f"The bank lasts {balance.bank_years:.1f} years."
    )


def cost_page(plan: Plan) -> Page:
    """Cost of a kWh, the bought panel beside, and other sizes of panels and battery."""
    blocks: list[Block] = [words_table(("", "Amount"), tables.money_rows(plan))]
    if plan.beside:
        verdict = "is not dearer than" if plan.beside.own_pays else "is dearer than"
        said = f"A kWh of the panels made here {verdict} one of bought panels, each over its own life."
        blocks.append(Words(said))
    blocks.append(
        Words("Energy counts only where it is used. A battery is renewed when it is spent.", "small")
    )
    return Page(COST, (*blocks, *_sizes(plan)))


def _sizes(plan: Plan) -> tuple[Block, ...]:
    """The front of sizes."""
    if not plan.front:
        return ()
    said = "Each choice is surer and dearer than the one before; what is not here is beaten by one that is."
    caption = "What a kWh costs, the more of the load is served"
    chart = (_chart(plan, front_chart(plan), caption),) if len(plan.front) > 1 else ()
    return (Heading("Panels and battery, how many"), Words(said), *chart, tables.front_table(plan))


def assumed_page(plan: Plan) -> Page | None:
    """What the text left open, and what was settled on the way."""
    rows = tuple((each.key, each.value, each.reason) for each in plan.site.assumed)
    blocks: list[Block] = [words_table(("Key", "Taken as", "Because"), rows)] if rows else []
    if plan.said:
        blocks += [Heading("Settled on the way"), *(Words(words) for words in plan.said)]
    return Page(ASSUMED, tuple(blocks)) if blocks else None
