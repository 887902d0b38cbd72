"""Which nameplates no cell can have, and that every other one has a model."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.cell.curve import voltage_v
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import diode_at, fit_cell
from panewright.cell.nameplate import Nameplate, impossible
from panewright.cell.shape import Shape

SQUARE = Shape(156, 156)
AREA_MM2 = 156.0 * 156.0
GOOD = {
    "isc_a": 8.57,
    "voc_v": 0.622,
    "imp_a": 8.05,
    "vmp_v": 0.507,
    "isc_per_k": 0.0005,
    "voc_per_k": -0.0034,
}


def reasons(**changed):
    return impossible(Nameplate(**{**GOOD, **changed}), AREA_MM2)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"imp_a": 8.6}, ["imp", "isc"]),
        ({"imp_a": 4.2}, ["imp", "half", "isc"]),
        ({"vmp_v": 0.63}, ["vmp", "voc"]),
        ({"vmp_v": 0.3}, ["vmp", "half", "voc"]),
        ({"isc_a": 11.4}, ["isc", "sun"]),
        ({"voc_v": 22.4, "vmp_v": 18.0}, ["voc"]),
        ({"isc_a": 11.2, "imp_a": 11.0, "vmp_v": 0.68, "voc_v": 0.8}, ["imp", "vmp", "29.4%"]),
        ({"isc_per_k": 0.05}, ["isc_per_k"]),
        ({"isc_per_k": -0.0005}, ["isc_per_k"]),
        ({"voc_per_k": 0.0034}, ["voc_per_k"]),
        ({"voc_per_k": -0.34}, ["voc_per_k"]),
        ({"imp_a": 8.5, "vmp_v": 0.59}, ["fill factor", "isc", "voc", "imp", "vmp"]),
        ({"imp_a": 8.5, "vmp_v": 0.52}, ["imp", "vmp", "one cell's curve"]),
        ({"imp_a": 7.0, "vmp_v": 0.59}, ["imp", "vmp", "voc"]),
        ({"voc_v": 0.0}, ["voc", "above zero"]),
        ({"voc_v": math.nan}, ["voc", "above zero"]),
    ],
)
def test_an_impossible_nameplate_is_told_in_the_makers_words(changed, words):
    told = " ".join(reasons(**changed))
    assert all(word in told for word in words), told


def test_every_reason_is_told_at_once():
    assert len(reasons(imp_a=9.0, vmp_v=0.7, isc_per_k=0.05, voc_per_k=0.34)) >= 4


@pytest.mark.parametrize(
    "figures",
    [
        (8.57, 0.622, 8.05, 0.507),  # multi
        (9.77, 0.670, 9.30, 0.565),  # mono PERC
        (9.50, 0.745, 9.15, 0.641),  # heterojunction, fill factor 0.83
        (5.20, 0.580, 4.60, 0.440),  # old
        (8.00, 0.600, 6.80, 0.4235),  # leaky, fill factor 0.6
    ],
)
def test_cells_of_every_age_are_possible(figures):
    isc, voc, imp, vmp = figures
    assert reasons(isc_a=isc, voc_v=voc, imp_a=imp, vmp_v=vmp) == ()


@st.composite
def nameplates(draw):
    isc, voc = draw(st.floats(1.0, 11.3)), draw(st.floats(0.42, 0.8))
    return Nameplate(
        isc_a=isc,
        voc_v=voc,
        imp_a=isc * draw(st.floats(0.55, 0.99)),
        vmp_v=voc * draw(st.floats(0.55, 0.92)),
        isc_per_k=draw(st.floats(0.0, 0.0015)),
        voc_per_k=draw(st.floats(-0.006, -0.0015)),
    )


@settings(deadline=None)
@given(nameplates(), st.floats(2, 6).map(lambda x: 10**x), st.floats(-30, -5))
def test_whatever_is_not_impossible_is_met_exactly(plate, shunt_ohm_cm2, breakdown_v):
    assume(impossible(plate, AREA_MM2) == ())
    kind = CellKind("any", SQUARE, plate, "minus", shunt_ohm_cm2=shunt_ohm_cm2, breakdown_v=breakdown_v)
    model = fit_cell(kind)
    points = key_points(model.stc)
    got = (points.isc_a, points.voc_v, points.imp_a, points.vmp_v)
    assert got == pytest.approx((plate.isc_a, plate.voc_v, plate.imp_a, plate.vmp_v), rel=1e-10)
    hot_voc = voltage_v(diode_at(model, 1000, 65), 0.0)
    assert hot_voc == pytest.approx(plate.voc_v * (1 + 40 * plate.voc_per_k), rel=1e-10)
    assert 0.6 - 1e-9 <= model.stc.ideality_v / 0.025692579 <= 2.2 + 1e-7
