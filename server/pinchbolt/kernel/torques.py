"""The torque a joint on this bike gets: the figures marked on its parts where there are any, else the usual range."""

from .joints import JOINTS, bolt_order
from .plain import mapping, objects
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# Beneath a marked limit that leaves nothing of the usual range, this share of it is taken for the least (common practice).
LEAST_SHARE = 0.8

# The markings of a part that limit a joint of its neighbours: joint -> (slot, marking). Any part may also carry
# `JOINT limit` and `JOINT min`, spelled out; those need no place here.
MARKED: "dict[str, list[tuple[str, str]]]" = {
    "stem face plate": [("stem", "face_plate_limit"), ("bar", "stem_clamp_limit")],
    "stem to steerer": [("stem", "steerer_clamp_limit"), ("fork", "stem_clamp_limit")],
    "seatpost clamp": [("seatpost", "clamp_limit"), ("frame", "seat_clamp_limit")],
    "saddle clamp": [("saddle", "rail_clamp_limit"), ("seatpost", "rail_clamp_limit")],
    "lever clamp, left": [("bar", "lever_clamp_limit")],
    "lever clamp, right": [("bar", "lever_clamp_limit")],
    "bottle cage": [("frame", "max_bottle_bolt")],
}


def torque_cards(state: "Body") -> "list[Body]":
    """Every joint with the range that holds for the bike of `state`, in the order a bike is put together.

    `{"joint", "low", "high", "usual", "low_usual", "marks", "usual_low", "usual_high", "condition", "bolts", "order",
    "sequence", "slot", "caution", "by_feel", "on_bike", "done"}`. `usual` says that nothing is marked; `low_usual` that only
    the least is not. `marks` lists what is marked as `{"part", "name", "value"}`. Torques in N·m.
    """
    parts = objects(state.get("parts"))
    done = mapping(state.get("joints"))
    slots = [str(p.get("slot")) for p in parts]
    cards: "list[Body]" = []
    for joint in JOINTS:
        card: "Body" = dict(joint)
        name = str(joint["joint"])
        card.update(_range(joint, parts))
        card["usual_low"], card["usual_high"] = joint["low"], joint["high"]
        bolts = int(joint["bolts"])
        # Two bolts in turn come back to the first: the second pull of one loosens the other.
        card["sequence"] = [] if bolts == 1 else (bolt_order(bolts) if joint["order"] == "crosswise" else [1, 2, 1, 2])
        card["by_feel"] = joint["high"] is None
        card["on_bike"] = joint["slot"] in slots and not _held_otherwise(name, str(joint["slot"]), parts, done)
        card["done"] = done.get(name)
        cards.append(card)
    return cards


def slots_of(joint: str) -> list[str]:
    """The places of the parts that a joint holds together, as far as they are known; none for a joint of one's own."""
    slots = [slot for slot, _ in MARKED.get(joint, [])]
    for one in JOINTS:
        if one["joint"] == joint and one["slot"]:
            slots.append(str(one["slot"]))
    return slots


def renewed(joint: str, made: "Body", parts: "list[Body]") -> "list[Body]":
    """Those of `parts` in the joint's places that came to the bike after the joint was `made` as its state tells."""
    slots = slots_of(joint)
    return [p for p in parts if p.get("slot") in slots and str(p.get("fitted_place")) > str(made.get("place"))]


def _held_otherwise(joint: str, slot: str, parts: "list[Body]", done: "Body") -> bool:
    """A rotor is held by six bolts or by a lockring: not both. Its own mount says which; else what has been tightened does."""
    if not joint.startswith("rotor "):
        return False
    bolts = joint.startswith("rotor bolts")
    for part in parts:
        for interface in objects(part.get("interfaces")) if part.get("slot") == slot else []:
            if interface.get("kind") == "rotor" and interface.get("mount") is not None:
                return ("bolt" in str(interface["mount"])) != bolts
    return joint.replace("bolts", "lockring") in done if bolts else joint.replace("lockring", "bolts") in done


def _range(joint: "Body", parts: "list[Body]") -> "Body":
    name = str(joint["joint"])
    limits: "list[Body]" = []
    leasts: "list[Body]" = []
    for part in parts:
        carried = mapping(part.get("markings"))
        named = [m for slot, m in MARKED.get(name, []) if slot == part.get("slot")] + [name + " limit"]
        for marking in named:
            value = finite(carried.get(marking))
            if value is not None:
                limits.append({"part": part.get("name"), "name": marking, "value": value})
        least = finite(carried.get(name + " min"))
        if least is not None:
            leasts.append({"part": part.get("name"), "name": name + " min", "value": least})
    low, high = joint["low"], joint["high"]
    if limits:
        high = min([m["value"] for m in limits])
    if leasts:
        low = max([m["value"] for m in leasts])
    elif limits and low is not None and low >= high:
        low = LEAST_SHARE * high
    return {
        "low": low,
        "high": high,
        "usual": not limits and not leasts,
        "low_usual": bool(limits) and not leasts,
        "marks": limits + leasts,
        # What is marked contradicts itself: the least of one part is above the most of its neighbour.
        "clash": low is not None and high is not None and low > high,
    }
