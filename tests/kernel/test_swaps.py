"""The cheapest way to the goal: against every combination, and against an integer programme solved to the end."""

import itertools
import random
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.cheapest_choice import front
from pinchbolt.kernel.errors import InputError
from tests.kernel.vectors_weight import PUBLISHED, knapsack

# Few values, so that many choices tie; tenths, which are not exact in binary.
TENTHS = st.integers(0, 60).map(lambda tenths: tenths / 10)
OPTION = st.fixed_dictionaries({"name": st.just("part"), "mass": TENTHS, "cost": TENTHS})
SLOT = st.fixed_dictionaries({"slot": st.just("slot"), "options": st.lists(OPTION, min_size=1, max_size=4)})


def swaps(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("weight-swaps").run(inputs)
    return answer


def tenths(value: float) -> int:
    return round(value * 10)


@given(st.lists(SLOT, min_size=1, max_size=6), TENTHS, st.integers(10, 250).map(lambda t: t / 10))
def test_no_combination_is_cheaper_or_as_cheap_and_lighter(slots: list[dict[str, Any]], base: float, goal: float) -> None:
    out = swaps(base=base, target=goal, slots=slots)["outputs"]
    sums = [
        (sum(tenths(o["cost"]) for o in taken), tenths(base) + sum(tenths(o["mass"]) for o in taken))
        for taken in itertools.product(*[slot["options"] for slot in slots])
    ]
    meeting = [one for one in sums if one[1] <= tenths(goal)]
    assert out["feasible"] == bool(meeting)
    if meeting:
        cost, total = min(meeting)
    else:
        total, cost = min((total, cost) for cost, total in sums)
    assert out["cost"] == pytest.approx(cost / 10, abs=1e-9)
    assert out["total"] == pytest.approx(total / 10, abs=1e-9)
    assert len(out["choice"]) == len(slots)
    for row, slot in zip(out["choice"], slots, strict=True):
        assert {"name": row["name"], "mass": row["mass"], "cost": row["cost"]} in slot["options"]
    assert sum(tenths(row["mass"]) for row in out["choice"]) + tenths(base) == total
    assert sum(tenths(row["cost"]) for row in out["choice"]) == cost


def made_up(slots: int, options: int, seed: int) -> list[dict[str, Any]]:
    hat = random.Random(seed)
    return [
        {
            "slot": f"slot {i}",
            "options": [
                {"name": f"part {k}", "mass": hat.randint(20, 900), "cost": hat.randint(0, 600)} for k in range(options)
            ],
        }
        for i in range(slots)
    ]


def by_integer_programme(slots: list[dict[str, Any]], room: float) -> float:
    """The least cost by scipy's branch and bound, without a gap."""
    options = [(i, o["mass"], o["cost"]) for i, slot in enumerate(slots) for o in slot["options"]]
    one_each = np.array([[1.0 if i == slot else 0.0 for i, _, _ in options] for slot in range(len(slots))])
    masses = np.array([[mass for _, mass, _ in options]])
    solved = milp(
        [cost for _, _, cost in options],
        constraints=[LinearConstraint(one_each, 1, 1), LinearConstraint(masses, -np.inf, room)],
        integrality=np.ones(len(options)),
        bounds=(0, 1),
        options={"mip_rel_gap": 0},
    )
    assert solved.success
    return float(solved.fun)


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize(("many", "options"), [(5, 8), (12, 4), (30, 5)])
def test_as_cheap_as_the_integer_programme(many: int, options: int, seed: int) -> None:
    slots = made_up(many, options, seed)
    light = sum(min(o["mass"] for o in slot["options"]) for slot in slots)
    heavy = sum(max(o["mass"] for o in slot["options"]) for slot in slots)
    goal = round(light + (heavy - light) * (0.05 + 0.07 * seed))
    out = swaps(base=1000, target=1000 + goal, slots=slots)["outputs"]
    assert out["feasible"]
    assert out["total"] <= 1000 + goal
    assert out["cost"] == pytest.approx(by_integer_programme(slots, goal), abs=1e-6)


@pytest.mark.parametrize(("name", "room", "weights", "worths", "best"), PUBLISHED)
def test_published_knapsacks_by_the_integer_programme_too(name: str, room: int, weights: str, worths: str, best: int) -> None:
    slots = knapsack(room, weights, worths)["slots"]
    assert by_integer_programme(slots, room) == pytest.approx(sum(map(int, worths.split())) - best), name


def test_a_hundred_and_twenty_slots_are_answered_exactly() -> None:
    slots = made_up(120, 3, 7)
    goal = round(0.6 * sum(slot["options"][0]["mass"] for slot in slots))
    out = swaps(base=0, target=goal, slots=slots)["outputs"]
    assert out["cost"] == pytest.approx(by_integer_programme(slots, goal), abs=1e-6)


def test_what_cannot_be_ruled_out_in_time_is_refused_and_not_guessed() -> None:
    """Each gram costs the same everywhere: no choice is better than another until all are looked at."""
    hat = random.Random(3)
    slots = [
        {
            "slot": f"slot {i}",
            "options": [{"name": "a", "mass": m, "cost": 900 - m} for m in [hat.uniform(20, 900) for _ in range(3)]],
        }
        for i in range(40)
    ]
    with pytest.raises(InputError) as caught:
        swaps(base=0, target=18000, slots=slots)
    assert [p["field"] for p in caught.value.problems] == ["slots"]


def test_a_slot_named_twice_is_said() -> None:
    option = [{"name": "cage", "mass": 30, "cost": 0}]
    answer = swaps(base=6000, target=7000, slots=[{"slot": "cages", "options": option}, {"slot": " Cages", "options": option}])
    assert [f["field"] for f in answer["findings"] if f["level"] == "care"] == ["slots[1].slot"]


def test_options_that_another_beats_in_both_are_no_options() -> None:
    assert front([(5.0, 1.0), (3.0, 2.0), (4.0, 2.0), (3.0, 2.0), (6.0, 1.0)]) == [(3.0, 2.0, 1), (5.0, 1.0, 0)]
