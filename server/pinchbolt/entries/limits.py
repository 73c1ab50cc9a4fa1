"""How long texts and lists in an entry may be, how low numbers go and which are whole: a table for the phone, which says so.

`python -m pinchbolt.entries.limits > pwa/src/limits.json` makes the phone's copy.
"""

import json
from typing import Any

from msgspec import inspect

from pinchbolt.entries.bodies import BODIES, DescribeEvent
from pinchbolt.entries.envelope import MOST_ENTRY_BYTES
from pinchbolt.entries.fields import Name, Words

Limits = dict[str, dict[str, int | float | bool]]


def phone_table() -> dict[str, Any]:
    """`{"entry", "name", "words", "kinds": {kind: {path: {"least", "most", "lowest", "whole"}}}}`.

    `entry` counts bytes; `name` and `words` the characters of a single line and of running text. A path goes through lists by
    `[]` (`answers[].note`). `least` and `most` count characters or items, `lowest` is the smallest number, `whole` says
    that it has nothing behind its decimal mark.
    """
    kinds = {kind: _limits(body) for kind, body in BODIES.items()}
    kinds["describe"] = {**_limits(DescribeEvent), **kinds["describe"]}
    return {
        "entry": MOST_ENTRY_BYTES,
        "name": _most(Name),
        "words": _most(Words),
        "kinds": {k: v for k, v in kinds.items() if v},
    }


def _most(text: Any) -> int:
    made = inspect.type_info(text)
    if not isinstance(made, inspect.StrType) or made.max_length is None:
        raise TypeError(f"{text} is no text with a limit")
    return made.max_length


def _limits(body: type) -> Limits:
    found: Limits = {}
    _walk(inspect.type_info(body), "", found)
    return found


def _walk(told: inspect.Type, path: str, found: Limits) -> None:
    if isinstance(told, inspect.UnionType):
        for one in told.types:
            _walk(one, path, found)
    elif isinstance(told, inspect.StructType):
        for field in told.fields:
            _walk(field.type, f"{path}.{field.encode_name}" if path else field.encode_name, found)
    elif isinstance(told, inspect.StrType) and told.pattern is None:
        _put(found, path, least=told.min_length, most=told.max_length)
    elif isinstance(told, inspect.ListType):
        _put(found, path, least=told.min_length, most=told.max_length)
        _walk(told.item_type, path + "[]", found)
    elif isinstance(told, inspect.DictType):
        _put(found, path, least=told.min_length, most=told.max_length)
    elif isinstance(told, inspect.FloatType):
        _put(found, path, lowest=told.ge)
    elif isinstance(told, inspect.IntType):
        _put(found, path, lowest=told.ge, whole=True)


def _put(found: Limits, path: str, **limits: int | float | None) -> None:
    given = {name: value for name, value in limits.items() if value is not None}
    if given:
        found[path] = given


if __name__ == "__main__":
    print(json.dumps(phone_table(), indent=2))
