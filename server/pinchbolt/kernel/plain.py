"""Reading plain data (parsed JSON) without trusting its shape: what is not there is empty."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def mapping(value: object) -> "dict[str, Any]":
    """`value` when it is an object, else an empty one."""
    return value if isinstance(value, dict) else {}  # pyright: ignore[reportUnknownVariableType]


def listing(value: object) -> "list[Any]":
    """`value` when it is a list, else an empty one."""
    return value if isinstance(value, list) else []  # pyright: ignore[reportUnknownVariableType]


def objects(value: object) -> "list[dict[str, Any]]":
    """The objects in `value` when it is a list; anything else in it is passed over."""
    return [one for one in listing(value) if isinstance(one, dict)]


def is_mapping(value: object) -> bool:
    """Whether `value` is an object. (Says nothing of its fields, so it narrows nothing.)"""
    return isinstance(value, dict)
