"""A laminate comes out cured and whole, or its checks say why not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.film import GEL_LEAST, MOST_GEL, Film, cut_sheet, gel, per_min
from panewright.enclosure.laminating import AIM_GEL, Stack, lag_min, laminate, warmed_c, warming_min

STACK, EVA = Stack(4.0, 0.35, 0.24), Film()
plates = st.floats(135.0, 158.0)


@given(plates)
def test_the_hold_that_is_reckoned_gives_the_gel_that_is_aimed_at(plate_c):
    made = laminate(STACK, EVA, plate_c)
    assert made.gel == pytest.approx(AIM_GEL, abs=0.01)
    assert all(check.passed for check in made.checks)


@given(plates, st.floats(1.0, 15.0))
def test_a_hotter_plate_holds_shorter(plate_c, hotter_k):
    cool, hot = (laminate(STACK, EVA, heat).phases[3].minutes for heat in (plate_c, plate_c + hotter_k))
    assert hot <= cool


@given(st.floats(0.0, 120.0), st.floats(0.0, 60.0), plates)
def test_gel_only_grows(minutes, more, plate_c):
    less, most = gel(EVA, [(minutes, plate_c)]), gel(EVA, [(minutes, plate_c), (more, plate_c)])
    assert 0 <= less <= most <= MOST_GEL


@given(st.floats(30.0, 140.0), st.floats(3.0, 60.0))
def test_warming_is_the_inverse_of_being_warmed(to_c, lag):
    minutes = warming_min(23.0, to_c, 145.0, lag)
    assert warmed_c(minutes, 23.0, 145.0, lag) == pytest.approx(to_c)


def test_an_oven_round_a_bag_is_slower_than_a_plate_and_thick_glass_slower_than_thin():
    assert laminate(STACK, EVA, 145.0, heater="oven").minutes > laminate(STACK, EVA, 145.0).minutes
    assert lag_min(Stack(6.0, 0.35, 0.2), EVA, "plate") > lag_min(STACK, EVA, "plate")


@pytest.mark.parametrize(
    ("stack", "film", "plate_c", "held", "rules"),
    [
        (STACK, EVA, 145.0, 2.0, ["film cured enough"]),
        (STACK, EVA, 150.0, 120.0, []),  # its most gel is still within the window
        (STACK, EVA, 165.0, None, ["plate no hotter than the film bears"]),
        (
            STACK,
            Film(soft_c=100.0),
            101.0,
            60.0,
            ["film cured enough", "film soft before the press comes down"],
        ),
        (Stack(4.0, 0.35, 0.4), EVA, 145.0, None, ["film thick enough over ribbon and solder"]),
    ],
)
def test_each_mistake_fails_its_own_rule(stack, film, plate_c, held, rules):
    made = laminate(stack, film, plate_c, held_min=held)
    assert [check.rule for check in made.checks if not check.passed] == rules


def test_a_plate_too_cool_is_told_after_the_longest_hold():
    made = laminate(STACK, EVA, 110.0)
    assert made.gel < GEL_LEAST
    assert made.phases[3].minutes == pytest.approx(240.0, abs=0.1)


def test_the_press_never_comes_down_on_hard_film():
    made = laminate(STACK, EVA, 145.0)
    assert [phase.pressed for phase in made.phases] == [False, False, True, True, True]
    assert made.press_c >= EVA.soft_c


@given(st.floats(300.0, 2000.0), st.floats(200.0, 1000.0), st.floats(5.0, 30.0))
def test_cut_film_shrinks_to_its_place(long_mm, short_mm, back_mm):
    sheet = cut_sheet(EVA, long_mm, short_mm, back_mm)
    assert sheet.long_mm * 0.97 == pytest.approx(long_mm - 2 * back_mm, abs=1.0)
    assert sheet.short_mm * 0.99 == pytest.approx(short_mm - 2 * back_mm, abs=1.0)


def test_bad_arguments_say_what_was_got():
    with pytest.raises(ValueError, match="40 x 300"):
        cut_sheet(EVA, 40.0, 300.0, 20.0)
    with pytest.raises(ValueError, match="60 degC"):
        laminate(STACK, EVA, 60.0)
    with pytest.raises(ValueError, match="along than across"):
        Film(shrinks_along=0.01, shrinks_across=0.02)


def test_heat_speeds_the_cure():
    assert per_min(EVA, 130.0) < per_min(EVA, 140.0)
