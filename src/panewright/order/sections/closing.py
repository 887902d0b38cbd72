"""The [closing] section: only what goes with the order's own encapsulation is asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal, cast

from panewright.enclosure.fog import Gap
from panewright.enclosure.inhibition import INHIBITORS
from panewright.enclosure.laminating import Heater
from panewright.order.answers import Answers
from panewright.order.order import Closing, LeadEnds
from panewright.shelf.key import nearest

Encapsulation = Literal["silicone pour", "film", "air gap"]
BELONGS: dict[Encapsulation, tuple[str, ...]] = {
    "silicone pour": ("closing.near", "parts.pour"),
    "film": ("closing.plate_temperature", "closing.heater", "closing.hold", "parts.film"),
    "air gap": ("closing.shop_humidity", "closing.gap", "closing.desiccant", "closing.fog_free"),
}
"""Keys that go with one encapsulation alone."""


def read_closing(answers: Answers, encapsulation: Encapsulation) -> Closing:
    """The shop, as far as this encapsulation asks for it."""
    for kind, keys in BELONGS.items():
        if kind != encapsulation:
            _bar(answers, keys, encapsulation)
    shop = Closing(
        shop_c=answers.number("closing.shop_temperature"),
        leads=cast(LeadEnds, answers.word("closing.leads")),
    )
    if encapsulation == "silicone pour":
        return replace(shop, near=_near(answers))
    return _film(answers, shop) if encapsulation == "film" else _air_gap(answers, shop)


def _bar(answers: Answers, keys: tuple[str, ...], encapsulation: Encapsulation) -> None:
    for key in keys:
        reason = f"The order asks for encapsulation by {encapsulation}; this does not go with it."
        answers.bars(key, reason, "Leave it out, or change encapsulation in [parts].")


def _film(answers: Answers, shop: Closing) -> Closing:
    hold_s = answers.sound_number("closing.hold")
    return replace(
        shop,
        plate_c=answers.number("closing.plate_temperature"),
        heater=cast(Heater, answers.word("closing.heater")),
        hold_min=None if hold_s is None else hold_s / 60,
    )


def _air_gap(answers: Answers, shop: Closing) -> Closing:
    gap = cast(Gap, answers.word("closing.gap"))
    desiccant_g = 1000 * answers.number("closing.desiccant")
    if gap == "vented" and desiccant_g > 0:
        reason = "A vented gap fills its desiccant from outside within days."
        answers.wrong("closing.desiccant", reason, 'Write gap = "sealed", or leave desiccant out.')
    return replace(
        shop,
        shop_humidity=answers.number("closing.shop_humidity"),
        gap=gap,
        desiccant_g=desiccant_g,
        fog_free_years=answers.sound_number("closing.fog_free"),
    )


def _near(answers: Answers) -> tuple[str, ...] | None:
    """What lies about, by the names of the table; None where the order does not say."""
    text = answers.sound_word("closing.near")
    if text is None:
        answers.assumed_open("closing.near", "not told", "nobody was asked: the trial patch has to tell")
        return None
    words = [word.strip() for word in text.split(",") if word.strip()]
    if [word.lower() for word in words] == ["none"]:
        return ()
    known = {name.lower(): name for name in INHIBITORS}
    for word in words:
        if word.lower() not in known:
            cure = f"The table has {', '.join(INHIBITORS)}; write none where none of them comes near."
            reason = f"The table of what stops a cure has no {word[:60]}.{nearest(word, tuple(INHIBITORS))}"
            answers.wrong("closing.near", reason, cure)
            return None
    if not words:
        answers.wrong("closing.near", "Nothing is written here.", 'Write near = "none", or leave it out.')
    return tuple(dict.fromkeys(known[word.lower()] for word in words))
