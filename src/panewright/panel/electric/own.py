"""A cell that is not as the order has it: told by shares of its kind's nameplate, or by its own readings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from panewright.cell.kind import CellKind
from panewright.cell.model import CellModel, strip_models
from panewright.cell.nameplate import Nameplate, impossible
from panewright.cell.shape import area_mm2
from panewright.curve.few import cell_from_readings
from panewright.curve.readings import Readings
from panewright.errors import CurveError, Problem


@dataclass(frozen=True, slots=True)
class Rated:
    """A cell of the same kind whose figures are shares of the nameplate's; Voc is the kind's."""

    current: float = 1.0  #: of Isc and Imp
    power: float = 1.0  #: of Pmp; what the current does not explain is a lower voltage under load

    def __post_init__(self) -> None:
        if not (0 < self.current < 10 and 0 < self.power < 10):
            raise ValueError(f"a cell has shares above 0 of its kind's figures, got {self}")

    def nameplate(self, plate: Nameplate) -> Nameplate:
        """The whole cell's nameplate with these shares."""
        volts = self.power / self.current
        return replace(
            plate,
            isc_a=plate.isc_a * self.current,
            imp_a=plate.imp_a * self.current,
            vmp_v=plate.vmp_v * volts,
        )


OtherCell = Rated | Readings  #: readings are those of the strip as it lies


@lru_cache(maxsize=1024)
def own_model(kind: CellKind, strip: int, other: OtherCell) -> CellModel:
    """The model of such a cell, strip `strip` of its wafer; `CurveError` where no cell is so."""
    if isinstance(other, Readings):
        return cell_from_readings(other, strip_models(kind)[strip]).model
    plate = other.nameplate(kind.nameplate)
    if reasons := impossible(plate, area_mm2(kind.shape)):
        cure = "Write shares that belong together: less power than current at most by a bad contact."
        raise CurveError([Problem(reason, cure, value=_words(other)) for reason in reasons])
    return strip_models(replace(kind, nameplate=plate))[strip]


def _words(other: Rated) -> str:
    return f"current {other.current:g}, power {other.power:g}"
