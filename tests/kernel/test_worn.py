"""Readings belong to a part; a forecast is of the part that is on; what cannot be true is asked about."""

from typing import Any

import numpy as np
import pytest

from pinchbolt.kernel.record import fold
from pinchbolt.kernel.worn import all_worn, doubts, doubts_of_ride, remaining, worn
from tests.kernel.entries import BIKE, World


def ridden(*readings: tuple[float, float]) -> World:
    """A chain fitted new, ridden so many km before each reading."""
    world = World()
    world.write("a", "ride", {"km": 400})
    world.write("a", "part-fit", {"part": "c1", "slot": "chain", "name": "chain A", "markings": {"chain_limit": 0.5}})
    for km, value in readings:
        if km:
            world.write("a", "ride", {"km": km})
        chain(world, value, "c1")
    return world


def chain(world: World, value: float, part: str | None) -> None:
    body: dict[str, Any] = {"what": "chain_elongation", "value": value, "unit": "%", "plus_minus": 0.02}
    if part is not None:
        body["part"] = part
    world.write("a", "measure", body)


def now(world: World) -> dict[str, Any]:
    return worn(fold(BIKE, world.log), "chain_elongation")


def test_readings_count_the_kilometres_of_the_chain_not_of_the_bike() -> None:
    told = now(ridden((0, 0.0), (600, 0.1), (700, 0.22)))
    assert [(r["at"], r["value"]) for r in told["readings"]] == [(0, 0.0), (600, 0.1), (1300, 0.22)]
    assert (told["limit"], told["limit_from"], told["now"]) == (0.5, "the part's own marking", 1300)


def test_what_is_left_is_where_numpys_line_meets_the_limit() -> None:
    world = ridden((100, 0.02), (600, 0.1), (700, 0.22), (500, 0.31))
    world.write("a", "ride", {"km": 90})
    slope, start = np.polyfit([100, 700, 1400, 1900], [0.02, 0.1, 0.22, 0.31], 1)
    assert remaining(now(world)) == pytest.approx((0.5 - start) / slope - 1990, rel=1e-9)


def test_a_new_chain_starts_again() -> None:
    world = ridden((600, 0.3), (600, 0.49))
    world.write("a", "part-remove", {"part": "c1", "reason": "worn"})
    world.write("a", "part-fit", {"part": "c2", "slot": "chain", "name": "chain B"})
    assert now(world)["readings"] == []
    assert doubts(fold(BIKE, world.log), "chain_elongation", 0.0) == []
    world.write("a", "ride", {"km": 250})
    chain(world, 0.05, "c2")
    chain(world, 0.06, None)  # nobody said of which: it is of the one that is on
    assert [r["value"] for r in now(world)["readings"]] == [0.05, 0.06]
    assert now(world)["limit_from"] == "common practice"


def test_a_chain_does_not_grow_shorter() -> None:
    world = ridden((600, 0.3), (600, 0.4))
    state = fold(BIKE, world.log)
    assert doubts(state, "chain_elongation", 0.39, 0.02) == [], "within what two readings may differ"
    (asked,) = doubts(state, "chain_elongation", 0.2, 0.02)
    assert asked["likely"] == "renewed"
    assert "0.4" in asked["text"]


def test_nothing_wears_while_the_bike_stands() -> None:
    state = fold(BIKE, ridden((600, 0.3)).log)
    (asked,) = doubts(state, "chain_elongation", 0.45, 0.02)
    assert asked["likely"] == "otherwise"


def test_a_sudden_jump_is_asked_about_and_ordinary_wear_is_not() -> None:
    world = ridden((600, 0.1), (600, 0.2))
    world.write("a", "ride", {"km": 60})
    state = fold(BIKE, world.log)
    assert doubts(state, "chain_elongation", 0.22, 0.02) == []
    assert [d["likely"] for d in doubts(state, "chain_elongation", 0.5, 0.02)] == ["otherwise"]


@pytest.mark.parametrize(
    ("what", "value"), [("chain_elongation", 7.5), ("rotor_front", -0.1), ("charge", 130), ("pad_rear", 20)]
)
def test_what_is_not_possible_at_all_is_a_slip(what: str, value: float) -> None:
    assert [d["likely"] for d in doubts(fold(BIKE, ridden().log), what, value)] == ["figure"]


def test_a_rotor_does_not_grow_thicker() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "r", "slot": "rotor-front", "name": "rotor"})
    world.write("a", "measure", {"what": "rotor_front", "value": 1.7, "unit": "mm", "part": "r"})
    state = fold(BIKE, world.log)
    assert doubts(state, "rotor_front", 1.8)[0]["likely"] == "renewed"
    assert doubts(state, "rotor_front", 1.71) == []
    assert doubts(state, "stack", 3000.0) == [], "no wear, nothing to say"


def test_a_battery_starts_again_when_it_is_charged() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "b", "slot": "battery", "name": "battery"})
    for value in (60, 40, 100, 90):
        world.write("a", "measure", {"what": "charge", "value": value, "unit": "%", "part": "b"})
    told = worn(fold(BIKE, world.log), "charge")
    assert [r["value"] for r in told["readings"]] == [100, 90]
    assert told["by"] == "days"


def test_everything_fitted_that_wears_is_listed_measured_or_not() -> None:
    world = ridden((600, 0.3))
    world.write("a", "part-fit", {"part": "p", "slot": "pads-front", "name": "pads"})
    assert [(w["what"], len(w["readings"])) for w in all_worn(fold(BIKE, world.log))] == [
        ("chain_elongation", 1),
        ("pad_front", 0),
    ]


def test_a_ride_that_cannot_be_is_asked_about() -> None:
    assert doubts_of_ride(58, 2.7) == []
    assert doubts_of_ride(58, None) == []
    assert doubts_of_ride(580, 2.7)[0]["likely"] == "figure"
    assert doubts_of_ride(5800, None)[0]["likely"] == "figure"
