"""A wheel moved between bikes keeps its own kilometres."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.part_km import part_totals
from pinchbolt.kernel.record import fold
from tests.kernel.entries import World

BIKES = ("bike/fern", "bike/slate", "bike/wren")


def states(worlds: dict[str, World]) -> list[dict[str, Any]]:
    return [fold(subject, world.log) for subject, world in worlds.items()]


@given(
    st.lists(st.tuples(st.sampled_from(["move", "ride", "spare"]), st.sampled_from(BIKES), st.integers(1, 120)), max_size=30)
)
def test_the_total_is_what_was_ridden_while_it_was_on(days: list[tuple[str, str, int]]) -> None:
    """Against a plain count kept beside: whichever bike the wheel is on, that bike's rides are its own."""
    worlds = {subject: World() for subject in BIKES}
    clock = 0
    on: str | None = None
    km, hours = 0.0, 0.0
    for what, subject, amount in days:
        clock += 100
        for world in worlds.values():
            world.clock = clock
        if what in ("move", "spare"):
            if on is not None:
                worlds[on].write("a", "part-remove", {"part": "w", "reason": "moved"})
            on = subject if what == "move" else None
            if on is not None:
                worlds[on].write("a", "part-fit", {"part": "w", "slot": "wheel-rear", "name": "the light wheel"})
        else:
            worlds[subject].write("a", "ride", {"km": amount, "hours": amount / 20})
            if on == subject:
                km += amount
                hours += amount / 20
    totals = part_totals(states(worlds))
    if not any(what == "move" for what, _, _ in days):
        assert totals == []
        return
    (wheel,) = totals
    assert abs(wheel["km"] - km) < 1e-9
    assert abs(wheel["hours"] - hours) < 1e-9
    assert wheel["on"] == ([on] if on is not None else [])


def test_told_where_it_ran_and_when() -> None:
    fern, slate = World(), World()
    fern.write("a", "describe", {"name": "Fern"})
    slate.write("a", "describe", {"name": "Slate"})
    fern.write("a", "part-fit", {"part": "w", "slot": "wheel-rear", "name": "wheel 24 mm"})
    fern.write("a", "ride", {"km": 80})
    fern.write("a", "part-remove", {"part": "w", "reason": "to Slate"})
    slate.clock = fern.clock
    slate.write("a", "part-fit", {"part": "w", "slot": "wheel-rear", "name": "wheel 24 mm, new bearing"})
    slate.write("a", "ride", {"km": 30})
    (wheel,) = part_totals(states({"bike/fern": fern, "bike/slate": slate}))
    assert (wheel["km"], wheel["on"], wheel["name"]) == (110, ["bike/slate"], "wheel 24 mm, new bearing")
    assert [(s["bike"], s["km"], s["until"] is None) for s in wheel["stretches"]] == [("Fern", 80, False), ("Slate", 30, True)]


def test_a_wheel_on_two_bikes_at_once_is_told_as_it_is() -> None:
    fern, slate = World(), World()
    fern.write("a", "part-fit", {"part": "w", "slot": "wheel-rear", "name": "wheel"})
    slate.write("b", "part-fit", {"part": "w", "slot": "wheel-rear", "name": "wheel"})
    (wheel,) = part_totals(states({"bike/fern": fern, "bike/slate": slate}))
    assert sorted(wheel["on"]) == ["bike/fern", "bike/slate"]


def test_a_part_told_anew_on_its_bike_has_run_there_all_along() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "t", "slot": "tyre-front", "name": "tyre"})
    world.write("a", "ride", {"km": 200})
    world.write("a", "part-fit", {"part": "t", "slot": "tyre-rear", "name": "tyre, now behind"})
    world.write("a", "ride", {"km": 50})
    (tyre,) = part_totals(states({"bike/fern": world}))
    assert tyre["km"] == 250
