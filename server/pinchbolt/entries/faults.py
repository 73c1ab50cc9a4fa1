"""What msgspec says of a bad entry, told as field, given and wanted."""

import re
from typing import Any

import msgspec

from pinchbolt.entries.envelope import Problem
from pinchbolt.kernel.errors import problem

_AT = re.compile(r"^(?P<what>.*?)(?: - at `(?P<key>key in )?\$(?P<path>.*)`)?$", re.DOTALL)
_FIELD = re.compile(r"Object (?:missing required|contains unknown) field `(?P<name>.*)`")
_STEP = re.compile(r"\.([^.\[]+)|\[(\d+)\]")

# What a pattern stands for, said in words.
_NAMED = {
    "-7[0-9a-f]{3}": "a UUIDv7 in lower case",
    "workshop|": "bike/UUID, event/UUID or workshop",
    "^[0-9]{13}-": "a stamp MMMMMMMMMMMMM-CCCC-DDDDDDDD",
    "{64}": "64 hex digits",
    r"T(?:": "a time such as 2026-05-03T09:15:00.000Z",
    "^[0-9]{4}-": "a date such as 2026-05-03",
    "^image/": "an image type such as image/jpeg",
    "[0-9a-f]{8}-": "a UUID in lower case",
}


def told(error: Exception, raw: bytes, prefix: str = "") -> Problem:
    """The problem behind `error`, which msgspec raised on `raw`; `prefix` is where `raw` stands in the entry."""
    found = _AT.match(str(error))
    what = found["what"] if found else str(error)
    path = (found["path"] or "").lstrip(".") if found else ""
    named = _FIELD.match(what)
    if named:
        path = f"{path}.{named['name']}" if path else named["name"]
        if "missing" in what:
            return problem(_join(prefix, path), "nothing", "this field")
        return problem(_join(prefix, path), _given(raw, path), "no field of this name")
    return problem(_join(prefix, path), _given(raw, path), _wanted(what))


def _join(prefix: str, path: str) -> str:
    if prefix and path:
        return f"{prefix}.{path}"
    return prefix or path or "entry"


# The decoder's names of types, for people.
_TYPES = {
    "float": "a number",
    "int": "a whole number",
    "str": "a text",
    "bool": "true or false",
    "array": "a list",
    "object": "an object",
    "null": "nothing",
}
_TYPE = re.compile(r"`((?:\w+ \| )*\w+)`")


def expected(said: str) -> str:
    """What the decoder expected ("Expected `int`, got `str`"), in words: "a whole number"."""
    told = said.removeprefix("Expected ").split(", got ", maxsplit=1)[0]
    return _TYPE.sub(lambda one: " or ".join(_TYPES.get(name, name) for name in one[1].split(" | ")), told).replace("`", "")


def _wanted(what: str) -> str:
    if "matching regex" in what:
        for mark, words in _NAMED.items():
            if mark in what:
                return words
    if what.startswith("Expected "):
        return expected(what)
    if "out of range" in what:
        return "a finite number"
    if what.startswith("Invalid enum value"):
        return "one of the words named in docs/record.md"
    return "well-formed JSON"


def _given(raw: bytes, path: str) -> object:
    """What stands at `path`. JSON that cannot be read is shown as it is."""
    try:
        value: Any = msgspec.json.decode(raw)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return raw[:80].decode("utf-8", "replace")
    for name, index in _STEP.findall("." + path):
        if name and isinstance(value, dict):
            value = value.get(name)  # pyright: ignore[reportUnknownMemberType, reportUnknownVariableType]
        elif index and isinstance(value, list) and int(index) < len(value):  # pyright: ignore[reportUnknownArgumentType]
            value = value[int(index)]  # pyright: ignore[reportUnknownVariableType]
        else:
            break
    return "nothing" if value is None else value  # pyright: ignore[reportUnknownVariableType]
