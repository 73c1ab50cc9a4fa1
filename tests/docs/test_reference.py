"""Documents that are made from the code are as the code is, and what exists is documented."""

from pathlib import Path

from pinchbolt.kernel.bike import Bike
from pinchbolt.reference import pages

ROOT = Path(__file__).parents[2]
REFERENCE = ROOT / "docs" / "reference"


def test_the_reference_of_calculations_is_as_the_declarations_are() -> None:
    made = pages()
    committed = {p.name: p.read_text(encoding="utf-8") for p in REFERENCE.glob("*.md")}
    assert sorted(committed) == sorted(made), "run: python -m pinchbolt.reference docs/reference"
    for name, text in made.items():
        assert committed[name] == text, f"{name} is stale; run: python -m pinchbolt.reference docs/reference"


def test_every_page_has_a_source_and_a_worked_example() -> None:
    for name, text in pages().items():
        if name != "index.md":
            assert "## Source\n\n\n" not in text, name
            assert "| step | formula | numbers | result |" in text, name


def test_every_kind_of_entry_the_fold_knows_is_in_the_format() -> None:
    text = (ROOT / "docs" / "record.md").read_text(encoding="utf-8")
    kinds = set(Bike()._kinds) | {"note", "void", "start", "withdraw", "check-define"}  # pyright: ignore[reportPrivateUsage]
    assert [k for k in sorted(kinds) if f"| `{k}` |" not in text] == []
