"""Every picture the documents show is there, and every picture that is there is shown."""

import re
from pathlib import Path

import pytest
from PIL import Image

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PICTURES = DOCS / "pictures"
# As Markdown and as HTML, which says how wide.
SHOWN = re.compile(r"!\[([^\]]*)\]\(([^)]+)\)|<img src=\"([^\"]+)\"(?: width=\"\d+\")?(?: alt=\"([^\"]*)\")?>")
LINK = re.compile(r"(?<!!)\[[^\]]*\]\(([^)#]+)(?:#[^)]*)?\)")
WRITTEN = (ROOT / "README.md", *sorted(DOCS.glob("*.md")))
MOST_BYTES = 1_500_000


def shown(page: Path) -> list[tuple[Path, str]]:
    """The files a page shows, and what it says of each to whoever does not see it."""
    text = page.read_text(encoding="utf-8")
    assert text.count("<img") == text.count('<img src="'), f"{page.name}: an <img> in another shape"
    return [((page.parent / (one[2] or one[3])).resolve(), one[1] or one[4] or "") for one in SHOWN.finditer(text)]


def test_every_picture_shown_is_there_and_said_in_words() -> None:
    for page in WRITTEN:
        for file, words in shown(page):
            assert file.is_file(), f"{page.name} shows {file}, which is not there"
            assert len(words) > 10, f"{page.name} says nothing of {file.name}"


def test_every_picture_that_is_there_is_shown() -> None:
    told = {file for page in WRITTEN for file, _ in shown(page)}
    kept = {file.resolve() for file in PICTURES.glob("*")}
    assert kept, "no pictures"
    assert kept - told == set()


def test_the_pictures_are_a_phone_s_and_small() -> None:
    for file in PICTURES.glob("*.png"):
        with Image.open(file) as picture:
            # The pages of controls show a part of the sheet each.
            assert picture.size == (390, 844) or (file.name.startswith("control-") and picture.width <= 390), file.name
    assert sum(file.stat().st_size for file in PICTURES.glob("*")) < MOST_BYTES


@pytest.mark.parametrize("page", ["guide.md", "walkthrough.md"])
def test_the_guide_is_linked_and_what_it_links_to_is_there(page: str) -> None:
    assert f"](docs/{page})" in (ROOT / "README.md").read_text(encoding="utf-8")
    text = (DOCS / page).read_text(encoding="utf-8")
    for link in LINK.findall(text):
        assert (DOCS / link).exists(), f"{page} links to {link}"
    # The places within the page: as the headings are called.
    headings = {re.sub(r"[^\w -]", "", h.lower()).replace(" ", "-") for h in re.findall(r"^#+ (.+)$", text, re.MULTILINE)}
    for place in re.findall(r"\]\(#([^)]+)\)", text):
        assert place in headings, f"{page} has no place #{place}"
