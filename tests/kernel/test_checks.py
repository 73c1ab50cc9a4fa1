"""Verdicts and standing: never stronger than what was checked."""

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.checks import all_checks, prepare
from pinchbolt.kernel.record import fold
from pinchbolt.kernel.shipped import SHIPPED, find_check
from pinchbolt.kernel.verdicts import verdict
from tests.kernel.entries import BIKE, World

MARKS = st.sampled_from(["pass", "attention", "fail", None])
PRE_EVENT = find_check("pre-event", 1) or {}
ITEMS: list[dict[str, Any]] = PRE_EVENT["items"]


def answered(mark: str | None = "pass", **by_item: Any) -> list[dict[str, Any]]:
    """Every item of the pre-event check with `mark`, some otherwise (`-` written `_`)."""
    marks = {k.replace("_", "-"): v for k, v in by_item.items()}
    return [{"item": i["item"], "mark": marks.get(i["item"], mark)} for i in ITEMS]


def of(answers: list[dict[str, Any]]) -> dict[str, Any]:
    return verdict({"check": "pre-event", "version": 1, "answers": answers})


def test_a_check_with_every_item_passed_is_fit_to_ride() -> None:
    assert of(answered())["verdict"] == "fit"


@pytest.mark.parametrize("item", [i["item"] for i in ITEMS if i["essential"]])
def test_each_essential_item_left_open_is_never_a_pass(item: str) -> None:
    assert of([a for a in answered() if a["item"] != item])["verdict"] == "not-complete"
    assert of([dict(a, mark=None) if a["item"] == item else a for a in answered()])["verdict"] == "not-complete"


@given(st.lists(MARKS, min_size=len(ITEMS), max_size=len(ITEMS)))
def test_the_verdict_follows_the_rules_for_any_answers(marks: list[str | None]) -> None:
    found = of([{"item": i["item"], "mark": m} for i, m in zip(ITEMS, marks, strict=True)])["verdict"]
    pairs = list(zip([i["essential"] for i in ITEMS], marks, strict=True))
    if any(essential and mark == "fail" for essential, mark in pairs):
        assert found == "not-fit"
    elif any(essential and mark is None for essential, mark in pairs):
        assert found == "not-complete"
    elif any(mark != "pass" for _, mark in pairs):
        assert found == "care"
    else:
        assert found == "fit"


@given(st.lists(MARKS, min_size=len(ITEMS), max_size=len(ITEMS)), st.randoms(use_true_random=False))
def test_the_order_of_answers_does_not_matter(marks: list[str | None], rnd: random.Random) -> None:
    answers = [{"item": i["item"], "mark": m} for i, m in zip(ITEMS, marks, strict=True)]
    shuffled = list(answers)
    rnd.shuffle(shuffled)
    assert of(shuffled)["verdict"] == of(answers)["verdict"]


def test_an_essential_item_cannot_be_made_less_by_the_answer() -> None:
    assert (
        of([dict(a, essential=False, mark="fail") if a["item"] == "headset" else a for a in answered()])["verdict"] == "not-fit"
    )


def test_a_value_outside_its_limit_fails_whatever_mark_came_with_it() -> None:
    answers = [dict(a, value=0.9, unit="%", high=0.75) if a["item"] == "chain" else a for a in answered()]
    found = of(answers)
    assert found["verdict"] == "not-fit"
    assert "above the limit 0.75" in found["reasons"][0]["text"]


def test_a_value_without_a_limit_says_nothing_by_itself() -> None:
    answers = [{"item": "rotor", "title": "Rotor", "value": 1.6, "unit": "mm"}]
    assert verdict({"check": "own", "version": 1, "answers": answers})["verdict"] == "not-complete"


def test_a_check_of_a_part_never_says_that_the_bike_is_fit() -> None:
    passed = {"item": "tyres", "title": "Tyres", "essential": True, "mark": "pass"}
    of_a_part, of_all = (verdict({"check": "own", "version": 1, "scope": s, "answers": [passed]}) for s in ("part", "whole"))
    assert (of_a_part["verdict"], of_a_part["words"]) == ("fit", "nothing found")
    assert (of_all["verdict"], of_all["words"]) == ("fit", "fit to ride")
    failed = verdict({"check": "own", "version": 1, "scope": "part", "answers": [dict(passed, mark="fail")]})
    assert failed["words"] == "not fit to ride"


def test_what_was_left_open_is_named_and_is_no_pass_even_when_it_is_not_essential() -> None:
    open_one = next(i for i in ITEMS if not i["essential"])
    for answers in (
        [a for a in answered() if a["item"] != open_one["item"]],
        answered(**{open_one["item"].replace("-", "_"): None}),
    ):
        found = of(answers)
        assert (found["verdict"], [r["text"] for r in found["reasons"]]) == ("care", [open_one["title"] + ": not answered"])


def test_a_check_that_asks_nothing_is_not_complete() -> None:
    assert verdict({"check": "own", "version": 1, "answers": []})["verdict"] == "not-complete"


def test_a_check_of_a_version_this_program_does_not_know_keeps_its_meaning() -> None:
    """It carries what was asked: the verdict needs no definition."""
    answers = [{"item": "x", "essential": True, "mark": "pass"}, {"item": "y", "essential": False, "mark": "fail"}]
    assert verdict({"check": "pre-event", "version": 99, "answers": answers})["verdict"] == "care"


def test_every_shipped_check_has_items_that_say_what_to_do_and_what_passes() -> None:
    for check in SHIPPED:
        names = [i["item"] for i in check["items"]]
        assert len(names) == len(set(names))
        assert all(i["do"] and i["passes"] and i["title"] for i in check["items"])


LIMITED = st.fixed_dictionaries(
    {"item": st.sampled_from(["a", "b", "c", "d"])},
    optional={
        "essential": st.booleans(),
        "mark": MARKS,
        "value": st.floats(-10, 10),
        "low": st.floats(-5, 0),
        "high": st.floats(0, 5),
        "later_field": st.text(max_size=5),
    },
)


@given(
    st.lists(LIMITED, max_size=8, unique_by=lambda a: a["item"]), st.integers(2, 99), st.sampled_from(["whole", "part", None])
)
def test_a_check_of_an_older_app_keeps_its_meaning_whatever_the_definition_has_become(
    answers: list[dict[str, Any]], version: int, scope: str | None
) -> None:
    """What it asked stands beside what was answered: with or without a definition of its version, one verdict, and never a
    pass for an item that has no answer."""
    checks = [
        {"check": name, "version": version, "answers": answers, "scope": scope} for name in ("pre-event", "own-1", "gone")
    ]
    found = [verdict(one) for one in checks]
    assert found[0] == found[1] == found[2]
    essential = [a for a in answers if a.get("essential") is not False]
    open_ones = [a for a in essential if a.get("mark") is None and (a.get("value") is None or not {"low", "high"} & set(a))]
    if open_ones or not answers:
        assert found[0]["verdict"] in ("not-complete", "not-fit")
    if any(a.get("mark") == "fail" and (a.get("value") is None) for a in essential):
        assert found[0]["verdict"] == "not-fit"


@given(st.lists(MARKS, min_size=len(ITEMS), max_size=len(ITEMS)), st.integers(0, len(ITEMS) - 1))
def test_a_worse_answer_never_makes_a_better_verdict(marks: list[str | None], place: int) -> None:
    """not-fit is worse than not-complete, that than care, that than fit; an open item is never better than a passed one."""
    rank = ["fit", "care", "not-complete", "not-fit"]

    def of_marks(given_marks: list[str | None]) -> int:
        return rank.index(of([{"item": i["item"], "mark": m} for i, m in zip(ITEMS, given_marks, strict=True)])["verdict"])

    passed = [*marks[:place], "pass", *marks[place + 1 :]]
    failed = [*marks[:place], "fail", *marks[place + 1 :]]
    assert of_marks(passed) <= of_marks(marks) <= of_marks(failed)


# --- how a bike stands


def standing(world: World) -> dict[str, Any]:
    return fold(BIKE, world.log)["standing"]  # type: ignore[return-value]


def pre_event(world: World, device: str = "a", answers: list[dict[str, Any]] | None = None) -> str:
    return world.write(device, "check", {"check": "pre-event", "version": 1, "answers": answers or answered()})


def test_a_bike_never_checked_is_not_complete() -> None:
    world = World()
    world.write("a", "describe", {"name": "Fern"})
    assert standing(world)["verdict"] == "not-complete"


def test_a_self_check_never_clears_what_a_mechanic_did_not() -> None:
    world = World()
    items = (find_check("self-check", 1) or {})["items"]
    passed = [{"item": i["item"], "mark": "pass"} for i in items]
    world.write("a", "check", {"check": "self-check", "version": 1, "answers": passed})
    assert standing(world)["verdict"] == "not-complete"
    pre_event(world, answers=answered(headset="fail"))
    world.write("a", "check", {"check": "self-check", "version": 1, "answers": passed})
    assert standing(world)["verdict"] == "not-fit"


def test_a_self_check_can_make_it_worse() -> None:
    world = World()
    pre_event(world)
    failed = [{"item": "tyres", "title": "Tyres", "essential": True, "mark": "fail"}]
    world.write("a", "check", {"check": "self-check", "version": 1, "answers": failed})
    assert standing(world)["verdict"] == "not-fit"


def test_an_open_fault_weighs_until_closed_and_a_failed_check_until_checked_again() -> None:
    world = World()
    pre_event(world)
    fault = world.write("a", "fault", {"what": "crack at the crown", "level": "stop"})
    assert standing(world)["verdict"] == "not-fit"
    world.write("a", "fault-close", {"fault": fault, "done": "new fork"})
    assert standing(world)["verdict"] == "fit"
    pre_event(world, answers=answered(headset="fail"))
    assert standing(world)["verdict"] == "not-fit"
    pre_event(world)
    assert standing(world)["verdict"] == "fit"


def after_fall(world: World, device: str, mark: str = "pass") -> None:
    items = (find_check("after-fall", 1) or {})["items"]
    answers = [{"item": i["item"], "mark": mark} for i in items]
    world.write(device, "check", {"check": "after-fall", "version": 1, "answers": answers})


def test_a_fall_stops_the_bike_until_an_after_fall_check_passes() -> None:
    world = World()
    pre_event(world)
    world.write("a", "ride", {"km": 20, "fall": True})
    assert standing(world)["verdict"] == "not-fit"
    pre_event(world)
    assert standing(world)["verdict"] == "not-fit", "a start-line check does not look for what a fall does"
    after_fall(world, "a")
    assert standing(world)["verdict"] == "fit"


def test_an_after_fall_check_clears_only_the_falls_its_checker_could_know_of() -> None:
    world = World()
    pre_event(world, "b")
    world.write("a", "ride", {"km": 20, "fall": True})
    after_fall(world, "b")  # b had not pulled a's ride
    assert standing(world)["verdict"] == "not-fit"
    world.pull("b")
    after_fall(world, "b")
    assert standing(world)["verdict"] == "fit"


def test_a_part_fitted_after_the_check_was_not_checked() -> None:
    world = World()
    pre_event(world)
    world.write("a", "part-fit", {"part": "p", "slot": "tyre-front", "name": "tubeless tyre 40 mm"})
    found = standing(world)
    assert found["verdict"] == "not-complete"
    assert "tyre front" in found["reasons"][0]["text"]


def test_a_setting_moved_after_the_check_asks_for_care() -> None:
    world = World()
    pre_event(world)
    world.write("a", "adjust", {"setting": "saddle_height", "to": 700, "unit": "mm"})
    assert standing(world)["verdict"] == "care"


def test_two_checks_made_at_once_count_as_the_worse() -> None:
    world = World()
    pre_event(world, "a", answered(headset="fail"))
    pre_event(world, "b")
    assert standing(world)["verdict"] == "not-fit"


# --- a check made ready for a bike


def test_limits_come_from_the_parts_own_markings_and_the_stricter_counts() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "1", "slot": "wheel-front", "name": "w", "markings": {"max_pressure_front": 5.0}})
    world.write("a", "part-fit", {"part": "2", "slot": "tyre-front", "name": "t", "markings": {"max_pressure_front": 4.0}})
    world.write("a", "measure", {"what": "pressure_front", "value": 2.3, "unit": "bar"})
    ready = prepare(PRE_EVENT, fold(BIKE, world.log))
    item = next(i for i in ready["items"] if i["item"] == "front-pressure")
    assert item["high"] == 4.0
    assert item["last"]["value"] == 2.3


def test_the_re_torque_is_made_from_the_joints_on_this_bike() -> None:
    world = World()
    world.write("a", "torque", {"joint": "stem face plate", "applied": 4.5, "low": 4, "high": 5})
    ready = prepare(find_check("first-ride", 1) or {}, fold(BIKE, world.log))
    assert [(i["item"], i["low"], i["high"], i["answer"]) for i in ready["items"]] == [("joint-stem face plate", 4, 5, "value")]


def test_the_newest_version_of_a_check_is_the_one_to_make() -> None:
    own = [dict(PRE_EVENT, version=2, title="Ours")]
    made = [c for c in all_checks(own) if c["check"] == "pre-event"]
    assert [c["title"] for c in made] == ["Ours"]
