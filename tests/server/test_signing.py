"""Signed heads: what the server keeps, what verify finds, and what an outsider can check without the program."""

import base64
import json
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256

from pinchbolt.access.keys import Keys
from pinchbolt.entries.signing import Jwk, thumbprint
from pinchbolt.kernel.errors import InputError
from pinchbolt.store.sqlite import SqliteDatabase
from pinchbolt.workshop import DATABASE, Workshop
from pinchbolt.writer import Writer
from tests.server import running
from tests.server.hands import BENCH, JUNO, note, torque

ROOT = Path(__file__).parents[2]


def text(raw: bytes) -> str:
    return base64.urlsafe_b64encode(raw).rstrip(b"=").decode()


class Key:
    """A device's key as a browser has it."""

    def __init__(self) -> None:
        self.private = ec.generate_private_key(ec.SECP256R1())
        numbers = self.private.public_key().public_numbers()
        self.jwk = Jwk("EC", "P-256", text(numbers.x.to_bytes(32, "big")), text(numbers.y.to_bytes(32, "big")))

    def head(self, device: str, n: int, raw: bytes) -> dict[str, Any]:
        digest = sha256(raw).hexdigest()
        der = self.private.sign(f"pinchbolt head\n{device}\n{n}\n{digest}\n".encode(), ec.ECDSA(SHA256()))
        r, s = decode_dss_signature(der)
        return {"n": n, "hash": digest, "signature": text(r.to_bytes(32, "big") + s.to_bytes(32, "big"))}


def body(device: str, entries: list[bytes], head: dict[str, Any]) -> bytes:
    return b'{"device":"%s","entries":[%s],"head":%s}' % (device.encode(), b",".join(entries), json.dumps(head).encode())


@pytest.fixture
def signed(workshop: Workshop) -> tuple[Workshop, Key, Writer, list[bytes]]:
    """Two entries from before the key, then three under a signed head, one of them refused."""
    pen = Writer(BENCH, JUNO)
    old = [note(pen, "before the key"), note(pen, "and this")]
    workshop.push(BENCH, b'{"device":"%s","entries":[%s]}' % (BENCH.encode(), b",".join(old)))
    key = Key()
    assert workshop.keys.enrol(BENCH, key.jwk) == thumbprint(key.jwk)
    new = [note(pen, "saddle at 731 mm"), torque(pen, "tight"), note(pen, "Größe M")]
    answer = workshop.push(BENCH, body(BENCH, new, key.head(BENCH, 5, new[-1])))
    assert answer["head"] == "kept"
    assert [a["outcome"] for a in answer["answers"]] == ["stored", "refused", "stored"]
    return workshop, key, pen, old + new


def test_a_thumbprint_is_the_standards():
    # A P-256 key worked out by hand after RFC 7638, 3: the members in order, no blanks.
    jwk = Key().jwk
    plain = f'{{"crv":"P-256","kty":"EC","x":"{jwk.x}","y":"{jwk.y}"}}'
    assert thumbprint(jwk) == text(sha256(plain.encode()).digest())


def test_what_is_signed_is_told_and_what_is_older_is_marked(signed: tuple[Workshop, Key, Writer, list[bytes]]):
    workshop, *_ = signed
    (told,) = workshop.log.vouched()
    assert (told.top, told.signed, told.before) == (5, 5, 2)
    assert list(workshop.verify()) == []


def test_a_head_that_is_not_good_is_not_kept_and_stops_no_entry(signed: tuple[Workshop, Key, Writer, list[bytes]]):
    workshop, key, pen, _ = signed
    stranger = Key()
    for bad in (
        lambda n, raw: stranger.head(BENCH, n, raw),
        lambda n, raw: key.head(BENCH, n, raw + b" "),
        lambda n, raw: key.head(BENCH, n + 5, raw),
        lambda n, raw: {**key.head(BENCH, n, raw), "signature": "A" * 86},
    ):
        entry = note(pen)
        answer = workshop.push(BENCH, body(BENCH, [entry], bad(pen.n, entry)))
        assert (answer["head"], answer["answers"][0]["outcome"]) == ("refused", "stored")
    assert list(workshop.verify()) == []


def test_a_head_of_another_shape_refuses_the_push_as_a_whole(signed: tuple[Workshop, Key, Writer, list[bytes]]):
    workshop, key, pen, _ = signed
    entry = note(pen)
    with pytest.raises(InputError) as refused:
        workshop.push(BENCH, body(BENCH, [entry], {**key.head(BENCH, pen.n, entry), "signature": "short"}))
    assert refused.value.problems[0]["field"] == "head.signature"


def test_what_is_no_point_of_the_curve_is_no_key(workshop: Workshop):
    jwk = Key().jwk
    with pytest.raises(InputError, match="key"):
        workshop.keys.enrol(BENCH, msgspec.structs.replace(jwk, y=jwk.x))


CHANGES = {
    # One character put in the place of another, whichever stood there.
    "a whole chain made anew": "UPDATE heads SET hash = iif(hash LIKE 'f%', '0', 'f') || substr(hash, 2)",
    "another's signature": "UPDATE heads SET signature = iif(signature GLOB 'B*', 'C', 'B') || substr(signature, 2)",
    "a key put in its place": "UPDATE keys SET x = y",
    "the key taken away": "DELETE FROM keys",
}


@pytest.mark.parametrize("what", CHANGES)
def test_verify_finds_a_forged_head(signed: tuple[Workshop, Key, Writer, list[bytes]], what: str):
    workshop, *_ = signed
    conn = sqlite3.connect(workshop.data / DATABASE)
    conn.execute(CHANGES[what])
    conn.commit()
    conn.close()
    assert any("head at n 5" in broken.where or "key" in broken.where for broken in workshop.verify())


def exported(workshop: Workshop) -> str:
    call = [sys.executable, "-m", "pinchbolt.cli", "export", "--proof", "--data", str(workshop.data)]
    done = subprocess.run(call, env={"PYTHONPATH": str(running.SERVER)}, capture_output=True, check=True)
    return done.stdout.decode()


def outsider(tmp_path: Path, content: str) -> tuple[int, str]:
    """The stand-alone check, without the program on its path."""
    file = tmp_path / "export.jsonl"
    file.write_text(content, encoding="utf-8", newline="\n")
    call = [sys.executable, str(ROOT / "docs" / "verify_record.py"), str(file)]
    done = subprocess.run(call, env={}, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    return done.returncode, done.stdout


def test_an_outsider_checks_the_export(signed: tuple[Workshop, Key, Writer, list[bytes]], tmp_path: Path):
    workshop, *_ = signed
    code, said = outsider(tmp_path, exported(workshop))
    assert code == 0, said
    assert f"device {BENCH}: 5 entries, signed up to n 5 (up to n 2 from before its key)" in said


def without_third(content: str) -> str:
    return "".join(line for line in content.splitlines(keepends=True) if '"n":3,' not in line)


ALTERED: dict[str, Callable[[str], str]] = {
    "a word": lambda t: t.replace("731 mm", "713 mm"),
    "an old word": lambda t: t.replace("before the key", "behind the key"),
    "a refused word": lambda t: t.replace('"tight"', '"right"'),
    "an entry taken out": without_third,
    "a signature": lambda t: t.replace('"signature":"', '"signature":"AB', 1).replace('","received_at"', '","received_at"'),
}


@pytest.mark.parametrize("what", ALTERED)
def test_an_outsider_finds_what_was_altered(signed: tuple[Workshop, Key, Writer, list[bytes]], tmp_path: Path, what: str):
    workshop, *_ = signed
    before = exported(workshop)
    after = ALTERED[what](before)
    assert after != before
    code, said = outsider(tmp_path, after)
    assert code == 1
    assert f"device {BENCH}" in said.splitlines()[-2]


def test_an_export_with_its_proof_goes_in_elsewhere_with_the_whole_chain(
    signed: tuple[Workshop, Key, Writer, list[bytes]], tmp_path: Path
):
    workshop, *_ = signed
    file = tmp_path / "export.jsonl"
    file.write_text(exported(workshop), encoding="utf-8")
    call = [sys.executable, "-m", "pinchbolt.cli", "import", str(file), "--adopt", "--data", str(tmp_path / "new")]
    done = subprocess.run(call, env={"PYTHONPATH": str(running.SERVER)}, capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "4 stored, 0 known, 1 refused"
    with Workshop(tmp_path / "new") as other:
        assert (other.log.receipt(BENCH).n, other.log.receipt(BENCH).missing) == (5, [])
        assert list(other.verify()) == []


def test_a_device_makes_its_key_known_over_http(tmp_path: Path):
    key = Key()
    with running.server(tmp_path / "data") as served:
        client = running.pair(served.url, served.code, BENCH)
        jwk = {**msgspec.to_builtins(key.jwk), "ext": True, "key_ops": ["verify"]}
        assert client.post("/api/me/key", json=jwk).json() == {"kid": thumbprint(key.jwk)}
        assert client.post("/api/me/key", json={**jwk, "crv": "P-384"}).status_code == 422
        pen = Writer(BENCH, client.get("/api/me").json()["person"]["id"])
        entry = note(pen)
        answer = running.push(client, body(BENCH, [entry], key.head(BENCH, 1, entry)))
        assert answer["head"] == "kept"
        client.close()
    keys = Keys(SqliteDatabase(tmp_path / "data" / DATABASE))
    known, heads = keys.everything()
    keys.close()
    assert ([k.after_n for k in known], [h.head.n for h in heads]) == ([0], [1])
