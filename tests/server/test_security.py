"""The security checklist, a line a test, against a running server. Chapters named are those of OWASP ASVS 5.0, from memory."""

import json
import logging
import re
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest

from pinchbolt.api.frame import HEADERS
from pinchbolt.api.login import TRIES_A_MINUTE as LOGINS
from pinchbolt.api.pair import TRIES_A_MINUTE as PAIRINGS
from pinchbolt.api.photos import PHOTOS_A_MINUTE as PHOTOS
from pinchbolt.api.sync import PUSHES_A_MINUTE
from pinchbolt.api.throttle import EachThrottle, Throttle
from pinchbolt.app import ROUTES
from pinchbolt.commands.logging import JsonLines
from pinchbolt.entries.batch import MOST_BATCH_BYTES, MOST_ENTRIES
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import hands, running
from tests.server.hands import FERN

PHONE = "e0000000-0000-4000-8000-00000000000{}"
SECRET_NAME = "Ottoline Grappleford"


@dataclass
class House:
    url: str
    data: Path
    owner: httpx.Client
    token: str
    log: Path
    code: str


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    """A running server that logs every request into a file, and the owner's client."""
    folder = tmp_path_factory.mktemp("security")
    data, log = folder / "data", folder / "log"
    with Workshop(data) as workshop:
        workshop.add_person(hands.JUNO, SECRET_NAME, "owner")
        token = workshop.people.let_in(hands.JUNO, hands.BENCH, "Bench tablet")[1]
        code = workshop.people.invite(hands.JUNO)
    with running.server(data, "--log", "info", log=log) as served:
        headers = {**running.PROTOCOL, "Cookie": f"pinchbolt={token}"}
        with httpx.Client(base_url=served.url, headers=headers, timeout=30) as owner:
            yield House(served.url, data, owner, token, log, code)


def pairing(code: str, device: str = PHONE.format(1)) -> dict[str, str]:
    return {"code": code, "device": device, "name": "a phone"}


# Output: headers on every answer, errors too.


def some_answers(owner: httpx.Client) -> Iterator[httpx.Response]:
    for route in ROUTES:
        for path in route.paths:
            for method in sorted(route.http_methods - {"OPTIONS", "HEAD"}):
                if (path, method) in (("/api/live", "GET"), ("/api/me", "DELETE")):
                    continue
                yield owner.request(method, re.sub(r"\{[^}]*\}", "none", path))
    yield owner.get("/api/nothing-here")
    yield owner.get("/missing.js")
    yield owner.request("PATCH", "/api/me")
    yield owner.request("TRACE", "/api/me")
    yield owner.post("/api/me", headers={"Pinchbolt-Protocol": "9"})
    yield owner.get("/api/me", headers={"Cookie": ""})
    yield owner.post("/api/sync/push", content=b"x" * (MOST_BATCH_BYTES + 1))


def test_every_answer_of_every_route_carries_the_security_headers(house: House):
    seen = set[int]()
    for answer in some_answers(house.owner):
        seen.add(answer.status_code)
        for name, value in HEADERS.items():
            if name == "Content-Security-Policy" and answer.request.url.path.startswith("/api/photos/"):
                continue
            assert answer.headers.get_list(name) == [value], (name, answer.request.method, answer.request.url)
        assert re.fullmatch("[0-9a-f]{16}", answer.headers["pinchbolt-request"])
        assert "server" not in answer.headers
    assert {200, 400, 401, 404, 405, 413, 422} <= seen


def test_the_policy_lets_no_inline_script_and_no_text_become_script():
    policy = dict(part.strip().split(" ", 1) for part in HEADERS["Content-Security-Policy"].split(";"))
    assert policy["default-src"] == "'self'"
    assert policy["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert policy["style-src"] == "'self'"
    assert policy["object-src"] == policy["base-uri"] == policy["frame-ancestors"] == "'none'"
    assert "unsafe-inline" not in str(policy)
    assert "http" not in str(policy)


def test_no_error_tells_of_the_inside(house: House):
    for answer in some_answers(house.owner):
        if answer.status_code >= 400:
            assert answer.headers["content-type"].startswith("application/problem+json"), answer.request.url
            told = answer.text
            for inside in ("Traceback", "litestar", "sqlite", "msgspec", str(house.data), ".py", SECRET_NAME):
                assert inside.lower() not in told.lower(), (inside, answer.request.url)


# Sessions: cookie, rotation, revocation.


def test_the_cookie_s_flags_on_this_machine(house: House):
    answer = running.post(house.url + "/api/pair", headers=running.PROTOCOL, json=pairing(house.code))
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "domain" not in cookie
    value = answer.cookies["pinchbolt"]
    assert len(value) >= 43, "256 bits in base64 (RFC 4648): 43 letters"


def test_behind_a_proxy_that_does_https_the_cookie_is_secure_and_bound_to_the_host(house: House):
    code = house.owner.post(f"/api/people/{hands.JUNO}/invite").json()["code"]
    headers = {**running.PROTOCOL, "X-Forwarded-Proto": "https", "Host": "bench.example"}
    answer = running.post(house.url + "/api/pair", headers=headers, json=pairing(code, PHONE.format(2)))
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith("__Host-pinchbolt=")
    assert "; Secure" in cookie
    assert "; Path=/" in cookie
    assert answer.headers["strict-transport-security"]


def test_pairing_anew_makes_the_old_token_worthless(house: House):
    def paired() -> str:
        code = house.owner.post(f"/api/people/{hands.JUNO}/invite").json()["code"]
        answer = running.post(house.url + "/api/pair", headers=running.PROTOCOL, json=pairing(code, PHONE.format(3)))
        return answer.cookies["pinchbolt"]

    old, new = paired(), paired()
    assert [running.get(house.url + "/api/me", headers={"Cookie": f"pinchbolt={t}"}).status_code for t in (old, new)] == [
        401,
        200,
    ]


def test_a_stolen_cookie_is_useless_with_the_first_request_after_revocation(house: House):
    code = house.owner.post(f"/api/people/{hands.JUNO}/invite").json()["code"]
    answer = running.post(house.url + "/api/pair", headers=running.PROTOCOL, json=pairing(code, PHONE.format(4)))
    with httpx.Client(base_url=house.url, headers={"Cookie": f"pinchbolt={answer.cookies['pinchbolt']}"}, timeout=30) as thief:
        assert thief.get("/api/bikes").status_code == 200
        assert house.owner.post(f"/api/devices/{PHONE.format(4)}/revoke").status_code == 204
        assert thief.get("/api/bikes").status_code == 401


# Requests of other sites.


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site"}, 403),
        ({"Origin": "https://elsewhere.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Pinchbolt-Protocol": ""}, 400),
        ({"Sec-Fetch-Site": "same-origin"}, 422),
        ({}, 422),
    ],
)
def test_a_page_of_another_site_changes_nothing(house: House, headers: dict[str, str], status: int):
    for method, path in (("POST", "/api/sync/push"), ("POST", "/api/people"), ("POST", "/api/me/key")):
        assert house.owner.request(method, path, content=b"{}", headers=headers).status_code == status, path


def test_no_answer_lets_another_origin_read_it(house: House):
    answer = house.owner.get("/api/me", headers={"Origin": "https://elsewhere.example"})
    assert not [name for name in answer.headers if name.startswith("access-control-")]
    assert house.owner.options("/api/sync/push", headers={"Origin": "https://elsewhere.example"}).status_code in (204, 403, 405)


# Input: sizes and depths.


def test_sizes_are_limited_and_told(house: House):
    def push(entries: list[bytes]) -> httpx.Response:
        return house.owner.post("/api/sync/push", content=batch(hands.BENCH, entries))

    assert house.owner.post("/api/sync/push", content=b" " * (MOST_BATCH_BYTES + 1)).status_code == 413
    assert house.owner.post("/api/pair", content=b" " * 5000).status_code == 413
    assert house.owner.post("/api/people", content=b" " * 5000).status_code == 413
    assert house.owner.post("/api/calculations/steerer-cut", content=b" " * 2_000_000).status_code == 413
    pen = Writer(hands.BENCH, hands.JUNO)
    assert push([hands.note(pen, "x") for _ in range(MOST_ENTRIES + 1)]).status_code == 422
    for text in ("x" * 100_000, "a\x00b", "\u202eback", "e\u0301"):
        answer = push([hands.note(Writer(hands.BENCH, hands.JUNO), text)])
        assert answer.json()["answers"][0]["outcome"] == "refused", text[:10]
    deep = b'{"device":"' + hands.BENCH.encode() + b'","entries":[' + b"[" * 100_000 + b"]" * 100_000 + b"]}"
    assert house.owner.post("/api/sync/push", content=deep).status_code in (200, 422)
    for number in (b"NaN", b"Infinity", b"1e999"):
        raw = hands.torque(Writer(hands.BENCH, hands.JUNO)).replace(b"5.2", number)
        answer = house.owner.post("/api/sync/push", content=batch(hands.BENCH, [raw]))
        assert answer.status_code == 422 or answer.json()["answers"][0]["outcome"] == "refused", number


def test_ids_lead_nowhere_outside(house: House):
    for path in (
        "/api/bikes/..%2f..%2fetc",
        "/api/photos/..%2f..",
        "/..%2f..%2fpinchbolt.sqlite3",
        "/%2e%2e/pinchbolt.sqlite3",
    ):
        answer = house.owner.get(path)
        assert b"SQLite format" not in answer.content
        assert answer.status_code in (200, 404, 422)


# Abuse: limits in time.


def test_one_device_s_flood_of_photos_is_stopped_told_when_to_come_again_and_shuts_nobody_else_out(house: House):
    address = f"/api/photos/{'0' * 64}"
    code = house.owner.post(f"/api/people/{hands.JUNO}/invite").json()["code"]
    with closing(running.pair(house.url, code, PHONE.format(6))) as wild:
        answers = [wild.put(address, content=b"x") for _ in range(PHOTOS + 2)]
        assert [a.status_code for a in answers[:PHOTOS]] == [404] * PHOTOS
        assert [a.status_code for a in answers[PHOTOS:]] == [429, 429]
        assert 0 < int(answers[-1].headers["retry-after"]) <= 61
        assert wild.get("/api/me").status_code == 200, "entries and reads go on"
    assert house.owner.put(address, content=b"x").status_code == 404


@pytest.mark.parametrize(("path", "most"), [("/api/login", LOGINS), ("/api/pair", PAIRINGS)])
def test_guessing_is_stopped_and_told_when_to_come_again(house: House, path: str, most: int):
    body = (
        pairing("0000-0000-0000")
        if path == "/api/pair"
        else {"person": "x", "passphrase": "y" * 15, "device": PHONE.format(5), "name": "z"}
    )
    answers = [running.post(house.url + path, headers=running.PROTOCOL, json=body) for _ in range(most + 3)]
    assert [a.status_code for a in answers[-3:]] == [429, 429, 429]
    assert all(0 < int(a.headers["retry-after"]) <= 61 for a in answers[-3:])


def test_guessing_codes_for_a_year_finds_nothing():
    """What the throttle lets through against what there is to guess: 32 letters in 12 places, at most 100 codes open."""
    clock = [0.0]
    throttle = Throttle(PAIRINGS, clock=lambda: clock[0])
    tried = 0
    for second in range(600):
        clock[0] = float(second)
        tried += sum(throttle.wait() == 0 for _ in range(50))
    assert tried <= PAIRINGS * 10
    in_a_year = tried / 600 * 86400 * 365
    assert in_a_year * 100 / 32**12 < 1e-9


def test_a_device_gone_wild_is_told_to_wait_and_the_others_are_not():
    each = EachThrottle(3)
    assert [each.wait("wild") > 0 for _ in range(5)] == [False, False, False, True, True]
    assert each.wait("calm") == 0
    assert PUSHES_A_MINUTE >= 60


# Files and the log.


def test_the_files_are_the_owner_s_alone(house: House):
    for file in house.data.rglob("*"):
        assert file.stat().st_mode & 0o077 == 0, file


def test_the_log_tells_requests_by_number_and_nothing_personal(house: House):
    pen = Writer(hands.BENCH, hands.JUNO)
    house.owner.get(f"/api/bikes/{FERN[5:]}?name={SECRET_NAME}")
    answer = house.owner.post("/api/sync/push", content=batch(hands.BENCH, [hands.note(pen, SECRET_NAME)]))
    number = answer.headers["pinchbolt-request"]
    time.sleep(0.3)
    lines = [json.loads(line) for line in house.log.read_text().splitlines()]
    (mine,) = [line for line in lines if line.get("request") == number]
    assert (mine["method"], mine["route"], mine["status"]) == ("POST", "/api/sync/push", 200)
    assert any(line.get("route") == "/api/bikes/{id}" for line in lines)
    whole = house.log.read_text()
    for personal in (SECRET_NAME, "Grappleford", house.token, FERN[5:], hands.JUNO, hands.BENCH, "127.0.0.1:"):
        assert personal not in whole, personal


def test_an_exception_in_the_log_shows_where_and_not_what():
    try:
        raise ValueError(SECRET_NAME)
    except ValueError:
        record = logging.LogRecord("x", logging.ERROR, __file__, 1, "unexpected", (), sys.exc_info())
    line = JsonLines().format(record)
    assert SECRET_NAME not in line
    assert json.loads(line)["error"] == "ValueError"
    assert "test_security.py" in line


def test_health_and_readiness(house: House):
    assert running.get(house.url + "/api/health").json()["status"] == "ok"
