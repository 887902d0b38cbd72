"""[cable], [money] and [sizes]: runs, prices, and what is looked through."""

from __future__ import annotations

import re
from typing import cast

from panewright.battery.bank import Bank
from panewright.order.answers import Answers
from panewright.order.site.figures import parts, several
from panewright.order.site.schema import keys_of
from panewright.order.site.site import Money, Sizes, Way, Ways
from panewright.wire.laid import Place as Lies

MOST_STRINGS = 60
_CURRENCY = re.compile(r"[A-Z]{3}")
_SERVED = 'Write shares above 0 and up to 100 %: served = "90 %, 95 %, 99 %".'
_BANK = 'Write the smallest and the largest: bank = "50 Ah, 800 Ah".'


def read_ways(answers: Answers) -> Ways:
    """The [cable] section."""
    under = answers.word("cable.under_panels") == "yes"
    return Ways(_way(answers, "strings", under), _way(answers, "down"), _way(answers, "bank"))


def _way(answers: Answers, name: str, under_panels: bool = False) -> Way:
    lies = answers.word(f"cable.{name}_lie")
    return Way(answers.number(f"cable.{name}"), cast(Lies, lies), under_panels)


def read_money(answers: Answers, currency: str) -> Money:
    """The [money] section."""
    for key in (*keys_of("money"), *keys_of("generator")):
        raw = answers.raw.get(key.dotted)
        found = _CURRENCY.search(raw) if key.kind == "money" and isinstance(raw, str) else None
        if found and found.group() != currency:
            cure = f'Write it in {currency}, or currency = "{found.group()}" in [array].'
            answers.wrong(key.dotted, f"The array's money is {currency}.", cure)
    names = (
        "panel_watt",
        "bought_watt",
        "bought_life",
        "string",
        "bank_kwh",
        "fixed",
        "a_year",
        "metre",
        "mm2",
        "kwh",
    )
    paid = {name: answers.exact(f"money.{name}") for name in names if name != "bought_life"}
    bought_years, years = (round(answers.number(f"money.{name}")) for name in ("bought_life", "life"))
    return Money(
        panel_w=paid["panel_watt"],
        bought_w=paid["bought_watt"],
        bought_years=bought_years,
        string=paid["string"],
        bank_kwh=paid["bank_kwh"],
        fixed=paid["fixed"],
        a_year=paid["a_year"],
        metre=paid["metre"],
        mm2_metre=paid["mm2"],
        kwh=paid["kwh"],
        years=years,
        interest=float(answers.exact("money.interest")),
    )


def read_sizes(answers: Answers, bank: Bank | None) -> Sizes:
    """The [sizes] section."""
    if "sizes" in answers.source.tables and "battery" not in answers.source.tables:
        answers.wrong(
            "sizes",
            "Sizes are of panels and bank, and no battery is told.",
            "Drop [sizes], or add [battery].",
        )
    served = _list(answers, "sizes.served", "share", (1e-6, 1.0), _SERVED)
    banks = several(answers, "sizes.bank", "charge", (2,), (0.5, 1e5), _BANK)
    if banks is None:
        words = "a quarter of the bank to four of it"
        answers.assumed_open("sizes.bank", words, "both sides of what is told")
    elif banks[0] >= banks[1]:
        answers.wrong("sizes.bank", "The smallest is not below the largest.", _BANK)
    found = (banks[0], banks[1]) if banks else None
    return Sizes(_strings(answers), found if bank else None, tuple(sorted(set(served))))


def _strings(answers: Answers) -> tuple[int, ...]:
    told = parts(answers.sound_word("sizes.strings") or "")
    if not all(each.isascii() and each.isdigit() and 1 <= int(each[:4]) <= MOST_STRINGS for each in told):
        cure = 'Write them as in strings = "1, 2, 3".'
        answers.wrong("sizes.strings", f"Strings are counted from 1 to {MOST_STRINGS}.", cure)
        return ()
    if not told and not answers.given("sizes.strings"):
        answers.assumed_open("sizes.strings", "one to twice those here", "both sides of what is told")
    return tuple(sorted({int(each) for each in told}))


def _list(
    answers: Answers, dotted: str, kind: str, within: tuple[float, float], cure: str
) -> tuple[float, ...]:
    """As many figures as are told, up to a dozen."""
    count = len(parts(answers.word(dotted)))
    return several(answers, dotted, kind, [min(max(count, 1), 12)], within, cure) or ()
