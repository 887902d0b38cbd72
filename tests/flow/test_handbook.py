"""Every rule that a design is held against has its page in the handbook; the map shows the house as it is."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "panewright"
HANDBOOK = ROOT / "docs" / "handbook"
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
NAMED_BY = {"Check", "_check", "_least_check", "unproved", "_hole_check"}  #: first takes a rule's name
ROW = re.compile(r"^\| `(?P<rule>[^`]+)` \|[^|]*\| \[[^\]]+\]\((?P<page>[^)]+)\) \|$", re.MULTILINE)


def rows() -> dict[str, str]:
    """The index's table: each rule with its page; an ellipsis stands for any words."""
    found = {row["rule"]: row["page"] for row in ROW.finditer((HANDBOOK / "index.md").read_text("utf-8"))}
    assert len(found) > 50
    return found


def pattern(rule: str) -> re.Pattern[str]:
    return re.compile(".+".join(re.escape(part) for part in rule.split("…")))


def listed(rule: str) -> bool:
    return any(pattern(row).fullmatch(rule) for row in rows())


def rules_in_source() -> Iterator[str]:
    """Every name of a rule that stands in the code, an ellipsis where a name is put in."""
    for file in sorted(SOURCE.rglob("*.py")):
        text = file.read_text("utf-8")
        if "from panewright.check import" in text:
            for node in ast.walk(ast.parse(text)):
                yield from _named(node)


def _named(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NAMED_BY:
        yield from (_words(word.value) for word in node.keywords if word.arg == "rule")
        yield from (_words(word) for word in node.args[:1] if not isinstance(word, ast.Name))
    if isinstance(node, ast.Assign) and [ast.unparse(target) for target in node.targets] == ["rule"]:
        yield _words(node.value)


def _words(node: ast.expr) -> str:
    """The words of a text in the code, with an ellipsis for each thing put in."""
    parts = node.values if isinstance(node, ast.JoinedStr) else [node]
    return "".join(str(part.value) if isinstance(part, ast.Constant) else "…" for part in parts)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_rule_of_an_example_has_its_page(path):
    shelf = load_shelf()
    design = design_panel(parse_bytes(path.read_bytes(), path.name, shelf), shelf)
    assert [check.rule for check in design.checks if not listed(check.rule)] == []


def test_every_rule_in_the_code_has_its_page():
    found = set(rules_in_source())
    assert len(found) > 50
    assert sorted(rule for rule in found if not listed(rule)) == []


def test_no_row_tells_of_a_rule_that_is_not_in_the_code():
    found = set(rules_in_source())
    assert [row for row in rows() if not any(pattern(row).fullmatch(rule) for rule in found)] == []


def test_every_page_that_is_linked_exists():
    for page in (*HANDBOOK.glob("*.md"), ROOT / "docs" / "map.md"):
        links = re.findall(r"\]\(([^)#:]+)[^)]*\)", page.read_text("utf-8"))
        assert [link for link in links if not (page.parent / link).is_file()] == [], page.name


def test_every_page_is_in_the_index():
    index = (HANDBOOK / "index.md").read_text("utf-8")
    pages = {page.name for page in HANDBOOK.glob("*.md")} - {"index.md"}
    assert sorted(page for page in pages if f"\n- [{page.removesuffix('.md')}]({page})" not in index) == []


def test_the_map_has_every_room_and_no_other():
    rooms = {place.name for place in SOURCE.iterdir() if (place / "__init__.py").is_file()}
    text = (ROOT / "docs" / "map.md").read_text("utf-8")
    told = re.findall(r"^\| `(\w+)/` \|.*\|.*\|$", text, re.MULTILINE)
    assert sorted(told) == sorted(rooms)


def test_every_file_that_the_map_names_exists():
    text = (ROOT / "docs" / "map.md").read_text("utf-8")
    files = set(re.findall(r"`([\w./-]+\.(?:py|toml|md|typ))`", text))
    assert len(files) > 60
    assert sorted(f for f in files if not ((SOURCE / f).is_file() or (ROOT / f).is_file())) == []


def test_the_map_asks_each_question_once():
    asked = re.findall(r"^\| ([^|]+\?) \|", (ROOT / "docs" / "map.md").read_text("utf-8"), re.MULTILINE)
    assert len(asked) > 100
    assert sorted(asked) == sorted(set(asked))
