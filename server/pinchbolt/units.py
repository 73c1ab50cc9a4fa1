"""Units at the edge: any unit in, base units inside.

Inputs of a calculation come as plain JSON. A number is in the declared base unit; a text may carry a unit of the same
dimension ("44 lbf·in", "16,1 in", "1 1/8 in", "210 ± 0.5 mm"); an object `{"value", "plus_minus"}` may hold either. What comes
out is what `Calculation.run` takes. The phone converts with a table made here (`python -m pinchbolt.units`), so both sides use
the same factors.
"""

import json
import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, NamedTuple

import pint

from pinchbolt.kernel.errors import InputError, problem
from pinchbolt.kernel.plain import is_mapping, listing, mapping
from pinchbolt.kernel.quantities import NUMBER, NUMBERS, ROWS, WHOLE, Quantity

# How the trade writes a unit, where that differs from what pint reads. Pounds and ounces are masses, except beside a length
# ("lb·ft"), where the trade means the force.
_SPELLED = {
    "": "dimensionless",
    "°": "degree",
    "deg": "degree",
    "°C": "degC",
    "℃": "degC",
    "°F": "degF",
    "℉": "degF",
    "%": "percent",
    '"': "inch",
    "″": "inch",
    "Nm": "newton*meter",
    "lb·ft": "lbf*foot",
    "ft·lb": "lbf*foot",
    "ft·lbf": "lbf*foot",
    "lb·in": "lbf*inch",
    "in·lb": "lbf*inch",
    "in·lbf": "lbf*inch",
    "lbs": "pound",
    "fl oz": "fluid_ounce",
    "fl·oz": "fluid_ounce",
    "cc": "milliliter",
    "kph": "km/hour",
    "km/h": "km/hour",
    "turns": "turn",
    # Counts: nothing but a bare number or the same word.
    "tooth": "dimensionless",
    "teeth": "dimensionless",
    "pitch": "dimensionless",
    "pitches": "dimensionless",
}

# The other units offered on the phone for each base unit.
_OFFERED: dict[str, tuple[str, ...]] = {
    "mm": ("cm", "in"),
    "m": ("ft",),
    "km": ("mi",),
    "km/h": ("mph",),
    "g": ("kg", "oz", "lb"),
    "kg": ("g", "lb"),
    "N·m": ("lbf·in", "lbf·ft"),
    "N": ("lbf", "kgf"),
    "bar": ("psi", "kPa"),
    "ml": ("fl oz",),
    "l": ("ml",),
    "°C": ("°F",),
    "MPa": ("psi",),
}

_NUMBER = r"[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?"
_MEASURE = re.compile(rf"^(?P<number>{_NUMBER})(?:[ -](?P<over>\d+)/(?P<under>\d+))?\s*(?P<unit>\D.*)?$")
_FRACTION = re.compile(r"^(?P<over>\d+)/(?P<under>\d+)\s*(?P<unit>\D.*)?$")
_SPREAD = re.compile(r"^(?P<value>.+?)\s*(?:±|\+/-|\+-)\s*(?P<spread>.+)$")
# A unit is names, products, quotients and small powers: nothing that pint would have to compute.
_UNIT = re.compile(r"^[A-Za-zµμ°℃℉%\"″²³·*/^ \-]{0,16}(?:[\^*]*-?[1-4])?(?:/[A-Za-z]{1,8}[²³]?)?$")
MOST_TEXT = 60


class Factor(NamedTuple):
    """base = given · factor + offset"""

    factor: float
    offset: float


class _Exact(NamedTuple):
    """The same as fractions, so that a conversion is rounded once, at its end."""

    factor: Fraction
    offset: Fraction


class _NoUnit(Exception):
    """The text names no unit known here."""


class _OtherDimension(Exception):
    """The unit is known and measures something else."""


@cache
def _registry() -> Any:
    # pint's types know of floats only; with fractions its definitions, which are decimal texts, stay exact.
    make: Any = pint.UnitRegistry
    return make(non_int_type=Fraction)


def _pint_name(unit: str) -> str:
    text = re.sub(r"\s+", " ", unit.strip())
    joined = re.sub(r"(?<=[a-z])[ \-](?=[a-z])", "·", text)
    for spelled in (text, joined):
        if spelled in _SPELLED:
            return _SPELLED[spelled]
    powers = re.sub(r"(?<=[a-z])([23])(?![0-9])", r"**\1", joined)
    return powers.replace("·", "*").replace("²", "**2").replace("³", "**3").replace("^", "**")


def factor(unit: str, base: str) -> Factor:
    """How `unit` becomes `base`.

    >>> factor("in", "mm")
    Factor(factor=25.4, offset=0.0)
    """
    exact = _factor(unit, base)
    return Factor(float(exact.factor), float(exact.offset))


@lru_cache(maxsize=1024)
def _factor(unit: str, base: str) -> _Exact:
    registry = _registry()
    # On a temperature, a bare C or F is a degree, not a coulomb or a farad.
    wanted = "°" + unit if base == "°C" and unit in ("C", "F") else unit
    # Teeth, pitches, turns: what is counted is its own unit and no other.
    if wanted == base:
        return _Exact(Fraction(1), Fraction(0))
    if not _UNIT.match(wanted):
        raise _NoUnit
    try:
        there = registry.parse_units(_pint_name(wanted))
        here = registry.parse_units(_pint_name(base))
        zero = Fraction(registry.Quantity(Fraction(0), there).to(here).magnitude)
        one = Fraction(registry.Quantity(Fraction(1), there).to(here).magnitude)
        same = registry.get_root_units(there)[1] == registry.get_root_units(here)[1]
    except pint.DimensionalityError:
        raise _OtherDimension from None
    except Exception:
        # pint raises whatever its parser stumbles over; each of them says that this is no unit.
        raise _NoUnit from None
    if not same:
        # A radian counts as a plain number to pint, but 5 % is no angle, and a hertz is no turn.
        raise _OtherDimension
    return _Exact(one - zero, zero)


def base_units(fields: Sequence[Quantity], given: object) -> object:
    """`given` with every measure in its base unit, ready for `Calculation.run`.

    Raises InputError naming each field whose unit is unknown or measures something else. What is no measure (texts, choices,
    flags, unknown fields) is left as it is: the calculation's own reading judges it.
    """
    problems: list[dict[str, str]] = []
    made = _fields(fields, given, "", problems)
    if problems:
        raise InputError(problems)
    return made


def _fields(fields: Sequence[Quantity], given: object, path: str, problems: list[dict[str, str]]) -> object:
    if not is_mapping(given):
        return given
    declared = {field.name: field for field in fields}
    made: dict[str, object] = {}
    for name, value in mapping(given).items():
        field = declared.get(name)
        made[name] = value if field is None else _value(field, value, path + name, problems)
    return made


def _value(field: Quantity, value: object, path: str, problems: list[dict[str, str]]) -> object:
    if field.kind in (NUMBER, WHOLE):
        return _measure(field, value, path, problems)
    if field.kind in (NUMBERS, ROWS) and listing(value):
        return [
            _measure(field, one, f"{path}[{i}]", problems)
            if field.kind == NUMBERS
            else _fields(field.fields, one, f"{path}[{i}].", problems)
            for i, one in enumerate(listing(value))
        ]
    return value


def _measure(field: Quantity, value: object, path: str, problems: list[dict[str, str]]) -> object:
    if is_mapping(value):
        told = mapping(value)
        if set(told) != {"value", "plus_minus"}:
            return told
        return {
            "value": _one(field, told["value"], path, problems, whole=True),
            "plus_minus": _one(field, told["plus_minus"], path + ".plus_minus", problems, whole=False),
        }
    spread = _SPREAD.match(value) if isinstance(value, str) and len(value) <= MOST_TEXT else None
    if spread is None:
        return _one(field, value, path, problems, whole=True)
    middle, around = spread["value"], spread["spread"]
    # "210 ± 0.5 mm": the unit stands once, behind both.
    read = _read(around)
    if read is not None and (bare := _read(middle)) is not None and not bare[1]:
        middle = f"{middle} {read[1]}"
    return {
        "value": _one(field, middle, path, problems, whole=True),
        "plus_minus": _one(field, around, path, problems, whole=False),
    }


def _one(field: Quantity, value: object, path: str, problems: list[dict[str, str]], *, whole: bool) -> object:
    """One measure in base units. A ± (`whole` False) is a difference: it takes the factor and not the offset."""
    if not isinstance(value, str):
        return value
    read = _read(value) if len(value) <= MOST_TEXT else None
    if read is None:
        problems.append(problem(path, value, field.wanted()))
        return None
    number, unit = read
    wanted = f"a measure in {field.unit} or a unit of the same sort" if field.unit else "a plain number"
    try:
        how = _factor(unit, field.unit) if unit else _Exact(Fraction(1), Fraction(0))
        made = number * how.factor + (how.offset if whole else 0)
        return int(made) if field.kind == WHOLE and made.denominator == 1 else float(made)
    except _NoUnit:
        problems.append(problem(path, value, f"{wanted}; {unit} is no unit known here"))
    except _OtherDimension:
        problems.append(problem(path, value, f"{wanted}; {unit} measures something else"))
    except OverflowError:
        problems.append(problem(path, value, field.wanted()))
    return None


def _read(text: str) -> tuple[Fraction, str] | None:
    """A number and the unit behind it, or None. A comma is a decimal comma; a fraction of an inch may stand as one.

    >>> _read("16,1 in"), _read("1 1/8 in"), _read("80psi"), _read("1,234.5 mm")
    ((Fraction(161, 10), 'in'), (Fraction(9, 8), 'in'), (Fraction(80, 1), 'psi'), None)
    """
    text = text.strip()
    found = _FRACTION.match(text)
    number = Fraction(0)
    if found is None:
        found = _MEASURE.match(text)
        if found is None:
            return None
        number = Fraction(found["number"].replace(",", ".").replace("−", "-"))
    if found["over"] is not None:
        if int(found["under"]) == 0:
            return None
        part = Fraction(int(found["over"]), int(found["under"]))
        number += -part if number < 0 else part
    unit = (found["unit"] or "").strip()
    # "1.234,5" or "1,234.5": whoever wrote it meant a thousand, or did not; it is not guessed.
    if unit[:1] in (".", ","):
        return None
    return (number, unit)


def phone_table() -> dict[str, list[dict[str, Any]]]:
    """For each base unit the other units on the phone: base = given · factor + offset."""
    table: dict[str, list[dict[str, Any]]] = {}
    for base, others in _OFFERED.items():
        table[base] = [{"unit": unit, **factor(unit, base)._asdict()} for unit in others]
    return table


if __name__ == "__main__":
    print(json.dumps(phone_table(), ensure_ascii=False, indent=2))
