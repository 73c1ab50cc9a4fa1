"""Units at the edge. Factors are those of NIST SP 811 (2008), Appendix B (from memory), and of scipy.constants."""

import json
import math
import subprocess
import sys
from typing import Any

import pytest
import scipy.constants as sc

from pinchbolt import units
from pinchbolt.kernel import quantities as q
from pinchbolt.kernel.catalogue import all_calculations
from pinchbolt.kernel.errors import InputError

# unit, base, NIST SP 811 App. B (exact ones in full, others derived from the exact definitions), scipy's own
FACTORS = [
    ("in", "mm", 25.4, sc.inch * 1e3),
    ("ft", "m", 0.3048, sc.foot),
    ("mi", "km", 1.609344, sc.mile / 1e3),
    ("mph", "km/h", 1.609344, sc.mph * 3.6),
    ("lb", "kg", 0.45359237, sc.lb),
    ("lb", "g", 453.59237, sc.lb * 1e3),
    ("oz", "g", 28.349523125, sc.oz * 1e3),
    ("lbf", "N", 4.4482216152605, sc.lbf),
    ("kgf", "N", 9.80665, sc.kgf),
    ("lbf·in", "N·m", 0.1129848290276167, sc.lbf * sc.inch),
    ("lbf·ft", "N·m", 1.3558179483314004, sc.lbf * sc.foot),
    ("psi", "bar", 0.06894757293168361, sc.psi / sc.bar),
    ("psi", "MPa", 0.006894757293168361, sc.psi / 1e6),
    ("kPa", "bar", 0.01, 1e3 / sc.bar),
    ("atm", "bar", 1.01325, sc.atm / sc.bar),
    ("fl oz", "ml", 29.5735295625, sc.fluid_ounce * 1e6),
    ("hp", "W", 745.69987158227022, sc.hp),
    ("rad", "°", 57.29577951308232, 1 / sc.degree),
]


@pytest.mark.parametrize(("unit", "base", "nist", "scipy"), FACTORS, ids=[f"{u} in {b}" for u, b, _, _ in FACTORS])
def test_factors_are_the_standard_s(unit: str, base: str, nist: float, scipy: float):
    assert units.factor(unit, base) == pytest.approx((nist, 0.0), rel=1e-15)
    assert units.factor(unit, base).factor == pytest.approx(scipy, rel=1e-12)


def test_a_newton_metre_is_not_an_inch_pound():
    # Mixed up, a bolt gets 8.85 times its torque.
    assert 1 / units.factor("lbf·in", "N·m").factor == pytest.approx(8.8507457673787)


def test_fahrenheit_has_an_offset():
    assert units.factor("°F", "°C") == pytest.approx((5 / 9, -160 / 9))
    assert convert("°C", "212 °F") == pytest.approx(100)
    assert sc.convert_temperature(68, "F", "C") == pytest.approx(convert("°C", "68 °F"))
    assert convert("°C", "20 ± 9 °F")["plus_minus"] == pytest.approx(5)


def convert(base: str, given: Any) -> Any:
    made = units.base_units([q.number("it", base, "It")], {"it": given})
    assert isinstance(made, dict)
    return made["it"]  # pyright: ignore[reportUnknownVariableType]


@pytest.mark.parametrize(
    ("base", "given", "wanted"),
    [
        ("N·m", "44 lbf·in", 44 * sc.lbf * sc.inch),
        ("N·m", "44 in-lb", 44 * sc.lbf * sc.inch),
        ("N·m", "10 ft lb", 10 * sc.lbf * sc.foot),
        ("N·m", "5 Nm", 5),
        ("N·m", "5,5 N·m", 5.5),
        ("mm", "16.1 in", 408.94),
        ("mm", "16,1 in", 408.94),
        ("mm", '1 1/8"', 28.575),
        ("mm", "1-1/8 in", 28.575),
        ("mm", "1/2 in", 12.7),
        ("mm", " 5mm ", 5),
        ("mm", "−3 mm", -3),
        ("mm", "12", 12),
        ("mm", 12, 12),
        ("bar", "80 psi", 80 * sc.psi / sc.bar),
        ("bar", "0.5 MPa", 5),
        ("%", "5 %", 5),
        ("°", "73.5°", 73.5),
        ("°", "73.5 deg", 73.5),
        ("kg/m³", "1.2 kg/m^3", 1.2),
        ("m²", "0.4 m2", 0.4),
        ("m/s²", "1 m/s²", 1),
        ("g/mm", "0.01 kg/m", 0.01),
        ("days", "2 weeks", 14),
        ("l", "500 ml", 0.5),
        ("", "3", 3),
    ],
)
def test_measures_as_the_trade_writes_them(base: str, given: Any, wanted: float):
    assert convert(base, given) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.parametrize(
    ("base", "given"),
    [
        ("mm", "5 bar"),
        ("N·m", "5 N"),
        ("N·m", "5 lb"),
        ("bar", "3 mm"),
        ("°C", "5 mm"),
        ("rpm", "1.5 Hz"),
        ("°", "5 %"),
        ("%", "3 °"),
        ("teeth", "3 mm"),
        ("mm", "5 blorp"),
        ("mm", "5 m m"),
        ("mm", "9**9**9 mm"),
        ("mm", "1e999999999 mm"),
        ("mm", "1.5e400 mm"),
        ("mm", "1,234.5 mm"),
        ("mm", "1/0 in"),
        ("mm", "nan"),
        ("mm", "inf mm"),
        ("mm", "mm"),
        ("mm", ""),
        ("mm", "5 " + "m" * 100),
        ("mm", "5 __import__('os')"),
        ("", "5 mm"),
    ],
)
def test_what_is_no_such_measure_names_field_given_and_wanted(base: str, given: str):
    with pytest.raises(InputError) as refused:
        convert(base, given)
    (told,) = refused.value.problems
    assert told["field"] == "it"
    assert told["given"][:20] == given[:20]
    assert base in told["wanted"] or not base


def test_plus_minus_takes_its_own_unit_or_the_common_one():
    assert convert("mm", "210 ± 0.5 mm") == {"value": 210.0, "plus_minus": 0.5}
    assert convert("mm", "8.25 in +/- 0.02 in") == pytest.approx({"value": 209.55, "plus_minus": 0.508})
    assert convert("mm", {"value": "8.25 in", "plus_minus": 0.5}) == pytest.approx({"value": 209.55, "plus_minus": 0.5})


def test_lists_and_rows_are_converted_inside():
    fields = [
        q.numbers("gaps", "mm", "Gaps"),
        q.rows("parts", "Parts", [q.number("mass", "g", "Mass"), q.text("name", "Name"), q.whole("count", "Count")]),
        q.choice("condition", "Condition", ["dry", "greased"]),
        q.flag("carbon", "Carbon"),
    ]
    row = {"mass": "1 lb", "name": "5 in", "count": "4"}
    given = {"gaps": ["1 in", 2, "3 cm"], "parts": [row], "condition": "dry", "carbon": True, "unknown": "5 in"}
    made = units.base_units(fields, given)
    taken = {"mass": 453.59237, "name": "5 in", "count": 4}
    assert made == {"gaps": [25.4, 2, 30.0], "parts": [taken], "condition": "dry", "carbon": True, "unknown": "5 in"}
    with pytest.raises(InputError) as refused:
        units.base_units(fields, {"gaps": [1, "2 bar"], "parts": [{"mass": "3 mm"}]})
    assert [p["field"] for p in refused.value.problems] == ["gaps[1]", "parts[0].mass"]


def test_every_declared_unit_is_known():
    def walk(fields: list[q.Quantity]):
        for field in fields:
            yield field.unit
            yield from walk(field.fields)

    for calculation in all_calculations():
        for unit in walk(calculation.inputs):
            assert units.factor(unit, unit) == (1.0, 0.0), (calculation.id, unit)


def test_what_is_no_object_goes_on_to_the_calculation():
    assert units.base_units([], None) is None
    assert units.base_units([], [1]) == [1]


def test_the_phone_s_table_is_printed_and_complete():
    printed = subprocess.run([sys.executable, "-m", "pinchbolt.units"], capture_output=True, text=True, check=True).stdout
    table = json.loads(printed)
    assert table == json.loads(json.dumps(units.phone_table()))
    assert {u["unit"] for u in table["N·m"]} == {"lbf·in", "lbf·ft"}
    for base, others in table.items():
        for other in others:
            there = units.factor(other["unit"], base)
            assert math.isclose(other["factor"], there.factor)
            assert math.isclose(other["offset"], there.offset)
