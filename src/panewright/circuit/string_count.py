"""What a string must do, one count of cells in series held against that, and the study of all counts."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.battery.load import Battery, Controller
from panewright.battery.window import Window
from panewright.cell.model import CellModel
from panewright.check import Check
from panewright.wire.cable import Cable

#: counts that lay out well, the likeliest first; common practice
COMMON_COUNTS = ((36, 60, 72), (96, 108, 120, 144))


@dataclass(frozen=True, slots=True)
class StringAsk:
    """What the string must do; battery and controller may be unknown where only a count is asked for."""

    model: CellModel  #: of one strip as placed behind its glass
    hot_cell_c: float
    running_cell_c: float
    cold_cell_c: float  #: record cold, the cell as cold as the air
    battery: Battery | None = None
    controller: Controller | None = None
    cable: Cable | None = None
    blocking_drop_v: float = 0.0
    tab_ohm_per_cell: float = 0.0  #: at 20 degC, like the next
    extra_ohm: float = 0.0  #: bus ribbons and leads of one string
    pinned_in_series: int | None = None
    cells_wanted: int | None = None  #: in series, where the order gives just a number
    laid_out: int | None = None  #: a count near the best one that lays out better
    laid_why: str = ""  #: how much better, in words
    light: float = 1.0  #: share of the light that reaches the silicon by day; the cold morning takes all
    strings: int = 1  #: in parallel on one cable
    battery_c: float = 25.0
    cable_c: float = 50.0  #: conductor in warm air under current

    def __post_init__(self) -> None:
        counts = (self.pinned_in_series, self.cells_wanted, self.strings)
        if (
            min(count for count in counts if count is not None) < 1
            or min(self.blocking_drop_v, self.tab_ohm_per_cell, self.extra_ohm) < 0
        ):
            raise ValueError(f"a string has a cell or more and losses of 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class CountRow:
    """One count of cells in series, held against both ends."""

    cells: int
    hot_vmp_v: float  #: at the string's own ends, ribbons counted
    needed_v: float  #: there; 0 where no battery is known
    cold_voc_v: float
    most_v: float  #: infinite where no controller is known
    battery_a: float  #: into the battery at its own voltage, cells as warm as usual
    battery_w: float
    pmp_w: float  #: what the string could give at its best voltage then
    verdict: str

    @property
    def holds(self) -> bool:
        """Whether both ends hold."""
        return self.holds_hot and self.holds_cold

    @property
    def holds_hot(self) -> bool:
        """Whether it still charges on the hottest cells."""
        return self.hot_vmp_v >= self.needed_v

    @property
    def holds_cold(self) -> bool:
        """Whether the controller bears it on the coldest morning."""
        return self.cold_voc_v <= self.most_v


@dataclass(frozen=True, slots=True)
class StringStudy:
    """The count chosen, why, and what the battery gets."""

    rows: tuple[CountRow, ...]  #: counts round the chosen one and the textbook's, by number
    chosen: int
    reason: str
    checks: tuple[Check, ...]
    acceptable: tuple[int, ...]  #: all counts which hold both ends
    textbook: int | None  #: 36 for every 12 V
    window: Window | None  #: of the battery
    battery_current_a: float
    battery_power_w: float
    pmp_there_w: float
