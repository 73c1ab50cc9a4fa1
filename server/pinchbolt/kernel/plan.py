"""The build plan: what must come before what, what is done by the record, what is ready and what is blocked by what.

The shipped order is common practice; a workshop can keep its own as a `plan-define` entry of the same form.
"""

from .cutting import cut_card
from .plain import listing, mapping, objects
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

DONE = "done"
READY = "ready"
BLOCKED = "blocked"


def _step(step: str, title: str, after: str, done_by: "list[str]", *, page: str = "") -> "Body":
    """`after` lists the steps that come first, blank-separated; `done_by` what on the record shows that it is done, all of it:
    `measure:NAME`, `part:SLOT`, `weighed:SLOT`, `joint:NAME`, `cut:WHAT`, `service:JOB`, `check:NAME`, `fits`, `baseline`.

    `page` is where the work is: `calc/ID`, `cut/WHAT`, `check/NAME`, `torque`, `position`, `parts`, `weigh`, `fits`, `adjust`.
    """
    return {"step": step, "title": title, "after": after.split(), "done_by": done_by, "page": page}


PLAN: "list[Body]" = [
    _step(
        "old-position",
        "Measure the old bike",
        "",
        ["measure:target_bar_x", "measure:target_bar_y", "measure:saddle_height"],
        page="position",
    ),
    _step("frame-measures", "Measure the frame", "", ["measure:stack", "measure:reach", "measure:head_angle"], page="position"),
    _step("parts-listed", "List the parts", "", ["part:frame", "part:fork", "part:stem", "part:bar"], page="parts"),
    _step("fits", "Prove that they fit", "parts-listed", ["fits"], page="fits"),
    _step(
        "stem-chosen",
        "Choose stem and spacers",
        "old-position frame-measures",
        ["measure:stem_length", "measure:spacers_below"],
        page="calc/position-transfer",
    ),
    _step("weigh-parts", "Weigh the parts", "parts-listed", ["weighed:frame", "weighed:fork"], page="weigh"),
    _step(
        "bottom-bracket",
        "Fit bottom bracket and cranks",
        "fits",
        ["joint:bottom-bracket cups", "joint:crank pinch bolts"],
        page="torque",
    ),
    _step(
        "headset",
        "Dry-fit headset, fork and stem",
        "fits stem-chosen",
        ["measure:lower_stack", "measure:upper_stack", "measure:stem_height"],
        page="calc/steerer-cut",
    ),
    _step(
        "steerer-routes",
        "Measure the steerer by two routes",
        "headset",
        ["measure:steerer_uncut", "measure:steerer_mark"],
        page="cut/steerer",
    ),
    _step("steerer-cut", "Cut the steerer", "steerer-routes", ["cut:steerer"], page="cut/steerer"),
    _step(
        "plug",
        "Fit plug, stem and bar",
        "steerer-cut",
        ["joint:steerer plug", "joint:stem to steerer", "joint:stem face plate"],
        page="torque",
    ),
    _step("saddle", "Fit post and saddle", "fits", ["joint:seatpost clamp", "joint:saddle clamp"], page="torque"),
    _step(
        "wheels",
        "Fit wheels, rotors, cassette, tyres",
        "fits",
        ["part:wheel-front", "part:wheel-rear", "joint:cassette lockring"],
        page="torque",
    ),
    _step(
        "hoses",
        "Cut hoses, fit calipers, bleed",
        "plug wheels",
        ["cut:hose-front", "cut:hose-rear", "joint:front caliper", "joint:rear caliper"],
        page="cut/hose-front",
    ),
    _step("chain", "Size and cut the chain", "bottom-bracket wheels", ["cut:chain"], page="cut/chain"),
    _step("gears", "Set up the gears", "chain plug", ["service:gears set"], page="adjust"),
    _step(
        "position-set",
        "Set the position and measure it again",
        "plug saddle",
        ["measure:bar_x", "measure:bar_y", "baseline"],
        page="position",
    ),
    _step("axles", "Axles and pedals to their figure", "wheels", ["joint:front axle", "joint:rear axle"], page="torque"),
    _step("weigh-bike", "Weigh the whole bike", "gears hoses position-set axles", ["weighed:bike"], page="weigh"),
    _step("pre-event", "Check the whole bike", "gears hoses position-set axles", ["check:pre-event"], page="check/pre-event"),
    _step("hand-over", "Hand it over", "weigh-bike pre-event", ["check:hand-over"], page="check/hand-over"),
]


def build_plan(state: "Body", fits_worst: str, own: "list[Body] | None" = None) -> "list[Body]":
    """The steps with `status` (`done`, `ready`, `blocked`), `by` (what blocks it) and `missing` (what the record lacks).

    `fits_worst` is the worst result of the fit report. A cut otherwise ready is blocked while its card is shut.
    """
    steps = own or PLAN
    lacking = {str(s["step"]): [d for d in listing(s["done_by"]) if not _on_record(str(d), state, fits_worst)] for s in steps}
    titles = {str(s["step"]): str(s["title"]) for s in steps}
    planned: "list[Body]" = []
    for step in steps:
        name = str(step["step"])
        missing = lacking[name]
        waits = [titles[str(a)] for a in listing(step["after"]) if lacking.get(str(a))]
        status = DONE if not missing else (BLOCKED if waits else READY)
        told: "Body" = dict(step)
        told.update({"status": status, "by": waits if status == BLOCKED else [], "missing": missing})
        cuts = [str(d)[4:] for d in missing if str(d).startswith("cut:")]
        if status == READY and cuts:
            shut = [b for what in cuts for b in listing(cut_card(what, state)["blocked"])]
            if shut and name == "steerer-cut":
                told["status"], told["by"] = BLOCKED, shut
        planned.append(told)
    return planned


def circular(steps: "list[Body]") -> list[str]:
    """One ring of steps, each waiting for the next and the last for the first; or a step and the one it waits for that there
    is not. Empty for a sound plan.
    """
    after = {str(s["step"]): [str(a) for a in listing(s["after"])] for s in steps}
    settled: list[str] = []
    progress = True
    while progress:
        progress = False
        for step in after:
            if step not in settled and all([a in settled for a in after[step]]):
                settled.append(step)
                progress = True
    # Every step left waits for another one left, so following them comes round, or ends at one there is not.
    way = [str(s["step"]) for s in steps if str(s["step"]) not in settled][:1]
    while way:
        following = next(a for a in after[way[-1]] if a not in settled)
        if following in way:
            return way[way.index(following) :]
        if following not in after:
            return [way[-1], following]
        way.append(following)
    return way


def _on_record(what: str, state: "Body", fits_worst: str) -> bool:
    if what == "fits":
        return fits_worst in ("fits", "fits-with")
    if what == "baseline":
        return len(listing(state.get("baselines"))) > 0
    kind, _, name = what.partition(":")
    if kind == "measure":
        return name in mapping(state.get("measures"))
    if kind == "joint":
        return name in mapping(state.get("joints"))
    if kind == "part":
        return any([p.get("slot") == name for p in objects(state.get("parts"))])
    if kind == "weighed" and name == "bike":
        return "bike" in mapping(state.get("weighed"))
    if kind == "weighed":
        return any([p.get("slot") == name and finite(p.get("weighed")) is not None for p in objects(state.get("parts"))])
    if kind == "cut":
        return any([c.get("what") == name for c in objects(state.get("cuts"))])
    if kind == "service":
        return any([s.get("job") == name for s in objects(state.get("services"))])
    if kind == "check":
        made = [c for c in objects(state.get("checks")) if c.get("check") == name]
        # The newest comes first, and replaces those before it.
        return len(made) > 0 and made[0].get("verdict") in ("fit", "care")
    return False
