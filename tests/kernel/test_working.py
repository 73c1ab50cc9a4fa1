"""The working is honest: whoever does the sums shown gets the results shown."""

import importlib
from pathlib import Path
from typing import Any

import pytest

from pinchbolt.kernel.catalogue import Calculation, all_calculations, find
from pinchbolt.kernel.quantities import NUMBER, WHOLE
from pinchbolt.kernel.working import put_in, shown
from tests.kernel.vectors import Vector
from tests.kernel.working_lines import Unreadable, done_again

LISTS = sorted(path.stem for path in Path(__file__).parent.glob("vectors_*.py"))
VECTORS: list[Vector] = [v for name in LISTS for v in importlib.import_module("tests.kernel." + name).VECTORS]
RUNS: list[tuple[str, dict[str, Any]]] = [(c.id, c.example) for c in all_calculations()] + [
    (v.calculation, v.inputs) for v in VECTORS if not v.refused
]


def _lines(calculation: Calculation, inputs: dict[str, Any]) -> list[dict[str, Any]]:
    lines: list[dict[str, Any]] = calculation.run(inputs)["working"]  # type: ignore[assignment]
    return lines


@pytest.mark.parametrize(("id", "inputs"), RUNS)
def test_the_numbers_shown_give_the_result_shown(id: str, inputs: dict[str, Any]) -> None:
    for line in _lines(find(id), inputs):
        if line["result"] is None:
            assert line["formula"], "a line without a result must say something"
            assert not line["numbers"]
            continue
        middle, slack = done_again(line["numbers"])
        wanted = line["result"]
        assert abs(middle - wanted) <= slack + 1e-9 * max(1.0, abs(wanted)), (
            f"{line['symbol']} = {line['formula']} = {line['numbers']} comes to {middle}, shown {wanted}"
        )


@pytest.mark.parametrize(("id", "inputs"), RUNS)
def test_every_number_that_comes_out_has_its_line(id: str, inputs: dict[str, Any]) -> None:
    calculation = find(id)
    answer = calculation.run(inputs)
    results = [(line["symbol"], line["result"]) for line in _lines(calculation, inputs)]
    for quantity in calculation.outputs:
        out: Any = answer["outputs"][quantity.name]  # type: ignore[index]
        if quantity.kind not in (NUMBER, WHOLE) or out is None:
            continue
        assert any(
            symbol == quantity.name and result is not None and abs(result - out) <= 1e-9 * max(1.0, abs(out))
            for symbol, result in results
        ), f"no line gives {quantity.name} = {out}"


def test_a_line_that_lies_is_caught() -> None:
    middle, slack = done_again("390 − 50 × cos(73) + 100 × sin(73 − (−6))")
    assert abs(middle - 473.5441331086296) <= slack
    assert abs(middle - 473.55) > slack
    with pytest.raises(Unreadable):
        done_again("stack + 20")


def test_the_notation_is_read_as_documented() -> None:
    text = "√(3^2 + 4^2) + asin(0.5) + atan(1) + max(1, 2) − min(1, 2) + abs(−3)"
    text += " + floor(1.9) + ceil(1.1) + ln(exp(1)) + 180 / π"
    middle, _ = done_again(text)
    assert middle == pytest.approx(5 + 30 + 45 + 2 - 1 + 3 + 1 + 2 + 1 + 57.29577951308232)


def test_numbers_are_shown_to_six_figures_and_never_in_a_machine_form() -> None:
    assert shown(1234.5678) == "1234.57"
    assert shown(0.000012345678) == "0.0000123457"
    assert shown(-0.25) == "−0.25"
    assert shown(0.125, 2) == "0.13"
    assert shown(-0.001, 1) == "0.0"


def test_a_name_inside_a_longer_name_is_left_alone() -> None:
    assert put_in("stem_length + length", {"length": 5.0, "stem_length": 90.0}) == "90 + 5"
