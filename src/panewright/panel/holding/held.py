"""One rail with the pane, bead and lay-up that go with it."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.layup.rank import Ranked
from panewright.structure.bead.bead import BeadProof
from panewright.structure.bead.choice import BeadRow
from panewright.structure.loads import Loads
from panewright.structure.panes.choice import PaneChoice
from panewright.structure.rails.frame_choice import (
    FrameRow,
)
from panewright.structure.rails.low_rail import LowProof


@dataclass(frozen=True, slots=True)
class Held:
    """One rail with the pane, bead and lay-up that go with it."""

    rail: Rail
    ranked: tuple[Ranked, ...]  #: plans, the best first
    panes: PaneChoice
    bead: BeadProof
    frame: FrameRow
    loads: Loads
    low: LowProof  #: the rail at the low edge, and the setting blocks on it
    frames: tuple[FrameRow, ...] = ()  #: every rail that was tried, on each number of brackets
    beads: tuple[BeadRow, ...] = ()  #: the bead taken, and those of the other structural sealants
    moved: tuple[Check, ...] = ()  #: cells and bead on a sheet that grows and bows; none on glass

    @property
    def pane(self) -> Pane:
        """The pane chosen."""
        return self.panes.chosen.pane

    @property
    def checks(self) -> tuple[Check, ...]:
        """Of pane, bead and rails."""
        return (
            self.panes.chosen.proof.checks
            + self.moved
            + self.bead.checks
            + self.frame.checks
            + self.low.checks
        )

    @property
    def passed(self) -> bool:
        """Whether every rule holds."""
        return all(check.passed for check in self.checks)
