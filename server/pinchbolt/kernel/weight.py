"""The weight budget: what the bike will weigh, how sure that is, and what the total leaves out."""

import math

from .calculations import calculation
from .distributions import normal_share
from .plain import lowered, objects
from .quantities import flag as yes_no
from .quantities import number, rows, text, whole
from .working import Work, figure, shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

ODD_OVERRUN = 30.0
"""%, common practice: a part this far off its claim was more likely weighed with something on it, or typed wrongly."""

LITTLE = 0.9
"""Below this chance the target counts as not safe, common practice."""


class _Part:
    """A row of the list as it was read: masses in g of one piece, None where not known."""

    def __init__(self, row: "dict[str, Any]", at: str) -> None:
        self.at = at
        self.name: str = row["name"]
        self.slot = plain_slot(row["slot"])
        self.count: int = row["count"]
        self.claimed: "float | None" = row["claimed"]
        self.weighed: "float | None" = row["weighed"]


def plain_slot(slot: object) -> str:
    """A slot's name as it is compared: without outer blanks, in small letters; empty when there is none."""
    return lowered(slot) if slot is not None else ""


def sum_of(values: list[float]) -> str:
    """The sum of `values` as it is written in a line of working."""
    if not values:
        return "0"
    return " + ".join([figure(value) for value in values])


@calculation(
    id="weight-budget",
    family="weight",
    title="Weight budget",
    question="What will the bike weigh, and will it meet its goal?",
    inputs=[
        rows(
            "parts",
            "Parts",
            [
                text("name", "Part"),
                text("slot", "Slot", optional=True, help="Its place on the bike: fork, saddle, tyre-front."),
                whole("count", "Pieces", default=1, possible=(1, 500), plausible=(1, 80)),
                number(
                    "claimed",
                    "g",
                    "Claimed, one piece",
                    optional=True,
                    possible=(0.01, 50000),
                    plausible=(0.5, 9000),
                    step=1,
                    digits=0,
                    help="The maker's figure.",
                ),
                number(
                    "weighed",
                    "g",
                    "Weighed, one piece",
                    optional=True,
                    possible=(0.01, 50000),
                    plausible=(0.5, 9000),
                    step=1,
                    digits=1,
                    help="Clean, as it will be fitted. Small pieces: weigh them together and divide.",
                ),
            ],
        ),
        number("target", "g", "Goal", possible=(100, 100000), plausible=(5500, 25000), step=10, digits=0),
        number(
            "scale_step",
            "g",
            "Step of the scale",
            default=1,
            possible=(0.001, 500),
            plausible=(0.01, 20),
            step=1,
            digits=2,
            help="The smallest change that the scale shows.",
        ),
        rows(
            "needed_slots",
            "Slots a whole bike needs",
            [text("slot", "Slot")],
            optional=True,
            help="Left out: whether something is missing is not checked.",
        ),
    ],
    outputs=[
        number("total", "g", "Total of what is listed", digits=0),
        yes_no("complete", "Nothing is missing", optional=True, help="Empty when no needed slots were given."),
        number("sd", "g", "Give or take (1 sd)", digits=1, optional=True, help="Empty while it cannot be known."),
        number("headroom", "g", "Left to the goal", digits=0),
        number(
            "chance",
            "",
            "Chance of meeting the goal",
            digits=2,
            optional=True,
            help="From 0 to 1. Empty while something is missing or the scatter is not known.",
        ),
        number("overrun", "%", "Parts weigh more than claimed by", digits=1, optional=True),
        rows("not_weighed", "Not weighed", [text("name", "Part"), text("slot", "Slot", optional=True)], least=0),
        rows("missing_slots", "Missing", [text("slot", "Slot")], least=0),
    ],
    cautions=["A lighter part must still carry the rider: its weight limit and its maker's conditions come before the goal."],
    source="Weighed wins over claimed. Claimed-only parts are corrected by the mean overrun of the parts that have both "
    "figures; a figure rounded to a step has the standard deviation step/√12 (JCGM 100:2008, 4.3.7, from memory); normal "
    "distribution. That the other parts run over alike is an assumption.",
    example={
        "parts": [
            {"name": "frame", "slot": "frame", "claimed": 980, "weighed": 1006},
            {"name": "carbon fork A", "slot": "fork", "claimed": 370, "weighed": 374},
            {"name": "wheelset 38 mm deep", "slot": "wheels", "claimed": 1440, "weighed": 1490},
            {"name": "tyre 32 mm", "slot": "tyres", "count": 2, "claimed": 310},
            {"name": "cassette 11-36, 12-speed", "slot": "cassette", "claimed": 325},
            {"name": "groupset without cassette", "slot": "groupset", "claimed": 2280, "weighed": 2318},
            {"name": "bar, stem and tape", "slot": "cockpit", "weighed": 452},
            {"name": "saddle and post", "slot": "saddle", "weighed": 391},
        ],
        "target": 7200,
        "scale_step": 1,
        "needed_slots": [
            {"slot": "frame"},
            {"slot": "fork"},
            {"slot": "wheels"},
            {"slot": "tyres"},
            {"slot": "cassette"},
            {"slot": "groupset"},
            {"slot": "cockpit"},
            {"slot": "saddle"},
            {"slot": "pedals"},
        ],
    },
)
def weight_budget(work: Work, *, parts: object, target: float, scale_step: float, needed_slots: object) -> dict[str, object]:
    """Total, its standard deviation and the headroom, g.

    The deviation has three sources: rounding by the scale (step/√12 a weighing, times the pieces it stands for), the scatter
    of the single overruns about their mean (pieces of one part go together), and the doubt about that mean itself.
    """
    listed = [_Part(row, "parts[" + str(i) + "]") for i, row in enumerate(objects(parts))]
    weighed = [p for p in listed if p.weighed is not None]
    claimed_only = [p for p in listed if p.weighed is None and p.claimed is not None]
    nothing = [p for p in listed if p.weighed is None and p.claimed is None]

    overrun, scatter, pairs = _overrun(work, listed)
    weighed_sum = _sum(work, "weighed", [(p.weighed or 0.0) * p.count for p in weighed])
    masses = [(p.claimed or 0.0) * p.count for p in claimed_only]
    claimed_sum = _sum(work, "claimed", masses)
    total = weighed_sum + claimed_sum * (1 + (overrun or 0.0) / 100)
    work.line(
        "total",
        "weighed + claimed × (1 + overrun / 100)",
        total,
        "g",
        weighed=weighed_sum,
        claimed=claimed_sum,
        overrun=overrun or 0.0,
    )
    headroom = target - total
    work.line("headroom", "target − total", headroom, "g", target=target, total=total)

    sd = _deviation(work, [p.count for p in weighed], scale_step, masses, scatter, pairs)
    filled = [p.slot for p in listed if p.weighed is not None or p.claimed is not None]
    missing, complete = _missing(work, needed_slots, filled)
    if nothing:
        complete = False
        for part in nothing:
            work.care(part.at, part.name + " has no weight at all: the total is without it.")
    if claimed_only:
        _say_what_is_not_weighed(work, claimed_only, overrun, scatter)
    chance = None
    if sd is not None and complete is not False:
        chance = _chance(work, headroom, sd)
    _judge(work, headroom, chance, complete)
    return {
        "total": total,
        "complete": complete,
        "sd": sd,
        "headroom": headroom,
        "chance": chance,
        "overrun": overrun,
        "not_weighed": [{"name": p.name, "slot": p.slot or None} for p in listed if p.weighed is None],
        "missing_slots": [{"slot": slot} for slot in missing],
    }


def _sum(work: Work, symbol: str, values: list[float]) -> float:
    total = 0.0
    for value in values:
        total += value
    work.line(symbol, sum_of(values), total, "g")
    return total


def _overrun(work: Work, listed: list[_Part]) -> "tuple[float | None, float | None, int]":
    """Mean overrun and its scatter (sample standard deviation), both %, and how many parts have both figures."""
    single: list[float] = []
    for part in listed:
        if part.weighed is None or part.claimed is None:
            continue
        over = (part.weighed / part.claimed - 1) * 100
        single.append(over)
        work.line(
            "overrun_" + str(len(single)),
            "(weighed / claimed − 1) × 100",
            over,
            "%",
            weighed=part.weighed,
            claimed=part.claimed,
        )
        if abs(over) > ODD_OVERRUN:
            work.care(part.at + ".weighed", part.name + " is " + shown(over, 0) + " % off its claim: check both figures.")
    many = len(single)
    if not many:
        return None, None, 0
    mean = sum(single) / many
    work.line("overrun", "(" + sum_of(single) + ") / " + str(many), mean, "%")
    if many < 2:
        return mean, None, many
    squares = " + ".join(["(" + shown(over) + " − mean)^2" for over in single])
    scatter = math.sqrt(sum([(over - mean) ** 2 for over in single]) / (many - 1))
    work.line("scatter", "√((" + squares + ") / " + str(many - 1) + ")", scatter, "%", mean=mean)
    return mean, scatter, many


def _deviation(
    work: Work, counts: list[int], scale_step: float, masses: list[float], scatter: "float | None", pairs: int
) -> "float | None":
    """Standard deviation of the total, g; None when claimed-only parts are in it and their scatter is not known."""
    if masses and scatter is None:
        return None
    weighings = float(sum([count * count for count in counts]))
    rounding = scale_step * math.sqrt(weighings / 12)
    work.line("rounding", "scale_step × √(weighings / 12)", rounding, "g", scale_step=scale_step, weighings=weighings)
    spread = 0.0
    if masses and scatter is not None:
        squares = sum([mass * mass for mass in masses])
        claimed = sum(masses)
        spread = scatter / 100 * math.sqrt(squares + claimed * claimed / pairs)
        work.line(
            "spread",
            "scatter / 100 × √(squares + claimed^2 / pairs)",
            spread,
            "g",
            scatter=scatter,
            squares=squares,
            claimed=claimed,
            pairs=float(pairs),
        )
    sd = math.sqrt(rounding * rounding + spread * spread)
    work.line("sd", "√(rounding^2 + spread^2)", sd, "g", rounding=rounding, spread=spread)
    return sd


def _missing(work: Work, needed_slots: object, filled: list[str]) -> "tuple[list[str], bool | None]":
    """The needed slots that nothing with a weight fills, and whether the list is whole (None: it was not asked)."""
    if needed_slots is None:
        work.care("needed_slots", "No list of needed slots: whether something is missing was not checked.")
        return [], None
    missing: list[str] = []
    for row in objects(needed_slots):
        slot = plain_slot(row["slot"])
        if slot not in filled and slot not in missing:
            missing.append(slot)
    if missing:
        work.care("needed_slots", "Missing: " + ", ".join(missing) + ". Without them the total is not a total.")
    return missing, not missing


def _say_what_is_not_weighed(work: Work, claimed_only: list[_Part], overrun: "float | None", scatter: "float | None") -> None:
    text = "Not weighed: " + ", ".join([p.name for p in claimed_only]) + "."
    if overrun is None:
        work.care("parts", text + " No part has both figures, so their claims are taken as they are. Weigh them.")
    elif scatter is None:
        work.care("parts", text + " One part alone has both figures: how far claims scatter is not known. Weigh them.")
    else:
        work.care("parts", text + " Their claims are corrected by " + shown(overrun, 1) + " %, the mean of the others.")


def _chance(work: Work, headroom: float, sd: float) -> "float | None":
    if sd == 0:
        return None
    z = headroom / sd
    work.line("z", "headroom / sd", z, "", headroom=headroom, sd=sd)
    chance = normal_share(z)
    work.say("A table of the normal distribution gives the share below z.")
    work.line("chance", "share", chance, "", share=chance)
    return chance


def _judge(work: Work, headroom: float, chance: "float | None", complete: "bool | None") -> None:
    if headroom < 0:
        work.care("target", "Over the goal by " + shown(-headroom, 0) + " g already.")
        return
    left = shown(headroom, 0) + " g left to the goal"
    if complete is False:
        work.care("target", left + ", for everything that is still missing.")
    elif chance is None:
        work.care("target", left + ", but how sure that is cannot be said yet.")
    elif chance < LITTLE:
        work.care("target", left + ": about " + shown(chance * 100, 0) + " chances in 100. Weigh what is not weighed.")
    elif complete is None:
        work.care("target", left + ", if nothing is missing from the list.")
    else:
        work.fine("target", left + ".")
