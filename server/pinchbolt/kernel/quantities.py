"""Declared quantities: what goes into a calculation and what comes out, each with name, unit, ranges and help.

A declaration is the one place where a quantity is described: validation, the HTTP schema, the command line, the phone's form
and the reference page are all made from it. Numbers here are in base units; other units are converted before they come in.
"""

from .errors import problem
from .plain import is_mapping, listing, mapping
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    Range = tuple[float, float]

NUMBER = "number"
WHOLE = "whole"
FLAG = "flag"
CHOICE = "choice"
TEXT = "text"
NUMBERS = "numbers"
ROWS = "rows"

MOST_ROWS = 400
MOST_TEXT = 200

# The largest double, and so the largest that is finite (IEEE 754 binary64).
_LARGEST = 1.7976931348623157e308


class Quantity:
    """One declared input or output. Made by the functions below, never directly."""

    def __init__(self, name: str, kind: str, unit: str, label: str, help: str) -> None:
        self.name = name
        self.kind = kind
        self.unit = unit
        self.label = label
        self.help = help
        self.possible: "Range | None" = None
        self.plausible: "Range | None" = None
        self.default: object = None
        self.optional = False
        self.digits: "int | None" = None
        self.step: "float | None" = None
        self.rounds = ""
        self.choices: list[str] = []
        self.fields: "list[Quantity]" = []
        self.least = 1
        self.most = MOST_ROWS

    def describe(self) -> dict[str, object]:
        """The declaration as plain data, for forms, schemas and documents."""
        told: dict[str, object] = {
            "name": self.name,
            "kind": self.kind,
            "unit": self.unit,
            "label": self.label,
            "help": self.help,
            "optional": self.optional,
            "default": self.default,
        }
        if self.possible is not None:
            told["possible"] = list(self.possible)
        if self.plausible is not None:
            told["plausible"] = list(self.plausible)
        if self.digits is not None:
            told["digits"] = self.digits
        if self.step is not None:
            told["step"] = self.step
        if self.rounds:
            told["rounds"] = self.rounds
        if self.choices:
            told["choices"] = self.choices
        if self.kind == NUMBERS or self.kind == ROWS:
            told["least"] = self.least
            told["most"] = self.most
        if self.fields:
            told["fields"] = [f.describe() for f in self.fields]
        return told

    def wanted(self) -> str:
        """What a value must be, in words, for an error."""
        unit = " " + self.unit if self.unit else ""
        if self.kind == FLAG:
            return "true or false"
        if self.kind == CHOICE:
            return "one of " + ", ".join(self.choices)
        if self.kind == TEXT:
            return "a text of 1 to " + str(MOST_TEXT) + " characters"
        many = "a list of " + str(self.least) + " to " + str(self.most)
        if self.kind == ROWS:
            return many + " rows"
        noun = "whole number" if self.kind == WHOLE else "number"
        span = ""
        if self.possible is not None:
            span = " from " + shown(self.possible[0]) + " to " + shown(self.possible[1])
        if self.kind == NUMBERS:
            return many + " " + noun + "s" + span + unit
        return "a " + noun + span + unit

    def is_usual(self, value: object) -> bool:
        """Whether `value` is a plain number of which nothing is to be said: most are, and they are read without more ado."""
        if value is True or value is False or not isinstance(value, int if self.kind == WHOLE else (int, float)):
            return False
        if self.possible is not None and not self.possible[0] <= value <= self.possible[1]:
            return False
        if self.plausible is not None:
            return self.plausible[0] <= value <= self.plausible[1]
        return -_LARGEST <= value <= _LARGEST

    def read(self, value: object, path: str, seen: "Reading") -> object:
        """`value` checked; problems and implausible values go to `seen`."""
        if self.kind == NUMBER or self.kind == WHOLE:
            return self._read_number(value, path, seen)
        if self.kind == NUMBERS or self.kind == ROWS:
            return self._read_list(value, path, seen)
        if self.kind == FLAG:
            good = value is True or value is False
        elif self.kind == CHOICE:
            good = isinstance(value, str) and value in self.choices
        else:
            good = isinstance(value, str) and 0 < len(value) <= MOST_TEXT
        if not good:
            seen.problems.append(problem(path, value, self.wanted()))
            return None
        return value

    def _read_number(self, value: object, path: str, seen: "Reading") -> "float | int | None":
        if is_mapping(value):
            value = self._read_spread(mapping(value), path, seen)
            if value is None:
                return None
        number = finite(value)
        if number is None or (self.kind == WHOLE and number != int(number)):
            seen.problems.append(problem(path, value, self.wanted()))
            return None
        if self.possible is not None and not self.possible[0] <= number <= self.possible[1]:
            seen.problems.append(problem(path, shown(number), self.wanted()))
            return None
        if self.plausible is not None and not self.plausible[0] <= number <= self.plausible[1]:
            low, high = shown(self.plausible[0]), shown(self.plausible[1])
            unit = " " + self.unit if self.unit else ""
            seen.unusual.append((path, self.label + " is usually " + low + " to " + high + unit + ": measure it again."))
        return int(number) if self.kind == WHOLE else number

    def _read_spread(self, value: "dict[str, object]", path: str, seen: "Reading") -> object:
        """A value given with its ±: `{"value": 210, "plus_minus": 0.5}`."""
        spread = finite(value.get("plus_minus"))
        if len(value) != 2 or value.get("value") is None or spread is None or spread < 0 or self.kind != NUMBER:
            seen.problems.append(problem(path, value, self.wanted() + ", or {value, plus_minus}"))
            return None
        if spread > 0:
            seen.spreads.append((path, spread))
        return value["value"]

    def _read_list(self, value: object, path: str, seen: "Reading") -> "list[object] | None":
        listed = listing(value)
        if not isinstance(value, list) or not self.least <= len(listed) <= self.most:
            given = "a list of " + str(len(listed)) if isinstance(value, list) else value
            seen.problems.append(problem(path, given, self.wanted()))
            return None
        items: list[object] = []
        for i, item in enumerate(listed):
            if self.kind == NUMBERS and self.is_usual(item):
                items.append(float(item))
                continue
            at = path + "[" + str(i) + "]"
            if self.kind == NUMBERS:
                items.append(self._read_number(item, at, seen))
            elif is_mapping(item):
                items.append(read_fields(self.fields, mapping(item), seen, at + "."))
            else:
                seen.problems.append(problem(at, item, "a row with " + ", ".join([f.name for f in self.fields])))
        return items


class Reading:
    """What reading a set of inputs brought to light."""

    def __init__(self) -> None:
        self.problems: list[dict[str, str]] = []
        self.unusual: list[tuple[str, str]] = []
        self.spreads: list[tuple[str, float]] = []


def finite(value: object) -> "float | None":
    """`value` as a float when it is a finite number (a flag is not a number), else None."""
    if value is True or value is False or not isinstance(value, (int, float)):
        return None
    try:
        number = float(value)
    except OverflowError:
        return None
    # Neither of the infinities, nor what is no number, lies between the two.
    return number if -_LARGEST <= number <= _LARGEST else None


def read_fields(fields: list[Quantity], given: "dict[str, object]", seen: Reading, path: str = "") -> dict[str, object]:
    """All `fields` out of `given`; what is missing takes its default, what is unknown is a problem."""
    values: dict[str, object] = {}
    taken = 0
    for field in fields:
        name, kind = field.name, field.kind
        value = given.get(name)
        if value is None:
            if field.default is None and not field.optional:
                seen.problems.append(problem(path + name, "nothing", field.wanted()))
            values[name] = field.default
            if name in given:
                taken += 1
            continue
        taken += 1
        if kind == NUMBER and field.is_usual(value):
            values[name] = float(value)  # pyright: ignore[reportArgumentType] - a number, as asked
        elif kind == WHOLE and field.is_usual(value):
            values[name] = value
        elif kind == TEXT and isinstance(value, str) and 0 < len(value) <= MOST_TEXT:
            values[name] = value
        else:
            values[name] = field.read(value, path + name, seen)
    if taken == len(given):
        return values
    for name in sorted([name for name in given if name not in values]):
        known = ", ".join([field.name for field in fields])
        seen.problems.append(problem(path + name, given[name], "one of the fields " + known))
    return values


def number(
    name: str,
    unit: str,
    label: str,
    *,
    possible: "Range | None" = None,
    plausible: "Range | None" = None,
    default: "float | None" = None,
    optional: bool = False,
    digits: "int | None" = None,
    step: "float | None" = None,
    rounds: str = "",
    help: str = "",
) -> Quantity:
    """A number in base unit `unit`. Outside `possible` it is refused, outside `plausible` it is questioned.

    `digits` are the decimals worth showing (no more than the tool can measure), `step` one touch of a stepper. `rounds` is
    `up` or `down` when what is shown must never be rounded the other way: a length to cut at.
    """
    q = Quantity(name, NUMBER, unit, label, help)
    q.possible, q.plausible, q.default, q.optional = possible, plausible, default, optional
    q.digits, q.step, q.rounds = digits, step, rounds
    return q


def whole(
    name: str,
    label: str,
    *,
    unit: str = "",
    possible: "Range | None" = None,
    plausible: "Range | None" = None,
    default: "int | None" = None,
    optional: bool = False,
    help: str = "",
) -> Quantity:
    """A whole number: teeth, pitches, pieces."""
    q = Quantity(name, WHOLE, unit, label, help)
    q.possible, q.plausible, q.default, q.optional = possible, plausible, default, optional
    q.digits, q.step = 0, 1
    return q


def flag(name: str, label: str, *, default: "bool | None" = None, optional: bool = False, help: str = "") -> Quantity:
    """Yes or no."""
    q = Quantity(name, FLAG, "", label, help)
    q.default, q.optional = default, optional
    return q


def choice(
    name: str, label: str, choices: list[str], *, default: "str | None" = None, optional: bool = False, help: str = ""
) -> Quantity:
    """One of a few words."""
    q = Quantity(name, CHOICE, "", label, help)
    q.choices, q.default, q.optional = choices, default, optional
    return q


def text(name: str, label: str, *, default: "str | None" = None, optional: bool = False, help: str = "") -> Quantity:
    """A short text: a name, a slot."""
    q = Quantity(name, TEXT, "", label, help)
    q.default, q.optional = default, optional
    return q


def numbers(
    name: str,
    unit: str,
    label: str,
    *,
    possible: "Range | None" = None,
    plausible: "Range | None" = None,
    default: "list[float] | None" = None,
    optional: bool = False,
    digits: "int | None" = None,
    least: int = 1,
    most: int = MOST_ROWS,
    help: str = "",
) -> Quantity:
    """A list of numbers of one unit."""
    q = Quantity(name, NUMBERS, unit, label, help)
    q.possible, q.plausible, q.default, q.optional = possible, plausible, default, optional
    q.digits, q.least, q.most = digits, least, most
    return q


def rows(
    name: str,
    label: str,
    fields: list[Quantity],
    *,
    optional: bool = False,
    least: int = 1,
    most: int = MOST_ROWS,
    help: str = "",
) -> Quantity:
    """A list of rows, each with the same fields."""
    q = Quantity(name, ROWS, "", label, help)
    q.fields, q.optional, q.least, q.most = fields, optional, least, most
    return q
