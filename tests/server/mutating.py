"""Real batches made wrong in every way that comes to mind: bytes flipped, cut, doubled; values swapped for odd ones."""

import json
import random
from collections import Counter
from typing import Any

import httpx

from pinchbolt.writer import Writer, batch
from tests.server import hands

ODD: tuple[Any, ...] = (
    None, True, False, 0, -1, 0.1, 1e308, -1e308, 2**53, 2**63, 2**64, -(2**63), 10**40, "", " ", "\x00", "\ud800", "﷽" * 50,
    "=1+1", "<script>", "../../x", "A" * 70000, [], {}, [[]], [None] * 300, {"": {}}, "NaN",
    "0190b0f0-0000-7000-8000-000000000001",
    "9999999999999-ffff-ffffffff", "2026-13-45T99:99:99Z", "e\u0301", "\u202e", "bike/..", "workshop",
)  # fmt: skip
RAW = (
    b"NaN",
    b"Infinity",
    b"1e999",
    b"-0",
    b"\xff\xfe",
    b"\xed\xa0\x80",
    b"[" * 2000,
    b'{"a":' * 2000,
    b"\x00",
    b'"\\ud800"',
    b"/**/",
)


def real_batch(device: str, person: str) -> bytes:
    """What a phone sends in a morning."""
    pen = Writer(device, person)
    return batch(
        device,
        [
            hands.describe(pen, hands.FERN, "Fern", hands.IMRE),
            hands.torque(pen),
            hands.note(pen),
            pen.write(hands.FERN, "measure", {"name": "saddle_height", "value": 731.5, "unit": "mm"}, hands.now()),
            pen.write(hands.FERN, "ride", {"km": 84.2}, hands.now()),
            pen.write(hands.FERN, "check", {"check": "self-check", "version": 1, "answers": []}, hands.now()),
        ],
    )


def mutated(whole: bytes, chance: random.Random) -> bytes:
    """One to four things done to a batch."""
    made = whole
    for _ in range(chance.randint(1, 4)):
        made = chance.choice(_WAYS)(made, chance)
    return made


def _flip(raw: bytes, chance: random.Random) -> bytes:
    if not raw:
        return raw
    at = chance.randrange(len(raw))
    return raw[:at] + bytes([raw[at] ^ (1 << chance.randrange(8))]) + raw[at + 1 :]


def _cut(raw: bytes, chance: random.Random) -> bytes:
    return raw[: chance.randrange(len(raw) + 1)]


def _double(raw: bytes, chance: random.Random) -> bytes:
    a, b = sorted((chance.randrange(len(raw) + 1), chance.randrange(len(raw) + 1)))
    return raw[:b] + raw[a:b] + raw[b:]


def _splice(raw: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(raw) + 1)
    return raw[:at] + chance.choice(RAW) + raw[at + chance.randrange(6) :]


def _swap(raw: bytes, chance: random.Random) -> bytes:
    """One value somewhere in the structure becomes an odd one, goes, or moves to an odd key."""
    try:
        whole = json.loads(raw)
    except (ValueError, RecursionError):
        return _flip(raw, chance)
    places: list[tuple[Any, Any]] = []
    waiting = [whole]
    while waiting:
        one = waiting.pop()
        keys = one.keys() if isinstance(one, dict) else range(len(one)) if isinstance(one, list) else ()
        places += [(one, key) for key in keys]
        waiting += [one[key] for key in keys]
    if not places:
        return raw
    holder, key = chance.choice(places)
    if chance.random() < 0.15:
        del holder[key]
    elif chance.random() < 0.1 and isinstance(holder, dict):
        holder[key + "x"] = holder.pop(key)
    else:
        holder[key] = chance.choice(ODD)
    return json.dumps(whole).encode()


_WAYS = (_flip, _cut, _double, _splice, _swap, _swap, _swap)


def try_them(clients: list[tuple[httpx.Client, bytes]], count: int, seed: int) -> Counter[int]:
    """Send `count` mutated batches, turn by turn, and count the statuses. An answer that is none of ours is an error."""
    chance = random.Random(seed)
    seen: Counter[int] = Counter()
    for i in range(count):
        client, whole = clients[i % len(clients)]
        body = mutated(whole, chance)
        answer = client.post("/api/sync/push", content=body)
        seen[answer.status_code] += 1
        told = answer.json()
        if answer.status_code == 200:
            assert {one["outcome"] for one in told["answers"]} <= {"stored", "known", "refused"}, body
        else:
            assert answer.status_code in (413, 422), (answer.status_code, answer.text, body)
            assert told["errors"] or answer.status_code == 413, body
    return seen
