"""Which metals touch on a panel, and where they are kept apart."""

import pytest

from panewright.climate.site import Site, Wind
from panewright.frame.rail import Rail
from panewright.structure.contact import air_of, contact_checks, kept_apart, pairs
from panewright.structure.drilling.fixing import joint

RAIL = Rail("L30", "angle", 30.0, 30.0, 3.0, "6060-T66", 6000)


def site(ground, family="EN"):
    edition, kind = ("EN 1991-1-4", "10 min mean") if family == "EN" else ("ASCE 7-16", "3 s gust")
    wind = Wind(28.0, kind, edition, 50.0, None, ground)
    return Site(family, wind, 500.0, -15.0, 35.0, 30.0, 3.0, 10.0, "free-standing")


@pytest.mark.parametrize(
    ("ground", "family", "air"),
    [
        ("0", "EN", "salt"),
        ("I", "EN", "damp"),
        ("IV", "EN", "damp"),
        ("D", "ASCE", "salt"),
        ("C", "ASCE", "damp"),
    ],
)
def test_the_open_coast_has_salt_in_its_air(ground, family, air):
    assert air_of(site(ground, family)) == air


@pytest.mark.parametrize(
    ("isolate", "damp", "salt"),
    [("as needed", False, True), ("always", True, True), ("never", False, False)],
)
def test_washers_go_where_the_order_or_the_salt_asks_for_them(isolate, damp, salt):
    assert (kept_apart(isolate, "damp"), kept_apart(isolate, "salt")) == (damp, salt)


@pytest.mark.parametrize("name", ["screw M5", "rivet 4.8 stainless", "tapping screw 5.5"])
def test_good_practice_holds_inland_and_needs_washers_at_the_shore(name):
    fastened = joint(name)
    assert all(check.passed for check in contact_checks(RAIL, fastened, "damp", apart=False))
    bare = contact_checks(RAIL, fastened, "salt", apart=False)
    assert all("nylon" in check.cure for check in bare if not check.passed)
    assert not all(check.passed for check in bare)
    assert all(check.passed for check in contact_checks(RAIL, fastened, "salt", apart=True))


def test_aluminium_rivets_and_welds_leave_no_pair_at_the_corner():
    for fastened in (joint("rivet 4.8 aluminium"), None):
        assert [pair.what for pair in pairs(RAIL, fastened, apart=False)] == [
            "bracket bolts",
            "tinned earth lug",
        ]
