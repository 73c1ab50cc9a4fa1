"""Real server processes killed at random moments while phones send and fetch; the file is opened again as it was left."""

import json
import random
import socket
import threading
import time
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

import httpx

from pinchbolt.workshop import DATABASE, Workshop
from tests.server import hands
from tests.server.hands import FERN, SLATE
from tests.server.running import PROTOCOL
from tests.soak import serving
from tests.sync.phones import Hand, Phone, workday

HANDS = (
    Hand(hands.JUNO, "Juno", "owner", hands.BENCH),
    Hand(hands.BAS, "Bas", "mechanic", hands.BAS_PHONE),
    Hand("aa000000-0000-4000-8000-000000000001", "Runa", "mechanic", "aa000000-0000-4000-8000-000000000002"),
)
POISON = 0.04
# A server lives for so many answers at most, and then up to so many seconds more: it dies in the middle of something.
MOST_ANSWERS = 40
MOST_LIFE = 0.05


class Client:
    """A phone that talks over HTTP to whatever runs at the address."""

    def __init__(self, hand: Hand, url: str, token: str, chance: random.Random) -> None:
        self.phone = Phone(hand)
        self.url = url
        self.token = token
        self.chance = chance
        self.now = workday()
        self.answers = 0

    def busy(self) -> None:
        """Write, send and fetch until the server is gone."""
        with httpx.Client(base_url=self.url, headers=PROTOCOL, cookies={"pinchbolt": self.token}, timeout=10) as http:
            try:
                while True:
                    self.once(http)
            except httpx.TransportError:
                return

    def once(self, http: httpx.Client) -> None:
        phone = self.phone
        for _ in range(self.chance.randint(1, 12)):
            self._write()
        numbers = phone.queue(60)
        phone.answered(numbers, _good(http.post("/api/sync/push", content=phone.body(numbers))))
        self.answers += 1
        for _ in range(3):
            page = http.get("/api/sync/pull", params={"after": phone.cursor, "limit": 100})
            self.answers += 1
            if not phone.pulled(_good(page)):
                return

    def _write(self) -> None:
        bad = self.chance.random() < POISON
        body: dict[str, Any] = {"mass": "light"} if bad else {"mass": self.chance.randint(6000, 9000)}
        # The log's own checks of the clock walk all entries; here the pen alone counts.
        raw = self.phone.pen.write(self.chance.choice((FERN, SLATE)), "weigh", body, self.now)
        n = json.loads(raw)["n"]
        self.phone.own[n] = raw
        self.phone.waiting.add(n)


def _good(answer: httpx.Response) -> bytes:
    assert answer.status_code == 200, answer.text
    return answer.content


def soak(folder: Path, kills: int, until: float, seed: int) -> tuple[dict[str, int], Path]:
    """Kill so often, or until the clock says `until`; returns the figures and the data at the end."""
    chance = random.Random(seed)
    data = folder / "data"
    tokens: list[str] = []
    with Workshop(data) as workshop:
        for hand in HANDS:
            workshop.add_person(hand.person, hand.name, hand.role)
            tokens.append(workshop.people.pair(workshop.people.invite(hand.person), hand.device, hand.name)[1])
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        port = taken.getsockname()[1]
    url = f"http://127.0.0.1:{port}"
    clients = [Client(h, url, t, random.Random(chance.random())) for h, t in zip(HANDS, tokens, strict=True)]
    done = 0
    while done < kills and time.monotonic() < until:
        process = serving.start(data, port)
        _wait(url, process)
        failed: list[BaseException] = []
        threads = [threading.Thread(target=_watched, args=(client.busy, failed)) for client in clients]
        for thread in threads:
            thread.start()
        _until(clients, chance.randint(0, MOST_ANSWERS), threads)
        time.sleep(chance.uniform(0.0, MOST_LIFE))
        serving.kill(process)
        for thread in threads:
            thread.join()
        if failed:
            raise failed[0]
        done += 1
        if done % 25 == 0 or done == kills:
            _look(data, clients)
    return {"kills": done, **_end(data, port, url, clients)}, data


def _until(clients: list[Client], answers: int, threads: list[threading.Thread]) -> None:
    """Wait until so many more answers came, as long as somebody asks."""
    enough = sum(client.answers for client in clients) + answers
    while sum(client.answers for client in clients) < enough and any(thread.is_alive() for thread in threads):
        time.sleep(0.002)


def _watched(work: Any, failed: list[BaseException]) -> None:
    try:
        work()
    except BaseException as error:
        failed.append(error)


def _wait(url: str, process: BaseProcess) -> None:
    with httpx.Client(transport=httpx.HTTPTransport(verify=False), timeout=30) as http:
        until = time.monotonic() + 60
        while True:
            try:
                http.get(url + "/api/health").raise_for_status()
                return
            except httpx.TransportError:
                assert process.is_alive(), "the server did not come up"
                assert time.monotonic() < until, "the server does not answer"
                time.sleep(0.01)


def _look(data: Path, clients: list[Client]) -> None:
    """Every entry that a phone was told is stored, is; and the whole log is sound."""
    with Workshop(data) as workshop:
        assert list(workshop.verify()) == []
        held = {h.raw for h in workshop.log.everything()}
        for client in clients:
            lost = [n for n in client.phone.receipted if client.phone.own[n] not in held]
            assert lost == [], f"stored, it was said, and gone: {lost[:5]}"
    assert (data / DATABASE).stat().st_mode & 0o077 == 0


def _end(data: Path, port: int, url: str, clients: list[Client]) -> dict[str, int]:
    """The queues run empty on a server left alone; then everything is counted."""
    process = serving.start(data, port)
    _wait(url, process)
    for client in clients:
        with httpx.Client(base_url=url, headers=PROTOCOL, cookies={"pinchbolt": client.token}, timeout=30) as http:
            while client.phone.waiting:
                client.once(http)
    serving.kill(process)
    _look(data, clients)
    with Workshop(data) as workshop:
        held = [h.raw for h in workshop.log.everything()]
        refused = {h.raw for h in workshop.log.refused()}
    written = [raw for client in clients for raw in client.phone.own.values()]
    ours = {raw for client in clients for n, raw in client.phone.own.items() if n in client.phone.refused}
    return {
        "written": len(written),
        "found": len(set(held) & set(written)),
        "duplicates": len(held) - len(set(held)),
        "refused": len(ours & refused),
        "unaccounted": len(set(written) - set(held) - (ours & refused)),
    }
