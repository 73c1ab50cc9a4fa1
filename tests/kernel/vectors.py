"""A vector: one calculation with inputs and what something outside the project says the outputs are.

The same vectors are run in CPython (`test_vectors.py`) and in the phone's engine in a real browser (`tests/web`).
"""

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Vector:
    """`expect` holds outputs by name; `rel` and `absolute` are the tolerances the source itself allows.

    `source` names the document, clause or library the expected values come from, or says "common practice", "from memory"
    or "derived: ..." honestly. `findings` lists (level, field) pairs that must appear; `refused` the fields an InputError must
    name (then `expect` is empty).
    """

    calculation: str
    inputs: dict[str, Any]
    source: str
    expect: dict[str, Any] = field(default_factory=dict[str, Any])
    rel: float = 1e-9
    absolute: float = 1e-9
    findings: tuple[tuple[str, str], ...] = ()
    refused: tuple[str, ...] = ()
