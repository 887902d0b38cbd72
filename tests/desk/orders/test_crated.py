"""How an order travels, ready for a page."""

from __future__ import annotations

from pathlib import Path

from panewright import desk
from panewright.desk.orders.crated import crate_shown, crate_words, crated

EXAMPLES = Path(__file__).parents[3] / "examples"


def test_a_page_gets_words_that_say_the_same_as_the_screen():
    path = EXAMPLES / "henhouse.toml"
    made = desk.design(path.read_bytes(), path.name)
    shown, words = crate_shown(made), crate_words(made, crated(made))
    assert shown.proven
    assert shown.failing == ()
    assert shown.reason.replace("\u2009", " ") in words
    assert shown.outside.replace("\u2009", " ") in words
    assert (shown.kind, shown.people, shown.loads) == ("parcel", "two people", "1 crate of 1 panel")
    assert [side for side, _ in shown.foam] == ["face", "edge", "end"]
    assert [question for question, _ in shown.weighed] == ["How many to a crate?", "Which carrier?"]
