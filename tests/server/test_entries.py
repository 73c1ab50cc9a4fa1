"""Entries as they arrive: what is taken, what is refused and how it is said. The format is docs/record.md."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from pinchbolt.entries import NO_PREV, Author, read_batch, read_entry
from pinchbolt.entries.bodies import BODIES, Body
from pinchbolt.entries.envelope import StrictEnvelope, is_sound, read_envelope
from pinchbolt.kernel.errors import InputError
from tests.server.hands import BAS, BENCH, BENCH_AUTHOR, FERN, GAPS_DAY, JUNO, bench, now

RECORD = Path(__file__).parents[2] / "docs" / "record.md"
PART = "0b6f5d0e-1111-4222-8333-444455556666"


def entry(kind: str = "torque", body: dict[str, Any] | None = None, subject: str = FERN, **changed: Any) -> bytes:
    told = json.loads(bench().write(subject, kind, {"joint": "stem_face_plate", "applied": 5} if body is None else body, now()))
    told.update(changed)
    return json.dumps({k: v for k, v in told.items() if v is not ...}, ensure_ascii=False).encode()


def problems(raw: bytes) -> list[str]:
    return [p["field"] for p in read_entry(raw, BENCH_AUTHOR).problems]


GOOD = {
    "describe": {"name": "Fern", "rider": BAS, "weight_goal": 8400, "needed_slots": ["fork", "stem"]},
    "part-fit": {
        "part": PART,
        "slot": "fork",
        "name": "carbon fork A",
        "claimed": 390,
        "markings": {"max_torque": 6, "hookless": False, "note": "press fit"},
        "interfaces": [{"kind": "steerer", "diameter": 28.6}],
    },
    "part-remove": {"part": PART, "reason": "worn"},
    "weigh": {"mass": 374, "part": PART, "scale_step": 1},
    "measure": {"what": "saddle_height", "value": 728, "unit": "mm", "plus_minus": 0.5},
    "calculate": {"calculation": "steerer-cut", "inputs": {"head_tube": 145}, "outputs": {"cut_length": None}},
    "cut": {"what": "steerer", "planned": 231.4, "result": 231.6, "unit": "mm", "mass_after": 348},
    "torque": {"joint": "crank pinch bolts", "applied": 13, "low": 12, "high": 14, "usual": True},
    "adjust": {"setting": "saddle_height", "unit": "mm", "to": 731, "from": 728, "felt": "better"},
    "baseline": {"name": "as delivered"},
    "check": {
        "check": "self-check",
        "version": 1,
        "answers": [{"item": "wheels-in", "mark": "pass"}, {"item": "x", "low": None}],
    },
    "fault": {"what": "rotor rubs", "level": "care"},
    "fault-close": {"fault": PART, "done": "trued"},
    "ride": {"km": 62.5, "hours": 2.9, "fall": False},
    "service": {"job": "bleed front"},
    "note": {"text": "Bell goes left.\nLight goes right."},
    "photo": {"sha256": "0" * 64, "media_type": "image/jpeg", "size": 120000, "width": 1600, "height": 1200},
    "decide": {"question": "setting.saddle_height", "chosen": PART, "reason": "as ridden"},
    "void": {"entry": PART, "reason": "wrong bike"},
    "start": {"plate": "7", "bike": PART},
    "withdraw": {"plate": "7"},
    "check-define": {
        "check": "rain",
        "version": 1,
        "title": "Rain",
        "purpose": "Before a wet day.",
        "scope": "part",
        "who": "rider",
        "items": [
            {"item": "pads", "area": "brakes", "title": "Pads", "do": "Look.", "passes": "1 mm left.", "essential": True},
        ],
    },
    "interface-define": {
        "kind": "valve-core",
        "label": "Valve core",
        "fields": [{"name": "thread", "unit": "text", "label": "Thread"}],
    },
    "plan-define": {
        "steps": [{"step": "frame", "title": "Frame", "after": [], "done_by": ["part:frame"], "page": "fits"}],
    },
    "tool-define": {"tool": "click wrench, small", "least": 2, "most": 24, "accuracy": 4, "retired": False},
    "swap-idea": {"slot": "saddle", "name": "saddle with carbon rails", "mass": 182, "cost": 160},
    "interval": {"due": "sealant", "days": 60, "reason": "hot summer"},
    "snooze": {"due": "chain", "until": "2026-06-01", "reason": "new one ordered"},
}


def about(kind: str) -> str:
    return {"start": GAPS_DAY, "withdraw": GAPS_DAY}.get(kind, "workshop" if kind.endswith("-define") else FERN)


@pytest.mark.parametrize("kind", sorted(GOOD))
def test_each_kind_is_taken_with_its_own_fields(kind: str):
    assert problems(entry(kind, GOOD[kind], about(kind))) == []


@pytest.mark.parametrize("kind", sorted(GOOD))
def test_each_kind_refuses_a_field_it_does_not_know(kind: str):
    assert problems(entry(kind, {**GOOD[kind], "colour": "red"}, about(kind))) == ["body.colour"]


def test_the_kinds_and_fields_are_those_of_the_page():
    rows = dict(re.findall(r"^\| `([a-z-]+)` \| (.+) \|$", RECORD.read_text(), re.MULTILINE))
    documented = {k: v for k, v in rows.items() if k in BODIES}
    assert set(documented) == set(BODIES) == set(GOOD)
    # What all bodies have in common is told once, not in each row.
    common = Body.__struct_encode_fields__
    assert all(f"Any body may carry `{field}`" in RECORD.read_text() for field in common)
    for kind, told in documented.items():
        own = told.split("`event`")[0].split("lists every item")[0]
        for field in BODIES[kind].__struct_encode_fields__:
            assert f"`{field}`" in own or field in common or kind == "check", (kind, field)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"id": "0190B0F0-0000-7000-8000-000000000001"}, "id"),
        ({"id": "0190b0f0-0000-4000-8000-000000000001"}, "id"),
        ({"subject": "bike/7"}, "subject"),
        ({"subject": FERN + "\n"}, "subject"),
        ({"kind": "polish"}, "kind"),
        ({"noted_at": "2026-05-03 09:15"}, "noted_at"),
        ({"noted_at": "2026-13-03T09:15:00.000Z"}, "noted_at"),
        ({"stamp": "1774947600000-0000-ffffffff"}, "stamp"),
        ({"stamp": "١٧٧٤٩٤٧٦٠٠٠٠٠-0000-6ef87f49"}, "stamp"),
        ({"device": BAS}, "device"),
        ({"by": BAS}, "by"),
        ({"n": 0}, "n"),
        ({"n": 1.5}, "n"),
        ({"n": True}, "n"),
        ({"n": 2**53}, "n"),
        ({"prev": "00"}, "prev"),
        ({"seen": -1}, "seen"),
        ({"seen": ...}, "seen"),
        ({"colour": "red"}, "colour"),
        ({"body": []}, "body"),
        ({"body": {"joint": "stem", "applied": "5"}}, "body.applied"),
        ({"body": {"joint": "stem", "applied": None}}, "body.applied"),
        ({"body": {"joint": "stem", "applied": -1}}, "body.applied"),
        ({"body": {"applied": 5}}, "body.joint"),
        ({"body": {"joint": "", "applied": 5}}, "body.joint"),
        ({"body": {"joint": "x" * 201, "applied": 5}}, "body.joint"),
        ({"body": {"joint": "stem\u0007", "applied": 5}}, "body.joint"),
        ({"body": {"joint": "se\u0301rie", "applied": 5}}, "body.joint"),
        ({"body": {"joint": "stem\u007f", "applied": 5}}, "body.joint"),
    ],
)
def test_what_is_wrong_is_named(changed: dict[str, Any], field: str):
    assert problems(entry(**changed)) == [field]


@pytest.mark.parametrize(
    "raw",
    [b"", b"{", b"[]", b"null", b'"text"', b"{}", b'{"id": 1}', b"\xff\xfe", b"[" * 5000, b'{"n": NaN}'],
)
def test_what_is_no_entry_is_refused_without_a_place(raw: bytes):
    arrival = read_entry(raw, BENCH_AUTHOR)
    assert arrival.problems
    assert arrival.link is None


@pytest.mark.parametrize("number", ["NaN", "Infinity", "1e999", "1" + "0" * 400])
def test_numbers_are_finite(number: str):
    raw = entry().replace(b'"applied": 5', b'"applied": ' + number.encode())
    arrival = read_entry(raw, BENCH_AUTHOR)
    assert arrival.problems


def test_a_lone_surrogate_is_refused():
    raw = entry().replace(b"stem_face_plate", b"\\ud800")
    assert read_entry(raw, BENCH_AUTHOR).problems


def test_nesting_is_shallow():
    inner: Any = 1
    for _ in range(40):
        inner = {"deeper": inner}
    assert problems(entry("calculate", {"calculation": "x", "inputs": inner, "outputs": {}}))


def test_an_entry_is_at_most_64_kib():
    raw = entry("note", {"text": "x" * 8000})
    assert problems(raw) == []
    assert problems(entry("note", {"text": "x" * 8001})) == ["body.text"]
    assert problems(raw[:-1] + b" " * 65536 + b"}") == ["entry"]


def test_a_refused_entry_with_a_sound_envelope_can_keep_its_place():
    assert read_entry(entry(body={"joint": 5}), BENCH_AUTHOR).link is not None
    assert read_entry(entry(subject="bike/7"), BENCH_AUTHOR).link is not None
    assert read_entry(entry(device=BAS), BENCH_AUTHOR).link is None
    assert read_entry(entry(n=0), BENCH_AUTHOR).link is None


def test_kinds_stand_on_subjects_of_their_sort():
    assert problems(entry("start", GOOD["start"], FERN)) == ["subject"]
    assert problems(entry("check-define", GOOD["check-define"], FERN)) == ["subject"]
    assert problems(entry("describe", {"date": "2026-06-06"}, GAPS_DAY)) == []
    assert problems(entry("describe", {"rider": BAS}, GAPS_DAY)) == ["body.rider"]


def test_the_quick_look_and_the_strict_one_have_the_same_fields():
    quick = read_envelope(entry())
    assert quick.__struct_fields__ == StrictEnvelope.__struct_fields__
    assert is_sound(quick, BENCH_AUTHOR, NO_PREV)


def test_a_problem_names_field_given_and_wanted():
    told = read_entry(entry(body={"joint": "stem", "applied": "tight"}), BENCH_AUTHOR).problems
    assert told == [{"field": "body.applied", "given": "tight", "wanted": "a number"}]


def test_a_batch_keeps_the_bytes_as_they_stand():
    body = b'{"entries": [ {"a" : 1.50 } ,\n{"b":"\\u00e9"}], "device": "' + BENCH.encode() + b'"}'
    assert [bytes(raw) for raw in read_batch(body).entries] == [b'{"a" : 1.50 }', b'{"b":"\\u00e9"}']


@pytest.mark.parametrize(
    ("body", "field"),
    [
        (b"{", "entry"),
        (b'{"device": "x", "entries": []}', "device"),
        (b'{"device": "%s"}' % BENCH.encode(), "entries"),
        (b'{"device": "%s", "entries": {}}' % BENCH.encode(), "entries"),
        (b'{"device": "%s", "entries": [%s]}' % (BENCH.encode(), b",".join([b"1"] * 501)), "entries"),
        (b'{"device": "%s", "entries": [], "more": 1}' % BENCH.encode(), "more"),
    ],
)
def test_what_is_no_batch_is_refused_as_a_whole(body: bytes, field: str):
    with pytest.raises(InputError) as refused:
        read_batch(body)
    assert [p["field"] for p in refused.value.problems] == [field]


def test_the_author_is_whom_the_device_belongs_to():
    assert read_entry(entry(), Author(BENCH, BAS, "mechanic")).problems[0]["field"] == "by"
    assert read_entry(entry(), Author(BENCH, JUNO, "owner")).problems == []
