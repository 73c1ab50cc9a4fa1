"""Reading a body that holds a secret or a proof: however wrong it is, nothing of it is said back."""

from collections.abc import Callable
from typing import TypeVar

import msgspec

from pinchbolt.kernel.errors import InputError, problem

Asked = TypeVar("Asked")


def read_secret(read: Callable[[bytes], Asked], body: bytes, wanted: str) -> Asked:
    """`body` as `read` has it. Raises InputError."""
    try:
        return read(body)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        raise InputError([problem("request", "something else", wanted)]) from None
