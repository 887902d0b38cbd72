"""The form writes one answer into the text and leaves all else as it was."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.desk.orders.form import at, edited, form, problems, value_of
from panewright.errors import OrderError, Problem
from panewright.order.schema import KEYS
from panewright.order.template import template

JETTY = (Path(__file__).parents[3] / "examples" / "jetty.toml").read_text("utf-8")


def test_the_form_shows_what_the_text_says():
    fields = {field.key: field for section in form(JETTY) for field in section.fields}
    assert fields.keys() == KEYS.keys()
    assert fields["site.wind"].value == "25 m/s"
    assert fields["order.panels"].value == "4"
    assert not fields["layout.rows"].given
    assert "125 mm mono" in fields["cell.name"].names


def test_one_answer_changes_one_value_and_keeps_every_remark():
    after = edited(JETTY, "parts.corner_fastener", "screw M8")
    assert after == JETTY.replace('"screw M6" #', '"screw M8" #')


def test_an_answer_left_blank_takes_the_key_out():
    after = edited(JETTY, "site.ground", "  ")
    assert after == JETTY.replace('ground = "I"\n', "")


def test_a_new_key_stands_in_its_section_and_a_missing_section_is_made():
    assert value_of(edited(JETTY, "layout.columns", "6"), "layout.columns") == "6"
    assert "[money]" in edited(JETTY, "money.margin", "25 %")


def test_a_count_is_written_without_quotes_and_words_with_them():
    assert "panels = 7\n" in edited(JETTY, "order.panels", " 7 ")
    assert 'panels = "seven"\n' in edited(JETTY, "order.panels", "seven")


@settings(deadline=None, max_examples=60)
@given(st.text(max_size=60), st.sampled_from(sorted(KEYS)))
def test_whatever_is_typed_the_text_stays_an_order_that_can_be_read(typed, key):
    text = edited(template(), key, typed)
    assert value_of(text, key) == value_of(edited(text, key, typed), key)
    others = {each for each in KEYS if each != key}
    assert all(value_of(text, each) == value_of(template(), each) for each in sorted(others)[::17])


def test_a_text_that_is_no_toml_is_told():
    with pytest.raises(OrderError):
        form("[order")
    with pytest.raises(OrderError):
        edited("[order", "site.wind", "3 m/s")
    with pytest.raises(OrderError):
        edited("order = 3", "order.name", "x")


def test_a_key_that_no_order_has_is_refused():
    with pytest.raises(OrderError):
        edited(JETTY, "site.nothing", "1")


def test_problems_stand_at_their_questions():
    wrong = edited(JETTY, "site.snow", "plenty")
    fields = {field.key: field for section in form(wrong, problems(wrong)) for field in section.fields}
    assert [at(each) for each in fields["site.snow"].problems] == ["site.snow"]
    assert at(Problem("", "", key="parts.tab.width")) == "parts.tab"
    assert problems(JETTY) == ()
