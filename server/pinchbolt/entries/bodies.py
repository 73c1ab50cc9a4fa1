"""The body of each kind of entry. A field that may be left out may also be null, which says the same."""

from typing import Annotated, Literal

from msgspec import Meta, Struct, field

from pinchbolt.entries.fields import (
    Count,
    Date,
    Hash,
    Markings,
    Name,
    Names,
    NotNegative,
    Place,
    Plain,
    Time,
    Unit,
    Uuid,
    Words,
)


class Strict(Struct, forbid_unknown_fields=True, gc=False):
    """No field beside the known ones."""


class Body(Strict, kw_only=True, forbid_unknown_fields=True, gc=False):
    """What all bodies have in common: the refused entry in whose place one was written."""

    instead_of: Uuid | None = None


class Describe(Body):
    name: Name | None = None
    use: Name | None = None
    rider: Uuid | None = None
    weight_goal: NotNegative | None = None
    scale_step: NotNegative | None = None
    needed_slots: Names | None = None
    note: Words | None = None


class DescribeEvent(Body):
    name: Name | None = None
    date: Date | None = None
    distance: NotNegative | None = None
    place: Name | None = None


class PartFit(Body):
    part: Uuid
    slot: Name
    name: Name
    count: Count | None = None
    claimed: NotNegative | None = None
    price: NotNegative | None = None
    markings: Markings | None = None
    interfaces: Annotated[list[Plain], Meta(max_length=100)] | None = None


class PartRemove(Body):
    part: Uuid
    reason: Words | None = None


class Weigh(Body):
    mass: NotNegative
    part: Uuid | None = None
    scale_step: NotNegative | None = None


class Measure(Body):
    what: Name
    value: float
    unit: Unit
    plus_minus: NotNegative | None = None
    part: Uuid | None = None
    method: Words | None = None


class Calculate(Body):
    calculation: Name
    inputs: Plain
    outputs: Plain
    note: Words | None = None


class Cut(Body):
    what: Name
    planned: float
    result: float
    unit: Unit
    part: Uuid | None = None
    by_sum: float | None = None
    by_mark: float | None = None
    mass_after: NotNegative | None = None
    overruled: Words | None = None


class Torque(Body):
    joint: Name
    applied: NotNegative
    low: NotNegative | None = None
    high: NotNegative | None = None
    accuracy: NotNegative | None = None
    condition: Name | None = None
    tool: Name | None = None
    usual: bool | None = None
    painted: bool | None = None
    note: Words | None = None


class Adjust(Body):
    setting: Name
    unit: Unit
    to: float
    was: float | None = field(default=None, name="from")
    reason: Words | None = None
    felt: Words | None = None


class Baseline(Body):
    name: Name


class Answer(Strict):
    item: Name
    title: Name | None = None
    essential: bool | None = None
    mark: Literal["pass", "attention", "fail"] | None = None
    value: float | None = None
    unit: Unit | None = None
    low: float | None = None
    high: float | None = None
    note: Words | None = None


class Check(Body):
    check: Name
    version: Place
    answers: Annotated[list[Answer], Meta(max_length=300)]
    title: Name | None = None
    scope: Literal["whole", "part"] | None = None
    started_at: Time | None = None
    finished_at: Time | None = None
    event: Uuid | None = None
    plate: Name | None = None


class Fault(Body):
    what: Name
    level: Literal["care", "stop"]
    area: Name | None = None
    item: Name | None = None
    check: Uuid | None = None


class FaultClose(Body):
    fault: Uuid
    done: Words


class Ride(Body):
    km: NotNegative
    hours: NotNegative | None = None
    climb: NotNegative | None = None
    fall: bool | None = None
    source: Name | None = None
    note: Words | None = None


class Service(Body):
    job: Name
    part: Uuid | None = None
    note: Words | None = None


class Note(Body):
    text: Words
    about: Uuid | None = None


class Photo(Body):
    sha256: Hash
    media_type: Annotated[str, Meta(pattern=r"^image/[a-z0-9.+-]{1,40}\Z")]
    size: Count
    width: Count
    height: Count
    about: Uuid | None = None
    caption: Words | None = None


class Decide(Body):
    question: Name
    chosen: Uuid
    reason: Words


class Void(Body):
    entry: Uuid
    reason: Words


class Start(Body):
    plate: Name
    bike: Uuid | None = None
    rider: Uuid | None = None
    name: Name | None = None
    was: Name | None = None


class Withdraw(Body):
    plate: Name
    reason: Words | None = None


class CheckItem(Strict):
    """One thing to look at; see `kernel/check_items.py`."""

    item: Name
    area: Name
    title: Name
    do: Words
    passes: Words
    essential: bool
    caution: Words | None = None
    measure: Annotated[str, Meta(max_length=200)] | None = None
    unit: Unit | None = None
    low: float | None = None
    high: float | None = None
    low_from: Annotated[str, Meta(max_length=200)] | None = None
    high_from: Annotated[str, Meta(max_length=200)] | None = None
    answer: Literal["mark", "value"] = "mark"
    photo: bool = False


class CheckDefine(Body):
    check: Name
    version: Place
    title: Name
    purpose: Words
    scope: Literal["whole", "part"]
    who: Literal["mechanic", "rider"]
    items: Annotated[list[CheckItem], Meta(min_length=1, max_length=300)]


class Snooze(Body):
    due: Name
    until: Date
    reason: Words


class Interval(Body):
    due: Name
    km: NotNegative | None = None
    hours: NotNegative | None = None
    days: NotNegative | None = None
    reason: Words | None = None


class InterfaceDefine(Body):
    kind: Name
    label: Name
    fields: Annotated[list[Plain], Meta(max_length=20)]
    meets: Name | None = None


class PlanStep(Strict):
    step: Name
    title: Name
    after: Names
    done_by: Names
    page: Annotated[str, Meta(max_length=200)]


class PlanDefine(Body):
    steps: Annotated[list[PlanStep], Meta(max_length=100)]
    reason: Words | None = None


class ToolDefine(Body):
    tool: Name
    most: NotNegative
    accuracy: NotNegative
    least: NotNegative | None = None
    retired: bool | None = None


class SwapIdea(Body):
    slot: Name
    name: Name
    mass: NotNegative
    cost: NotNegative | None = None


BODIES: dict[str, type[Body]] = {
    "describe": Describe,
    "part-fit": PartFit,
    "part-remove": PartRemove,
    "weigh": Weigh,
    "measure": Measure,
    "calculate": Calculate,
    "cut": Cut,
    "torque": Torque,
    "adjust": Adjust,
    "baseline": Baseline,
    "check": Check,
    "fault": Fault,
    "fault-close": FaultClose,
    "ride": Ride,
    "service": Service,
    "note": Note,
    "photo": Photo,
    "decide": Decide,
    "void": Void,
    "start": Start,
    "withdraw": Withdraw,
    "check-define": CheckDefine,
    "snooze": Snooze,
    "interval": Interval,
    "interface-define": InterfaceDefine,
    "plan-define": PlanDefine,
    "tool-define": ToolDefine,
    "swap-idea": SwapIdea,
}

# Kinds that belong to one sort of subject only.
ONLY_ABOUT = {
    "start": "event/",
    "withdraw": "event/",
    "check-define": "workshop",
    "interface-define": "workshop",
    "plan-define": "workshop",
    "tool-define": "workshop",
}

# Kinds with objects of free shape inside, whose depth and texts are looked at one by one.
LOOSE = frozenset({"part-fit", "calculate", "interface-define"})
