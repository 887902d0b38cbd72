"""Where the panel stands: a wind speed means a pressure only with its kind, its rarity and its rule book."""

from __future__ import annotations

from typing import Literal, cast

from panewright.climate.site import Edition, Family, Mounting, Site, Wind, WindKind
from panewright.order.answers import Answers

_KIND = {"EN": "10 min mean", "ASCE": "3 s gust"}
_GROUNDS = {"EN": ("0", "I", "II", "III", "IV"), "ASCE": ("B", "C", "D")}
_OPEN = {"EN": ("II", "open country with scattered obstacles"), "ASCE": ("C", "open country")}
_BY_RETURN = ("EN 1991-1-4", "ASCE 7-05")  # the editions whose map is for a return period
_TWOFOLD = "the same figure can mean twice the pressure under another one."


def read_site(answers: Answers) -> Site:
    """The [site] section."""
    family = _family(answers)
    wind = _wind(answers, family)
    cold, heat = answers.sound_number("site.record_cold"), answers.sound_number("site.record_heat")
    if cold is not None and heat is not None and cold >= heat:
        reason = "The record cold is not below the record heat."
        answers.wrong("site.record_cold", reason, "Exchange record_cold and record_heat, or mend the sign.")
    return Site(
        family=cast(Family, family),
        wind=wind,
        ground_snow_pa=answers.number("site.snow"),
        record_cold_c=answers.number("site.record_cold"),
        record_heat_c=answers.number("site.record_heat"),
        tilt_deg=answers.number("site.tilt"),
        height_m=answers.number("site.height"),
        altitude_m=answers.number("site.altitude"),
        mounting=cast(Mounting, answers.word("site.mounting")),
    )


def _family(answers: Answers) -> str:
    """The rule book: as stated, or the one that the wind's edition belongs to; never two of them."""
    stated, edition = answers.sound_word("site.code"), answers.sound_word("site.wind_code")
    owner = edition.split()[0] if edition else None
    if stated and owner and stated != owner:
        cure = f'Write code = "{owner}", or take the wind speed from a map of the {stated} family.'
        answers.wrong(
            "site.wind_code", f"{edition} belongs to {owner}, and the order is under {stated}.", cure
        )
    if owner and not answers.given("site.code"):
        answers.assume("site.code", owner, f"the wind speed is from {edition}")
    return stated or owner or "EN"


def _wind(answers: Answers, family: str) -> Wind:
    answers.needs("site.wind_code", f"the edition of the wind map must be named; {_TWOFOLD}")
    answers.needs("site.wind_kind", f"a gust of 3 s or a mean of 10 min must be named; {_TWOFOLD}")
    edition = answers.sound_word("site.wind_code")
    if edition:
        _wind_kind(answers, edition)
        _rarity(answers, edition)
    elif not answers.given("site.wind_return") and not answers.given("site.wind_risk"):
        answers.needs("site.wind_return", f"how seldom the wind comes must be named; {_TWOFOLD}")
    risk = answers.sound_word("site.wind_risk")
    return Wind(
        speed_m_s=answers.number("site.wind"),
        kind=cast(WindKind, answers.sound_word("site.wind_kind") or _KIND[family]),
        edition=cast(Edition, edition or "EN 1991-1-4"),
        return_years=answers.sound_number("site.wind_return"),
        risk_category=cast(Literal["I", "II", "III", "IV"] | None, risk),
        ground=_ground(answers, family),
    )


def _wind_kind(answers: Answers, edition: str) -> None:
    kind, right = answers.sound_word("site.wind_kind"), _KIND[edition.split()[0]]
    if kind and kind != right:
        cure = f'Find the {right} of the place on the map of {edition}, and write wind_kind = "{right}".'
        answers.wrong("site.wind_kind", f"{edition} reckons with the {right}, not with a {kind}.", cure)


def _rarity(answers: Answers, edition: str) -> None:
    """A return period or a risk category, as the edition's map has it."""
    if edition in _BY_RETURN:
        answers.needs("site.wind_return", f"{edition} maps a speed by its return period; {_TWOFOLD}")
        reason = f"{edition} goes by a return period, not by a risk category."
        answers.bars("site.wind_risk", reason, 'Drop wind_risk and write wind_return = "50 yr".')
    else:
        answers.needs("site.wind_risk", f"{edition} has a map for each risk category; {_TWOFOLD}")
        reason = f"{edition} goes by a risk category, not by a return period."
        answers.bars("site.wind_return", reason, 'Drop wind_return and write wind_risk = "II".')


def _ground(answers: Answers, family: str) -> str:
    grounds, (usual, words) = _GROUNDS[family], _OPEN[family]
    answers.assume("site.ground", usual, f"{words}: most sites; mend it by the sea or in a town")
    ground = answers.sound_word("site.ground")
    if ground and ground not in grounds:
        names = ", ".join(f'"{name}"' for name in grounds)
        answers.wrong(
            "site.ground", f"{ground} is no ground of the {family} family.", f"Write one of {names}."
        )
    return ground if ground in grounds else usual
