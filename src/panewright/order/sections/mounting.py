"""What carries the panel: only the keys of the way that was chosen may stand, so that none is overlooked."""

from __future__ import annotations

from typing import cast

from panewright.climate.site import Site
from panewright.frame.support.bracket import Bracket
from panewright.frame.support.timber import USUAL, Species, timber
from panewright.order.answers import Answers
from panewright.order.schema_mounting import BELONGS
from panewright.order.sections.named import pick
from panewright.order.sections.parts import part
from panewright.shelf import parts as shelf_parts
from panewright.shelf.shelf import Shelf
from panewright.structure.mounting.choice import shelf_brackets
from panewright.structure.mounting.ground.soil import Ground, Surface, friction
from panewright.structure.mounting.wish import BallastWish, Mounting, On, PostWish, TimberWish

_ALONE = ("post", "ground ballast", "roof ballast")  # ways on which the wind reaches both faces


def read_mounting(answers: Answers, shelf: Shelf, site: Site) -> Mounting:
    """The [mounting] section."""
    on = cast(On, answers.word("mounting.on"))
    _only_its_keys(answers, on)
    if not answers.faulty("mounting.on") and on in _ALONE and site.mounting in ("roof-parallel", "wall"):
        place = "flat roof" if on == "roof ballast" else "free-standing"
        cure = f'Write site.mounting = "{place}", or another way of mounting.'
        reason = f"A panel on {on} stands free, and site.mounting says {site.mounting}."
        answers.wrong("mounting.on", reason, cure)
    _roof_or_ground(answers, on, site)
    return Mounting(
        on,
        _bracket(answers, shelf),
        answers.number("mounting.steel_wall") if on == "steel" else 0.0,
        _timber(answers, shelf, site) if on == "timber" else None,
        _post(answers, shelf, site) if on == "post" else None,
        _ballast(answers, shelf, site, on) if on.endswith("ballast") else None,
    )


def _roof_or_ground(answers: Answers, on: On, site: Site) -> None:
    """The wind on a roof is not that of open ground: both keys must tell of the same place."""
    if on == "roof ballast" and site.mounting in ("free-standing", "pole"):
        reason = (
            f"Roof ballast lies on a roof, and site.mounting says {site.mounting}: open ground, less wind."
        )
        answers.wrong("mounting.on", reason, 'Write site.mounting = "flat roof", or on = "ground ballast".')
    if on in ("post", "ground ballast") and site.mounting == "flat roof":
        reason = f"A panel on {on} stands on the ground, and site.mounting says flat roof."
        answers.wrong("mounting.on", reason, 'Write on = "roof ballast", or site.mounting = "free-standing".')


def _only_its_keys(answers: Answers, on: str) -> None:
    """A key of another way of mounting is a mistake, not something to pass over."""
    own = BELONGS.get(on, ())
    if not answers.faulty("mounting.on"):
        for key in sorted({key for keys in BELONGS.values() for key in keys} - set(own)):
            ways = " or ".join(f'on = "{way}"' for way, keys in BELONGS.items() if key in keys)
            reason = f"{key} goes with {ways}, and the panel is mounted {_how(on)}."
            answers.bars(f"mounting.{key}", reason, f"Take {key} out, or write {ways}.")


def _how(on: str) -> str:
    return on if on == "by others" else f"on {on}"


def _bracket(answers: Answers, shelf: Shelf) -> Bracket | None:
    return pick(answers, "mounting.bracket", shelf_brackets(shelf))


def _timber(answers: Answers, shelf: Shelf, site: Site) -> TimberWish:
    """The timber must belong to the order's rule book."""
    usual = USUAL[site.family]
    answers.assume("mounting.timber", usual, f"common, and the weakest that is, under {site.family}")
    species = cast(Species, answers.word("mounting.timber"))
    told = answers.given("mounting.timber") and not answers.faulty("mounting.timber")
    if told and timber(species).family != site.family:
        cure = f'Write a timber of the {site.family} rules, such as timber = "{usual}".'
        answers.wrong("mounting.timber", f"{species} is no timber of the {site.family} rules.", cure)
    return TimberWish(
        species,
        answers.word("mounting.timber_state") == "wet",
        answers.number("mounting.timber_depth"),
        answers.number("mounting.timber_width"),
        part(answers, "mounting.screw", shelf.wood_screws, shelf_parts.wood_screw),
        answers.sound_count("mounting.screws"),
    )


def _post(answers: Answers, shelf: Shelf, site: Site) -> PostWish:
    height = answers.sound_number("mounting.post_height")
    if height is None:
        answers.assumed_open(
            "mounting.post_height", "from site.height", "half the panel's rise under its top edge"
        )
    depth = answers.sound_number("mounting.embedment")
    return PostWish(
        part(answers, "mounting.post", shelf.posts, shelf_parts.post),
        site.height_m * 1000 if height is None else height * 1000,
        answers.number("mounting.collar"),
        None if depth is None else depth * 1000,
        cast(Ground, answers.word("mounting.soil")),
        answers.sound_number("mounting.bearing"),
        from_top=height is None,
    )


def _ballast(answers: Answers, shelf: Shelf, site: Site, on: On) -> BallastWish:
    ground = on == "ground ballast"
    surface = cast(Surface, answers.word("mounting.soil" if ground else "mounting.surface"))
    grip, source = friction(surface, site.family)
    measured = answers.sound_number("mounting.friction")
    if measured is None:
        answers.assumed_open("mounting.friction", f"{grip:.0%}".replace("%", " %"), f"{surface}: {source}")
    else:
        grip, source = measured, "stated by the order"
    return BallastWish(
        surface,
        grip,
        source,
        part(answers, "mounting.block", shelf.blocks, shelf_parts.block),
        answers.sound_count("mounting.blocks"),
        answers.sound_number("mounting.footprint_depth"),
        answers.sound_number("mounting.footprint_width"),
        site.lower_edge_mm,
        answers.sound_number("mounting.bearing"),
    )
