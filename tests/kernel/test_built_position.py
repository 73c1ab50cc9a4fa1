"""The position wanted against the one built; what was not measured never counts as within. Tolerances: common practice."""

from typing import Any

from pinchbolt.kernel.built_position import built_position
from pinchbolt.kernel.record import fold
from tests.kernel.entries import BIKE, World


def state(measures: dict[str, float], settings: dict[str, float]) -> dict[str, Any]:
    world = World()
    for what, value in measures.items():
        world.write("a", "measure", {"what": what, "value": value, "unit": "mm"})
    for setting, value in settings.items():
        world.write("a", "adjust", {"setting": setting, "to": value, "unit": "mm"})
    return fold(BIKE, world.log)


WANTED = {"target_bar_x": 463.5, "target_bar_y": 627.0, "saddle_height": 728.0, "saddle_setback": 212.0, "saddle_tilt": -1.5}


def line(found: dict[str, Any], name: str) -> dict[str, Any]:
    return next(one for one in found["lines"] + found["pairs"] if one["name"] == name)


def test_nothing_built_is_not_known() -> None:
    found = built_position(state(WANTED, {}))
    assert found["worst"] == "not-known"
    assert {one["result"] for one in found["lines"]} == {"not-known"}


def test_within_tolerance_on_every_line() -> None:
    built = state(
        WANTED | {"bar_x": 465.0, "bar_y": 624.0}, {"saddle_height": 729.0, "saddle_setback": 210.0, "saddle_tilt": -1.0}
    )
    found = built_position(built)
    assert found["worst"] == "within"
    assert line(found, "bar_y")["off"] == -3.0


def test_a_transfer_replaces_the_old_bikes_saddle_height() -> None:
    # Crank 172.5 to 170 mm and pedals 14 to 12 mm: 728 + 2.5 − 2 = 728.5 mm (worked by hand from the saddle transfer).
    found = built_position(state(WANTED | {"target_saddle_height": 728.5}, {"saddle_height": 731.0}))
    assert line(found, "saddle_height")["off"] == 2.5
    assert line(found, "saddle_height")["result"] == "off"
    assert found["worst"] == "off"


def test_levers_are_held_against_each_other() -> None:
    found = built_position(state(WANTED, {"lever_reach_left": 70.0, "lever_reach_right": 74.0}))
    assert line(found, "lever_reach")["result"] == "off"
    assert line(found, "lever_height")["result"] == "not-known"


def test_one_lever_alone_is_not_known() -> None:
    found = built_position(state({}, {"lever_reach_left": 70.0}))
    assert line(found, "lever_reach")["result"] == "not-known"
