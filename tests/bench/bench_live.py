"""What a thousand phones that listen for news cost those that write and read: the same work without them and with them, in
turns; and how much memory the server has taken at most through all of it.

    python -m tests.bench.bench_live [rounds]
"""

import asyncio
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

from rich.console import Console
from rich.table import Table

from tests.bench.bench_log import BATCH, Cost, Phone, cost, each, paired, pull_all, together
from tests.bench.plain_service import ROOT
from tests.server import running

LISTENERS = 1000
# So many of them connect at once.
TOGETHER = 50
PHONES = 8
# News are told at most once a second: each piece of work lasts longer than that.
BATCHES = 200
SINGLES = 2400
PATIENT = 30
"""Seconds until the last of them has heard of what was written."""
ROUNDS = 5


async def listen(url: str, token: str, many: int) -> None:
    """Hold `many` streams of news open and count what comes, until the standard input ends."""
    host, _, port = urlsplit(url).netloc.partition(":")
    ask = (
        f"GET /api/live HTTP/1.1\r\nHost: {host}:{port}\r\nCookie: pinchbolt={token}\r\nPinchbolt-Protocol: 1\r\n\r\n".encode()
    )
    told = 0

    async def all_told() -> None:
        while told < 2 * many:
            await asyncio.sleep(0.05)

    async def one(ready: asyncio.Event) -> None:
        nonlocal told
        reader, writer = await asyncio.open_connection(host, int(port))
        writer.write(ask)
        async for line in reader:
            if line.startswith(b"event: seq"):
                told += 1
                ready.set()

    listening: list[asyncio.Task[None]] = []
    for _ in range(0, many, TOGETHER):
        ready = [asyncio.Event() for _ in range(TOGETHER)]
        listening += [asyncio.create_task(one(each)) for each in ready]
        await asyncio.gather(*(each.wait() for each in ready))
    print("listening", flush=True)
    await asyncio.to_thread(sys.stdin.read)
    async with asyncio.timeout(PATIENT):
        await all_told()
    assert not any(task.done() for task in listening), "a stream ended by itself"
    print(told)


@contextmanager
def listeners(url: str, token: str) -> Generator[None]:
    """A thousand of them, in a process of their own, for the length of a block."""
    call = [sys.executable, "-m", "tests.bench.bench_live", "listen", url, token, str(LISTENERS)]
    process = subprocess.Popen(call, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdin is not None
    assert process.stdout is not None
    assert process.stdout.readline() == "listening\n"
    try:
        yield
        process.stdin.close()
        told = process.stdout.read()
        assert told.strip().isdigit(), "some of those who listen never heard of what was written"
    finally:
        process.kill()
        process.wait(timeout=60)


def most_memory(process: int) -> float:
    """The most a process has held at once, in MB (Linux: VmHWM)."""
    status = Path(f"/proc/{process}/status").read_text()
    return int(status.partition("VmHWM:")[2].split()[0]) / 1024


def work(phones: list[Phone], server: int) -> dict[str, Cost]:
    one, crowd = phones[0], phones[1:]
    batches = each(one, one.batches(BATCHES, BATCH))
    singles = [each(p, p.batches(SINGLES // PHONES, 1)) for p in crowd]
    pushed = cost(server, BATCHES * BATCH, batches)
    single = cost(server, SINGLES, lambda: together(singles))
    top = one.top()
    pulled = cost(server, top, lambda: pull_all(one, top))
    return {f"push, batches of {BATCH}": pushed, f"single entries, {PHONES} phones": single, "pull": pulled}


def main(rounds: int = ROUNDS) -> None:
    taken: list[tuple[dict[str, Cost], dict[str, Cost]]] = []
    with tempfile.TemporaryDirectory() as folder:
        tokens = paired(Path(folder), PHONES + 1)
        with running.server(Path(folder)) as served:
            phones = [Phone(served.url, device, token) for device, token in tokens.items()]
            work(phones, served.process.pid)
            for _ in range(rounds):
                quiet = work(phones, served.process.pid)
                with listeners(served.url, next(iter(tokens.values()))):
                    taken.append((quiet, work(phones, served.process.pid)))
            memory = most_memory(served.process.pid)
    heads = ("entries/s", f"with {LISTENERS} listening", "least", "ratio", "most", "processor µs", "with")
    table = Table("", *heads, box=None, pad_edge=False)
    for what in taken[0][0]:
        pairs = [(quiet[what], heard[what]) for quiet, heard in taken]
        rates = [[c.many / c.seconds for c in costs] for costs in zip(*pairs, strict=True)]
        used = [statistics.median(c.processor / c.many * 1e6 for c in costs) for costs in zip(*pairs, strict=True)]
        ratios = [heard / quiet for quiet, heard in zip(*rates, strict=True)]
        shown = [f"{statistics.median(rate):,.0f}" for rate in rates]
        shown += [f"{value:.2f}" for value in (min(ratios), statistics.median(ratios), max(ratios))]
        table.add_row(what, *shown, *(f"{value:,.1f}" for value in used))
    Console(width=130).print(table, f"the most memory the server held: {memory:.0f} MB")


if __name__ == "__main__":
    if sys.argv[1:2] == ["listen"]:
        asyncio.run(listen(sys.argv[2], sys.argv[3], int(sys.argv[4])))
    else:
        main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS)
