"""A federation's evening, simulated: 10 000 phones come back within minutes of the stage's end, each with its day's queue.

Each push takes a server process a while (reading, checking, hashing); then it waits for the log's one writing transaction,
which takes what waits together: a fixed time for the disk and a time an entry. A process that has 200 pushes waiting sends the
next one away for 2 seconds and a bit, as the server does. The figures come from options; measure yours with bench_crowd.

    python -m tests.bench.federation --processes 8
"""

import heapq
import random
import statistics
from dataclasses import dataclass, field

import click

MOST_WAITING = 200
MOST_IN_GROUP = 64
RETRY_SECONDS = 2.0


@dataclass
class Evening:
    """What is assumed; seconds."""

    phones: int
    within: float
    batches: int
    entries: int
    processes: int
    a_push: float
    a_commit: float
    an_entry: float
    shards: int = 1
    waits: list[float] = field(default_factory=list[float])
    sent_away: int = 0
    ended: float = 0.0

    def run(self, seed: int = 1) -> "Evening":
        chance = random.Random(seed)
        # time, order, what, phone, batch, since when it waits
        events: list[tuple[float, int, str, int, int, float]] = []
        order = 0

        def at(time: float, what: str, phone: int, batch: int, since: float) -> None:
            nonlocal order
            order += 1
            heapq.heappush(events, (time, order, what, phone, batch, since))

        for phone in range(self.phones):
            time = chance.uniform(0, self.within)
            at(time, "push", phone, 0, time)
        free = [0.0] * self.processes
        waiting: list[list[tuple[int, int, float]]] = [[] for _ in range(self.processes)]
        taken_up = [0] * self.processes
        # A shard is a log of its own with a writer of its own; its processes take turns.
        writing = [False] * self.shards
        turn = [0] * self.shards

        def commit(shard: int, now: float) -> None:
            mine = range(shard, self.processes, self.shards)
            for i in range(len(mine)):
                process = mine[(turn[shard] + i) % len(mine)]
                if waiting[process]:
                    group, waiting[process] = waiting[process][:MOST_IN_GROUP], waiting[process][MOST_IN_GROUP:]
                    turn[shard] += i + 1
                    writing[shard] = True
                    done = now + self.a_commit + self.an_entry * self.entries * len(group)
                    for phone, batch, since in group:
                        at(done, "kept", phone, batch, since)
                    at(done, "free", shard, 0, 0)
                    return
            writing[shard] = False

        while events:
            now, _, what, phone, batch, since = heapq.heappop(events)
            process = phone % self.processes
            if what == "push":
                if taken_up[process] > MOST_WAITING:
                    self.sent_away += 1
                    at(now + RETRY_SECONDS * chance.uniform(1, 2), "push", phone, batch, since)
                    continue
                taken_up[process] += 1
                free[process] = max(free[process], now) + self.a_push
                at(free[process], "read", phone, batch, since)
            elif what == "read":
                waiting[process].append((phone, batch, since))
                if not writing[process % self.shards]:
                    commit(process % self.shards, now)
            elif what == "free":
                commit(phone, now)
            else:
                taken_up[process] -= 1
                self.waits.append(now - since)
                self.ended = now
                if batch + 1 < self.batches:
                    at(now, "push", phone, batch + 1, now)
        return self


@click.command()
@click.option("--phones", default=10_000)
@click.option("--within", default=120.0, help="Seconds in which they come back.")
@click.option("--batches", default=3)
@click.option("--entries", default=20, help="Entries a batch.")
@click.option("--processes", default=2)
@click.option("--push-ms", default=9.0, help="What a push costs a process.")
@click.option("--commit-ms", default=4.0, help="What a commit costs, however large.")
@click.option("--entry-us", default=50.0, help="What an entry costs the writing transaction.")
@click.option("--shards", default=1, help="Logs the federation is split into.")
def main(
    phones: int,
    within: float,
    batches: int,
    entries: int,
    processes: int,
    push_ms: float,
    commit_ms: float,
    entry_us: float,
    shards: int,
) -> None:
    """Tell how long the evening lasts and what a phone waits."""
    done = Evening(phones, within, batches, entries, processes, push_ms / 1e3, commit_ms / 1e3, entry_us / 1e6, shards).run()
    p99 = statistics.quantiles(done.waits, n=100)[98]
    click.echo(
        f"{processes} processes, {shards} log: all kept {done.ended - within:,.0f} s after the last came;"
        f" a batch waits {statistics.median(done.waits):,.2f} s, p99 {p99:,.1f} s; sent away {done.sent_away:,} times;"
        f" {phones * batches * entries / done.ended:,.0f} entries/s"
    )


if __name__ == "__main__":
    main()
