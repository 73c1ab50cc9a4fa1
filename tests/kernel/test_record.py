"""The fold's laws: what the record says never depends on how it arrived."""

import json
import random
from typing import Any

from hypothesis import assume, given
from hypothesis import strategies as st

from pinchbolt.kernel.order import in_order
from pinchbolt.kernel.record import fold, freeze, resume, summary
from tests.kernel.entries import BIKE, World

SETTINGS = ("saddle_height", "bar_height", "pressure_front")
DEVICES = ("a", "b", "c")
KINDS = (
    *("adjust", "adjust", "measure", "baseline", "fault", "close", "ride", "void", "check", "decide"),
    *("part-fit", "part-remove", "snooze", "interval", "service", "torque", "cut", "calculate"),
)
PARTS = ("p1", "p2")


@st.composite
def histories(draw: st.DrawFn) -> World:
    """A random history of one bike by three devices that pull now and then."""
    world = World()
    ids: list[str] = []
    faults: list[str] = []
    for _ in range(draw(st.integers(1, 40))):
        device = draw(st.sampled_from(DEVICES))
        if draw(st.integers(0, 2)) == 0:
            world.pull(device)
        kind = draw(st.sampled_from(KINDS))
        body: dict[str, Any]
        if kind == "adjust":
            body = {"setting": draw(st.sampled_from(SETTINGS)), "to": draw(st.integers(0, 5)), "unit": "mm"}
        elif kind == "measure":
            body = {"what": "stack", "value": draw(st.integers(500, 505)), "unit": "mm"}
        elif kind == "baseline":
            body = {"name": "b"}
        elif kind == "fault":
            body = {"what": "a crack", "level": draw(st.sampled_from(["care", "stop"]))}
        elif kind == "close" and faults:
            kind, body = "fault-close", {"fault": draw(st.sampled_from(faults)), "done": "mended"}
        elif kind == "void" and ids:
            body = {"entry": draw(st.sampled_from(ids)), "reason": "wrong bike"}
        elif kind == "check":
            body = {"check": "pre-event", "version": 1, "answers": []}
        elif kind == "decide" and ids:
            question = "setting." + draw(st.sampled_from(SETTINGS))
            body = {"question": question, "chosen": draw(st.sampled_from(ids)), "reason": "asked the rider"}
        elif kind == "part-fit":
            body = {
                "part": draw(st.sampled_from(PARTS)),
                "slot": draw(st.sampled_from(["chain", "wheel-front"])),
                "name": "a part",
            }
        elif kind == "part-remove":
            body = {"part": draw(st.sampled_from(PARTS)), "reason": "worn"}
        elif kind == "snooze":
            body = {"due": "sealant", "until": "2026-06-01", "reason": "dry month"}
        elif kind == "interval":
            body = {"due": draw(st.sampled_from(["sealant", "wash"])), "days": draw(st.integers(1, 90))}
        elif kind == "calculate":
            body = {"calculation": "sealant", "inputs": {"climate": draw(st.sampled_from(["cool", "hot"]))}, "outputs": {}}
        elif kind == "service":
            body = {"job": draw(st.sampled_from(["sealant", "re-torque"]))}
        elif kind == "torque":
            body = {"joint": "stem to steerer", "applied": draw(st.integers(4, 6))}
        elif kind == "cut":
            body = {"what": "steerer", "planned": 223, "result": draw(st.integers(221, 224)), "unit": "mm"}
        else:
            kind, body = "ride", {"km": draw(st.integers(1, 90)), "hours": draw(st.integers(1, 5)), "fall": draw(st.booleans())}
        ids.append(world.write(device, kind, body))
        if kind == "fault":
            faults.append(ids[-1])
    return world


@given(histories(), st.randoms(use_true_random=False))
def test_any_order_of_arrival_gives_the_same_state(world: World, rnd: random.Random) -> None:
    shuffled = list(world.log)
    rnd.shuffle(shuffled)
    twice = [*shuffled, dict(shuffled[0], seq=None)]
    assert fold(BIKE, twice) == fold(BIKE, world.log)


@given(histories(), st.data())
def test_going_on_from_a_snapshot_is_the_same_as_folding_everything(world: World, data: st.DataObject) -> None:
    """Wherever the cut, unless the later entries void something, and through JSON, as the phone keeps it."""
    cut = data.draw(st.integers(0, len(world.log)))
    snapshot = json.loads(json.dumps(freeze(BIKE, world.log[:cut])))
    resumed = resume(snapshot, world.log[cut:])
    if any(k["entry"]["kind"] == "void" for k in world.log[cut:]):
        assert resumed is None
    else:
        assert resumed == fold(BIKE, world.log)


@given(histories(), st.data())
def test_a_snapshot_built_upon_another_is_the_one_made_at_once(world: World, data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(world.log)))
    first = json.loads(json.dumps(freeze(BIKE, world.log[:cut])))
    upon = freeze(BIKE, world.log[cut:], first)
    if any(k["entry"]["kind"] == "void" for k in world.log[cut:]):
        assert upon is None
    else:
        assert upon == freeze(BIKE, world.log)


@given(histories())
def test_a_snapshot_takes_nothing_the_server_has_not_ordered(world: World) -> None:
    unsent = [dict(k, seq=None) if i >= 3 else k for i, k in enumerate(world.log)]
    assert freeze(BIKE, unsent)["count"] == min(3, len(world.log))


def test_a_snapshot_that_does_not_serve_is_not_used() -> None:
    world = World()
    world.write("a", "ride", {"km": 1})
    world.write("a", "ride", {"km": 2})
    snapshot = freeze(BIKE, world.log[1:])
    assert resume(snapshot, world.log[:1]) is None, "an entry that sorts before it came late"
    assert resume(dict(snapshot, version=0), []) is None


@given(histories(), st.data())
def test_a_void_removes_an_entrys_effect_and_nothing_else(world: World, data: st.DataObject) -> None:
    """Voiding an entry leaves the state as if it had never been written (but for the counts and the list of the voided)."""
    kinds = {k["entry"]["id"]: k["entry"]["kind"] for k in world.log}
    # A cut cannot be voided: the material is off.
    may_go = [id for id, kind in kinds.items() if kind not in ("void", "cut")]
    assume(may_go)
    target = data.draw(st.sampled_from(may_go))
    voids_of_it = [k for k in world.log if k["entry"]["kind"] == "void" and k["entry"]["body"]["entry"] == target]
    without = [k for k in world.log if k["entry"]["id"] != target and k not in voids_of_it]
    world.pull("a")
    world.write("a", "void", {"entry": target, "reason": "wrong"})
    with_void = [k for k in world.log if k not in voids_of_it]
    ignored = ("entries", "voided", "first_at", "last_at")
    expected = {k: v for k, v in fold(BIKE, without).items() if k not in ignored}
    assert {k: v for k, v in fold(BIKE, with_void).items() if k not in ignored} == expected


@given(st.lists(st.tuples(st.sampled_from(SETTINGS), st.integers(0, 50)), min_size=1, max_size=12))
def test_stepping_everything_back_restores_the_baseline(moves: list[tuple[str, int]]) -> None:
    world = World()
    for setting in SETTINGS:
        world.write("a", "adjust", {"setting": setting, "to": 25, "unit": "mm"})
    world.write("a", "baseline", {"name": "as built"})
    for setting, to in moves:
        world.write("a", "adjust", {"setting": setting, "to": to, "unit": "mm"})
    for moved in fold(BIKE, world.log)["moved"]:  # type: ignore[union-attr]
        world.write("a", "adjust", {"setting": moved["setting"], "to": moved["from"], "unit": moved["unit"]})
    state = fold(BIKE, world.log)
    assert state["moved"] == []
    assert {s["value"] for s in state["settings"].values()} == {25}  # type: ignore[union-attr]


@given(st.lists(st.integers(0, 20)))
def test_the_sort_is_stable_and_right(keys: list[int]) -> None:
    assert in_order(keys, list(enumerate(keys))) == sorted(enumerate(keys), key=lambda pair: pair[1])


def question_keys(world: World) -> list[str]:
    return [q["question"] for q in fold(BIKE, world.log)["questions"]]  # type: ignore[union-attr]


def test_two_phones_that_set_one_thing_without_having_seen_each_other_raise_a_question() -> None:
    world = World()
    world.write("a", "adjust", {"setting": "pressure_front", "to": 2.2, "unit": "bar"})
    chosen = world.write("b", "adjust", {"setting": "pressure_front", "to": 2.3, "unit": "bar"})
    state = fold(BIKE, world.log)
    assert state["settings"]["pressure_front"]["value"] == 2.3  # type: ignore[index]
    assert question_keys(world) == ["setting.pressure_front"]
    world.pull("c")
    world.write("c", "decide", {"question": "setting.pressure_front", "chosen": chosen, "reason": "asked the rider"})
    assert question_keys(world) == []


def test_a_decision_settles_on_what_was_chosen_even_against_the_later_stamp() -> None:
    world = World()
    chosen = world.write("a", "adjust", {"setting": "bar_height", "to": 10, "unit": "mm"})
    world.write("b", "adjust", {"setting": "bar_height", "to": 15, "unit": "mm"})
    world.pull("a")
    world.write("a", "decide", {"question": "setting.bar_height", "chosen": chosen, "reason": "measured again"})
    state = fold(BIKE, world.log)
    assert state["settings"]["bar_height"]["value"] == 10  # type: ignore[index]
    assert question_keys(world) == []


def test_a_later_setting_that_has_seen_the_first_asks_nothing() -> None:
    world = World()
    world.write("a", "adjust", {"setting": "bar_height", "to": 10, "unit": "mm"})
    world.pull("b")
    world.write("b", "adjust", {"setting": "bar_height", "to": 15, "unit": "mm"})
    assert question_keys(world) == []


def test_two_phones_that_agree_ask_nothing() -> None:
    world = World()
    world.write("a", "adjust", {"setting": "bar_height", "to": 10, "unit": "mm"})
    world.write("b", "adjust", {"setting": "bar_height", "to": 10, "unit": "mm"})
    assert question_keys(world) == []


def test_a_swap_in_mind_is_there_for_everybody_until_it_is_struck_out() -> None:
    world = World()
    first = world.write("a", "swap-idea", {"slot": "saddle", "name": "carbon rails", "mass": 182, "cost": 160})
    world.write("b", "swap-idea", {"slot": "stem", "name": "light stem", "mass": 98})
    assert [idea["name"] for idea in fold(BIKE, world.log)["ideas"]] == ["carbon rails", "light stem"]
    world.write("b", "void", {"entry": first, "reason": "too dear"})
    assert [idea["name"] for idea in fold(BIKE, world.log)["ideas"]] == ["light stem"]


def test_a_voided_void_brings_the_entry_back() -> None:
    world = World()
    ride = world.write("a", "ride", {"km": 40})
    void = world.write("a", "void", {"entry": ride, "reason": "wrong bike"})
    assert fold(BIKE, world.log)["km"] == 0
    world.write("a", "void", {"entry": void, "reason": "it was this bike"})
    assert fold(BIKE, world.log)["km"] == 40


def test_a_part_keeps_its_kilometres_from_when_it_was_fitted() -> None:
    world = World()
    world.write("a", "ride", {"km": 100})
    world.write("a", "part-fit", {"part": "p1", "slot": "chain", "name": "chain, 12-speed"})
    world.write("a", "ride", {"km": 60})
    world.write("a", "part-remove", {"part": "p1", "reason": "worn"})
    world.write("a", "ride", {"km": 5})
    state = fold(BIKE, world.log)
    assert state["parts"] == []
    assert state["removed"][0]["ran_km"] == 60  # type: ignore[index]


def test_an_entry_of_an_unknown_kind_changes_nothing_but_the_count() -> None:
    world = World()
    world.write("a", "ride", {"km": 40})
    before = fold(BIKE, world.log)
    world.write("a", "some-later-kind", {"what": 1})
    after = fold(BIKE, world.log)
    assert after["entries"] == 2
    assert {k: v for k, v in after.items() if k not in ("entries", "last_at")} == {
        k: v for k, v in before.items() if k not in ("entries", "last_at")
    }


def test_the_summary_is_the_line_of_the_list() -> None:
    world = World()
    world.write("a", "describe", {"name": "Fern", "use": "all-road"})
    world.write("a", "fault", {"what": "loose spoke", "level": "care"})
    line = summary(fold(BIKE, world.log))
    assert (line["name"], line["use"], line["faults"]) == ("Fern", "all-road", 1)
