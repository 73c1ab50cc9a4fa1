"""The table of limits the phone holds an entry against is the one the server reads by."""

import json
from pathlib import Path

import msgspec
import pytest

from pinchbolt.entries.bodies import BODIES
from pinchbolt.entries.limits import phone_table

ROOT = Path(__file__).parents[2]


def test_the_phone_s_table_is_the_server_s():
    """Made by `python -m pinchbolt.entries.limits > pwa/src/limits.json`."""
    assert json.loads((ROOT / "pwa" / "src" / "limits.json").read_text(encoding="utf-8")) == phone_table()


@pytest.mark.parametrize(
    ("kind", "field", "body"),
    [
        ("note", "text", {}),
        ("fault-close", "done", {"fault": "437c30cb-d27a-53f6-a4df-bd27cd7c5792"}),
        ("fault", "what", {"level": "care"}),
        ("adjust", "reason", {"setting": "saddle_height", "unit": "mm", "to": 731}),
        ("withdraw", "plate", {}),
    ],
)
def test_what_the_table_allows_is_read_and_one_character_more_is_not(kind: str, field: str, body: dict[str, object]):
    most = int(phone_table()["kinds"][kind][field]["most"])
    # Characters, not bytes nor UTF-16 units: one beyond the first plane counts once.
    assert msgspec.convert({**body, field: "\N{BICYCLE}" * most}, BODIES[kind])
    with pytest.raises(msgspec.ValidationError, match=str(most)):
        msgspec.convert({**body, field: "\N{BICYCLE}" * (most + 1)}, BODIES[kind])
