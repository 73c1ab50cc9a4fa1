"""Phones that are the app's own store, in one page of a real browser with its own IndexedDB; the network between is ours.

An action of the store runs until it asks the network; the schedule decides what becomes of the request and of its answer.
"""

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import msgspec
from playwright.sync_api import Browser, Page

from pinchbolt.entries.signing import Jwk
from pinchbolt.kernel.record import fold
from pinchbolt.writer import batch
from tests.sync.phones import Hand, House

ROOT = Path(__file__).parents[2]
BUILT = ROOT / "var" / "queue-test" / "queue.js"
WORLD = Path(__file__).with_name("world.js")
OURS = {"Pinchbolt-Protocol": "1", "Content-Type": "application/json"}
# A secure context of its own; nothing is ever fetched from it but this.
ADDRESS = "https://phones.test/"


class Lost(Exception):
    """The request, or its answer, did not come through."""


class Closed(Exception):
    """The app was closed while it waited for the answer."""


class Answer(msgspec.Struct, frozen=True):
    status: int
    body: str
    headers: dict[str, str]


def good(body: bytes) -> Answer:
    return Answer(200, body.decode(), OURS)


@contextmanager
def page_of_phones(browser: Browser, script: str | None = None) -> Iterator[Page]:
    """A page in which phones can be opened, the app's own store behind them, or the one that `script` is."""
    page = browser.new_page()
    page.route(ADDRESS, lambda route: route.fulfill(status=200, content_type="text/html", body="<!doctype html>"))
    page.goto(ADDRESS)
    page.add_script_tag(content=WORLD.read_text(encoding="utf-8"))
    page.add_script_tag(content=script or the_apps_store())
    yield page
    page.close()


def the_apps_store() -> str:
    """The script of the app's store, built from these sources."""
    done = subprocess.run([sys.executable, "hatch_build.py", "--queue"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return BUILT.read_text(encoding="utf-8")


class AppPhone:
    """One device: what the schedule may do with it, and what was written on it."""

    def __init__(self, hand: Hand, page: Page, name: str) -> None:
        self.hand = hand
        self.page = page
        self.name = name
        self.skew = timedelta()
        self.now = 0
        # What is known of it outside of the browser: every entry ever written, and the highest stamp it can have seen.
        self.own: dict[int, bytes] = {}
        self.receipted: set[int] = set()
        self.highest = ""
        self.stuck = ""
        self.kept: dict[str, Any] = {}
        person = {"id": hand.person, "name": hand.name, "role": hand.role}
        page.evaluate(
            "([name, identity]) => phones.open(name, identity)",
            [name, {"device": {"id": hand.device, "name": hand.name}, "person": person, "workshop": ""}],
        )

    def write(self, subject: str, kind: str, body: dict[str, Any], now: datetime) -> None:
        self.now = int((now + self.skew).timestamp() * 1000)
        draft = {"subject": subject, "kind": kind, "body": body}
        for text in self._do("write", [[draft]], _no_network):
            entry = json.loads(text)
            assert entry["stamp"] > self.highest, "sorts before what its writer had seen"
            self.highest = entry["stamp"]
            assert entry["n"] not in self.own, "the counter forked"
            self.own[entry["n"]] = text.encode()

    def sends(self, house: House, most: int, fate: str) -> bytes | None:
        """The app sends its queue, batches of `most` passing; returns a request that the network holds back."""
        wire = Wire(self, house, most, fate)
        self._run("sync" if self._is_out(house) else "send", wire)
        return wire.late

    def some_arrive(self, house: House, picked: list[int]) -> None:
        """A file of the queue, whole or in part and in any order, is taken in by the workshop; the phone hears nothing."""
        house.push(self.hand, batch(self.hand.device, [self.own[n] for n in picked]))

    def fetches(self, house: House, limit: int, fate: str) -> None:
        self._run("sync" if self._is_out(house) else "fetchOthers", Wire(self, house, limit, fate))

    def _is_out(self, house: House) -> bool:
        """Shut out it goes through a whole round, for it is the round that then drops what was fetched."""
        return self.hand.device in house.shut_out

    def reopens(self) -> None:
        self.page.evaluate("(name) => phones.reopen(name)", self.name)

    def heals(self, house: House) -> None:
        """Opened anew, with a network that works."""
        self.reopens()
        told = self._do("sync", [], Wire(self, house, 500, "good"))
        self.stuck = "" if told["state"] == "idle" else told["said"]
        self.look()

    def look(self) -> None:
        """Read what the phone keeps."""
        self.kept = self._do("kept", [], _no_network)

    def queue(self) -> list[int]:
        """What waits to be sent, in the order of n."""
        self.look()
        return sorted(row["n"] for row in self.kept["rows"] if "waiting" in row)

    @property
    def refused(self) -> dict[int, Any]:
        return {row["n"]: row["errors"] for row in self.kept["refused"]}

    @property
    def log(self) -> dict[str, tuple[int | None, bytes]]:
        return {row["id"]: (row["seq"], row["text"].encode()) for row in self.kept["rows"]}

    def refused_ids(self) -> set[str]:
        return {row["id"] for row in self.kept["refused"]}

    def state(self, subject: str, without: set[str]) -> dict[str, Any]:
        rows = [row for row in self.kept["rows"] if row["subject"] == subject and row["id"] not in without]
        return fold(subject, [{"seq": row["seq"], "entry": json.loads(row["text"])} for row in rows])

    def _run(self, call: str, wire: "Wire") -> None:
        try:
            self._do(call, [], wire)
        except Lost:
            pass
        except Closed:
            self.reopens()

    def _do(self, call: str, given: list[Any], wire: Any) -> Any:
        told = self.page.evaluate("(a) => phones.act(...a)", [self.name, call, given, self.now])
        while "asks" in told:
            answer: Answer | None = wire(told["asks"])
            sent = None if answer is None else {"status": answer.status, "body": answer.body, "headers": answer.headers}
            told = self.page.evaluate("(a) => phones.reply(...a)", [self.name, sent])
        if "failed" in told:
            failed = told["failed"]
            # Of the network the store throws only this; anything else is its own mistake.
            assert failed["name"] == "WireProblem", failed
            raise Lost(failed["meaning"])
        return told["done"]


class Wire:
    """The way of one action's requests to the workshop. The fate is that of its first push or pull."""

    def __init__(self, phone: AppPhone, house: House, most: int, fate: str) -> None:
        self.phone = phone
        self.house = house
        self.most = most
        self.fate = fate
        self.late: bytes | None = None

    def __call__(self, asks: dict[str, str]) -> Answer | None:
        hand = self.phone.hand
        body = asks["body"].encode()
        address = urlsplit(asks["path"])
        if hand.device in self.house.shut_out:
            return Answer(401, '{"title": "Shut out"}', {**OURS, "Pinchbolt-Revoked": "1"})
        match address.path:
            case "/api/me/key":
                kid = self.house.workshop.keys.enrol(hand.device, msgspec.json.decode(body, type=Jwk))
                return good(msgspec.json.encode({"kid": kid}))
            case "/api/sync/push":
                if body.count(b'"noted_at"') > self.most:
                    return Answer(413, "too big", {})
                return self._fated(body)
            case "/api/sync/pull":
                asked = parse_qs(address.query)
                page = self.house.pull(hand, int(asked["after"][0]), min(int(asked["limit"][0]), self.most))
                return self._answered(page)
            case _:
                raise AssertionError(f"the store asks for {asks['path']}")

    def _fated(self, body: bytes) -> Answer | None:
        if self.fate == "late":
            self.late = body
            return None
        answer = self.house.push(self.phone.hand, body)
        if self.fate == "twice":
            answer = self.house.push(self.phone.hand, body)
        return self._answered(answer)

    def _answered(self, answer: bytes) -> Answer | None:
        match self.fate:
            case "reply lost":
                return None
            case "closed":
                raise Closed
            case "cut short":
                return Answer(200, answer[: len(answer) // 2].decode(errors="replace"), OURS)
            case "a stranger answers":
                return Answer(200, '{"answers": [], "entries": [], "next": 99, "more": false}', {})
            case _:
                self._seen(answer)
                return good(answer)

    def _seen(self, answer: bytes) -> None:
        told = json.loads(answer)
        self.phone.receipted |= {one["n"] for one in told.get("answers", []) if one["outcome"] != "refused"}
        stamps = [one["entry"]["stamp"] for one in told.get("entries", [])]
        self.phone.highest = max([self.phone.highest, *stamps])


def _no_network(asks: dict[str, str]) -> Answer | None:
    raise AssertionError(f"the store asks for {asks['path']} while it should only look at what it keeps")
