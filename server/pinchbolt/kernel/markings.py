"""The limits marked on the parts of a bike."""

from .plain import mapping, objects
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def markings(state: "Body") -> "dict[str, float]":
    """The numbers marked on the parts fitted now, by name. Where two parts carry the same one, the stricter counts."""
    marked: "dict[str, float]" = {}
    for part in objects(state.get("parts")):
        carried = mapping(part.get("markings"))
        for name in carried:
            value = finite(carried[name])
            if value is None:
                continue
            if name in marked:
                value = min(value, marked[name]) if _is_most(name) else max(value, marked[name])
            marked[name] = value
    return marked


def usual_chain_limit(speeds: "float | None") -> float:
    """% of elongation at which a chain is changed when nothing is marked: common practice. Of unknown speeds the stricter."""
    return 0.75 if speeds is not None and speeds < 11 else 0.5


def chain_speeds(state: "Body") -> "float | None":
    """For how many cogs the drivetrain on the bike is made, by its cassette and chain; the most where they differ."""
    known: list[float] = []
    for part in objects(state.get("parts")):
        for interface in objects(part.get("interfaces")):
            speeds = finite(interface.get("speeds")) if interface.get("kind") in ("cassette", "chain") else None
            if speeds is not None:
                known.append(speeds)
    return max(known) if known else None


def _is_most(name: str) -> bool:
    """Whether a marking is a most (`max_pressure_front`, `chain_limit`) rather than a least (`rotor_min_front`)."""
    return name.startswith("max") or name.endswith(("max", "limit"))
