"""The comparing of pictures lets through what another browser draws differently, and nothing a user would see."""

import io
from pathlib import Path

import pytest
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from tests.web import pictures
from tests.web.phone import SIZE
from tests.web.pictures import compare, difference, keep

WORDS = "Saddle up 2 mm and say why, then go on with the next"


def screen(button: str = "#d9480f", lines: int = 14, moved: int = 0, small: str = "#ffffff") -> Image.Image:
    """Something like a screen: lines of words, a wide button, a small one."""
    made = Image.new("RGB", (SIZE["width"], SIZE["height"]), "#fbfaf7")
    pen = ImageDraw.Draw(made)
    font = ImageFont.load_default(16)
    for line in range(lines):
        pen.text((16, 40 + 28 * line + moved), WORDS[line:], "#1b1b18", font=font)
    pen.rectangle((16, 700, 374, 756), button)
    pen.rectangle((300, 600, 348, 648), small, "#1b1b18")
    return made


def png(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.save(out, "PNG")
    return out.getvalue()


def test_edges_drawn_softer_are_the_same_picture() -> None:
    assert not difference(png(screen()), png(screen()))
    assert not difference(png(screen()), png(screen().filter(ImageFilter.GaussianBlur(0.5))))


@pytest.mark.parametrize(
    "other",
    [
        screen(button="#c2410c").crop((0, 0, 390, 800)),
        screen(button="#0f6bd9"),
        screen(small="#ffd8a8"),
        screen(lines=13),
        screen(moved=4),
    ],
    ids=["its size", "a button's colour", "a small button's colour", "a line less", "lines moved"],
)
def test_what_a_user_would_see_is_another_picture(other: Image.Image) -> None:
    assert difference(png(screen()), png(other))


def test_a_picture_is_kept_small_compares_with_itself_and_tells_where_the_new_one_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pictures, "KEPT", tmp_path / "kept")
    monkeypatch.setattr(pictures, "NEW", tmp_path / "new")
    monkeypatch.setattr(pictures, "MAKING", False)
    with pytest.raises(AssertionError, match=r"there is no docs/pictures/one\.png"):
        compare("one", png(screen()))
    keep("one", png(screen()), tmp_path / "kept")
    compare("one", png(screen()))
    before = (tmp_path / "kept" / "one.png").read_bytes()
    with pytest.raises(AssertionError, match="make pictures"):
        compare("one", png(screen(lines=12)))
    assert (tmp_path / "new" / "one.png").read_bytes() == png(screen(lines=12))
    # What has not changed is not written anew, what has is.
    keep("one", png(screen().filter(ImageFilter.GaussianBlur(0.1))), tmp_path / "kept")
    assert (tmp_path / "kept" / "one.png").read_bytes() == before
    monkeypatch.setattr(pictures, "MAKING", True)
    compare("one", png(screen(lines=12)))
    assert (tmp_path / "kept" / "one.png").read_bytes() != before
