"""Texts inside an entry: Unicode NFC, no control characters but the line feed; and nesting kept shallow."""

import unicodedata
from collections.abc import Iterator
from typing import Any

from pinchbolt.entries.envelope import Problem
from pinchbolt.kernel.errors import problem

DEEPEST = 12


def is_plain(raw: bytes) -> bool:
    """Whether the bytes of sound JSON are ASCII without escapes or DEL: then their texts need no look, and most need none.

    (Control characters that are not escaped are no sound JSON inside a text.)
    """
    return raw.isascii() and b"\\" not in raw and b"\x7f" not in raw


def text_problems(value: Any) -> list[Problem]:
    """What is wrong with the texts in `value`, a parsed entry."""
    return list(_look(value, "", 0))


def _look(value: Any, path: str, depth: int) -> Iterator[Problem]:
    if isinstance(value, str):
        yield from _text(value, path)
    elif depth > DEEPEST:
        yield problem(path, "deeper nesting", f"at most {DEEPEST} levels")
    elif isinstance(value, dict):
        for key, one in value.items():  # pyright: ignore[reportUnknownVariableType]
            name = str(key)  # pyright: ignore[reportUnknownArgumentType]
            yield from _text(name, path or "entry")
            yield from _look(one, f"{path}.{name}" if path else name, depth + 1)
    elif isinstance(value, list):
        for i, one in enumerate(value):  # pyright: ignore[reportUnknownVariableType, reportUnknownArgumentType]
            yield from _look(one, f"{path}[{i}]", depth + 1)


def _text(text: str, path: str) -> Iterator[Problem]:
    if any(unicodedata.category(c) in ("Cc", "Cs") and c != "\n" for c in text):
        yield problem(path, ascii(text), "text without control characters")
    elif not unicodedata.is_normalized("NFC", text):
        yield problem(path, ascii(text), "text in Unicode NFC")
