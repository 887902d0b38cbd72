"""What is told of drawn rails, and that a drawn angle or channel is the same as the made one."""

import pytest

from panewright.frame.rail import Rail
from panewright.frame.shape.drawn import Size, flaw, pocket
from panewright.frame.shape.profile import outlines
from panewright.frame.shape.section import section

SIZE = Size(30.0, 45.0, 3.0)
PLAIN = ((0, 0), (30, 0), (30, 3), (3, 3), (3, 45), (0, 45))
FILLET = ((5, 3), (3.6, 3.6), (3, 5))
BULB = ((0, 0), (30, 0), (30, 3), *FILLET, (3, 33), (12, 33), (12, 45), (0, 45))
CELL = ((2, 35), (10, 35), (10, 43), (2, 43))


def floats(line):
    return tuple((float(x), float(y)) for x, y in line)


def drawn(line, *holes, size=SIZE):
    return Rail(
        "any",
        "drawn",
        size.seat_mm,
        size.upright_mm,
        size.wall_mm,
        "6063-T6",
        6000,
        floats(line),
        tuple(floats(hole) for hole in holes),
    )


@pytest.mark.parametrize("profile", ["angle", "channel"])
@pytest.mark.parametrize("step", [1, -1])
def test_a_drawn_copy_has_the_same_section(profile, step):
    made = Rail("any", profile, 30, 45, 3, "6063-T6", 6000)
    copy = section(drawn(outlines(made)[0][::step]))
    found = section(made)
    assert copy.imax_mm4 == pytest.approx(found.imax_mm4, rel=1e-12)
    assert copy.j_mm4 == pytest.approx(found.j_mm4, rel=1e-4)
    assert copy.torsion_mm3 == pytest.approx(found.torsion_mm3, rel=1e-2)
    assert copy.warping_mm6 == pytest.approx(found.warping_mm6, rel=1e-4)
    assert (copy.shear_x_mm, copy.shear_y_mm) == pytest.approx((found.shear_x_mm, found.shear_y_mm), abs=5e-3)
    assert drawn(outlines(made)[0]).pocket == made.pocket


def test_a_bulb_makes_the_pocket_lower_and_the_rail_stiffer():
    one = drawn(BULB, CELL)
    assert (one.pocket.flat_from_mm, one.pocket.straight_from_mm) == (5, 5)
    assert (one.pocket.top_mm, one.pocket.lip_mm) == (33, 12)
    assert section(one).j_mm4 > 3 * section(drawn(PLAIN)).j_mm4


@pytest.mark.parametrize(
    ("line", "holes", "words"),
    [
        (((0, 0), (30, 45)), (), "2 points"),
        (((0, 0), (30, 0), (3, 45), (30, 45), (0, 3)), (), "meets itself"),
        (BULB, (tuple((2 + number / 100, 35) for number in range(200)),), "holes have"),
        (((0, 0), (15, 0), (30, 0)), (), "meets itself"),
        (((0, 0), (30, 0), (30, 3), (3, 3), (3, 40), (0, 40)), (), "spans y"),
        (((1, 0), (31, 0), (31, 3), (4, 3), (4, 45), (1, 45)), (), "spans x"),
        (((0, 0), (30, 0), (30, 4), (3, 4), (3, 45), (0, 45)), (), "no flat seat"),
        (((0, 0), (30, 0), (30, 3), (28, 3), (3, 30), (3, 45), (0, 45)), (), "no flat seat"),
        (((0, 0), (30, 0), (30, 3), (4, 3), (4, 45), (0, 45)), (), "no flat seat"),
        (
            ((0, 0), (30, 0), (30, 3), (5, 3), (3, 12), (3, 18), (20, 18), (20, 45), (0, 45)),
            (),
            "is open from",
        ),
        (((0, 0), (10, 0), (10, 2), (20, 2), (20, 0), (30, 0), *PLAIN[2:]), (), "seat is not solid"),
        (
            ((0, 0), (30, 0), (30, 3), (3, 3), (3, 45), (0, 45), (0, 20), (1, 18), (0, 16)),
            (),
            "upright is not",
        ),
        (PLAIN, (((10, 1), (20, 1), (20, 2), (10, 2)),), "seat is not solid"),
        (PLAIN, (((10, 10), (20, 10), (20, 20), (10, 20)),), "within the metal"),
        (PLAIN, (((1, 1), (5, 1), (5, 5)),), "within the metal"),
        (BULB, (CELL, CELL), "within the metal"),
        (BULB, (CELL, ((3, 36), (9, 36), (9, 42))), "one within the other"),
        (BULB, (((3, 36), (9, 36), (9, 42)), CELL), "one within the other"),
        (BULB, (((3, 36), (9, 42), (9, 36), (3, 42)),), "meets itself"),
    ],
)
def test_a_flaw_is_told_with_its_cure(line, holes, words):
    found = flaw(floats(line), tuple(floats(hole) for hole in holes), SIZE)
    assert found is not None
    assert words in found.reason
    assert found.cure.endswith(".")
    with pytest.raises(ValueError, match=words):
        drawn(line, *holes)


def test_inches_and_millimetres_of_one_drawing_agree():
    eighth = 3.175
    line = ((0, 0), (38.1, 0), (38.1, 3.18), (3.17, eighth), (eighth, 38.1), (0, 38.1))
    assert flaw(floats(line), (), Size(38.1, 38.1, eighth)) is None


def test_no_pocket_without_a_seat():
    assert pocket(((0.0, 0.0), (30.0, 0.0), (0.0, 45.0)), SIZE) is None


def test_an_outline_belongs_to_a_drawn_rail():
    with pytest.raises(ValueError, match="drawn rail"):
        Rail("any", "angle", 30, 45, 3, "6063-T6", 6000, floats(PLAIN))
    with pytest.raises(ValueError, match="drawn rail"):
        Rail("any", "drawn", 30, 45, 3, "6063-T6", 6000)
