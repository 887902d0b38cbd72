"""What is not known about a year of an array: how good weather, ratings and figures are, told or as is usual.

All are standard uncertainties (k = 1), as shares of the year's energy where no other unit stands in the name.

[W]  Years differ in light by some 4 %: S. Wilcox, C. Gueymard, ASES 2010 (recalled), see `sky.made.spread`.
[S]  Yearly light of typical years from ground models and satellites: 3 to 5 % off measured (recalled of
     comparisons of such data); twelve means of a table a little worse; a stated share of a clear sky is a
     guess.
[R]  A rating by a reference cell is 2 to 3 % with k = 1, and what is off in it is off in all panels alike;
     what a design foretells is 1.5 to 3 % (both `docs/handbook/rating.md`).
[J]  D. Jordan, S. Kurtz, Prog. Photovolt. 21, 2013, p. 12: 0.5 % a year in the median, a mean of 0.8 %: by
     half a percent a year nobody is surprised (recalled).
[C]  Common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from panewright.sky.made.spread import USUAL_SHARE

Source = Literal["measured hours", "typical year", "twelve means", "share of a clear sky"]
Known = Literal["measured", "built record", "design", "label"]

SOURCES: dict[Source, tuple[float, str]] = {
    "measured hours": (0.03, "light that was measured there, or by satellite for these years; recalled"),
    "typical year": (0.04, "a typical year put together by models and satellites; recalled"),
    "twelve means": (0.05, "twelve means of a table, hours made of them; recalled"),
    "share of a clear sky": (0.10, "a stated share of a clear sky, a guess; common practice, no source"),
}
"""What each kind of weather leaves open, and why [S]."""

_ENOUGH_YEARS = 5  # that tell how far years differ


@dataclass(frozen=True, slots=True)
class Rated:
    """How well a panel's rating is known."""

    own_share: float  #: of itself
    common_share: float  #: shared by all that are known in the same way
    why: str
    settled: bool = False  #: measured after its first light

    def __post_init__(self) -> None:
        if not (0 <= self.own_share < 1 and 0 <= self.common_share < 1):
            raise ValueError(f"a rating is unsure by shares from 0 to under 1, got {self}")


RATINGS: dict[Known, Rated] = {
    "measured": Rated(0.01, 0.02, "rated on the bench", settled=True),
    "built record": Rated(0.01, 0.02, "foretold from their measured cells"),
    "design": Rated(0.015, 0.03, "foretold by their design"),
    "label": Rated(0.02, 0.025, "known by their label"),
}
"""Where a panel's own rating is not given with its uncertainty [R], labels [C]."""


def as_measured(power_w: float | None, off_w: float | None) -> Rated:
    """Of a panel that was rated with an uncertainty at k = 2, which its like share; else as is usual.

    >>> as_measured(160.0, 4.8).common_share, as_measured(160.0, None) == RATINGS["measured"]
    (0.015, True)
    """
    usual = RATINGS["measured"]
    return replace(usual, common_share=off_w / 2 / power_w) if power_w and off_w else usual


@dataclass(frozen=True)
class Doubts:
    """What is told about a year's unsureness; all else is as is usual. `ValueError` for what cannot be."""

    ratings: tuple[Rated, ...]  #: of each panel
    source: Source = "typical year"
    years_share: float = USUAL_SHARE  #: of light from year to year, standard deviation [W]
    years_kwh: tuple[float, ...] = ()  #: energy of years that were gone through; five or more win over it
    ages: tuple[float, ...] = ()  #: years of each panel since its power was known; empty for new ones
    dirt_share: float = 0.5  #: of what dirt takes [C]
    least_dirt: float = 0.01  #: of the energy: so much nobody knows of a clean panel either [C]
    rise_share: float = 0.15  #: of the cells' warmth over the air [C]
    air_k: float = 1.0  #: of the air that the weather tells [C]
    shade_share: float = 0.25  #: of what shadows and snow take [C]
    least_shade: float = 0.005  #: of the energy: what stands around and was not told [C]
    colours_share: float = 0.01  #: of the light's spectrum on silicon [C]
    settles_share: float = 0.01  #: what first light takes of new cells [C]
    age_a_year: float = 0.005  #: [J]

    def __post_init__(self) -> None:
        shares = (
            self.years_share, self.dirt_share, self.least_dirt, self.rise_share, self.shade_share,
            self.least_shade, self.colours_share, self.settles_share, self.age_a_year,
        )  # fmt: skip
        if not all(0 <= share < 1 for share in shares) or not 0 <= self.air_k < 20:
            raise ValueError(f"doubts are shares from 0 to under 1, of the air 0 to 20 K, got {self}")
        if self.ages and (
            len(self.ages) != len(self.ratings) or not all(0 <= age < 100 for age in self.ages)
        ):
            raise ValueError(
                f"each of {len(self.ratings)} panels has an age of 0 to 100 years, got {self.ages}"
            )
        if not all(0 < kwh < math.inf for kwh in self.years_kwh):
            raise ValueError(f"years that were gone through gave more than 0 kWh each, got {self.years_kwh}")

    @property
    def years(self) -> tuple[float, str]:
        """How far years differ, and who says so."""
        if len(self.years_kwh) >= _ENOUGH_YEARS:
            told = np.array(self.years_kwh)
            return float(told.std(ddof=1) / told.mean()), f"energies of {told.size} years gone through"
        usual = self.years_share == USUAL_SHARE
        return self.years_share, "recalled of Wilcox and Gueymard 2010" if usual else "as stated"


def by_known(known: Sequence[Known]) -> tuple[Rated, ...]:
    """Ratings of panels that are known in these ways.

    >>> [rated.why for rated in by_known(["measured", "label"])]
    ['rated on the bench', 'known by their label']
    """
    return tuple(RATINGS[each] for each in known)
