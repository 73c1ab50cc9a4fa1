"""Inputs out of a hat: right ones, odd ones, and what a broken form or a hostile hand might send."""

import random
from typing import Any

from pinchbolt.kernel.quantities import CHOICE, FLAG, NUMBER, NUMBERS, ROWS, TEXT, WHOLE, Quantity

JUNK: list[Any] = [
    None,
    "",
    "abc",
    "12",
    "x" * 5000,
    True,
    False,
    [],
    {},
    [[]],
    [None],
    {"value": 1},
    {"value": None, "plus_minus": 1},
    {"value": 1, "plus_minus": -1},
    float("nan"),
    float("inf"),
    float("-inf"),
    1e308,
    -1e308,
    5e-324,
    10**400,
    -1,
    0,
    0.5,
]


def good(field: Quantity, hat: random.Random) -> Any:
    """A value inside the possible range, now and then at its ends."""
    if field.kind == FLAG:
        return hat.random() < 0.5
    if field.kind == CHOICE:
        return hat.choice(field.choices)
    if field.kind == TEXT:
        return hat.choice(["bar", "stem", "front wheel", "a" * 200, "Größe 3"])
    if field.kind in (NUMBERS, ROWS):
        count = min(field.most, max(field.least, hat.choice([field.least, 1, 2, 3, 5])))
        if field.kind == ROWS:
            return [fields(field.fields, hat) for _ in range(count)]
        values = [_number(field, hat) for _ in range(count)]
        # Teeth come in a list of numbers too.
        return [float(round(v)) for v in values] if field.digits == 0 and hat.random() < 0.5 else values
    value = _number(field, hat)
    if field.kind == WHOLE:
        return round(value)
    if hat.random() < 0.03:
        return {"value": value, "plus_minus": hat.choice([0, 0.001, 0.5, 10.0])}
    return value


def _number(field: Quantity, hat: random.Random) -> float:
    low, high = field.possible or (-1000.0, 1000.0)
    if field.plausible is not None and hat.random() < 0.6:
        low, high = field.plausible
    return hat.choice([low, high, float(round(hat.uniform(low, high))), *[hat.uniform(low, high)] * 7]) if low < high else low


def fields(wanted: list[Quantity], hat: random.Random, bad: float = 0.0) -> dict[str, Any]:
    """A value for each field; each is junk, missing or out of range with the chance `bad`."""
    made: dict[str, Any] = {}
    for field in wanted:
        may_miss = field.optional or field.default is not None
        if hat.random() < bad:
            made[field.name] = _bad(field, hat)
        elif not may_miss or hat.random() < 0.7:
            value = good(field, hat)
            low, high = field.possible or (-1e300, 1e300)
            # A whole number between the ends of a range of fractions.
            made[field.name] = min(max(value, low), high) if field.kind == WHOLE else value
    if hat.random() < bad / 4:
        made["no_such_field"] = 1
    return made


def _bad(field: Quantity, hat: random.Random) -> Any:
    if field.kind in (NUMBER, WHOLE) and field.possible is not None and hat.random() < 0.4:
        low, high = field.possible
        return hat.choice([low - 1e-6, high + 1e-6, low - 1000, high * 10 + 1, -high, 0])
    if field.kind in (NUMBERS, ROWS) and hat.random() < 0.5:
        return hat.choice([[], [hat.choice(JUNK)], [hat.choice(JUNK)] * 3, [0] * (field.most + 1)])
    return hat.choice(JUNK)
