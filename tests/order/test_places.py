"""Lines of keys, held against what a TOML reader finds and against layouts that mislead."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from panewright.order.places import key_lines

AWKWARD = '''# head = 1
first = 1  # [not.a.table]
"quoted key" = "a # in a string"
'single' = 'it = "x"'

[site] # remark
  wind = "26 m/s"
note = """
fake = 1
[fake]
and \\""" not the end
"""
raw = \'\'\'
other_fake = 2
\'\'\'
list = [
  1, # inner = 3
  { inside = 1 },
  "]",
]
after.dotted.key = 4
[ parts . glass ]
thickness = "4 mm"
[parts]
rail = { wall = "3 mm", legs = { seat = 1, upright = [1, 2] }, end = 1 }
last = 5
[[rows]]
a = 1
[[rows]]
a = 2
'''


def test_awkward_layouts_do_not_mislead():
    assert key_lines(AWKWARD) == {
        "first": 2,
        "quoted key": 3,
        "single": 4,
        "site": 6,
        "site.wind": 7,
        "site.note": 8,
        "site.raw": 13,
        "site.list": 16,
        "site.list.inside": 18,
        "site.after": 21,
        "site.after.dotted": 21,
        "site.after.dotted.key": 21,
        "parts": 22,
        "parts.glass": 22,
        "parts.glass.thickness": 23,
        "parts.rail": 25,
        "parts.rail.wall": 25,
        "parts.rail.legs": 25,
        "parts.rail.legs.seat": 25,
        "parts.rail.legs.upright": 25,
        "parts.rail.end": 25,
        "parts.last": 26,
        "rows": 27,
        "rows.a": 28,
    }


def dotted_keys(table: dict, prefix: str = "") -> set[str]:
    """Every key of nested tables, as the standard reader finds them."""
    keys = set()
    for name, value in table.items():
        keys.add(prefix + name)
        inner = value if isinstance(value, list) else [value]
        for item in inner:
            if isinstance(item, dict):
                keys |= dotted_keys(item, f"{prefix}{name}.")
    return keys


def test_every_key_that_toml_finds_has_a_line_and_no_other():
    assert set(key_lines(AWKWARD)) == dotted_keys(tomllib.loads(AWKWARD))


names = st.sampled_from(["a", "b", "wind", "glass", "'q k'"])
scalars = st.sampled_from(
    ["1", '"x = 1"', "'[t]'", '"""\nc = 1\n"""', "'''\n# [\n'''", "[1, 2]", "[\n1,\n]", "2024-05-01"]
)
inner = st.dictionaries(names, scalars.filter(lambda v: "\n" not in v), max_size=3)
inline = inner.map(lambda d: "{" + ", ".join(f"{k} = {v}" for k, v in d.items()) + "}")
sections = st.dictionaries(names, st.dictionaries(names, scalars | inline, max_size=4), max_size=4)
remarks = st.sampled_from(["", " # x = 1", "  # [no]", ' # "'])


@given(sections, remarks)
def test_lines_are_those_on_which_the_keys_were_written(tables, remark):
    lines, expected = [], {}
    for table, keys in tables.items():
        lines.append(f"[{table}]{remark}")
        expected[table.strip("'")] = "\n".join(lines).count("\n") + 1
        for key, value in keys.items():
            at = "\n".join([*lines, ""]).count("\n") + 1
            expected[f"{table}.{key}".replace("'", "")] = at
            lines.append(f"{key} = {value}{remark}")
    found = key_lines("\n".join(lines))
    assert {key: line for key, line in found.items() if key in expected} == expected


@given(st.text(alphabet="ab=.[]{}\"'#\n ,\\", max_size=80))
def test_no_text_stops_the_scan(text):
    last = text.count("\n") + 1
    assert all(1 <= line <= last for line in key_lines(text).values())
