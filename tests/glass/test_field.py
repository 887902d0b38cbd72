"""Plates in any holding: what must hold for every one of them."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.plate import held_path
from panewright.glass.plate.bending import Elastic, Plate, bend
from panewright.glass.plate.field import bend_supported, bent_field
from panewright.glass.plate.holding import Clips, Patch, Pressing, Supported

GLASS = Elastic(70e9, 0.23)
THICK = st.sampled_from([3.0, 4.0, 5.0, 6.0, 8.0])
PRESSURES = st.sampled_from([200.0, 500.0, 1000.0])
SIZES = st.sampled_from([(900, 900), (1200, 700), (1600, 1000)])


def supported(sizes: tuple[float, float], thickness: float, kind: str) -> Supported:
    plate = Plate(*sizes, thickness, GLASS)
    if kind == "clips":
        return Supported(plate, "clips", Clips(2, 0, 0.2 * sizes[0]))
    if kind == "more clips":
        return Supported(plate, "clips", Clips(2, 1, 0.2 * sizes[0]))
    return Supported(plate, kind)  # type: ignore[arg-type]


KINDS = st.sampled_from(["four sides", "two long sides", "two short sides", "clips", "more clips"])


@pytest.mark.parametrize(
    ("sizes", "pressure"), [((1600, 1000), 2400.0), ((900, 900), 5000.0), ((1500, 600), 800.0)]
)
def test_on_four_sides_under_an_even_pressure_it_is_the_old_path(sizes, pressure):
    plate = Plate(*sizes, 4.0, GLASS)
    ours, old = bend_supported(Supported(plate), Pressing(pressure)), bend(plate, pressure)
    assert ours.deflection.value == pytest.approx(old.deflection_mm, rel=1e-5)
    assert ours.away.value == pytest.approx(old.peak_mpa, rel=2e-3)
    assert ours.pressed.value == pytest.approx(old.pressed_peak_mpa, rel=2e-3)
    assert ours.edge_mpa == 0  # no side is free
    assert ours.known


@settings(deadline=None, max_examples=20)
@given(SIZES, KINDS, PRESSURES, THICK, THICK)
def test_thicker_never_goes_farther_nor_is_pulled_harder(sizes, kind, pressure, one, other):
    thin, thick = sorted((one, other))
    first, second = (bend_supported(supported(sizes, t, kind), Pressing(pressure)) for t in (thin, thick))
    assert second.deflection.value <= first.deflection.value * (1 + 1e-9)
    assert second.worst_mpa <= first.worst_mpa * (1 + 1e-9)


@settings(deadline=None, max_examples=20)
@given(SIZES, KINDS, THICK, PRESSURES, PRESSURES)
def test_more_load_never_means_less_stress(sizes, kind, thickness, one, other):
    low, high = sorted((one, other))
    held = supported(sizes, thickness, kind)
    first, second = (bend_supported(held, Pressing(p)) for p in (low, high))
    assert first.deflection.value <= second.deflection.value * (1 + 1e-9)
    assert first.worst_mpa <= second.worst_mpa * (1 + 1e-9)


@settings(deadline=None, max_examples=20)
@given(SIZES, THICK, st.floats(0, 0.9), st.floats(0, 0.9), st.floats(100, 1500))
def test_a_harder_hand_anywhere_pulls_harder(sizes, thickness, x, y, force):
    held = Supported(Plate(*sizes, thickness, GLASS))
    place = round(x, 1) * (sizes[0] - 100) / 2, round(y, 1) * (sizes[1] - 100) / 2
    one, two = (bend_supported(held, Pressing(0.0, (Patch(f, *place),))) for f in (force, 1.2 * force))
    assert one.away.value < two.away.value
    assert one.deflection.value < two.deflection.value


@settings(deadline=None, max_examples=12)
@given(SIZES, THICK, st.sampled_from([50.0, 200.0, 500.0]))
def test_more_support_never_bends_farther(sizes, thickness, pressure):
    work = [swept(supported(sizes, thickness, kind), pressure) for kind in ("four sides", "two long sides")]
    assert work[0] < work[1]
    clips, more = (swept(supported(sizes, thickness, kind), pressure) for kind in ("clips", "more clips"))
    assert more < clips


def swept(held: Supported, pressure_pa: float) -> float:
    """Mean deflection: what an even pressure has worked."""
    at, weight = np.polynomial.legendre.leggauss(24)
    surface = bent_field(held, Pressing(pressure_pa)).at(at, at).deflection_mm
    return float(weight @ surface @ weight) / 4


@settings(deadline=None, max_examples=12)
@given(SIZES, THICK, st.sampled_from([(2, 0), (3, 0), (2, 1), (2, 2), (0, 2)]), PRESSURES)
def test_clips_bear_exactly_the_load(sizes, thickness, numbers, pressure):
    clips = Clips(*numbers, 0.2 * sizes[0], 0.25 * sizes[1])
    bent = bend_supported(Supported(Plate(*sizes, thickness, GLASS), "clips", clips), Pressing(pressure))
    each = list(bent.field.shape.distinct_clips)
    images = [(2 if x else 1) * (2 if y else 1) for x, y, _, _ in each]
    borne = sum(n * force for n, force in zip(images, bent.clip_n, strict=True))
    assert borne == pytest.approx(pressure * sizes[0] * sizes[1] * 1e-6, rel=1e-6)


def test_clips_bear_a_hand_where_it_is():
    plate = Plate(1200, 700, 5.0, GLASS)
    hand = Pressing(0.0, (Patch(500.0, 250.0, 150.0),))
    bent = bend_supported(Supported(plate, "clips", Clips(2, 0, 250)), hand)
    places = [(spot[0] * 600, spot[1] * 350) for spot in bent.field.shape.distinct_clips]
    assert sum(bent.clip_n) == pytest.approx(500, rel=1e-6)
    for way, at in ((0, 250.0), (1, 150.0)):
        assert sum(f * p[way] for f, p in zip(bent.clip_n, places, strict=True)) == pytest.approx(
            500 * at, rel=2e-3
        )


def test_a_clip_lets_the_pane_stay_where_it_is():
    plate = Plate(1200, 700, 5.0, GLASS)
    bent = bend_supported(Supported(plate, "clips", Clips(2, 0, 250)), Pressing(800.0))
    at, weight = np.polynomial.legendre.leggauss(12)
    x, y = (350 + 20 * at) / 600, (342.5 + 7.5 * at) / 350
    mean = weight @ bent.field.at(x, y).deflection_mm @ weight / 4
    assert abs(mean) < 1e-3 * bent.deflection.value


@pytest.mark.parametrize(
    ("kind", "pressing"),
    [
        ("clips", Pressing(800.0)),
        ("two long sides", Pressing(800.0)),
        ("four sides", Pressing(0.0, (Patch(1000.0, 300.0, 200.0),))),
        ("two long sides", Pressing(100.0, (Patch(500.0),))),
    ],
)
def test_more_functions_change_nothing(kind, pressing, monkeypatch):
    held = supported((1200, 700), 4.0, kind)
    first, usual = bend_supported(held, pressing), held_path._counts
    monkeypatch.setattr(held_path, "_counts", lambda shape: tuple(count + 5 for count in usual(shape)))
    held_path.held_path.cache_clear()
    second = bend_supported.__wrapped__(held, pressing)
    held_path.held_path.cache_clear()
    assert first.deflection.value == pytest.approx(second.deflection.value, rel=1e-3)
    assert first.away.value == pytest.approx(second.away.value, rel=3e-3)
    assert first.pressed.value == pytest.approx(second.pressed.value, rel=5e-3)


def test_a_hand_off_the_middle_is_the_same_wherever_it_mirrors():
    held = Supported(Plate(1200, 700, 4.0, GLASS))
    bents = [
        bend_supported(held, Pressing(0.0, (Patch(500.0, sx * 300.0, sy * 200.0),)))
        for sx, sy in itertools.product((1, -1), repeat=2)
    ]
    assert [b.away.value for b in bents] == pytest.approx([bents[0].away.value] * 4, rel=1e-6)
    assert [b.away.along_mm for b in bents[:2]] == pytest.approx([b.away.along_mm * -1 for b in bents[2:]])


def test_no_load_bends_nothing():
    bent = bend_supported(supported((1200, 700), 4.0, "clips"), Pressing())
    assert bent.deflection.value == bent.worst_mpa == 0
    assert bent.known


def test_far_past_small_rotations_it_says_so():
    assert not bend_supported(supported((1600, 1000), 3.0, "two short sides"), Pressing(2400.0)).known


@pytest.mark.parametrize(
    "clips",
    [{"on_long": 1}, {"on_long": 0}, {"on_long": 2, "width_mm": 0}],
)
def test_clips_that_hold_nothing_are_refused(clips):
    with pytest.raises(ValueError, match="got Clips"):
        Clips(**clips)


def test_what_does_not_fit_together_is_refused():
    plate = Plate(1200, 700, 4.0, GLASS)
    with pytest.raises(ValueError, match="clips are given"):
        Supported(plate, "clips")
    with pytest.raises(ValueError, match="side by side"):
        Supported(plate, "clips", Clips(2, 0, 10))
    with pytest.raises(ValueError, match="patches lie"):
        bend_supported(Supported(plate), Pressing(0.0, (Patch(100.0, 580.0),)))
    with pytest.raises(ValueError, match="force and a size"):
        Patch(-1.0)
    with pytest.raises(ValueError, match="not negative"):
        Pressing(-1.0)
