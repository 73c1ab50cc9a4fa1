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


def _is_most(name: str) -> bool:
    """Whether a marking is a most (`max_pressure_front`, `chain_limit`) rather than a least (`rotor_min_front`)."""
    return name.startswith("max") or name.endswith(("max", "limit"))
