"""The mix card: batches in the order in which they are weighed, grams of both parts, and the clock of each.

All batches are alike. The next is weighed when the last lies on the pane; each should lie there at half its
pot life, and the last before the first has gelled, or the layers show.

The smaller part may be off by two parts in a hundred: common practice, no source; the data sheet decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.enclosure.encapsulant import BATCH_SHARE, PRACTICE, Pour
from panewright.enclosure.silicone import AtWork, Silicone

OFF_SHARE = 0.02


@dataclass(frozen=True, slots=True)
class Batch:
    """One batch; minutes count from the first drop of hardener of the first."""

    number: int
    part_a_g: float
    part_b_g: float
    mixed_at_min: float  #: hardener goes in
    lies_by_min: float  #: at half its pot life
    stiff_by_min: float  #: its pot life is over


@dataclass(frozen=True, slots=True)
class MixCard:
    """What to weigh, and when."""

    batches: tuple[Batch, ...]
    off_g: float  #: that the smaller part of a batch may be off
    poured_min: float  #: until the last lies on the pane


def mix_card(poured: Pour, silicone: Silicone, work: AtWork) -> MixCard:
    """The card for a pour."""
    one_g = 1000 * poured.mix_kg / poured.batches
    part_b_g = one_g / (1 + silicone.parts_a)
    part_a_g = one_g - part_b_g
    rows = tuple(
        Batch(
            number=number + 1,
            part_a_g=part_a_g,
            part_b_g=part_b_g,
            mixed_at_min=number * poured.batch_min,
            lies_by_min=number * poured.batch_min + BATCH_SHARE * work.pot_life_min,
            stiff_by_min=number * poured.batch_min + work.pot_life_min,
        )
        for number in range(poured.batches)
    )
    return MixCard(rows, OFF_SHARE * min(part_a_g, part_b_g), poured.batches * poured.batch_min)


def layers_check(card: MixCard, work: AtWork) -> Check:
    """The last batch meets the first while that still flows."""
    return Check(
        rule="last batch poured before the first gels",
        demand=card.poured_min,
        limit=60 * work.gel_h,
        unit="min",
        source=f"gel at three pot lives: {PRACTICE}",
        cure="Pour with more hands, in a cooler shop, or take a silicone with a longer pot life.",
        room="enclosure",
    )
