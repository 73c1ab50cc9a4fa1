"""Each failure mode of docs/reliability.md is shown by tests that exist."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROW = re.compile(r"^\| (\d+) \| (.+?) \| (.+?) \| (.+?) \|$", re.MULTILINE)
TEST = re.compile(r"`(tests/[\w/]+\.py)::(\w+)`")
ROWS = ROW.findall((ROOT / "docs" / "reliability.md").read_text(encoding="utf-8"))


def names_in(file: Path) -> set[str]:
    """The tests of a module: functions, and names given a value (a state machine's case)."""
    found: set[str] = set()
    for node in ast.parse(file.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
        elif isinstance(node, ast.Assign):
            found |= {target.id for target in node.targets if isinstance(target, ast.Name)}
    return found


def test_the_twenty_failure_modes_are_all_there() -> None:
    assert [int(row[0]) for row in ROWS] == list(range(1, 21))


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_a_row_is_shown_by_tests_that_exist(row: tuple[str, str, str, str]) -> None:
    tests = TEST.findall(row[3])
    assert tests, "no test is named"
    assert TEST.sub("", row[3]).strip() == "", "what stands beside the tests is none"
    for path, name in tests:
        assert name.startswith(("test_", "Test")), name
        assert (ROOT / path).is_file(), path
        assert name in names_in(ROOT / path), f"{path} has no {name}"
