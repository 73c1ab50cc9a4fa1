"""Does it fit? Rules that pair the interfaces of the parts on a bike.

A rule names the two kinds it pairs and a small function that looks at both. The result is `fits`, `fits-with` (an adaptor,
named), `does-not-fit` or `not-known`: a dimension that is missing is never taken as a fit, it is listed as a thing to measure.
The rules are *common practice* unless a source is named; a maker's own statement always wins.
"""

from .fit_rules import COMMON, RULES, plain_text
from .interfaces import field_said, kind_said
from .own_rules import own_rules
from .plain import objects
from .quantities import finite
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

FITS = "fits"
FITS_WITH = "fits-with"
DOES_NOT_FIT = "does-not-fit"
NOT_KNOWN = "not-known"

# The order a report is read in: what stops first.
GRAVEST_FIRST = (DOES_NOT_FIT, NOT_KNOWN, FITS_WITH, FITS)


def fit_report(parts: "list[Body]", system_mass: "float | None" = None, own: "list[Body] | None" = None) -> "Body":
    """Every rule over every pair of `parts` it speaks of: `{"joints": [...], "measure": [...], "worst": ...}`.

    `parts` are parts as the record holds them (`name`, `slot`, `interfaces`). `system_mass` is rider, bike and load, kg.
    `own` are the workshop's own interface kinds; one that names the kind it `meets` is held against it, field by field.
    A joint is `{"rule", "title", "result", "reason", "a", "b", "part_a", "part_b", "end", "with", "missing", "stop",
    "source"}`, the gravest first; `part_a` and `part_b` are the parts' ids, `end` is `front`, `rear` or empty.
    `measure` lists the dimensions to find before anything is ordered or cut.
    """
    joints: "list[Body]" = []
    kinds = own or []
    for rule in RULES + own_rules(kinds):
        firsts, seconds = _carriers(parts, rule["a"]), _carriers(parts, rule["b"])
        paired = False
        for part_a, a in firsts:
            for part_b, b in seconds:
                if a is b or not _same_end(part_a, a, part_b, b):
                    continue
                paired = True
                joints.append(_judge(rule, part_a, a, part_b, b, kinds))
        if not paired and (seconds or (firsts and not rule["may_be_empty"])):
            joints.append(_lonely(rule, firsts, seconds, kinds))
    joints.extend(_capacity(parts))
    joints.extend(_limits(parts, system_mass))
    ranked = [j for result in GRAVEST_FIRST for j in joints if j["result"] == result]
    measure: list[str] = []
    for joint in ranked:
        for missing in joint["missing"]:
            if missing not in measure:
                measure.append(missing)
    return {"joints": ranked, "measure": measure, "worst": ranked[0]["result"] if ranked else NOT_KNOWN}


def _carriers(parts: "list[Body]", kind: str) -> "list[tuple[Body, Body]]":
    return [(part, i) for part in parts for i in objects(part.get("interfaces")) if i.get("kind") == kind]


def _end(part: "Body", interface: "Body") -> str:
    """Told by the slot; else by the interface itself, as with a pair of axles that is one part."""
    slot, told = str(part.get("slot")), plain_text(interface.get("end"))
    for end in ("front", "rear"):
        if slot.endswith("-" + end) or told == end:
            return end
    return "front" if slot == "fork" else ""


def _same_end(part_a: "Body", a: "Body", part_b: "Body", b: "Body") -> bool:
    """A front wheel is not held against a rear tyre. A frame has both ends; a fork is the front."""
    one, other = _end(part_a, a), _end(part_b, b)
    if not one or not other:
        # The frame itself is never the front end when there is a fork to be it: its seats are for the rear.
        return not ("frame" in (part_a.get("slot"), part_b.get("slot")) and "front" in (one, other))
    return one == other


def _judge(rule: "Body", part_a: "Body", a: "Body", part_b: "Body", b: "Body", kinds: "list[Body]") -> "Body":
    missing: list[str] = []
    for part, interface, fields in ((part_a, a, rule["needs_a"]), (part_b, b, rule["needs_b"])):
        for alternatives in fields:
            if all([interface.get(f) is None for f in alternatives]):
                said = [field_said(interface.get("kind"), f, kinds) for f in alternatives]
                missing.append(str(part.get("name")) + ": " + " or ".join(said))
    if missing:
        result, reason, adaptor = NOT_KNOWN, "Not known: " + "; ".join(missing) + ".", ""
    else:
        result, reason, adaptor = rule["judge"](a, b)
    joint = _joint(rule["rule"], rule["title"], part_a.get("name"), part_b.get("name"), rule["source"])
    joint["part_a"], joint["part_b"] = part_a.get("part"), part_b.get("part")
    joint["end"] = _end(part_a, a) or _end(part_b, b)
    joint["with"], joint["stop"] = adaptor, result == DOES_NOT_FIT and rule["stop"]
    return _with(joint, result, reason, missing)


def _lonely(rule: "Body", firsts: "list[tuple[Body, Body]]", seconds: "list[tuple[Body, Body]]", kinds: "list[Body]") -> "Body":
    """One side of a joint is on the bike and the other is not, or says nothing of itself."""
    part, interface = (firsts or seconds)[0]
    wanted = kind_said(rule["b"] if firsts else rule["a"], kinds)
    joint = _joint(rule["rule"], rule["title"], part.get("name"), None, rule["source"])
    joint["part_a"], joint["end"] = part.get("part"), _end(part, interface)
    return _with(joint, NOT_KNOWN, "Not known: no part here is said to carry it: " + wanted + ".", ["a part with: " + wanted])


def _capacity(parts: "list[Body]") -> "list[Body]":
    """The teeth the rear mech must take up: both differences together. It needs three parts, so it is no pair."""
    cassettes, cranks, mechs = _carriers(parts, "cassette"), _carriers(parts, "crank-rings"), _carriers(parts, "rear-mech")
    if not mechs:
        return []
    mech, takes = mechs[0]
    wanted = [(mech, takes, "rear-mech", "capacity")]
    for carriers, kind, names in (
        (cassettes, "cassette", ("cog_min", "cog_max")),
        (cranks, "crank-rings", ("ring_min", "ring_max")),
    ):
        for name in names:
            part, interface = carriers[0] if carriers else ({"name": "the bike"}, {})
            wanted.append((part, interface, kind, name))
    missing = [str(p.get("name")) + ": " + field_said(kind, n, []) for p, i, kind, n in wanted if i.get(n) is None]
    joint = _joint("capacity", "Capacity of the rear mech", mech.get("name"), "chainrings and cassette", COMMON)
    if missing:
        return [_with(joint, NOT_KNOWN, "Not known: " + "; ".join(missing) + ".", missing)]
    cogs, rings = cassettes[0][1], cranks[0][1]
    needed = (rings["ring_max"] - rings["ring_min"]) + (cogs["cog_max"] - cogs["cog_min"])
    told = str(needed) + " teeth needed, the mech takes up " + str(takes["capacity"]) + "."
    return [_with(joint, FITS if needed <= takes["capacity"] else DOES_NOT_FIT, told, [])]


def _limits(parts: "list[Body]", system_mass: "float | None") -> "list[Body]":
    """Rider, bike and load against the least weight limit of any part."""
    limited = [(p, i) for p, i in _carriers(parts, "load-limit") if finite(i.get("limit")) is not None]
    if not limited:
        return []
    part, interface = limited[0]
    for other, one in limited:
        if one["limit"] < interface["limit"]:
            part, interface = other, one
    limit = shown(interface["limit"]) + " kg"
    joint = _joint("load", "Weight limit", part.get("name"), "rider, bike and load", "the part's own marking")
    if system_mass is None:
        return [_with(joint, NOT_KNOWN, "Not known: what rider, bike and load weigh together.", ["system mass"])]
    if system_mass > interface["limit"]:
        joint["stop"] = True
        return [_with(joint, DOES_NOT_FIT, shown(system_mass) + " kg is above the " + limit + " this part is marked for.", [])]
    return [_with(joint, FITS, shown(system_mass) + " kg within " + limit + ", the least limit on the bike.", [])]


def _joint(rule: str, title: str, a: object, b: object, source: str) -> "Body":
    return {
        "rule": rule,
        "title": title,
        "a": a,
        "b": b,
        "part_a": None,
        "part_b": None,
        "end": "",
        "with": "",
        "source": source,
        "stop": False,
    }


def _with(joint: "Body", result: str, reason: str, missing: list[str]) -> "Body":
    joint["result"], joint["reason"], joint["missing"] = result, reason, missing
    return joint
