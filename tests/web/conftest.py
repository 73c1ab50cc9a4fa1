"""The app built once, a real browser, a real server."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree

import pytest
from playwright.sync_api import Browser

from tests.server.forking import Forked
from tests.web.phone import Phone, phone
from tests.web.workshop import ROOT, ServedWorkshop


@pytest.fixture(scope="session")
def web() -> Path:
    """The app with its test door, built from these sources."""
    done = subprocess.run([sys.executable, "hatch_build.py", "--test"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return ROOT / "var" / "web-test"


@pytest.fixture
def workshop(web: Path, tmp_path: Path) -> Iterator[ServedWorkshop]:
    """An empty workshop, served."""
    served = ServedWorkshop(tmp_path / "workshop", web, "serve").start()
    yield served
    served.stop()


@pytest.fixture(scope="session")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data of the invented workshop with its season, as the command loads them; whoever serves them takes a copy."""
    data = tmp_path_factory.mktemp("loaded") / "season"
    command = Forked("demo", "--load-only", "--data", str(data))
    said = command.said.read()
    assert command.wait() == 0, said
    return data


@pytest.fixture(scope="module")
def season(web: Path, loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkshop]:
    """The invented workshop with its season, served; for tests that only look, or write what no other test minds."""
    served = ServedWorkshop(copytree(loaded, tmp_path_factory.mktemp("season") / "data"), web, "demo").start()
    yield served
    served.stop()


@pytest.fixture
def day(web: Path, loaded: Path, tmp_path: Path) -> Iterator[ServedWorkshop]:
    """The same for one test alone, which may write what it likes."""
    served = ServedWorkshop(copytree(loaded, tmp_path / "day"), web, "demo").start()
    yield served
    served.stop()


@pytest.fixture
def mine(browser: Browser, workshop: ServedWorkshop) -> Iterator[Phone]:
    """The owner's phone, paired with the empty workshop."""
    with phone(browser, workshop.url) as made:
        made.pair(workshop.code)
        # Pairing begins a round by itself; it is over when the next one is.
        made.sync()
        yield made
