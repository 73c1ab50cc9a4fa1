"""The pictures of the guide: made anew by every run and held against those that are kept, so that none goes stale.

`make pictures` (PICTURES=make) keeps what it makes instead. Browsers draw the edges of letters differently, so pictures are
compared small: at a third few pixels may differ, and nowhere may a spot of a finger's width have another colour.
"""

import io
import os
from pathlib import Path

from PIL import Image, ImageChops

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "docs" / "pictures"
# Where a picture that differs is put, to be looked at.
NEW = ROOT / "var" / "pictures"
MAKING = os.environ.get("PICTURES") == "make"

COLOURS = 256
SHRINK = 3
# Of 255: how far a pixel of the small picture may be off, and the share of those that may be further.
PIXEL = 40
SHARE = 0.01
# A spot's side in pixels of the picture, and how far the mean colour of any may be off.
SPOT = 24
SPOT_OFF = 14
# A kept picture that is off by less than this part of what may be is kept as it is.
STRICT = 0.2


def compare(name: str, png: bytes) -> None:
    """Whether the kept picture `name` shows what `png` does; or, when pictures are made, keeps it."""
    if MAKING:
        keep(name, png, KEPT)
        return
    kept = KEPT / f"{name}.png"
    said = f"there is no docs/pictures/{name}.png"
    if kept.exists():
        said = difference(kept.read_bytes(), png)
        if not said:
            return
    NEW.mkdir(parents=True, exist_ok=True)
    new = NEW / f"{name}.png"
    new.write_bytes(png)
    raise AssertionError(f"{name}: {said}; what there is now is in {new}. If it is meant so: make pictures")


def keep(name: str, png: bytes, folder: Path) -> None:
    """Written small: a palette, no shading. A picture that has not changed to the eye keeps its bytes."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / f"{name}.png"
    if file.exists() and not difference(file.read_bytes(), png, STRICT):
        return
    few = _opened(png).quantize(COLOURS, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    few.save(file, optimize=True)


def difference(kept: bytes, png: bytes, part: float = 1) -> str:
    """In words how two pictures differ; nothing when they show the same, by a part of what may be."""
    one, other = _opened(kept), _opened(png)
    if one.size != other.size:
        return f"it is {other.size[0]} by {other.size[1]}, not {one.size[0]} by {one.size[1]}"
    off = _furthest(one.reduce(SHRINK), other.reduce(SHRINK))
    far = sum(off.histogram()[PIXEL + 1 :]) / (off.width * off.height)
    if far > SHARE * part:
        return f"{far:.1%} of it is another ({SHARE:.0%} may be)"
    spots = _furthest(one.reduce(SPOT), other.reduce(SPOT))
    worst = max(range(spots.width * spots.height), key=lambda i: _at(spots, i))
    if _at(spots, worst) > SPOT_OFF * part:
        x, y = worst % spots.width * SPOT, worst // spots.width * SPOT
        return f"the colour at {x}, {y} is off by {_at(spots, worst)} of 255 ({SPOT_OFF} may be)"
    return ""


def _opened(png: bytes) -> Image.Image:
    return Image.open(io.BytesIO(png)).convert("RGB")


def _furthest(one: Image.Image, other: Image.Image) -> Image.Image:
    """Of each pixel how far its channel that is furthest off is off."""
    red, green, blue = ImageChops.difference(one, other).split()
    return ImageChops.lighter(ImageChops.lighter(red, green), blue)


def _at(spots: Image.Image, i: int) -> int:
    return spots.tobytes()[i]
