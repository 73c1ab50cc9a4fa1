"""The HTTP interface against bad input and good: a real server, real requests."""

import json
import re
import sqlite3
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from pinchbolt.api import web
from pinchbolt.api.coding import codings
from pinchbolt.api.frame import CSP
from pinchbolt.api.throttle import Throttle
from pinchbolt.kernel.catalogue import all_calculations
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import BENCH, FERN, JUNO, describe, note, torque

STEERER = "/api/calculations/steerer-cut"


class Bench:
    """The owner's tablet, paired with a running server."""

    def __init__(self, served: running.Running, data: Path) -> None:
        self.url = served.url
        self.data = data
        self.client = running.pair(served.url, served.code, BENCH, "Bench tablet")
        self.pen = Writer(BENCH, JUNO)

    def push(self, *entries: bytes) -> dict[str, Any]:
        return running.push(self.client, batch(BENCH, list(entries)))

    def continued(self) -> Writer:
        """The pen, put where the server's receipt is."""
        receipt = self.push()["receipt"]
        self.pen.n, self.pen.prev = receipt["n"], receipt["hash"]
        return self.pen


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    data: Path = tmp_path_factory.mktemp("api") / "data"
    with Workshop(data) as workshop:
        workshop.add_person(JUNO, "Juno", "owner")
    with running.server(data) as served:
        made = Bench(served, data)
        yield made
        made.client.close()


def problem(answer: httpx.Response, status: int) -> list[str]:
    """The fields a problem names, after a look at its form (RFC 9457)."""
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    told = answer.json()
    assert told["status"] == status
    assert {"type", "title", "detail", "errors"} <= set(told)
    assert all(set(e) == {"field", "given", "wanted"} for e in told["errors"])
    return [e["field"] for e in told["errors"]]


def example(**changed: Any) -> dict[str, Any]:
    found = next(c for c in all_calculations() if c.id == "steerer-cut")
    return {**found.example, **changed}


def test_a_calculation_in_any_unit_needs_no_sign_in(bench: Bench):
    plain = running.post(bench.url + STEERER, json=example(head_tube=152.4))
    inches = running.post(bench.url + STEERER, json=example(head_tube="6 in"))
    assert plain.status_code == inches.status_code == 200
    assert plain.json() == inches.json()
    assert set(plain.json()) == {"outputs", "findings", "working"}


@pytest.mark.parametrize("calculation", [c.id for c in all_calculations()])
def test_every_example_runs_over_http(bench: Bench, calculation: str):
    declared = running.get(f"{bench.url}/api/calculations/{calculation}").json()
    answer = running.post(f"{bench.url}/api/calculations/{calculation}", json=declared["example"])
    assert answer.status_code == 200, answer.text
    assert set(answer.json()["outputs"]) == {o["name"] for o in declared["outputs"]}


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"head_tube": "5 blorp"}, "head_tube"),
        ({"head_tube": "5 bar"}, "head_tube"),
        ({"head_tube": 5000}, "head_tube"),
        ({"head_tube": "long"}, "head_tube"),
        ({"head_tube": True}, "head_tube"),
        ({"head_tube": None}, "head_tube"),
        ({"head_tube": [145]}, "head_tube"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_a_bad_input_is_named(bench: Bench, changed: dict[str, Any], field: str):
    assert problem(running.post(bench.url + STEERER, json=example(**changed)), 422) == [field]


@pytest.mark.parametrize("body", [b"", b"{", b'{"head_tube": NaN}', b'{"head_tube": Infinity}', b"\xff", b"[" * 100000])
def test_malformed_json_is_said_to_be(bench: Bench, body: bytes):
    assert problem(running.post(bench.url + STEERER, content=body), 400) == ["body"]


@pytest.mark.parametrize("body", [b"[]", b"1", b"null"])
def test_inputs_are_an_object(bench: Bench, body: bytes):
    assert problem(running.post(bench.url + STEERER, content=body), 422) == ["inputs"]


def test_what_is_not_there_is_a_problem_too(bench: Bench):
    assert problem(running.post(bench.url + "/api/calculations/nope", json={}), 404) == ["calculation"]
    problem(running.get(bench.url + "/api/nope"), 404)
    problem(running.get(bench.url + "/api"), 404)
    problem(running.put(bench.url + "/api/health", headers=running.PROTOCOL), 405)
    problem(running.get(bench.url + "/assets/gone.js"), 404)
    problem(running.post(bench.url + STEERER, content=b" " * 1_100_000), 413)
    problem(bench.client.post("/api/sync/push", content=b" " * 4_200_000), 413)


def test_what_changes_things_needs_the_protocol_s_header(bench: Bench):
    cookies = dict(bench.client.cookies)
    for method, path in (("POST", "/api/sync/push"), ("POST", "/api/pair"), ("DELETE", "/api/me")):
        with httpx.Client(base_url=bench.url, cookies=cookies, timeout=30) as tricked:
            problem(tricked.request(method, path, content=b"{}"), 400)
    assert bench.client.get("/api/me").status_code == 200


@pytest.mark.parametrize("path", ["/", "/api/health", "/api/nope", "/api/me"])
def test_every_answer_carries_the_headers(bench: Bench, path: str):
    headers = running.get(bench.url + path).headers
    assert headers["pinchbolt-protocol"] == "1"
    assert headers["content-security-policy"] == CSP
    assert "unsafe-inline" not in CSP
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert "camera=(self)" in headers["permissions-policy"]
    assert "server" not in headers


def test_the_cookie_is_out_of_a_script_s_reach(bench: Bench):
    with Workshop(bench.data) as workshop:
        codes = [workshop.people.invite(JUNO), workshop.people.invite(JUNO)]
    pairing = {"code": codes[0], "device": "a0000000-0000-4000-8000-000000000009", "name": "Spare"}
    plain = running.post(bench.url + "/api/pair", json=pairing, headers=running.PROTOCOL).headers["set-cookie"]
    assert plain.startswith("pinchbolt=")
    assert {"HttpOnly", "SameSite=strict", "Path=/"} <= set(plain.split("; "))
    assert "Secure" not in plain
    behind = {**running.PROTOCOL, "Host": "alder.example", "X-Forwarded-Proto": "https"}
    secure = running.post(bench.url + "/api/pair", json={**pairing, "code": codes[1]}, headers=behind)
    assert secure.headers["set-cookie"].startswith("__Host-pinchbolt=")
    assert {"Secure", "HttpOnly", "SameSite=strict", "Path=/"} <= set(secure.headers["set-cookie"].split("; "))
    assert "strict-transport-security" in secure.headers
    assert problem(running.post(bench.url + "/api/pair", json=pairing, headers=running.PROTOCOL), 422) == ["code"]


def test_push_answers_each_entry_and_pull_gives_the_bytes(bench: Bench):
    pen = bench.continued()
    entries = [describe(pen, FERN, "Fern", None), torque(pen, applied="tight"), note(pen, "Größe M, 3°\nzweite Zeile")]
    answer = bench.push(*entries)
    assert [a["outcome"] for a in answer["answers"]] == ["stored", "refused", "stored"]
    assert answer["answers"][1]["errors"][0]["field"] == "body.applied"
    assert (answer["receipt"]["n"], answer["receipt"]["missing"]) == (pen.n, [])
    pulled = bench.client.get("/api/sync/pull", params={"after": answer["answers"][0]["seq"] - 1}).content
    assert entries[0] in pulled
    assert entries[1] not in pulled
    assert entries[2] in pulled
    assert [a["outcome"] for a in bench.push(*entries)["answers"]] == ["known", "refused", "known"]
    bikes = {b["name"] for b in bench.client.get("/api/bikes").json()}
    assert "Fern" in bikes
    assert bench.client.get(f"/api/bikes/{FERN[5:]}").json()["described"]["name"] == "Fern"


def test_every_page_of_a_pull_says_how_far_the_log_reaches(bench: Bench):
    pen = bench.continued()
    last = bench.push(note(pen, "one"), note(pen, "two"), note(pen, "three"))["answers"][-1]["seq"]
    page = bench.client.get("/api/sync/pull", params={"after": last - 3, "limit": 1}).json()
    assert (page["next"], page["more"], page["top"]) == (last - 2, True, last)
    end = bench.client.get("/api/sync/pull", params={"after": last}).json()
    assert (end["entries"], end["more"], end["top"]) == ([], False, last)


def test_a_page_goes_packed_to_whom_unpacks_it(bench: Bench):
    pen = bench.continued()
    bench.push(note(pen, "one"), note(pen, "two"))
    answers = {
        accepted: bench.client.get("/api/sync/pull", params={"limit": 2}, headers={"Accept-Encoding": accepted})
        for accepted in ("gzip, deflate, br", "identity", "br, gzip;q=0")
    }
    codings = [answer.headers.get("content-encoding") for answer in answers.values()]
    assert codings == ["gzip", None, None]
    assert len({answer.content for answer in answers.values()}) == 1
    assert {answer.headers["vary"] for answer in answers.values()} == {"Accept-Encoding"}


def test_a_broken_hash_and_a_repeated_number_have_no_place(bench: Bench):
    pen = bench.continued()
    at, prev = pen.n, pen.prev
    first = note(pen, "one")
    pen.n, pen.prev = at, prev
    repeated = note(pen, "another of the same number")
    pen.prev = "ab" * 32
    broken = note(pen, "broken")
    answer = bench.push(first, repeated, broken)
    assert [a["outcome"] for a in answer["answers"]] == ["stored", "refused", "refused"]
    assert [e["field"] for a in answer["answers"] for e in a.get("errors", [])] == ["n", "prev"]
    assert answer["receipt"]["n"] == at + 1


def test_a_batch_of_another_device_or_too_many_is_refused_whole(bench: Bench):
    other = batch("a0000000-0000-4000-8000-000000000009", [])
    assert problem(bench.client.post("/api/sync/push", content=other), 422) == ["device"]
    many = batch(BENCH, [b"1"] * 501)
    assert problem(bench.client.post("/api/sync/push", content=many), 422) == ["entries"]
    assert problem(bench.client.post("/api/sync/push", content=b'{"device"'), 422) == ["entry"]
    assert problem(bench.client.get("/api/sync/pull", params={"after": -1}), 422) == ["after"]
    assert problem(bench.client.get("/api/sync/pull", params={"limit": 1001}), 422) == ["limit"]
    assert problem(bench.client.get("/api/sync/pull", params={"after": "last"}), 422) == ["after"]


def test_live_tells_of_a_new_seq(bench: Bench):
    pen = bench.continued()
    with bench.client.stream("GET", "/api/live") as stream:
        assert stream.headers["content-type"].startswith("text/event-stream")
        events = (line for line in stream.iter_lines() if line.startswith("data: "))
        before = int(next(events)[6:])
        threading.Timer(0.2, lambda: bench.push(note(pen, "news"))).start()
        assert int(next(events)[6:]) == before + 1


def test_an_unexpected_error_tells_nothing(bench: Bench, tmp_path: Path):
    data = tmp_path / "broken"
    with running.server(data) as served:
        client = running.pair(served.url, served.code, BENCH)
        with sqlite3.connect(data / DATABASE) as conn:
            conn.execute("DROP TABLE gaps")
        conn.close()
        answer = client.post("/api/sync/push", content=batch(BENCH, []))
        assert problem(answer, 503) == []
        assert "gaps" not in answer.text
        client.close()


def test_pairing_is_slowed_down():
    clock = [0.0]
    throttle = Throttle(2, 60, lambda: clock[0])
    assert (throttle.wait(), throttle.wait()) == (0, 0)
    assert throttle.wait() == 61
    clock[0] = 61
    assert throttle.wait() == 0


def test_the_schema_is_made_of_the_declarations(bench: Bench):
    schema = running.get(bench.url + "/api/schema").json()
    for calculation in all_calculations():
        inputs = schema["paths"]["/api/calculations/" + calculation.id]["post"]["requestBody"]["content"]["application/json"]
        properties = inputs["schema"]["properties"]
        assert list(properties) == [i.name for i in calculation.inputs]
        assert inputs["schema"]["additionalProperties"] is False
    text = json.dumps(schema)
    assert "\\\\Z" not in text
    for name in re.findall(r'"#/components/schemas/(\w+)"', text):
        assert name in schema["components"]["schemas"]


def test_the_app_s_files_are_served_and_nothing_beside_them(tmp_path: Path):
    folder = tmp_path / "web"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html>")
    (folder / "assets" / "index-a1b2c3d4.js").write_text("1")
    (tmp_path / "secret.txt").write_text("secret")
    found = web.find(folder, "assets/index-a1b2c3d4.js")
    assert found is not None
    assert found.media_type == "text/javascript"
    for outside in ("../secret.txt", "assets/../../secret.txt", "/etc/passwd", "", "assets", "x\0y"):
        assert web.find(folder, outside) is None


def test_a_file_goes_packed_as_the_other_end_unpacks_it(tmp_path: Path):
    for name, content in (("app.js", b"plain"), ("app.js.br", b"small"), ("app.js.gz", b"smaller"), ("sw.js", b"short")):
        (tmp_path / name).write_bytes(content)

    def answered(accepted: str, name: str = "app.js") -> tuple[bytes, str | None]:
        found = web.find(tmp_path, name, codings(accepted))
        assert found is not None
        assert found.media_type == "text/javascript"
        return found.content, found.coding

    # Accept-Encoding as RFC 9110, 12.5.3 has it, its examples among them.
    assert answered("gzip, deflate, br, zstd") == (b"small", "br")
    assert answered("compress, gzip") == (b"smaller", "gzip")
    assert answered("compress;q=0.5, gzip;q=1.0") == (b"smaller", "gzip")
    assert answered("BR;q=0, gzip") == (b"smaller", "gzip")
    assert answered("br;q=0.001") == (b"small", "br")
    for plain in ("", "identity", "br;q=0.0, gzip;q=0"):
        assert answered(plain) == (b"plain", None)
    assert answered("gzip, br", "sw.js") == (b"short", None)
    tags = {found.etag for found in (web.find(tmp_path, "app.js", codings(one)) for one in ("", "br", "gzip")) if found}
    assert len(tags) == 3


def test_an_app_that_is_not_built_says_how(bench: Bench):
    if (web.FOLDER / "index.html").is_file():
        page = running.get(bench.url + "/bikes")
        assert page.headers["cache-control"] == "no-cache"
    else:
        page = running.get(bench.url + "/bikes")
        assert "npm run build" in page.text
    assert page.headers["content-type"] == "text/html; charset=utf-8"
