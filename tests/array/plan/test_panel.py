"""A panel by its label or its design: its points, its heat, where its cells lie."""

from pathlib import Path

import numpy as np
import pvlib
import pytest

from panewright.array.doubts import RATINGS
from panewright.array.plan.panel import (
    limits_of_design,
    networks_of_design,
    of_label,
    outline_of_design,
    panel_of,
)
from panewright.circuit.chords.panels import curve_of, panels_of
from panewright.desk.designed import designed
from panewright.order.site.site import LabelFigures

EXAMPLES = Path(__file__).parents[3] / "examples"
LABELS = (
    LabelFigures(22.4, 18.2, 8.55, 8.0, 15.0, 600.0, 36, 2, 4, 670.0, 1480.0, None),
    LabelFigures(45.9, 37.2, 9.4, 8.9, 20.0, 1000.0, 72, 3, 6, 990.0, 1960.0, -0.0031),
    LabelFigures(10.8, 9.0, 0.62, 0.56, 2.0, 600.0, 18, 0, 2, 180.0, 420.0, -0.0033),
)


@pytest.fixture(scope="module")
def designed_panel():
    file = EXAMPLES / "henhouse.toml"
    return designed(file.read_text("utf-8"), file.name).design


@pytest.mark.parametrize("label", LABELS, ids=lambda label: f"{label.cells} cells")
def test_a_panel_by_its_label_goes_through_the_label_s_three_points(label):
    panel = of_label(label)
    plate = panel.plate
    assert plate.voc_v == pytest.approx(label.voc_v, rel=1e-5)
    assert plate.isc_a == pytest.approx(label.isc_a, rel=1e-5)
    assert plate.vmp_v == pytest.approx(label.vmp_v, rel=1e-4)
    assert panel.rated_w == pytest.approx(label.vmp_v * label.imp_a, rel=1e-5)
    assert plate.voc_per_k == label.voc_per_k


SETS = (  # single diodes after De Soto 2006, invented: cells, IL, I0, n, Rs, Rsh, alpha; and the panel's size
    ((36, 8.57, 2.0e-10, 1.0, 0.18, 740.0, 0.0043), (670.0, 1480.0)),
    ((72, 9.42, 1.5e-9, 1.1, 0.36, 1480.0, 0.0047), (990.0, 1960.0)),
    ((60, 5.20, 4.0e-9, 1.15, 0.40, 1930.0, 0.0026), (830.0, 1330.0)),
)


def of_a_set(cells, light, dark, n, series, shunt, alpha, sun, heat):
    """An open library's points of such a panel in that light and heat."""
    five = pvlib.pvsystem.calcparams_desoto(
        sun, heat, alpha, n * cells * 0.0256926, light, dark, shunt, series
    )
    return pvlib.pvsystem.singlediode(*five)


@pytest.mark.parametrize(("known", "size"), SETS)
@pytest.mark.parametrize(("sun", "heat", "within"), [(1000, 65, 0.006), (1000, 5, 0.006), (200, 25, 0.025)])
def test_in_heat_and_dim_light_it_gives_what_the_panel_behind_its_label_gives(known, size, sun, heat, within):
    """pvlib's single diode with a usual shunt, of which only the label was told. A label leaves one figure of
    five open, the shunt: where that is unusual, dim light is known less well."""
    stc, hot = of_a_set(*known, 1000, 25), of_a_set(*known, 1000, 65)
    label = LabelFigures(
        *(stc[name] for name in ("v_oc", "v_mp", "i_sc", "i_mp")),
        *(15.0, 600.0, known[0], 3, 4, *size),
        (hot["v_oc"] / stc["v_oc"] - 1) / 40,
    )
    told = curve_of(panels_of([of_label(label).law]), 0, sun, heat)
    ours = float((np.array(told.voltage_v) * np.array(told.current_a)).max())
    assert ours == pytest.approx(of_a_set(*known, sun, heat)["p_mp"], rel=within)


@pytest.mark.parametrize("label", LABELS, ids=lambda label: f"{label.cells} cells")
def test_cells_of_a_label_lie_on_the_panel_beside_each_other_and_their_string_goes_from_one_to_the_next(
    label,
):
    cells = np.array(of_label(label).outline.cells_m)
    assert len(cells) == label.cells
    assert cells[:, :2].min() > 0
    assert cells[:, 2].max() < label.width_mm / 1000
    assert cells[:, 3].max() < label.height_mm / 1000
    left, low, right, top = cells.T
    apart = (
        (left[:, None] >= right) | (right[:, None] <= left) | (low[:, None] >= top) | (top[:, None] <= low)
    )
    assert (apart | np.eye(len(cells), dtype=bool)).all()
    middles = np.stack([(left + right) / 2, (low + top) / 2], axis=1)
    steps = np.abs(np.diff(middles, axis=0))
    pitch = [np.diff(np.unique(middles[:, k].round(6))) for k in (0, 1)]
    assert (steps[:, 0] < pitch[0].max() + 1e-6).all()
    assert (steps[:, 1] < pitch[1].max() + 1e-6).all()
    assert (steps.min(axis=1) < 1e-6).all()  # up, or aside, never both


def test_a_designed_panel_has_its_circuit_s_figures_and_its_label_s_limits(designed_panel):
    design = designed_panel
    panel = panel_of(
        networks_of_design(design),
        limits_of_design(design),
        outline_of_design(design),
        "design",
        RATINGS["design"],
    )
    points = design.electrical.curves[0].points  # at STC, as the design's own pages tell them
    assert panel.rated_w == pytest.approx(points.power_w, rel=1e-6)
    assert panel.plate.voc_v == pytest.approx(points.voc_v, rel=1e-6)
    assert (panel.plate.fuse_a, panel.plate.system_v) == (design.label.fuse_a, design.label.system_v)
    assert -0.0045 < panel.plate.voc_per_k < -0.002


def test_cells_of_a_design_lie_where_its_lay_up_has_them_in_its_frame(designed_panel):
    frame, layup = designed_panel.structural.frame, designed_panel.layup
    outline = outline_of_design(designed_panel)
    edge = (frame.outer_width_mm - layup.pane_width_mm) / 2
    for cell, (left, low, right, top) in zip(layup.cells, outline.cells_m, strict=True):
        assert 500 * (left + right) == pytest.approx(cell.centre[0] + edge)
        assert 1000 * (top - low) == pytest.approx(cell.shape.length_mm)
        assert 0 < left < right < frame.outer_width_mm / 1000
        assert 0 < low < top < frame.outer_height_mm / 1000
