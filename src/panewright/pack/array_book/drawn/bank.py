"""The bank's year as a chart of its charge, and sizes that were looked through as one of their cost."""

from __future__ import annotations

import numpy as np

from panewright.array.plan.plan import Balance, Plan
from panewright.array.sized import Choice
from panewright.drawing.chart import Band, Chart, Mark, Series
from panewright.pack.array_book.saying import MONTHS, say
from panewright.sky.hours import MONTH_DAYS


def charge_chart(balance: Balance) -> Chart:
    """State of charge through the first year: each day's mean, and the room between its least and most."""
    days = np.asarray(balance.charge).reshape(365, 24) * 100
    x = tuple((np.arange(365) + 0.5).tolist())
    low, high, mean = days.min(axis=1), days.max(axis=1), days.mean(axis=1)
    least = int(np.argmin(low))
    mark = Mark(x[least], float(low[least]), f"least: {low[least]:.0f}\u2009% on {day_words(least)}")
    band = Band(x, tuple(low.tolist()), tuple(high.tolist()))
    series = Series(x, tuple(mean.tolist()), "mean of each day", "measured")
    return Chart("", "day of the year", "charge, %", (series,), (mark,), (band,), x_to=365.0, y_to=100.0)


def day_words(day: int) -> str:
    """A day of the year from 0.

    >>> day_words(0), day_words(31), day_words(364)
    ('1 Jan', '1 Feb', '31 Dec')
    """
    left = day
    for month, days in enumerate(MONTH_DAYS):
        if left < days:
            return f"{left + 1} {MONTHS[month]}"
        left -= days
    raise ValueError(f"a year has days 0 to 364, got {day}")


def front_chart(plan: Plan) -> Chart:
    """Cost of a kWh against the share of the load that is served; each choice by its letter."""
    choices = plan.front
    x = tuple(100 * choice.served.share for choice in choices)
    y = tuple(float(choice.per_kwh) for choice in choices)
    marks = tuple(Mark(a, b, choice_letter(n)) for n, (a, b) in enumerate(zip(x, y, strict=True)))
    low = min(x) - max(0.5, 0.1 * (max(x) - min(x)))
    unit = f"cost, {plan.site.named.currency}/kWh"
    return Chart("", "share of the load served, %", unit, (Series(x, y),), marks, x_from=low, x_to=100.0)


def choice_letter(number: int) -> str:
    """Small letters for choices, so that no one takes them for strings."""
    return chr(ord("a") + number % 26)


def choice_words(plan: Plan, choice: Choice) -> str:
    """A pair of sizes."""
    strings = f"{choice.strings} string{'' if choice.strings == 1 else 's'}"
    return f"{strings}, {say(plan, choice.bank.capacity_ah, 'Ah')}"
