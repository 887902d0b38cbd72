"""What of a design the rating asks: what is known of the panel, what it should give, what must be safe."""

from __future__ import annotations

from panewright.bench.predicted import stc
from panewright.bench.rate.checklist import Asked
from panewright.bench.rate.known_cells import NAMEPLATE, CellsKnown
from panewright.bench.rate.own import own_coefficients
from panewright.bench.rate.rating import Prediction
from panewright.bench.rate.report import Known
from panewright.curve.moved.corrections import OneDiode
from panewright.panel.design import Design
from panewright.units import MM


def known(design: Design) -> Known:
    """Coefficients of its own circuit, and its cells in series for procedure 4."""
    by = own_coefficients(design)
    return Known(by, OneDiode(design.layup.plan.in_series, by.first.ohm, by.alpha_per_k))


def predicted(design: Design, cells: CellsKnown = NAMEPLATE) -> Prediction:
    """The figures of its circuit at STC; of a serial, from its design as built and its cells."""
    return Prediction(stc(design).points, cells)


def asked(design: Design) -> Asked:
    """What decides the limits of insulation, earth and diodes."""
    frame, plan, label = design.structural.frame, design.layup.plan, design.label
    return Asked(
        area_m2=frame.outer_width_mm * MM * frame.outer_height_mm * MM,
        system_v=label.system_v,
        fuse_a=label.fuse_a,
        rails=len(frame.pieces),
        diodes=plan.substrings * plan.strings if design.electrical.bypass else 0,
        cells=plan.in_series,
        strings=plan.strings,
        pull_n=design.closing.lead.pull_n,
    )
