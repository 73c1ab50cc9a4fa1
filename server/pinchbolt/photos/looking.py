"""What a photo may be. It is kept by the hash of its bytes, so nothing is taken out of it here: what does not suit is refused.

The phone draws every photo anew on a canvas before it sends it, which leaves place, time and camera behind.
"""

import warnings
from collections.abc import Callable
from io import BytesIO
from typing import NamedTuple

from PIL import Image, PngImagePlugin
from PIL.JpegImagePlugin import JpegImageFile

from pinchbolt.kernel.errors import InputError, problem

MOST_BYTES = 4 * 1024 * 1024
# A phone sends 1600 pixels along the longer side; this leaves room for other clients and bounds what decoding may cost.
MOST_SIDE = 4096
MOST_PIXELS = 16_000_000

# Pillow's name of the format: the media type it is served with, and the ending it is kept under.
FORMATS = {"JPEG": ("image/jpeg", ".jpg"), "WEBP": ("image/webp", ".webp"), "PNG": ("image/png", ".png")}

# A JPEG's own segments: JFIF, colour profile, Adobe's colour transform. Every other one tells of the taking.
_PLAIN_SEGMENTS = {"APP0": b"JFIF\0", "APP2": b"ICC_PROFILE\0", "APP14": b"Adobe"}
_PLAIN_CHUNKS = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP"}
_PNG_CHUNKS = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"sRGB", b"gAMA", b"cHRM", b"iCCP", b"pHYs", b"sBIT", b"bKGD"}


class Looked(NamedTuple):
    """A photo as it is."""

    media_type: str
    ending: str
    width: int
    height: int


def look(content: bytes) -> Looked:
    """Decode a photo whole. Raises InputError when it is none, too large, or tells more than its picture."""
    if len(content) > MOST_BYTES:
        raise InputError([problem("photo", f"{len(content)} bytes", f"at most {MOST_BYTES} bytes")])
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            return _decoded(content)
    except InputError:
        raise
    # Decoders meet broken bytes in many ways; whatever they raise says that this is no picture.
    except Exception as error:
        raise InputError([problem("photo", f"what cannot be decoded ({type(error).__name__})", _wanted())]) from None


def _decoded(content: bytes) -> Looked:
    with Image.open(BytesIO(content), formats=list(FORMATS)) as image:
        media_type, ending = FORMATS[str(image.format)]
        width, height = image.size
        if max(width, height) > MOST_SIDE or width * height > MOST_PIXELS:
            wanted = f"at most {MOST_SIDE} pixels a side and {MOST_PIXELS} in all"
            raise InputError([problem("photo", f"{width} × {height} pixels", wanted)])
        if getattr(image, "n_frames", 1) != 1:
            raise InputError([problem("photo", "a moving picture", _wanted())])
        more = [*_SEGMENTS[str(image.format)](content, image)]
        image.load()
    if more:
        raise InputError([problem("photo", "a picture that carries " + ", ".join(more), "one without place, time and camera")])
    return Looked(media_type, ending, width, height)


def _jpeg_more(content: bytes, image: Image.Image) -> list[str]:
    assert isinstance(image, JpegImageFile)
    found = [
        name for name, data in image.applist if not (name in _PLAIN_SEGMENTS and bytes(data).startswith(_PLAIN_SEGMENTS[name]))
    ]
    # A second picture, a film or a document may hang on behind the end.
    return found + (
        [] if content.endswith(b"\xff\xd9") and content.count(b"\xff\xd8\xff") == 1 else ["something behind its end"]
    )


def _webp_more(content: bytes, image: Image.Image) -> list[str]:
    found: list[str] = []
    at, end = 12, 8 + int.from_bytes(content[4:8], "little")
    while at + 8 <= end:
        name, size = content[at : at + 4], int.from_bytes(content[at + 4 : at + 8], "little")
        if name not in _PLAIN_CHUNKS:
            found.append(ascii(name)[2:-1])
        at += 8 + size + size % 2
    return found + ([] if end == len(content) else ["something behind its end"])


def _png_more(content: bytes, image: Image.Image) -> list[str]:
    assert isinstance(image, PngImagePlugin.PngImageFile)
    found: list[str] = []
    at, name = 8, b""
    while at + 8 <= len(content) and name != b"IEND":
        size, name = int.from_bytes(content[at : at + 4], "big"), content[at + 4 : at + 8]
        if name not in _PNG_CHUNKS:
            found.append(ascii(name)[2:-1])
        at += 12 + size
    return found + ([] if at == len(content) else ["something behind its end"])


_SEGMENTS: dict[str, Callable[[bytes, Image.Image], list[str]]] = {"JPEG": _jpeg_more, "WEBP": _webp_more, "PNG": _png_more}


def _wanted() -> str:
    return "one still picture, JPEG, WebP or PNG"
