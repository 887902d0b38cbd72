"""A design: every choice made for one order, what was weighed, and every check.

Things judged candidates, joined things judged them together; `design_panel` in `panel.choose` ranked
and picked. Nothing here computes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.cell.key_points import KeyPoints
from panewright.cell.model import CellModel
from panewright.check import Check
from panewright.circuit.network import Network
from panewright.circuit.string_count import StringStudy
from panewright.circuit.trace import Curve
from panewright.climate.heat import Temperatures
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind.load import WindLoad
from panewright.enclosure.bypass import Bypass
from panewright.enclosure.encapsulant import Pour
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.glass.verdict.proof import PaneProof
from panewright.layup.layup import Layup
from panewright.order.order import Order
from panewright.panel.closed import Closing
from panewright.panel.electric.hot import Hot
from panewright.panel.electric.lot import LotLoss
from panewright.panel.electric.wiring import Unlike
from panewright.ribbon.resistance import TabLoss
from panewright.ribbon.strip import Strip
from panewright.seal.sealant import Bead
from panewright.structure.bead.bead import Need
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.loads import Loads
from panewright.structure.mass import Mass
from panewright.structure.mounting.choice import MountingProof
from panewright.structure.rails.low_rail import LowProof
from panewright.structure.rails.rails import Brackets, RailProof
from panewright.structure.sundries import Amounts


@dataclass(frozen=True, slots=True)
class Weighed:
    """A choice the order left open: what was compared, what was taken, and why."""

    question: str
    taken: str
    why: str
    columns: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    keys: tuple[str, ...] = ()  #: names of the figures below, each with its unit
    rows_si: tuple[tuple[float | str | None, ...], ...] = ()  #: the same rows in numbers, for programs


@dataclass(frozen=True, slots=True)
class PanelCurve:
    """The whole panel's curve in one condition."""

    name: Literal["STC", "hot", "low light"]
    irradiance_w_m2: float
    cell_c: float
    points: KeyPoints
    curve: Curve


@dataclass(frozen=True, slots=True)
class Label:
    """What the label on the back states."""

    pmp_w: float
    voc_v: float
    isc_a: float
    vmp_v: float
    imp_a: float
    fuse_a: float
    system_v: float
    mass_kg: float
    serials: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Electrical:
    """Cells, ribbon and circuit."""

    models: tuple[CellModel, ...]  #: one for each kind of strip that lies on the pane
    string: StringStudy
    tab: Strip
    bus: Strip
    tab_loss: TabLoss
    bypass: Bypass | None
    light: float  #: share of the irradiance that reaches the silicon
    unlike: tuple[Unlike, ...]  #: cells that are not as the others; none of a panel that is only designed
    network: Network  #: at STC
    curves: tuple[PanelCurve, ...]
    hot: Hot  #: the cell that gets hottest in its worst shade
    lot: LotLoss | None  #: by the scatter of the cells; None where the order does not tell it


@dataclass(frozen=True, slots=True)
class Structural:
    """Loads, pane, bead, frame, and what carries them."""

    temperatures: Temperatures
    wind: WindLoad
    snow: SnowLoad
    loads: Loads
    pane: Pane
    pane_proof: PaneProof
    pane_tests: tuple[Check, ...]  #: type tests, shown apart: they are no loads of the place
    sheets: tuple[Sheet, ...]  #: all that were weighed
    bead: Bead
    bead_need: Need  #: the least bead that would do
    rail: Rail
    rail_proof: RailProof  #: of the long rails
    short_rail_proof: RailProof
    frame: FramePlan
    brackets: Brackets  #: of the long rails
    mass: Mass
    mounting: MountingProof
    low: LowProof  #: the rail at the low edge, and the setting blocks on it


@dataclass(frozen=True, slots=True)
class Design:
    """One order, designed."""

    order: Order
    revision: str  #: from the order's content and the shelf, 8 letters
    electrical: Electrical
    layup: Layup
    pour: Pour | None
    closing: Closing  #: how it is encapsulated and closed
    structural: Structural
    amounts: Amounts  #: what sundries are counted by
    label: Label
    weighed: tuple[Weighed, ...]
    checks: tuple[Check, ...]

    @property
    def proven(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)
