"""The phone's units: its table is the server's, and its numbers come out as pint has them."""

import json
from collections.abc import Iterator

import pint
import pytest
from playwright.sync_api import Browser, expect

from pinchbolt import units
from tests.web.checking import PATIENT
from tests.web.phone import Phone, phone
from tests.web.workshop import ROOT, ServedWorkshop


@pytest.fixture(scope="module")
def desk(browser: Browser, season: ServedWorkshop) -> Iterator[Phone]:
    with phone(browser, season.url) as made:
        yield made


def test_the_phones_table_is_the_servers() -> None:
    """Made by `python -m pinchbolt.units > pwa/src/units.json`."""
    assert json.loads((ROOT / "pwa" / "src" / "units.json").read_text(encoding="utf-8")) == units.phone_table()


@pytest.mark.parametrize(
    ("value", "unit", "base", "in_pint", "base_in_pint"),
    [
        (16.1, "in", "mm", "inch", "mm"),
        (44, "lbf·in", "N·m", "lbf*inch", "N*m"),
        (80, "psi", "bar", "psi", "bar"),
        (68, "°F", "°C", "degF", "degC"),
        (18.5, "lb", "kg", "pound", "kg"),
        (3.2, "fl oz", "ml", "fluid_ounce", "ml"),
    ],
)
def test_a_measure_comes_into_its_base_unit_as_pint_has_it(
    desk: Phone, value: float, unit: str, base: str, in_pint: str, base_in_pint: str
) -> None:
    registry = pint.UnitRegistry()
    wanted = registry.Quantity(value, in_pint).to(base_in_pint).magnitude
    assert desk.do("units.toBase", value, unit, base) == pytest.approx(wanted, rel=1e-12)
    assert desk.do("units.fromBase", wanted, unit, base) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "value"),
    [("16,1", 16.1), ("16.1", 16.1), (" 5 ", 5), ("−3", -3), ("-3", -3), (".5", 0.5), ("5,", 5)]
    + [(wrong, None) for wrong in ("1.234,5", "1,234.5", "", "abc", "5 mm", "1e3", "--5", "NaN")],
)
def test_a_typed_number_has_a_point_or_a_comma_or_is_none(desk: Phone, typed: str, value: float | None) -> None:
    assert desk.do("units.parseNumber", typed) == value


def test_the_choice_of_a_unit_is_kept(desk: Phone) -> None:
    desk.do("units.chooseUnit", "N·m", "lbf·in")
    # 5 N·m is 44.25 lbf·in (NIST SP 811: 1 lbf·in = 0.112985 N·m); a tenth of 1 N·m is about 1 lbf·in, so no more is shown.
    assert desk.do("units.show", 5, "N·m", 1) == "44 lbf·in"
    desk.page.reload()
    desk.open()
    desk.do("keep.loaded", "units")
    assert desk.do("units.unitOf", "N·m") == "lbf·in"
    assert desk.do("units.unitOf", "mm") == "mm"


def test_what_is_typed_in_one_line_is_in_the_units_of_this_phone(mine: Phone) -> None:
    page = mine.page
    bike = "bike/6b0f1f0e-5a38-4d0e-9a3e-0f6a6c9a7a04"
    mine.do("record.write", [{"subject": bike, "kind": "describe", "body": {"name": "Plover"}}])
    mine.do("units.chooseUnit", "mm", "in")
    mine.do("units.chooseUnit", "bar", "psi")
    for said, shown, to in [
        ("saddle height 29", "Saddle height 29 in", 736.6),
        ("front pressure 25", "Pressure, front 25 psi", 1.7237),
        ("spacers below the stem 45 mm", "Spacers below the stem 1.772 in", 45),
    ]:
        page.goto(f"{mine.url}/{bike}")
        line = page.get_by_label("Say or type it")
        line.fill(said, timeout=PATIENT)
        expect(page.locator("#say-told")).to_contain_text(shown, timeout=PATIENT)
        line.press("Enter")
        expect(page.get_by_role("status").filter(has_text=shown.split()[-1])).to_be_visible(timeout=PATIENT)
        mine.open()
        last = json.loads(mine.do("record.entries", bike)[-1]["text"])
        assert last["body"]["to"] == pytest.approx(to, abs=1e-4)
