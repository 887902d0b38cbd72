"""Where the panel stands: a wind speed means a pressure only with its kind, its rarity and its rule book."""

from __future__ import annotations

from typing import Literal, cast

from panewright.climate.site import (
    ROOF_EDGE_MM,
    ROOF_GAP_MM,
    ROOF_RULED,
    UPPER_DROP_M,
    Edition,
    Family,
    Hill,
    Mounting,
    Roof,
    Site,
    Wind,
    WindKind,
    Zone,
)
from panewright.climate.wind.speed import EN_KINDS
from panewright.order.answers import Answers

_KIND = {"EN": "10 min mean", "ASCE": "3 s gust"}
_OPEN_AIR = ("free-standing", "pole", "flat roof")
_ON_A_ROOF_MM = 300.0  # low edge above a flat roof where nothing is said of it; common practice
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
    mounting, height = _mounting(answers), answers.number("site.height")
    zone = _zone(answers, mounting, wind)
    gap, edge = _on_a_roof(answers, mounting)
    upper, drop = _higher_roof(answers)
    return Site(
        family=cast(Family, family),
        wind=wind,
        ground_snow_pa=answers.number("site.snow"),
        record_cold_c=answers.number("site.record_cold"),
        record_heat_c=answers.number("site.record_heat"),
        tilt_deg=answers.number("site.tilt"),
        height_m=height,
        altitude_m=answers.number("site.altitude"),
        mounting=cast(Mounting, mounting),
        zone=cast(Zone, zone),
        roof_gap_mm=gap,
        roof_edge_mm=edge,
        roof=cast(Roof | None, _roof(answers, mounting)),
        lower_edge_mm=_lower_edge(answers, mounting, height),
        upper_roof_m=upper,
        hill=_hill(answers),
        upper_drop_m=drop,
        hail_mm=answers.number("site.hail"),
    )


def _mounting(answers: Answers) -> str:
    """As stated; blocks on a roof say themselves that the panel stands on one."""
    if answers.sound_word("mounting.on") == "roof ballast":
        answers.assume("site.mounting", "flat roof", "it stands on the roof by ballast")
    return answers.word("site.mounting")


def _zone(answers: Answers, mounting: str, wind: Wind) -> str:
    """Part of the roof or wall: the middle of a free roof, the edge of a building's, a flat roof's corner."""
    if mounting == "flat roof" and wind.edition in ROOF_RULED:
        answers.assume(
            "site.zone", "corner", "twice its height from two edges: most small roofs are all corner"
        )
    elif mounting in _OPEN_AIR:
        answers.assume("site.zone", "middle", "one panel or a row, not the rim of a large free roof")
    else:
        answers.assume("site.zone", "edge", "most roofs and walls are small; their corners see more still")
    return answers.word("site.zone")


def _on_a_roof(answers: Answers, mounting: str) -> tuple[float, float]:
    """Gap under the panel and distance to the roof's edge. [mm]"""
    if mounting == "roof-parallel":
        answers.assume("site.roof_gap", "100 mm", "brackets of a usual height; the wind rule ends at 254 mm")
        answers.assume("site.roof_edge", "600 mm", "clear of eave, verge and ridge; mend it where closer")
        return answers.number("site.roof_gap"), answers.number("site.roof_edge")
    reason = f"roof_gap belongs to a roof-parallel panel, and this one is {mounting}."
    answers.bars("site.roof_gap", reason, 'Drop roof_gap, or write mounting = "roof-parallel".')
    if mounting == "flat roof":
        answers.assume(
            "site.roof_edge", "1.3 m", "more than the 4 ft that the wind rule asks; mend it where closer"
        )
        return ROOF_GAP_MM, answers.number("site.roof_edge")
    reason = f"roof_edge belongs to a panel on a roof, and this one is {mounting}."
    answers.bars(
        "site.roof_edge", reason, 'Drop roof_edge, or write mounting = "roof-parallel" or "flat roof".'
    )
    return ROOF_GAP_MM, ROOF_EDGE_MM


def _roof(answers: Answers, mounting: str) -> str | None:
    """Shape of the roof; None takes the worse."""
    if mounting != "roof-parallel":
        reason = f"roof belongs to a roof-parallel panel, and this one is {mounting}."
        answers.bars("site.roof", reason, 'Drop roof, or write mounting = "roof-parallel".')
        return None
    if not answers.given("site.roof"):
        answers.assumed_open("site.roof", "worse of both", "a roof of one slope sees more wind at its edges")
    return answers.sound_word("site.roof")


def _higher_roof(answers: Answers) -> tuple[float, float]:
    """Depth and wall of a roof above the panel. [m]"""
    depth = answers.number("site.upper_roof")
    if depth > 0 or answers.faulty("site.upper_roof"):
        answers.assume("site.upper_drop", "3 m", "one storey")
        return depth, answers.number("site.upper_drop")
    reason = "upper_drop belongs to a higher roof, and the order names none."
    answers.bars("site.upper_drop", reason, 'Drop upper_drop, or write upper_roof = "6 m".')
    return depth, UPPER_DROP_M


def _hill(answers: Answers) -> Hill | None:
    """The rise that the panel stands on; none is flat ground."""
    shape = answers.word("site.hill")
    if shape != "none":
        height, slope = answers.number("site.hill_height"), answers.number("site.hill_slope")
        return Hill(cast(Literal["ridge", "escarpment", "hill"], shape), height, slope)
    for name in ("hill_height", "hill_slope"):
        reason = f"{name} belongs to a hill, and the order names none."
        answers.bars(f"site.{name}", reason, f'Drop {name}, or write hill = "ridge", "escarpment" or "hill".')
    return None


def _lower_edge(answers: Answers, mounting: str, height_m: float) -> float | None:
    """Low edge over what the panel stands on, for snow that piles up there. [mm]"""
    if mounting not in _OPEN_AIR:
        reason = f"lower_edge belongs to a panel that stands free, and this one is {mounting}."
        answers.bars("site.lower_edge", reason, "Drop lower_edge, or write another mounting.")
        return None
    low_mm = answers.sound_number("site.lower_edge")
    if not answers.given("site.lower_edge") and mounting == "flat roof":
        answers.assumed_open("site.lower_edge", f"{_ON_A_ROOF_MM:g} mm", "a low stand on a flat roof")
        return _ON_A_ROOF_MM
    if not answers.given("site.lower_edge"):
        reason = "it stands on the ground or a post; on a flat roof snow piles up sooner: state it there"
        answers.assumed_open("site.lower_edge", "height less the panel's rise", reason)
    elif low_mm is not None and low_mm >= height_m * 1000:
        reason = f"The low edge is not below the panel's top, {height_m:g} m above the ground."
        answers.wrong("site.lower_edge", reason, "Exchange height and lower_edge, or mend one of them.")
    return low_mm


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
    """ASCE converts every kind by its commentary; EN knows its mean and, by its own turbulence, the gust."""
    kind = answers.sound_word("site.wind_kind")
    if kind and edition.startswith("EN") and kind not in EN_KINDS:
        kinds = " or ".join(f'wind_kind = "{name}"' for name in EN_KINDS)
        cure = f"Find the speed of the place as such, and write {kinds}."
        answers.wrong("site.wind_kind", f"{edition} has no rule to convert a {kind}.", cure)


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
