"""The phone's engine against CPython: the same files, the same answers.

Every vector and every worked example runs in the real app's worker in Chromium. Numbers agree within 2 ulp (IEEE 754 leaves the
last place of sin, exp and the like to the maker of the library); everything else is equal. With inputs out of a hat, which are
often absurd, a small difference of large numbers may make more of that last place: there numbers agree to nine figures.
"""

import importlib
import json
import math
import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from pinchbolt.kernel.calls import call
from pinchbolt.kernel.catalogue import all_calculations
from tests.kernel.entries import World
from tests.kernel.random_inputs import fields
from tests.kernel.vectors import Vector
from tests.web.phone import Phone, phone, tell
from tests.web.workshop import ServedWorkshop

KERNEL_TESTS = Path(__file__).parents[1] / "kernel"
LISTS = sorted(path.stem for path in KERNEL_TESTS.rglob("vectors_*.py"))
VECTORS: list[Vector] = [v for name in LISTS for v in importlib.import_module("tests.kernel." + name).VECTORS]
Near = Callable[[float, float], bool]

HAT_SEED = 20260503
HATS = 20

RUN_ALL = """
Promise.all(%s.map(([id, inputs]) => door.kernel.run(id, inputs).then(
  (ok) => ({ok}),
  (error) => error.problems ? {problems: error.problems} : {failed: String(error)}
)))
"""


@pytest.fixture(scope="module")
def engine(browser: Browser, season: ServedWorkshop) -> Iterator[Phone]:
    with phone(browser, season.url) as made:
        yield made


def within_two_ulp(here: float, there: float) -> bool:
    return abs(here - there) <= 2 * math.ulp(float(here))


def to_nine_figures(here: float, there: float) -> bool:
    return math.isclose(here, there, rel_tol=1e-9, abs_tol=1e-9)


def differences(here: Any, there: Any, path: str = "", near: Near = within_two_ulp) -> list[str]:
    """Where the phone's answer `there` is not CPython's `here`."""
    if isinstance(here, dict):
        if not isinstance(there, dict) or set(here) != set(there):
            return [f"{path}: {here!r} here, {there!r} on the phone"]
        return [one for name in here for one in differences(here[name], there[name], f"{path}.{name}", near)]
    if isinstance(here, list):
        if not isinstance(there, list) or len(here) != len(there):
            return [f"{path}: {here!r} here, {there!r} on the phone"]
        return [one for i, pair in enumerate(zip(here, there, strict=True)) for one in differences(*pair, f"{path}[{i}]", near)]
    both_numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (here, there))
    same = near(here, there) if both_numbers else type(here) is type(there) and here == there
    return [] if same else [f"{path}: {here!r} here, {there!r} on the phone"]


def answers_differ(phone: Phone, asked: list[tuple[str, dict[str, Any]]], near: Near = within_two_ulp) -> list[str]:
    there = tell(phone.page, RUN_ALL % json.dumps(asked))
    assert len(there) == len(asked)
    found: list[str] = []
    for (calculation, inputs), told in zip(asked, there, strict=True):
        here = json.loads(call(json.dumps({"do": "run", "calculation": calculation, "inputs": inputs})))
        found += [f"{calculation} {inputs}: {one}" for one in differences(here, told, near=near)]
    return found


def test_every_vector_is_the_same_on_the_phone(engine: Phone) -> None:
    assert VECTORS
    assert answers_differ(engine, [(v.calculation, v.inputs) for v in VECTORS]) == []


def test_every_worked_example_is_the_same_on_the_phone(engine: Phone) -> None:
    assert answers_differ(engine, [(c.id, c.example) for c in all_calculations()]) == []


def test_inputs_out_of_a_hat_are_the_same_on_the_phone(engine: Phone) -> None:
    hat = random.Random(HAT_SEED)
    asked = [(c.id, fields(c.inputs, hat)) for c in all_calculations() for _ in range(HATS)]
    assert answers_differ(engine, asked, to_nine_figures) == []


@pytest.mark.parametrize("what", ["declarations", "settings", "interfaces", "checks"])
def test_what_the_kernel_declares_is_the_same_on_the_phone(engine: Phone, what: str) -> None:
    here = json.loads(call(json.dumps({"do": what})))["ok"]
    assert differences(here, engine.do("kernel." + what)) == []


def test_texts_and_plates_beyond_ascii_are_taken_the_same_on_the_phone(engine: Phone) -> None:
    """The engines' own `lower`, `split` and `isdigit` do not know the same letters."""
    ends: list[dict[str, Any]] = [
        {"kind": "freehub", "spline": "Gr\u00f6\u00dfe \u00c4 11"},
        {"kind": "cassette", "spline": "gr\u00f6\u00dfe\u00a0\u00e4 11", "speeds": 11},
    ]
    parts = [{"part": one["kind"], "slot": one["kind"], "name": one["kind"], "interfaces": [one]} for one in ends]
    here = json.loads(call(json.dumps({"do": "fits", "parts": parts})))["ok"]
    assert [j["result"] for j in here["joints"] if j["rule"] == "freehub"] == ["fits"]
    assert differences(here, engine.do("kernel.fits", parts)) == []
    world = World()
    for plate in ("7\u00b2", "\u0663", "12", "5", "\u2460", "A3"):
        world.write("a", "start", {"plate": plate, "name": "Nell"})
    event = "event/00000000-0000-4000-8000-0000000000e1"
    kept = [{"seq": one["seq"], "text": json.dumps(one["entry"])} for one in world.log]
    here = json.loads(call(json.dumps({"do": "fold", "subject": event, "entries": world.log})))["ok"]
    assert differences(here, engine.do("kernel.foldEvent", event, kept)) == []


SAID = [
    "saddle height 29",
    'bar up 1"',
    "left lever out 2 in",
    "Spacers below the stem 45",
    "front 25 psi",
    "flux 2",
    "saddle 3",
]


@pytest.mark.parametrize("text", SAID)
def test_what_is_said_is_read_the_same_on_the_phone(engine: Phone, text: str) -> None:
    state = {"settings": {"saddle_height": {"value": 710}, "bar_height": {"value": 20}, "lever_reach_left": {"value": 70}}}
    units = {"mm": 25.4, "bar": 0.06894757293168362}
    here = json.loads(call(json.dumps({"do": "spoken", "text": text, "state": state, "units": units})))["ok"]
    assert differences(here, engine.do("kernel.spoken", text, state, units)) == []


def test_every_bike_of_the_season_folds_the_same_on_the_phone(engine: Phone, season: ServedWorkshop) -> None:
    engine.pair(season.code)
    said = engine.sync()
    assert said["state"] == "idle", said
    kept: dict[str, list[dict[str, Any]]] = {}
    subjects = [*engine.do("record.subjects", "bike/"), *engine.do("record.subjects", "event/"), "workshop"]
    assert len(subjects) > 3
    for subject in subjects:
        entries = engine.do("record.entries", subject)
        kept[subject] = [{"seq": one["seq"], "entry": json.loads(one["text"])} for one in entries]
        here = json.loads(call(json.dumps({"do": "fold", "subject": subject, "entries": kept[subject]})))["ok"]
        there = engine.do("kernel.fold", subject, entries)
        assert differences(here, there) == []
    # What was pulled is byte for byte what the server holds.
    texts = {one["text"].encode() for s in subjects for one in engine.do("record.entries", s)}
    assert texts == set(season.held())


def test_an_engine_that_breaks_down_starts_again(engine: Phone) -> None:
    # Lists within lists, far deeper than the engine's stack: it breaks, or says so; either way the next question is answered.
    deep = "[" * 200_000 + "]" * 200_000
    kept = {"seq": None, "text": '{"id":' + deep + "}"}
    with pytest.raises(AssertionError):
        engine.do("kernel.fold", "workshop", [kept])
    example = next(c for c in all_calculations() if c.id == "steerer-cut").example
    assert answers_differ(engine, [("steerer-cut", example)]) == []
