"""Orders: every version stays, and nobody saves over what somebody else saved."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import datetime

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.changes import newest, since
from panewright.ledger.orders.orders import OrderVersion, find_order, orders, save_order, versions


def test_every_version_stays_as_it_was_saved(ledger):
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    save_order(ledger, "JL-9", "second", seen=1, by="Ben", at=later(5))
    assert find_order(ledger, "JL-9") == OrderVersion("JL-9", 2, "second", "Ben", later(5))
    assert [each.text for each in versions(ledger, "JL-9")] == ["first", "second"]


def test_who_looked_at_an_older_version_is_told_what_stands(ledger):
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    theirs = save_order(ledger, "JL-9", "second", seen=1, by="Ben", at=later(5))
    with pytest.raises(StaleError, match="Ben saved version 2 in the meantime") as told:
        save_order(ledger, "JL-9", "mine", seen=1, by="Ann", at=later(6))
    assert told.value.stands == theirs
    assert find_order(ledger, "JL-9") == theirs


def test_a_new_order_does_not_take_the_place_of_one_that_is_there(ledger):
    save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON)
    with pytest.raises(StaleError):
        save_order(ledger, "JL-9", "another", seen=0, by="Ben", at=NOON)
    with pytest.raises(StaleError, match="no such thing yet"):
        save_order(ledger, "JL-10", "another", seen=3, by="Ben", at=NOON)


def test_a_tap_sent_twice_is_written_once(ledger):
    once = save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON, tap="a1")
    again = save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON, tap="a1")
    assert once == again
    assert newest(ledger) == 1
    with pytest.raises(RecordError, match="sent before, for something else"):
        save_order(ledger, "JL-10", "first", seen=0, by="Ann", at=NOON, tap="a1")


def test_a_tap_that_was_refused_may_be_sent_again(ledger):
    with pytest.raises(StaleError):
        save_order(ledger, "JL-9", "first", seen=1, by="Ann", at=NOON, tap="a1")
    assert save_order(ledger, "JL-9", "first", seen=0, by="Ann", at=NOON, tap="a1").version == 1


def test_the_list_shows_the_newest_first(ledger):
    begun(ledger, "JL-9", panels=3)
    save_order(ledger, "FS-12", "x", seen=0, by="Ben", at=later(1))
    save_order(ledger, "FS-12", "y", seen=1, by="Cy", at=later(2))
    assert [(row.number, row.version, row.serials, row.by) for row in orders(ledger)] == [
        ("FS-12", 2, 0, "Cy"),
        ("JL-9", 1, 3, "Ann"),
    ]
    assert [row.number for row in orders(ledger, most=1, skip=1)] == ["JL-9"]


def test_the_journal_tells_what_was_written_and_in_which_order(ledger):
    begun(ledger)
    assert [(each.number, each.kind, each.key) for each in since(ledger, 0)] == [
        (1, "order", "JL-9"),
        (2, "design", "JL-9"),
        (3, "serials", "JL-9"),
    ]
    assert newest(ledger) == 3
    assert since(ledger, 3) == ()


def test_a_time_without_a_zone_is_our_own_mistake(ledger):
    with pytest.raises(ValueError, match="needs its zone"):
        save_order(ledger, "JL-9", "x", seen=0, by="Ann", at=datetime(2026, 5, 4))
    assert newest(ledger) == 0


@pytest.mark.parametrize(
    ("number", "text"),
    [
        ("", "x"),
        ("  ", "x"),
        ("JL\0", "x"),
        ("JL\n9", "x"),
        ("J" * 201, "x"),
        ("JL", "a\0b"),
        ("JL", "\ud800"),
    ],
)
def test_what_is_no_text_is_told_and_nothing_is_written(ledger, number, text):
    with pytest.raises(RecordError):
        save_order(ledger, number, text, seen=0, by="Ann", at=NOON)
    assert orders(ledger) == ()


def test_ten_megabytes_are_told(ledger):
    with pytest.raises(RecordError, match="longer than"):
        save_order(ledger, "JL-9", "x" * 10_000_000, seen=0, by="Ann", at=NOON)


@pytest.mark.parametrize(
    "text", ["", "\U0001f31e ☀", "שלום\u202eabc", "a\r\nb\n", "'; DROP TABLE orders; --", "𝒳" * 9]
)
def test_any_text_comes_back_as_it_was(ledger, text):
    save_order(ledger, "JL-9", text, seen=0, by="'; --", at=NOON)
    assert find_order(ledger, "JL-9").text == text


def test_four_hands_at_once_lose_nothing(ledger):
    """Each saves again and again on top of whatever stands; every save that was confirmed is a version."""
    save_order(ledger, "JL-9", "0", seen=0, by="Ann", at=NOON)

    def count_on(_: int) -> None:
        while True:
            stands = find_order(ledger, "JL-9")
            text = str(int(stands.text) + 1)
            try:
                save_order(ledger, "JL-9", text, seen=stands.version, by="Ann", at=NOON)
            except StaleError:
                continue
            return

    with ThreadPoolExecutor(4) as hands:
        list(hands.map(count_on, range(200)))
    assert find_order(ledger, "JL-9").text == "200"
    assert [each.text for each in versions(ledger, "JL-9")] == [str(n) for n in range(201)]
    assert [each.number for each in since(ledger, 0)] == list(range(1, 202))
