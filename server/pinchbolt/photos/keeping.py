"""The photos' files: named by their hash, written whole or not at all, the owner's alone."""

import hashlib
import os
import re
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from pinchbolt.entries.fields import HASH
from pinchbolt.kernel.errors import refuse
from pinchbolt.photos.looking import FORMATS, look
from pinchbolt.store import Broken, Full


class Kept(NamedTuple):
    """A photo's bytes and the media type they were found to be."""

    content: bytes
    media_type: str


class Photos:
    """Photos under `folder`. Safe to use from any thread and process: a file with its final name is whole."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def put(self, sha256: str, content: bytes) -> bool:
        """Keep a photo; False when it was here already. Raises InputError, or Full when there is no room."""
        if not re.match(HASH, sha256) or hashlib.sha256(content).hexdigest() != sha256:
            raise refuse("sha256", sha256, "the SHA-256 of the photo's bytes")
        if self._find(sha256) is not None:
            return False
        looked = look(content)
        try:
            self._write(self._place(sha256, looked.ending), content)
        except OSError as error:
            raise Full("no room for photos") from error
        return True

    def get(self, sha256: str) -> Kept | None:
        found = self._find(sha256)
        if found is None:
            return None
        file, media_type = found
        return Kept(file.read_bytes(), media_type)

    def has(self, sha256: str) -> bool:
        return self._find(sha256) is not None

    def copy_to(self, other: "Photos") -> int:
        """Give `other` every photo it lacks; returns how many. What does not fit its hash is left out: `verify` names it."""
        copied = 0
        for file in self._files():
            sha256, content = file.stem, file.read_bytes()
            if other.has(sha256) or hashlib.sha256(content).hexdigest() != sha256:
                continue
            other._write(other._place(sha256, file.suffix), content)
            copied += 1
        return copied

    def _files(self) -> list[Path]:
        return sorted(self._folder.glob("??/[!.]*"))

    def verify(self) -> Iterator[Broken]:
        """Every photo kept against the hash that is its name."""
        for file in self._files():
            real = hashlib.sha256(file.read_bytes()).hexdigest()
            if file.stem != real:
                yield Broken(f"photo {file.stem}", f"its bytes have the hash {real}")

    def _place(self, sha256: str, ending: str) -> Path:
        return self._folder / sha256[:2] / (sha256 + ending)

    def _find(self, sha256: str) -> tuple[Path, str] | None:
        if not re.match(HASH, sha256):
            return None
        for media_type, ending in FORMATS.values():
            file = self._place(sha256, ending)
            if file.is_file():
                return file, media_type
        return None

    def _write(self, place: Path, content: bytes) -> None:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=place.parent, prefix=".", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, place)
        except BaseException:
            with suppress(OSError):
                os.unlink(name)
            raise
        folder = os.open(place.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
