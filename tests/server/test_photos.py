"""Photos: taken only when an entry names them, looked at before they are kept, seen only by who sees the entry."""

import hashlib
import sqlite3
import zlib
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import httpx
import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from pinchbolt.kernel.errors import InputError
from pinchbolt.photos.keeping import Photos
from pinchbolt.photos.looking import MOST_BYTES, look
from pinchbolt.store.sqlite import NAMING_PHOTO
from pinchbolt.workshop import Workshop
from pinchbolt.writer import Writer, batch
from tests.server import hands, running
from tests.server.hands import FERN, SLATE, describe, now


def picture(format: str = "JPEG", size: tuple[int, int] = (64, 48), **more: object) -> bytes:
    made = BytesIO()
    Image.radial_gradient("L").resize(size).convert("RGB").save(made, format, **more)
    return made.getvalue()


def sha(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def naming(pen: Writer, content: bytes, subject: str = FERN) -> bytes:
    body = {"sha256": sha(content), "media_type": "image/jpeg", "size": len(content), "width": 64, "height": 48}
    return pen.write(subject, "photo", body, now())


def with_place() -> bytes:
    """A JPEG with the place it was taken at (Exif 2.3, GPS IFD: tag 0x8825)."""
    exif = Image.Exif()
    exif[0x0110] = "a phone"
    exif.get_ifd(0x8825)[1] = "N"
    return picture(exif=exif)


def png_with_text() -> bytes:
    told = PngInfo()
    told.add_text("Comment", "behind the hall")
    return picture("PNG", pnginfo=told)


def bomb() -> bytes:
    """A PNG of a few kilobytes that says it is 60 000 pixels a side (chunks as in RFC 2083, 3.2)."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return len(data).to_bytes(4, "big") + name + data + zlib.crc32(name + data).to_bytes(4, "big")

    head = (60000).to_bytes(4, "big") * 2 + bytes([8, 0, 0, 0, 0])
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(100000))) + chunk(b"IEND", b"")


def moving() -> bytes:
    made = BytesIO()
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue")]
    frames[0].save(made, "WEBP", save_all=True, append_images=frames[1:])
    return made.getvalue()


@pytest.mark.parametrize(("format", "media_type"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp")])
def test_a_plain_picture_is_taken_as_what_its_bytes_are(format: str, media_type: str):
    assert look(picture(format))[:1] + look(picture(format))[2:] == (media_type, 64, 48)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (with_place(), "APP1"),
        (picture(comment=b"from the car park"), "COM"),
        (png_with_text(), "tEXt"),
        (picture("WEBP", exif=b"Exif\0\0MM\0*\0\0\0\x08\0\0"), "EXIF"),
        (picture() + b"PK\x03\x04 and an archive", "behind its end"),
        (picture("PNG") + b"<script>", "behind its end"),
        (picture()[:400], "cannot be decoded"),
        (b"", "cannot be decoded"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "cannot be decoded"),
        (picture("GIF"), "cannot be decoded"),
        (picture("BMP"), "cannot be decoded"),
        (moving(), "moving"),
        (bomb(), ""),
        (picture("PNG", (4200, 10)), "4200"),
        (b"\xff\xd8\xff" + bytes(MOST_BYTES), "bytes"),
    ],
    ids=[
        "place",
        "comment",
        "text",
        "webp",
        "archive",
        "script",
        "cut",
        "empty",
        "svg",
        "gif",
        "bmp",
        "moving",
        "bomb",
        "wide",
        "big",
    ],
)
def test_what_is_not_one_plain_picture_is_refused_with_the_reason(content: bytes, said: str):
    with pytest.raises(InputError) as refused:
        look(content)
    (one,) = refused.value.problems
    assert one["field"] == "photo"
    assert said in one["given"]


def test_a_photo_is_kept_whole_under_its_hash_for_the_owner_only(tmp_path: Path):
    photos = Photos(tmp_path / "photos")
    content = picture()
    assert photos.put(sha(content), content) is True
    assert photos.put(sha(content), content) is False
    assert photos.get(sha(content)) == (content, "image/jpeg")
    (file,) = [f for f in (tmp_path / "photos").rglob("*") if f.is_file()]
    assert sha(file.read_bytes()) == sha(content)
    assert file.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("name", ["0" * 64, "../../pinchbolt.sqlite3", "", sha(picture()).upper()])
def test_a_hash_that_is_not_the_bytes_own_is_refused(tmp_path: Path, name: str):
    photos = Photos(tmp_path)
    with pytest.raises(InputError):
        photos.put(name, picture())
    assert list(tmp_path.iterdir()) == []
    assert photos.get(name) is None


@pytest.fixture
def house(tmp_path: Path) -> Iterator[tuple[dict[str, httpx.Client], list[bytes]]]:
    """A server with Juno's, Imre's and Odile's phones, and two photos named by entries: one of each rider's bike."""
    shots = [picture(), picture(size=(60, 40))]
    codes: dict[str, str] = {}
    people = {"owner": (hands.JUNO, "owner"), "imre": (hands.IMRE, "rider"), "odile": (hands.ODILE, "rider")}
    with Workshop(tmp_path / "data") as workshop:
        for name, (person, role) in people.items():
            workshop.add_person(person, name, role)
            codes[name] = workshop.people.invite(person)
        workshop.add_device(hands.BENCH, "Bench tablet", hands.JUNO)
        pen = hands.bench()
        entries = [describe(pen, FERN, "Fern", hands.IMRE), describe(pen, SLATE, "Slate", hands.ODILE)]
        entries += [naming(pen, shots[0], FERN), naming(pen, shots[1], SLATE)]
        assert {a["outcome"] for a in workshop.push(hands.BENCH, batch(hands.BENCH, entries))["answers"]} == {"stored"}
    with running.server(tmp_path / "data") as served:
        clients = {
            name: running.pair(served.url, code, f"b0000000-0000-4000-8000-00000000000{i}")
            for i, (name, code) in enumerate(codes.items())
        }
        yield clients, shots
        for client in clients.values():
            client.close()


def test_a_photo_goes_up_once_and_comes_back_as_the_same_bytes(house: tuple[dict[str, httpx.Client], list[bytes]]):
    clients, (mine, other) = house
    assert clients["imre"].get("/api/photos/" + sha(mine)).status_code == 404
    put = clients["imre"].put("/api/photos/" + sha(mine), content=mine)
    assert (put.status_code, put.json()) == (200, {"outcome": "stored"})
    assert clients["owner"].put("/api/photos/" + sha(mine), content=mine).json() == {"outcome": "known"}
    got = clients["owner"].get("/api/photos/" + sha(mine))
    assert got.content == mine
    assert got.headers["content-type"] == "image/jpeg"
    assert got.headers["content-disposition"].startswith("attachment")
    assert got.headers["x-content-type-options"] == "nosniff"
    # Neither the other rider nor a photo of another's bike: as if it were not there.
    for answer in (
        clients["odile"].get("/api/photos/" + sha(mine)),
        clients["imre"].put("/api/photos/" + sha(other), content=other),
        clients["imre"].get("/api/photos/" + sha(other)),
        clients["imre"].put("/api/photos/" + sha(b"x"), content=b"x"),
    ):
        assert answer.status_code == 404


def test_a_photo_that_is_not_as_its_entry_says_is_refused_and_nothing_is_kept(
    house: tuple[dict[str, httpx.Client], list[bytes]],
):
    clients, (mine, other) = house
    wrong = clients["imre"].put("/api/photos/" + sha(mine), content=other)
    assert wrong.status_code == 422
    assert wrong.json()["errors"][0]["field"] == "sha256"
    assert clients["imre"].put("/api/photos/" + sha(mine), content=bytes(MOST_BYTES + 1)).status_code == 413
    assert clients["imre"].get("/api/photos/" + sha(mine)).status_code == 404


def test_without_the_protocol_s_header_no_photo_is_taken(house: tuple[dict[str, httpx.Client], list[bytes]]):
    clients, (mine, _) = house
    del clients["imre"].headers["Pinchbolt-Protocol"]
    assert clients["imre"].put("/api/photos/" + sha(mine), content=mine).status_code == 400


def test_the_index_finds_who_names_a_photo(tmp_path: Path):
    """The condition in the code is spelt as the index is: SQLite's plan says that it is used."""
    with Workshop(tmp_path / "data") as workshop:
        workshop.add_person(hands.JUNO, "Juno", "owner")
        workshop.add_device(hands.BENCH, "Bench tablet", hands.JUNO)
        workshop.push(hands.BENCH, batch(hands.BENCH, [naming(hands.bench(), picture())]))
        assert workshop.log.subjects_of_photo(sha(picture())) == [FERN]
        assert workshop.log.subjects_of_photo("0" * 64) == []
    conn = sqlite3.connect(tmp_path / "data" / "pinchbolt.sqlite3")
    plan = conn.execute("EXPLAIN QUERY PLAN " + NAMING_PHOTO, ("x",)).fetchall()
    conn.close()
    assert "entries_photo" in str(plan)
