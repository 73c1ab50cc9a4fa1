"""Back to a baseline, and two dates side by side."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.adjustable import SETTINGS
from pinchbolt.kernel.record import fold
from pinchbolt.kernel.stepping_back import compare, steps_back
from tests.kernel.entries import BIKE, World

NAMES = [s["setting"] for s in SETTINGS]
UNITS = {s["setting"]: s["unit"] for s in SETTINGS}


def adjust(world: World, setting: str, to: float) -> None:
    world.write("a", "adjust", {"setting": setting, "to": to, "unit": UNITS[setting]})


def record(world: World, moves: list[dict[str, Any]]) -> None:
    """As the screen does once the list has been worked off."""
    for move in moves:
        body = {
            "setting": move["setting"],
            "unit": move["unit"],
            "from": move["from"],
            "to": move["to"],
            "reason": "stepped back",
        }
        world.write("a", "adjust", body)


@given(
    st.dictionaries(st.sampled_from(NAMES), st.decimals(-50, 900, places=2).map(float), min_size=1),
    st.lists(st.tuples(st.sampled_from(NAMES), st.decimals(-50, 900, places=2).map(float)), max_size=15),
)
def test_stepping_all_back_restores_the_baseline_exactly(built: dict[str, float], moved: list[tuple[str, float]]) -> None:
    world = World()
    for setting, value in built.items():
        adjust(world, setting, value)
    world.write("a", "baseline", {"name": "as built"})
    for setting, value in moved:
        adjust(world, setting, value)
    steps = steps_back(fold(BIKE, world.log))
    record(world, steps["moves"])
    state = fold(BIKE, world.log)
    assert {name: state["settings"][name]["value"] for name in built} == built
    assert steps_back(state)["moves"] == []
    assert len(steps["left_alone"]) == len({s for s, _ in moved if s not in built})


def test_the_list_says_which_way_and_how_far() -> None:
    world = World()
    for setting, value in {"index_rear": 0.0, "saddle_height": 706.0, "pressure_front": 2.4, "trim_rear": 0}.items():
        adjust(world, setting, value)
    world.write("a", "baseline", {"name": "as built"})
    for setting, value in {"pressure_front": 2.1, "index_rear": 0.75, "saddle_height": 710.0, "trim_rear": 1}.items():
        adjust(world, setting, value)
    moves = steps_back(fold(BIKE, world.log))["moves"]
    assert [(m["label"], m["way"]) for m in moves] == [
        ("Saddle height", "4 mm down"),
        ("Pressure, front", "0.3 bar more"),
        ("Index, rear", "0.75 turns in"),
        ("Electronic trim, rear", "1 step out"),
    ]


def test_an_earlier_baseline_can_be_chosen() -> None:
    world = World()
    adjust(world, "saddle_height", 700)
    first = world.write("a", "baseline", {"name": "winter"})
    adjust(world, "saddle_height", 705)
    world.write("a", "baseline", {"name": "summer"})
    state = fold(BIKE, world.log)
    assert steps_back(state)["moves"] == []
    assert [m["to"] for m in steps_back(state, first)["moves"]] == [700]
    assert steps_back(state, "none such")["baseline"] is None


def test_two_dates_differ_in_what_was_done_between_them() -> None:
    world = World()
    adjust(world, "saddle_height", 706)
    adjust(world, "bar_height", 10)
    world.write("a", "part-fit", {"part": "c1", "slot": "chain", "name": "chain A"})
    before = fold(BIKE, world.log)
    adjust(world, "saddle_height", 710)
    world.write("a", "ride", {"km": 58, "hours": 2.5})
    world.write("a", "measure", {"what": "stack", "value": 548, "unit": "mm"})
    world.write("a", "part-remove", {"part": "c1"})
    world.write("a", "part-fit", {"part": "c2", "slot": "chain", "name": "chain B"})
    told = compare(before, fold(BIKE, world.log))
    assert [(s["name"], s["before"], s["after"], s["by"]) for s in told["settings"]] == [("saddle_height", 706, 710, 4)]
    assert [(m["name"], m["before"], m["after"]) for m in told["measures"]] == [("stack", None, 548)]
    assert (told["km"], told["hours"]) == (58, 2.5)
    assert ([p["name"] for p in told["fitted"]], [p["name"] for p in told["removed"]]) == (["chain B"], ["chain A"])
