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


def spaced(name: object) -> str:
    """An id as it is read: `stem_face_plate` as `stem face plate`."""
    return str(name).replace("_", " ").replace("-", " ")


def lowered(text: object) -> str:
    """Text in lower case with single blanks, to be compared. The engines' own `lower` and `split` know different letters, so
    here it is those of ISO 8859-1 on both; any other letter stays as it is.

    >>> lowered("  GRÖSSE\u00a0M ")
    'grösse m'
    """
    out = ""
    for ch in str(text):
        if "\u00c0" <= ch <= "\u00de" and ch != "\u00d7":
            out += chr(ord(ch) + 32)
        elif ch in "\u00a0\u202f\u2009":
            out += " "
        else:
            out += ch.lower() if ch < "\u0080" else ch
    return " ".join([word for word in out.replace("\t", " ").replace("\n", " ").split(" ") if word])
