"""Whatever stands in the file: an `Order` or an `OrderError`, and nothing else."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from panewright.errors import OrderError
from panewright.order.parse import parse_bytes, parse_order
from panewright.order.schema import KEYS, SECTIONS
from panewright.order.sections.in_full import IN_FULL
from panewright.order.template import template
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
TEMPLATE = template()
QUIET = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])

units = st.sampled_from(
    ["mm", "in", "m/s", "kPa", "psf", "degC", "%", "V", "A", "%/K", "yr", "kg", "", "x", "AWG"]
)
quantities = st.builds("{} {}".format, st.floats() | st.integers() | st.text(max_size=5), units)
choices = st.sampled_from(sorted({choice for key in KEYS.values() for choice in key.choices}))
names = st.sampled_from([row.name for row in (*SHELF.cells, *SHELF.rails, *SHELF.sheets, *SHELF.tabs)])
strings = (
    quantities | choices | names | st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=12)
).map(lambda text: '"' + text.replace("\\", "").replace('"', "") + '"')
scalars = (
    strings
    | st.integers(-5, 10**20).map(str)
    | st.sampled_from(["true", "nan", "-inf", "1e400", "1979-05-27"])
)
tables = st.lists(
    st.tuples(st.sampled_from(sorted({c.name for columns in IN_FULL.values() for c in columns})), scalars),
    max_size=4,
    unique_by=lambda pair: pair[0],
).map(lambda pairs: "{ " + ", ".join(f"{key} = {value}" for key, value in pairs) + " }")
values = scalars | tables | st.lists(scalars, max_size=3).map(lambda items: f"[{', '.join(items)}]")


def outcome(text: str) -> str:
    """'order', 'told' where every mistake has reason, cure and key, or else 'told badly'."""
    try:
        parse_order(text, "any.toml", SHELF)
    except OrderError as mistake:
        whole = mistake.problems and all(p.reason and p.cure and p.key for p in mistake.problems)
        return "told" if whole else f"told badly: {mistake}"
    return "order"


@given(st.text(max_size=300))
@QUIET
def test_any_text_is_an_order_or_told(text):
    assert outcome(text) in ("order", "told")


@given(st.binary(max_size=300))
@QUIET
def test_any_bytes_are_told(data):
    with pytest.raises(OrderError):
        parse_bytes(data, "any.toml", SHELF)


@given(st.dictionaries(st.sampled_from(sorted(KEYS)), values, max_size=25))
@QUIET
def test_any_values_at_known_keys_are_an_order_or_told(answers):
    blocks = []
    for section in SECTIONS:
        lines = [f"{k.partition('.')[2]} = {v}" for k, v in answers.items() if k.startswith(f"{section}.")]
        blocks += [f"[{section}]", *lines]
    assert outcome("\n".join(blocks)) in ("order", "told")


@given(st.sampled_from(sorted(KEYS)), values)
@QUIET
def test_any_one_value_in_a_sound_order_is_an_order_or_told_at_a_line(dotted, value):
    section, _, name = dotted.partition(".")
    lines = [line for line in TEMPLATE.splitlines() if not re.match(rf"(# )?{name} = ", line)]
    at = next(number for number, line in enumerate(lines) if line.startswith(f"[{section}]"))
    lines.insert(at + 1, f"{name} = {value}")
    text = "\n".join(lines)
    assert outcome(text) in ("order", "told")


@given(st.data())
@QUIET
def test_a_sound_order_with_letters_lost_or_changed_is_an_order_or_told(data):
    letters = list(TEMPLATE)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(letters) - 1))
        letters[at] = data.draw(
            st.sampled_from(["", "\n", '"', "[", "]", "=", "{", "}", "#", ".", "'", "\\", "9"])
        )
    assert outcome("".join(letters)) in ("order", "told")


@given(st.integers(0, len(TEMPLATE)))
@QUIET
def test_an_order_torn_off_anywhere_is_an_order_or_told(end):
    assert outcome(TEMPLATE[:end]) in ("order", "told")
