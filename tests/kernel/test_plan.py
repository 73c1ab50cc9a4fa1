"""The build plan: nothing before what it needs, nothing done that the record does not show."""

from typing import Any

import networkx
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.plan import PLAN, build_plan, circular
from pinchbolt.kernel.record import fold
from tests.kernel.entries import BIKE, World
from tests.kernel.test_checks import answered
from tests.kernel.test_cutting import measured, ready


def plan(world: World, fits: str = "fits") -> dict[str, dict[str, Any]]:
    return {s["step"]: s for s in build_plan(fold(BIKE, world.log), fits)}


def test_the_shipped_plan_is_a_graph_without_a_circle() -> None:
    graph = networkx.DiGraph([(a, s["step"]) for s in PLAN for a in s["after"]])
    assert networkx.is_directed_acyclic_graph(graph)
    assert circular(PLAN) == []


@given(st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), max_size=12))
def test_a_circle_is_found_wherever_it_is(edges: list[tuple[int, int]]) -> None:
    steps = [{"step": str(i), "after": [str(a) for a, b in edges if b == i]} for i in range(7)]
    graph = networkx.DiGraph([(str(a), str(b)) for a, b in edges])
    ring = circular(steps)
    assert (ring == []) == networkx.is_directed_acyclic_graph(graph)
    # Named in order: each waits for the next, the last for the first.
    assert all(graph.has_edge(ring[(i + 1) % len(ring)], step) for i, step in enumerate(ring))


def test_a_step_that_waits_for_one_there_is_not_is_named_with_it() -> None:
    assert circular([{"step": "plug", "after": ["steerer-cut"]}]) == ["plug", "steerer-cut"]


def test_an_empty_bike_begins_with_what_needs_nothing() -> None:
    found = plan(World(), "not-known")
    assert [name for name, s in found.items() if s["status"] == "ready"] == ["old-position", "frame-measures", "parts-listed"]
    assert found["steerer-cut"]["by"] == ["Measure the steerer by two routes"]


def test_a_part_that_does_not_fit_blocks_all_that_comes_after() -> None:
    world = World()
    for slot in ("frame", "fork", "stem", "bar"):
        world.write("a", "part-fit", {"part": slot, "slot": slot, "name": slot})
    assert plan(world, "does-not-fit")["headset"]["status"] == "blocked"
    assert plan(world, "not-known")["bottom-bracket"]["by"] == ["Prove that they fit"]


def test_a_cut_whose_card_is_shut_is_blocked_by_what_shuts_it() -> None:
    world = ready(mark=230.0)
    found = plan(world)
    assert found["steerer-routes"]["status"] == "done"
    assert found["steerer-cut"]["status"] == "blocked"
    assert "differ" in found["steerer-cut"]["by"][0]
    measured(world, by="bas", steerer_mark=226.0)
    assert plan(world)["steerer-cut"]["status"] == "ready"
    world.write("a", "cut", {"what": "steerer", "planned": 223.0, "result": 223.0, "unit": "mm"})
    assert plan(world)["steerer-cut"]["status"] == "done"


def test_a_check_that_failed_since_is_not_done() -> None:
    own = [{"step": "line", "title": "Start line", "after": [], "done_by": ["check:pre-event"], "page": ""}]
    world = World()
    for mark, status in (("pass", "done"), ("fail", "ready"), ("pass", "done")):
        world.write("a", "check", {"check": "pre-event", "version": 1, "answers": answered(mark)})
        assert build_plan(fold(BIKE, world.log), "fits", own)[0]["status"] == status


def test_a_workshops_own_plan_is_followed() -> None:
    own = [{"step": "one", "title": "One", "after": [], "done_by": ["measure:stack"], "page": ""}]
    assert build_plan(fold(BIKE, []), "fits", own)[0]["status"] == "ready"


def test_the_workshop_keeps_its_own_plan_and_its_own_interfaces() -> None:
    world = World()
    step = {"step": "bless", "title": "Ring the bell", "after": [], "done_by": ["service:bell rung"], "page": ""}
    world.write("a", "plan-define", {"steps": [step]})
    world.write("a", "interface-define", {"kind": "bag-bayonet", "label": "Bag bayonet", "fields": []})
    shop = fold("workshop", world.log)
    assert shop["plan"] == [step]
    assert [k["kind"] for k in shop["interfaces"]] == ["bag-bayonet"]
    world.write("a", "tool-define", {"tool": "click wrench", "most": 24, "accuracy": 4})
    world.write("a", "tool-define", {"tool": "click wrench", "least": 4, "most": 24, "accuracy": 3})
    world.write("a", "tool-define", {"tool": "beam", "most": 10, "accuracy": 6})
    world.write("a", "tool-define", {"tool": "beam", "most": 10, "accuracy": 6, "retired": True})
    assert [(t["tool"], t["accuracy"]) for t in fold("workshop", world.log)["tools"]] == [("click wrench", 3)]
    world.write("a", "plan-define", {"steps": []})
    assert fold("workshop", world.log)["plan"] == []
    assert len(build_plan(fold(BIKE, []), "not-known", fold("workshop", world.log)["plan"])) == len(PLAN)
