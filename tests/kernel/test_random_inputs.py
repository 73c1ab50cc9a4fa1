"""Whatever is put in, a calculation either answers with finite numbers or names the fields it cannot take."""

import json
import math
import random
from typing import Any

import pytest

from pinchbolt.kernel.catalogue import Calculation, all_calculations
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.quantities import CHOICE, FLAG, NUMBER, NUMBERS, ROWS, TEXT, WHOLE, Quantity
from tests.kernel.random_inputs import JUNK, fields

TRIES = 1000


def _as_declared(field: Quantity, value: Any, path: str) -> None:
    """`value` is of the kind that the output's declaration promises to forms, schemas and the phone."""
    if value is None:
        assert field.optional, f"{path} is empty but not declared optional"
    elif field.kind in (NUMBER, WHOLE):
        assert isinstance(value, int | float), path
        assert not isinstance(value, bool), path
        assert math.isfinite(value), path
        assert field.kind == NUMBER or value == int(value), path
    elif field.kind == FLAG:
        assert isinstance(value, bool), path
    elif field.kind == CHOICE:
        assert value in field.choices, path
    elif field.kind == TEXT:
        assert isinstance(value, str), path
    elif field.kind == NUMBERS:
        assert all(math.isfinite(item) for item in value), path
    elif field.kind == ROWS:
        for i, row in enumerate(value):
            assert set(row) == {f.name for f in field.fields}, path
            for inner in field.fields:
                _as_declared(inner, row[inner.name], f"{path}[{i}].{inner.name}")


def _try(calculation: Calculation, given: Any) -> bool:
    """Whether it was taken; fails on anything but an answer as declared or an InputError that names fields."""
    refused: InputError | None = None
    answer: dict[str, Any] = {}
    try:
        answer = calculation.run(given)
    except InputError as error:
        refused = error
    if refused is not None:
        assert refused.problems
        assert all(p["field"] and p["wanted"] and len(p["given"]) <= 80 for p in refused.problems)
        return False
    json.dumps(answer, allow_nan=False)
    outputs: Any = answer["outputs"]
    for field in calculation.outputs:
        _as_declared(field, outputs[field.name], field.name)
    known = {field.name for field in calculation.inputs}
    findings: Any = answer["findings"]
    for finding in findings:
        assert finding["level"] in ("fine", "care", "stop")
        assert finding["field"].split("[")[0] in known, f"{finding['field']} is not a field of the form"
        assert finding["text"]
    return True


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_a_thousand_random_inputs_are_answered_or_refused(calculation: Calculation) -> None:
    hat = random.Random(calculation.id)
    taken = sum(_try(calculation, fields(calculation.inputs, hat, bad=0.0 if turn % 2 else 0.15)) for turn in range(TRIES))
    assert taken >= TRIES // 100, "so few were taken that nothing was tried"


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_junk_in_place_of_the_inputs_is_refused(calculation: Calculation) -> None:
    for junk in JUNK:
        if junk != {}:
            assert not _try(calculation, junk)


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_each_needed_field_left_out_is_named(calculation: Calculation) -> None:
    for field in calculation.inputs:
        if field.optional or field.default is not None:
            continue
        with pytest.raises(InputError) as caught:
            calculation.run({name: value for name, value in calculation.example.items() if name != field.name})
        assert [p["field"] for p in caught.value.problems] == [field.name]


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_a_number_that_is_none_is_refused_by_name(calculation: Calculation) -> None:
    for field in calculation.inputs:
        if field.kind not in (NUMBER, WHOLE):
            continue
        for bad in (float("nan"), float("inf"), "wide", True, 10**400):
            with pytest.raises(InputError) as caught:
                calculation.run({**calculation.example, field.name: bad})
            assert [p["field"] for p in caught.value.problems] == [field.name]
