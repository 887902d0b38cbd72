"""Arrays: their texts, which panel lies where since when, and what became of those before it."""

from __future__ import annotations

from datetime import date

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.arrays.layings import (
    Laying,
    Lying,
    lay_array,
    laying,
    layings,
    take_out,
    where_all_lie,
    where_lies,
)
from panewright.ledger.arrays.stays import Stay, stays
from panewright.ledger.arrays.texts import array_versions, arrays, find_array, save_array
from panewright.ledger.changes import since
from panewright.ledger.kept.check import check
from panewright.ledger.orders.erasing import erase_customer
from panewright.ledger.serials.life import life
from panewright.ledger.serials.telling import told

ANN = {"by": "Ann", "at": NOON}
MAY, JUNE, JULY = date(2026, 5, 4), date(2026, 6, 1), date(2026, 7, 9)


@pytest.fixture
def shop(ledger):
    """Two arrays and the serials of four panels."""
    panels = begun(ledger, panels=4)
    for name in ("Boathouse", "Pump"):
        save_array(ledger, name, f'[array]\nname = "{name}"\n', seen=0, **ANN)
    return ledger, panels


def strings(*told):
    """Panels string by string, as they follow each other."""
    return [Lying(s, p, panel) for s, panels in enumerate(told, 1) for p, panel in enumerate(panels, 1)]


def test_a_text_is_kept_version_by_version(ledger):
    save_array(ledger, "Boat/house", "one", seen=0, **ANN)
    save_array(ledger, "Boat/house", "two", seen=1, tap="a" * 8, **ANN)
    save_array(ledger, "Boat/house", "two", seen=1, tap="a" * 8, **ANN)
    assert [each.text for each in array_versions(ledger, "Boat/house")] == ["one", "two"]
    assert find_array(ledger, "Boat/house").version == 2
    with pytest.raises(StaleError, match="Ann saved version 2 in the meantime"):
        save_array(ledger, "Boat/house", "three", seen=1, **ANN)
    for ask in (find_array, array_versions):
        with pytest.raises(RecordError, match="array = Shed: the records do not know it"):
            ask(ledger, "Shed")


def test_the_one_saved_last_is_listed_first_and_each_once(shop):
    ledger, _ = shop
    save_array(ledger, "Boathouse", "# by the lake", seen=1, **ANN)
    assert [(each.name, each.version) for each in arrays(ledger)] == [("Boathouse", 2), ("Pump", 1)]
    assert [each.name for each in arrays(ledger, find="LAKE")] == ["Boathouse"]
    assert arrays(ledger, find="%") == ()


def test_panels_lie_where_they_were_told_last(shop):
    ledger, (a, b, c, d) = shop
    assert laying(ledger, "Boathouse") is None
    assert lay_array(ledger, "Boathouse", Laying(MAY, strings([a, b], [c, d])), seen=0, **ANN) == 1
    assert lay_array(ledger, "Boathouse", Laying(JUNE, strings([a, c], [b]), "b is weak"), seen=1, **ANN) == 2
    now = laying(ledger, "Boathouse")
    assert [(each.string, each.place, each.panel) for each in now.places] == [(1, 1, a), (1, 2, c), (2, 1, b)]
    assert (now.day, now.reason, now.by) == (JUNE, "b is weak", "Ann")
    assert [len(each.places) for each in layings(ledger, "Boathouse")] == [4, 3]
    assert [(each.serial, each.string, each.place) for each in where_all_lie(ledger, [b, c, d])] == [
        (c, 1, 2),
        (b, 2, 1),
    ]
    assert where_lies(ledger, d) is None


def test_a_panel_tells_where_it_lay_and_lies_and_since_when(shop):
    ledger, (a, b, c, _) = shop
    lay_array(ledger, "Boathouse", Laying(MAY, strings([a, b])), seen=0, **ANN)
    lay_array(ledger, "Boathouse", Laying(JUNE, strings([a, c, b]), "one more"), seen=1, **ANN)
    lay_array(ledger, "Pump", Laying(JULY, strings([b]), moving=True), seen=0, by="Ben", at=later(1))
    assert stays(ledger, a) == (Stay("Boathouse", 1, 1, MAY, "Ann"),)  # the same place all the while
    assert stays(ledger, b) == (
        Stay("Boathouse", 1, 2, MAY, "Ann", JUNE, "one more"),
        Stay("Boathouse", 1, 3, JUNE, "Ann", JULY, "moved to Pump"),
        Stay("Pump", 1, 1, JULY, "Ben"),
    )
    page = told(life(ledger, b))
    assert "Boathouse, string A, place 2: lay there from 2026-05-04 to 2026-06-01: one more (Ann)" in page
    assert "Pump, string A, place 1: lies there since 2026-07-09 (Ben)" in page


def test_a_panel_lies_in_one_array_at_a_time(shop):
    ledger, (a, b, c, _) = shop
    lay_array(ledger, "Boathouse", Laying(MAY, strings([a, b], [c])), seen=0, **ANN)
    with pytest.raises(RecordError) as refused:
        lay_array(ledger, "Pump", Laying(JUNE, strings([c, a])), seen=0, **ANN)
    assert "it lies in Boathouse, string B, place 1" in str(refused.value)
    assert len(refused.value.problems) == 2  # both at once
    assert laying(ledger, "Pump") is None
    lay_array(ledger, "Pump", Laying(JUNE, strings([c, a]), moving=True), seen=0, **ANN)
    assert [each.panel for each in laying(ledger, "Boathouse").places] == [b]
    assert laying(ledger, "Boathouse").reason == "moved to Pump"
    assert {each.array for each in where_all_lie(ledger, [a, c])} == {"Pump"}
    assert [(each.kind, each.key) for each in since(ledger, 0)][-2:] == [
        ("array", "Boathouse"),
        ("array", "Pump"),
    ]
    with pytest.raises(StaleError):  # who looked at the boathouse before c and a left it
        lay_array(ledger, "Boathouse", Laying(JUNE, strings([a, b], [c])), seen=1, **ANN)
    assert check(ledger).faults == ()


def test_a_panel_is_taken_out_with_day_and_reason(shop):
    ledger, (a, b, *_) = shop
    lay_array(ledger, "Boathouse", Laying(MAY, strings([a, b])), seen=0, **ANN)
    for _ in range(2):  # the tap sent twice
        if where_lies(ledger, a):
            assert take_out(ledger, a, JUNE, "fog in a corner", tap="t" * 9, **ANN) == "Boathouse"
    assert [each.panel for each in laying(ledger, "Boathouse").places] == [b]
    assert stays(ledger, a) == (Stay("Boathouse", 1, 1, MAY, "Ann", JUNE, "fog in a corner"),)
    with pytest.raises(RecordError, match="it lies in no array"):
        take_out(ledger, a, JUNE, "", **ANN)
    with pytest.raises(RecordError, match="since 2026-06-01"):
        take_out(ledger, b, MAY, "", **ANN)
    lay_array(ledger, "Pump", Laying(JULY, strings([a])), seen=0, **ANN)
    assert [each.array for each in stays(ledger, a)] == ["Boathouse", "Pump"]


def test_panels_that_are_not_the_shops_lie_between_the_others(shop):
    ledger, (a, *_) = shop
    places = [Lying(1, 1, a), Lying(1, 2, "old 1", of_shop=False), Lying(2, 1, "JL-0002", of_shop=False)]
    lay_array(ledger, "Boathouse", Laying(MAY, places), seen=0, **ANN)
    assert tuple(places) == laying(ledger, "Boathouse").places
    assert where_lies(ledger, "JL-0002") is None  # somebody else's panel may bear the same name
    take_out(ledger, a, JUNE, "", **ANN)
    assert [each.panel for each in laying(ledger, "Boathouse").places] == ["old 1", "JL-0002"]


def test_every_mistake_is_told_at_once_and_nothing_is_kept(shop):
    ledger, (a, b, *_) = shop
    places = [Lying(1, 1, a), Lying(1, 1, b), Lying(2, 1, a), Lying(0, 3, "X")]
    with pytest.raises(RecordError) as refused:
        lay_array(ledger, "Boathouse", Laying(MAY, places), seen=0, **ANN)
    said = str(refused.value)
    for words in ("string A, place 1: two panels", f"{a}: it is told at two places", "X: strings and places"):
        assert words in said, said
    with pytest.raises(RecordError, match="serial = NO-1: the records do not know it"):
        lay_array(ledger, "Boathouse", Laying(MAY, strings([a, "NO-1"])), seen=0, **ANN)
    with pytest.raises(RecordError, match="array = Shed"):
        lay_array(ledger, "Shed", Laying(MAY, ()), seen=0, **ANN)
    lay_array(ledger, "Boathouse", Laying(JUNE, strings([a])), seen=0, **ANN)
    with pytest.raises(RecordError, match="since 2026-06-01"):
        lay_array(ledger, "Boathouse", Laying(MAY, strings([b])), seen=1, **ANN)
    assert len(layings(ledger, "Boathouse")) == 1


@pytest.mark.erases
@pytest.mark.full
def test_a_customer_who_is_erased_is_in_no_array_that_holds_their_panels(ledger, panel):
    save_array(ledger, "Quay", f'name = "Quay of Ölaf Plumrow"\nserials = ["{panel}"]\n', seen=0, **ANN)
    save_array(ledger, "Weir", 'note = "Ölaf Plumrow sold us the weir"\n', seen=0, **ANN)
    lay_array(ledger, "Weir", Laying(JULY, [Lying(1, 1, "old", False)], "for Ölaf Plumrow"), seen=0, **ANN)
    save_array(ledger, "Ölaf Plumrow's jetty", f'serials = ["{panel}"]\n', seen=0, **ANN)
    done = erase_customer(ledger, "K-1", reason="asked", **ANN)
    assert done.arrays == ("Tarn roof", "Quay", "Ölaf Plumrow's jetty")
    assert done.numbers == ("Ölaf Plumrow's jetty",)
    for name in done.arrays:
        assert not any("Plumrow" in each.text for each in array_versions(ledger, name))
    assert not any("Plumrow" in each.reason for each in layings(ledger, "Tarn roof"))
    assert "Plumrow" in find_array(ledger, "Weir").text  # nothing there is theirs
