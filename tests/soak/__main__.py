"""`make soak`: thousands of schedules, hundreds of kills, and one table at the end. Exit code 1 when anything was lost.

It stops by itself: at the counts asked for, or when the time is over.
"""

import argparse
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.soak import flips, kills

ROOT = Path(__file__).parents[2]
MISTAKES = "mistakes put into the app's own queue"
MISTAKES_FOUND = "of these found by the schedules"


def schedules(count: int, seconds: float, workers: int, *kind: str) -> "list[subprocess.Popen[str]]":
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "server"), str(ROOT)])}
    share = -(-count // workers)
    call = [sys.executable, "-m", "tests.soak.schedules", str(share), str(seconds), *kind]
    return [subprocess.Popen(call, cwd=ROOT, env=environ, stdout=subprocess.PIPE, text=True) for _ in range(workers)]


def pushes(count: int, seconds: float, seed: int) -> "subprocess.Popen[str]":
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "server"), str(ROOT)])}
    call = [sys.executable, "-m", "tests.soak.pushes", str(count), str(seconds), str(seed)]
    return subprocess.Popen(call, cwd=ROOT, env=environ, stdout=subprocess.PIPE, text=True)


def mistakes() -> dict[str, int]:
    """Every mistake put into the app's own queue, and whether the schedules in the browser find it."""
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT / "server"), str(ROOT)])}
    call = [sys.executable, "-m", "tests.soak.mistakes"]
    done = subprocess.run(call, cwd=ROOT, env=environ, stdout=subprocess.PIPE, text=True, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def conduct(examples: int) -> int:
    """The whole API asked from its schema as every role, every calculation too; how many tests of it passed."""
    environ = {**os.environ, "SCHEMA_EXAMPLES": str(examples), "SCHEMA_EVERY": "1"}
    environ["PYTHONPATH"] = os.pathsep.join([str(ROOT / "server"), str(ROOT)])
    call = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/server/test_schema_conduct.py"]
    done = subprocess.run(call, cwd=ROOT, env=environ, capture_output=True, text=True, check=False)
    passed = re.search(r"(\d+) passed", done.stdout)
    if done.returncode != 0 or passed is None:
        raise SystemExit(done.stdout + done.stderr)
    return int(passed[1])


def soak(args: argparse.Namespace) -> dict[str, int]:
    """All figures of one run; raises when something was lost on the way."""
    began = time.monotonic()
    seconds = args.minutes * 60
    started = schedules(args.schedules, seconds, args.workers)
    apps = schedules(args.app_schedules, seconds, 1, "app") if args.app_schedules else []
    pushing = pushes(args.pushes, seconds, args.seed)
    try:
        with tempfile.TemporaryDirectory(prefix="pinchbolt-soak-") as folder:
            killed, data = kills.soak(Path(folder), args.kills, began + seconds, args.seed)
            chance = random.Random(args.seed)
            conn = flips.small(data, Path(folder) / "small.sqlite3")
            found = sum(flips.flip(conn, chance) for _ in range(args.flips))
            refused = flips.bad_inputs(conn, chance, args.inputs)
            conn.close()
        ordered: dict[str, int] = {}
        by_apps = 0
        for worker in [*started, *apps]:
            said, _ = worker.communicate()
            if worker.returncode != 0:
                raise SystemExit("a schedule lost something; its steps stand above")
            figures: dict[str, int] = json.loads(said.splitlines()[-1])
            by_apps += figures["schedules"] if worker in apps else 0
            for name, many in figures.items():
                ordered[name] = ordered.get(name, 0) + many
        said, _ = pushing.communicate()
        if pushing.returncode != 0:
            raise SystemExit("a mutated batch was not answered as it should be; it stands above")
        pushed: dict[str, int] = json.loads(said.splitlines()[-1])
    finally:
        for worker in [*started, *apps, pushing]:
            worker.kill()
            worker.wait()
            assert worker.stdout is not None
            worker.stdout.close()
    return {
        "schedules": ordered["schedules"],
        "of these with the app's own queue": by_apps,
        "kills within schedules (files as they lay)": ordered["kills"],
        "restores within schedules": ordered["restores"],
        "kills of real processes (SIGKILL)": killed["kills"],
        "entries written": ordered["written"] + killed["written"],
        "entries found": ordered["found"] + killed["found"],
        "duplicates": ordered["duplicates"] + killed["duplicates"],
        "refused and accounted for": ordered["refused"] + killed["refused"],
        "unaccounted for": ordered["unaccounted"] + killed["unaccounted"],
        "byte flips": args.flips,
        "byte flips found by verify": found,
        "bad inputs tried": args.inputs,
        "bad inputs refused": refused,
        "mutated batches pushed": sum(pushed.values()),
        "mutated batches refused whole": sum(many for status, many in pushed.items() if status != "200"),
        "seconds": round(time.monotonic() - began),
    }


def is_sound(figures: dict[str, int]) -> bool:
    """Whether the table says that nothing was lost."""
    return (
        figures["entries written"] == figures["entries found"] + figures["refused and accounted for"]
        and figures["duplicates"] == figures["unaccounted for"] == 0
        and figures["byte flips"] == figures["byte flips found by verify"]
    )


def judged(figures: dict[str, int]) -> str:
    """What is wrong with the table, in words; nothing when nothing is."""
    if not is_sound(figures):
        return "SOMETHING WAS LOST"
    if figures.get(MISTAKES) != figures.get(MISTAKES_FOUND):
        return "NOTHING LOST, BUT A MISTAKE PUT IN WAS NOT FOUND"
    return ""


def main() -> int:
    parser = argparse.ArgumentParser(prog="make soak", description=__doc__)
    parser.add_argument("--schedules", type=int, default=10_000)
    parser.add_argument("--app-schedules", type=int, default=400, help="more of them, with the app's own queue in a browser")
    parser.add_argument("--kills", type=int, default=500)
    parser.add_argument("--flips", type=int, default=2_000)
    parser.add_argument("--inputs", type=int, default=20_000)
    parser.add_argument("--pushes", type=int, default=40_000, help="mutated batches against the push endpoint")
    parser.add_argument("--examples", type=int, default=25, help="of each operation and role, made from the schema")
    parser.add_argument("--minutes", type=float, default=20.0, help="stop then, whatever was reached")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1, help="processes for the schedules")
    parser.add_argument("--seed", type=int, default=int(time.time()))
    args = parser.parse_args()
    figures = soak(args)
    if args.app_schedules > 0:
        tried = mistakes()
        figures |= {MISTAKES: tried["put in"], MISTAKES_FOUND: tried["found"]}
    if args.examples > 0:
        figures["operations asked from the schema, as every role"] = conduct(args.examples)
    print(f"seed {args.seed}")
    for name, many in figures.items():
        print(f"{name:48}{many:>12,}")
    wrong = judged(figures)
    print(wrong or "nothing lost")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
