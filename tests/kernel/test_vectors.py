"""Every vector: what a source outside the project says, against what the kernel answers."""

import importlib
from pathlib import Path
from typing import Any

import pytest

from pinchbolt.kernel.catalogue import all_calculations, find
from pinchbolt.kernel.errors import InputError
from tests.kernel.vectors import Vector

LISTS = sorted(path.stem for path in Path(__file__).parent.glob("vectors_*.py"))
VECTORS: list[Vector] = [v for name in LISTS for v in importlib.import_module("tests.kernel." + name).VECTORS]


def _name(vector: Vector) -> str:
    return vector.calculation + ": " + vector.source[:60]


def same(here: Any, wanted: Any, rel: float, absolute: float) -> bool:
    """Whether `here` is what is wanted: numbers within the tolerance, the fields named in a row, lists item by item."""
    if isinstance(wanted, dict):
        return all(same(here[name], wanted[name], rel, absolute) for name in wanted)
    if isinstance(wanted, list | tuple):
        return len(here) == len(wanted) and all(same(h, w, rel, absolute) for h, w in zip(here, wanted, strict=True))
    if isinstance(wanted, bool) or wanted is None or isinstance(wanted, str):
        return bool(here == wanted) and type(here) is type(wanted)
    return here is not None and not isinstance(here, bool) and bool(abs(here - wanted) <= max(absolute, rel * abs(wanted)))


@pytest.mark.parametrize("vector", VECTORS, ids=_name)
def test_what_the_source_says(vector: Vector) -> None:
    calculation = find(vector.calculation)
    if vector.refused:
        with pytest.raises(InputError) as caught:
            calculation.run(vector.inputs)
        assert {p["field"] for p in caught.value.problems} == set(vector.refused)
        return
    answer = calculation.run(vector.inputs)
    for name, wanted in vector.expect.items():
        here = answer["outputs"][name]
        assert same(here, wanted, vector.rel, vector.absolute), f"{name}: {here!r}, the source says {wanted!r}"
    found = {(f["level"], f["field"]) for f in answer["findings"]}
    assert set(vector.findings) <= found


@pytest.mark.parametrize("vector", VECTORS, ids=_name)
def test_every_vector_names_its_source_and_checks_something(vector: Vector) -> None:
    assert vector.source.strip()
    assert vector.expect or vector.findings or vector.refused


def test_every_calculation_has_a_vector() -> None:
    have = {v.calculation for v in VECTORS}
    assert {c.id for c in all_calculations()} <= have


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_the_worked_example_of_each_calculation_runs(calculation: Any) -> None:
    answer = calculation.run(calculation.example)
    assert set(answer["outputs"]) == {q.name for q in calculation.outputs}
