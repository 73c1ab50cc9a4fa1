"""The cut card: it opens only on two routes that agree, and says what weakens it."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.cutting import CUTS, cut_card
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.joints import JOINTS, bolt_order
from pinchbolt.kernel.record import fold
from tests.kernel.entries import BIKE, World

PARTS = {
    "head_tube": 148.0,
    "lower_stack": 1.0,
    "upper_stack": 12.0,
    "spacers_below": 20.0,
    "stem_height": 40.0,
    "spacers_above": 5.0,
}


def measured(world: World, by: str = "juno", **values: float) -> None:
    for what, value in values.items():
        world.write("a", "measure", {"what": what, "value": value, "unit": "mm"}, by=by)


def card(world: World, what: str = "steerer") -> dict[str, Any]:
    return cut_card(what, fold(BIKE, world.log))


def ready(mark: float = 226.5, by: str = "bas") -> World:
    world = World()
    measured(world, **PARTS, steerer_uncut=300.0, plug_depth=70.0)
    measured(world, by=by, steerer_mark=mark)
    return world


def test_two_routes_by_two_people_open_the_card_on_the_longer_of_the_two() -> None:
    found = card(ready())
    assert found["open"], found["blocked"]
    assert found["number"] == 223.5
    assert found["independent"] == "another person"
    assert found["marks"] == []


def test_the_card_and_the_calculation_say_the_same_length() -> None:
    answer = find("steerer-cut").run(PARTS | {"steerer_uncut": 300.0, "mark": 226.5})
    assert card(ready())["number"] == answer["outputs"]["cut_length"]  # type: ignore[index]


def test_one_route_alone_never_opens_it() -> None:
    world = World()
    measured(world, **PARTS, steerer_uncut=300.0)
    found = card(world)
    assert not found["open"]
    assert found["number"] is None
    assert "by the mark" in found["blocked"][0]


@given(st.floats(-30, 30))
def test_routes_that_differ_by_more_than_the_tolerance_never_open_it(off: float) -> None:
    found = card(ready(mark=226.0 + off))
    assert found["open"] == (abs(off) <= 1.0 + 1e-9)
    if found["open"]:
        assert found["number"] >= 223.0, "it never rounds towards taking material away"


def test_both_routes_by_one_hand_at_once_are_marked() -> None:
    found = card(ready(by="juno"))
    assert found["open"]
    assert found["independent"] == "at once"
    assert len(found["marks"]) == 1


def test_a_part_that_does_not_fit_is_caught_before_the_cut() -> None:
    world = ready()
    for slot, kind, diameter in (("stem", "bar-clamp", 31.8), ("bar", "bar", 35.0)):
        body = {"part": slot, "slot": slot, "name": slot, "interfaces": [{"kind": kind, "diameter": diameter}]}
        world.write("a", "part-fit", body)
    found = card(world)
    assert not found["open"]
    assert "Does not fit: Stem and bar" in found["blocked"][0]


def test_a_steerer_too_short_is_caught() -> None:
    world = ready()
    measured(world, steerer_uncut=220.0)
    found = card(world)
    assert not found["open"]
    assert any("too short" in b for b in found["blocked"])


def test_the_uncut_length_must_be_known() -> None:
    world = World()
    measured(world, **PARTS)
    measured(world, by="bas", steerer_mark=226.0)
    assert card(world)["blocked"] == ["Measure the steerer as it is."]


def test_a_chain_is_cut_only_when_both_counts_are_the_same() -> None:
    world = World()
    world.write("a", "measure", {"what": "cut_chain_first", "value": 116, "unit": ""}, by="juno")
    world.write("a", "measure", {"what": "cut_chain_second", "value": 114, "unit": ""}, by="bas")
    assert not card(world, "chain")["open"]
    world.write("a", "measure", {"what": "cut_chain_second", "value": 116, "unit": ""}, by="bas")
    assert card(world, "chain")["number"] == 116


@pytest.mark.parametrize("count", [113, 115.5, 0, -6])
def test_a_chain_closes_on_an_even_number_of_pitches_only(count: float) -> None:
    world = World()
    world.write("a", "measure", {"what": "cut_chain_first", "value": count, "unit": ""}, by="juno")
    world.write("a", "measure", {"what": "cut_chain_second", "value": count, "unit": ""}, by="bas")
    found = card(world, "chain")
    assert (found["agreed"], found["open"], len(found["blocked"])) == (True, False, 1)


@pytest.mark.parametrize("what", ["hose-front", "seatpost"])
def test_nothing_is_cut_to_less_than_nothing(what: str) -> None:
    world = World()
    for route, by in (("first", "juno"), ("second", "bas")):
        world.write("a", "measure", {"what": f"cut_{what}_{route}", "value": -5.5, "unit": "mm"}, by=by)
    assert card(world, what)["blocked"][0] == "Not a length to cut to: −5.5."


def post(number: float, **measures: float) -> dict[str, Any]:
    world = World()
    measured(world, **measures, cut_seatpost_first=number)
    measured(world, by="bas", cut_seatpost_second=number)
    return card(world, "seatpost")


def test_a_post_is_never_cut_below_what_must_sit_in_the_frame() -> None:
    assert not post(250)["open"], "how much that is must be on record"
    assert not post(100, min_insertion=100)["open"]
    assert not post(99999, min_insertion=100)["open"]
    assert not post(351, min_insertion=100, post_length=350)["open"]
    found = post(275.05, min_insertion=100, post_length=350)
    assert found["open"], found["blocked"]
    assert found["marks"][-1] == "So at most 175.0 mm of it may show above the frame: 100 mm stay inside."


def test_the_frame_s_or_the_post_s_own_mark_counts_where_it_asks_for_more() -> None:
    world = World()
    markings = {"min_insertion": 110}
    world.write("a", "part-fit", {"part": "p", "slot": "seatpost", "name": "post 27.2", "markings": markings})
    measured(world, min_insertion=90, cut_seatpost_first=105)
    measured(world, by="bas", cut_seatpost_second=105)
    assert card(world, "seatpost")["blocked"] == ["Shorter than the post must sit in the frame, 110 mm."]


def test_spacers_moved_after_the_stack_was_measured_shut_the_card() -> None:
    def later(world: World) -> None:
        world.clock += 120

    world = ready()
    later(world)
    world.write("a", "adjust", {"setting": "spacers_below", "to": 20, "unit": "mm"})
    assert card(world)["open"], "as it was measured"
    later(world)
    world.write("a", "adjust", {"setting": "spacers_below", "to": 45, "unit": "mm"})
    assert card(world)["blocked"] == ["The spacers were changed since; measure again: spacers below, steerer mark."]
    later(world)
    measured(world, spacers_below=45.0)
    assert card(world)["blocked"][-1] == "The spacers were changed since; measure again: steerer mark."
    later(world)
    measured(world, by="bas", steerer_mark=251.0)
    assert card(world)["open"], card(world)["blocked"]


def test_a_measure_that_is_still_a_question_opens_no_card() -> None:
    world = ready()
    world.pull("b")
    world.write("b", "measure", {"what": "steerer_mark", "value": 236.0, "unit": "mm"}, by="bas")
    measured(world, by="juno", steerer_mark=226.5)
    found = card(world)
    assert not found["open"]
    assert found["blocked"][-1] == "Measured twice and not decided: steerer mark."
    world.pull("a")
    measured(world, by="bas", steerer_mark=226.5)
    assert card(world)["open"]


def test_what_was_not_checked_of_the_clamp_is_marked() -> None:
    world = World()
    measured(world, **PARTS, steerer_uncut=300.0)
    measured(world, by="bas", steerer_mark=226.5)
    assert card(world)["marks"] == ["Not checked: whether the plug backs the whole clamp. Measure how deep it reaches."]


def test_an_unknown_cut_is_refused() -> None:
    with pytest.raises(InputError):
        cut_card("beard", fold(BIKE, []))


def test_what_was_cut_stays_on_the_card() -> None:
    world = ready()
    world.write("a", "cut", {"what": "steerer", "planned": 223.5, "result": 223.4, "unit": "mm"})
    assert [c["result"] for c in card(world)["done"]] == [223.4]


def test_every_cut_carries_its_cautions() -> None:
    assert all(c["cautions"] for c in CUTS)


@given(st.integers(1, 12))
def test_bolts_are_each_tightened_once_and_neighbours_never_follow_each_other(bolts: int) -> None:
    order = bolt_order(bolts)
    assert sorted(order) == list(range(1, bolts + 1))
    if bolts >= 4 and bolts % 2 == 0:
        for one, next_one in zip(order[::2], order[1::2], strict=True):
            assert abs(one - next_one) == bolts // 2, "opposite in the ring"


def test_every_usual_range_is_a_range_and_says_it_is_usual() -> None:
    for joint in JOINTS:
        assert joint["source"] == "common practice"
        assert (joint["low"] is None) == (joint["high"] is None)
        assert joint["low"] is None or joint["low"] <= joint["high"]


def test_a_cut_is_never_undone_only_superseded() -> None:
    world = ready()
    first = world.write("a", "cut", {"what": "steerer", "planned": 223.5, "result": 224.0, "unit": "mm"})
    world.write("a", "void", {"entry": first, "reason": "taken back"})
    assert [c["result"] for c in card(world)["done"]] == [224.0]
    world.write("a", "cut", {"what": "steerer", "planned": 222.0, "result": 222.0, "unit": "mm"})
    assert [c["result"] for c in card(world)["done"]] == [224.0, 222.0]
