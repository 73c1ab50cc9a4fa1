"""Swaps: the cheapest way to the weight goal."""

from .calculations import calculation
from .cheapest_choice import TooMany, cheapest, lightest
from .errors import refuse
from .plain import objects
from .quantities import finite, flag, number, rows, text
from .weight import plain_slot, sum_of
from .working import Work, shown

GRAIN = 1e6
"""Masses and costs are compared in millionths: finer than any scale, and whole numbers add exactly."""


@calculation(
    id="weight-swaps",
    family="weight",
    title="Swaps to meet the goal",
    question="Which parts do I change to meet the weight goal for the least money?",
    inputs=[
        number(
            "base",
            "g",
            "Everything that stays",
            possible=(0, 100000),
            plausible=(0, 25000),
            step=10,
            digits=0,
            help="The bike without the slots below, weighed.",
        ),
        number("target", "g", "Goal", possible=(1, 150000), plausible=(5500, 25000), step=10, digits=0),
        rows(
            "slots",
            "Slots that may change",
            [
                text("slot", "Slot"),
                rows(
                    "options",
                    "Options",
                    [
                        text("name", "Part"),
                        number(
                            "mass",
                            "g",
                            "Mass",
                            possible=(0, 50000),
                            plausible=(0, 9000),
                            step=1,
                            digits=1,
                            help="All pieces of the slot together, weighed rather than claimed.",
                        ),
                        number(
                            "cost",
                            "",
                            "Cost",
                            default=0,
                            possible=(0, 1000000),
                            plausible=(0, 10000),
                            step=5,
                            digits=2,
                            help="In any one currency. What is already on the bike costs 0.",
                        ),
                    ],
                    most=60,
                ),
            ],
            help="One option is taken of each slot. The part that is on now is an option too.",
        ),
    ],
    outputs=[
        rows(
            "choice",
            "Take",
            [
                text("slot", "Slot"),
                text("name", "Part"),
                number("mass", "g", "Mass", digits=1),
                number("cost", "", "Cost", digits=2),
            ],
        ),
        number("total", "g", "The bike then weighs", digits=0),
        number("cost", "", "For", digits=2),
        flag("feasible", "Meets the goal"),
        number("headroom", "g", "Left to the goal", digits=1, help="Below 0: over the goal."),
    ],
    cautions=[
        "A lighter part must still carry the rider and fit the bike: weight limits, the maker's conditions and the fit rules "
        "come before grams.",
    ],
    source="Multiple-choice knapsack, solved exactly by dynamic programming over the unbeaten choices.",
    example={
        "base": 6310,
        "target": 8000,
        "slots": [
            {
                "slot": "tyres",
                "options": [
                    {"name": "tyres 35 mm, on now", "mass": 780, "cost": 0},
                    {"name": "tyres 35 mm, light", "mass": 660, "cost": 110},
                ],
            },
            {
                "slot": "saddle",
                "options": [
                    {"name": "saddle, on now", "mass": 268, "cost": 0},
                    {"name": "saddle with carbon rails", "mass": 182, "cost": 160},
                ],
            },
            {
                "slot": "cassette",
                "options": [
                    {"name": "cassette 11-36, on now", "mass": 410, "cost": 0},
                    {"name": "cassette 11-36, light", "mass": 322, "cost": 95},
                ],
            },
            {
                "slot": "seatpost",
                "options": [
                    {"name": "seatpost, on now", "mass": 342, "cost": 0},
                    {"name": "seatpost, carbon", "mass": 229, "cost": 140},
                ],
            },
        ],
    },
)
def weight_swaps(work: Work, *, base: float, target: float, slots: object) -> dict[str, object]:
    """One option a slot, the cheapest that keeps base + masses ≤ target (g); when none does, the lightest. Exact."""
    listed = objects(slots)
    options = [objects(slot["options"]) for slot in listed]
    grains = [[(_grains(o["mass"]), _grains(o["cost"])) for o in of_slot] for of_slot in options]
    try:
        places = cheapest(grains, _grains(target) - _grains(base))
    except TooMany:
        raise refuse(
            "slots",
            str(len(listed)) + " slots whose options are too alike to rule out",
            "fewer slots or options, or masses and costs in rounder figures",
        )
    feasible = places is not None
    if places is None:
        places = lightest(grains)
    choice: list[dict[str, object]] = []
    masses: list[float] = []
    costs: list[float] = []
    for i, slot in enumerate(listed):
        taken = options[i][places[i]]
        choice.append({"slot": slot["slot"], "name": taken["name"], "mass": taken["mass"], "cost": taken["cost"]})
        masses.append(finite(taken["mass"]) or 0.0)
        costs.append(finite(taken["cost"]) or 0.0)
    work.say("One option a slot: every combination was looked at, or ruled out because it is too heavy or dearer.")
    total = base + sum(masses)
    cost = sum(costs)
    headroom = target - total
    work.line("total", "base + " + sum_of(masses), total, "g", base=base)
    work.line("cost", sum_of(costs), cost)
    work.line("headroom", "target − total", headroom, "g", target=target, total=total)
    _said_twice(work, listed)
    if feasible:
        work.fine(
            "target", "The cheapest way to the goal costs " + shown(cost, 2) + " and leaves " + shown(headroom, 1) + " g."
        )
    else:
        work.care(
            "target",
            "No choice meets the goal: the lightest is "
            + shown(-headroom, 1)
            + " g over. Look for other parts, or another goal.",
        )
    return {"choice": choice, "total": total, "cost": cost, "feasible": feasible, "headroom": headroom}


def _grains(value: object) -> float:
    return float(int((finite(value) or 0.0) * GRAIN + 0.5))


def _said_twice(work: Work, listed: "list[dict[str, object]]") -> None:
    seen: list[str] = []
    for i, slot in enumerate(listed):
        name = plain_slot(slot["slot"])
        if name in seen:
            work.care("slots[" + str(i) + "].slot", name + " is there twice: one option was taken of each.")
        seen.append(name)
