"""A walk through the app, told in docs/walkthrough.md: its touches and seconds are counted while it is walked."""

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from playwright.sync_api import Locator, Page

from tests.web.pictures import MAKING, ROOT, compare
from tests.web.steady import picture_of

PAGE = ROOT / "docs" / "walkthrough.md"
# What a measured time is on the page, whatever it was.
SECONDS = re.compile(r"\d+\.\d s")


@dataclass
class Step:
    says: str
    touches: int
    letters: int


class Walk:
    """One use of the app. Only `tap` and `write` touch the phone, so nothing is done uncounted; pictures take no time of it."""

    def __init__(self, page: Page, name: str) -> None:
        self.page = page
        self.name = name
        self.touches = 0
        self.letters = 0
        self.seconds = 0.0
        self.steps: list[Step] = []

    @contextmanager
    def step(self, says: str) -> Iterator[None]:
        """A line of the table; it ends when what it leads to is seen."""
        touches, letters, began = self.touches, self.letters, time.monotonic()
        yield
        self.seconds += time.monotonic() - began
        self.steps.append(Step(says, self.touches - touches, self.letters - letters))

    def tap(self, target: Locator) -> None:
        self.touches += 1
        target.tap()

    def write(self, words: str) -> None:
        """On the phone's keyboard: letters, counted apart."""
        self.letters += len(words)
        self.page.keyboard.type(words)

    def enter(self) -> None:
        """The keyboard's own "done": a touch."""
        self.touches += 1
        self.page.keyboard.press("Enter")

    def picture(self, name: str) -> None:
        compare(name, picture_of(self.page))

    def table(self, most: float) -> str:
        """What stands in the page: the steps, the sums, and what they are."""
        rows = [f"| {at} | {one.says} | {one.touches} | {one.letters or ''} |" for at, one in enumerate(self.steps, 1)]
        typed = f" and {self.letters} letters typed" if self.letters else ""
        half = " and half a second a letter" if self.letters else ""
        # A second a touch and half a second a letter: a steady hand, by assumption.
        hand = self.touches + self.letters / 2
        return "\n".join(
            [
                "| | What is done | Touches | Letters |",
                "|--:|---|--:|--:|",
                *rows,
                f"| | **In all** | **{self.touches}** | {f'**{self.letters}**' if self.letters else ''} |",
                "",
                f"**{self.touches} touches{typed}.** A script that never stops to think was through in {self.seconds:.1f} s",
                f"when this page was made; the test allows {most:.0f} s. At a second a touch{half} a hand needs {hand:.0f} s:",
                "that is arithmetic, not a person with a stopwatch, and looking at the bike comes on top.",
            ]
        )

    def holds(self, most: float) -> None:
        """The page says what was counted, and it did not take too long; or, when pictures are made, the page is written."""
        page = PAGE.read_text(encoding="utf-8")
        block = re.compile(rf"(<!-- walk: {self.name} -->\n)(.*?)(<!-- /walk -->)", re.DOTALL)
        found = block.search(page)
        assert found, f"docs/walkthrough.md has no place for the walk {self.name}"
        wanted = self.table(most)
        if MAKING:
            PAGE.write_text(page[: found.start(2)] + wanted + "\n" + page[found.end(2) :], encoding="utf-8")
        else:
            told, counted = (SECONDS.sub("… s", text) for text in (found[2], wanted + "\n"))
            assert told == counted, "the page tells another walk: make pictures"
        assert self.seconds < most, f"{self.name}: {self.seconds:.1f} s"
