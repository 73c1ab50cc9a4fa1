"""Every calculation can be filled in with its own units written out, and says the same."""

from typing import Any

import pytest

from pinchbolt.kernel.catalogue import Calculation, all_calculations
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.quantities import NUMBER, WHOLE, Quantity
from pinchbolt.units import base_units


def _written(field: Quantity, value: Any) -> Any:
    return f"{value} {field.unit}" if field.kind in (NUMBER, WHOLE) and field.unit and value is not None else value


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_the_example_with_its_units_written_out_gives_the_same_answer(calculation: Calculation) -> None:
    written = {field.name: _written(field, calculation.example.get(field.name, field.default)) for field in calculation.inputs}
    assert calculation.run(base_units(calculation.inputs, written)) == calculation.run(calculation.example)


@pytest.mark.parametrize("calculation", all_calculations(), ids=lambda c: c.id)
def test_a_measure_of_another_kind_is_refused_by_name(calculation: Calculation) -> None:
    for field in calculation.inputs:
        if field.kind not in (NUMBER, WHOLE):
            continue
        other = "3 mm" if field.unit in ("bar", "MPa") else "3 bar"
        with pytest.raises(InputError) as caught:
            base_units(calculation.inputs, {field.name: other})
        assert [p["field"] for p in caught.value.problems] == [field.name]
