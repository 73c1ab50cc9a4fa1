"""The web app's files, as the build left them in `pinchbolt/web`. Any other address opens the app, which finds its own way."""

import hashlib
import re
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from anyio import to_thread
from litestar import Request, Response, get
from litestar.params import FromPath

from pinchbolt.api.coding import PACKS_ITSELF, codings
from pinchbolt.api.problem import Refused
from pinchbolt.api.who import PUBLIC

FOLDER = Path(__file__).parent.parent / "web"

# Told by name, since what the machine's own table says of .js or .wasm is anybody's guess.
TYPES = {
    ".html": "text/html",
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".css": "text/css",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".wasm": "application/wasm",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
    ".txt": "text/plain",
    ".py": "text/plain",
}

# The build puts a hash into these names, so what they hold never changes.
_HASHED = re.compile(r"^assets/.+[-.][A-Za-z0-9_-]{8,}\.[a-z0-9]+$")
_FOREVER = "public, max-age=31536000, immutable"
_ASK_AGAIN = "no-cache"

NOT_BUILT = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Pinchbolt</title>
<h1>The server runs; its web app is not built</h1>
<p>This copy was started from its source. Build the app once and load this page again:</p>
<pre>cd pwa
npm ci
npm run build</pre>
<p>An installed Pinchbolt (<code>pip install .</code>) has it built in.</p>
"""


# What the build laid beside a file (pwa/vite/packing.ts), the smallest first: the coding (RFC 9110, 8.4.1) and the ending.
_PACKED = (("br", ".br"), ("gzip", ".gz"))


class Served(NamedTuple):
    content: bytes
    etag: str
    media_type: str
    # How the content is packed; None when it is not.
    coding: str | None = None


@get(["/", "/{path:path}"], opt={"act": PUBLIC, PACKS_ITSELF: True})
async def app_file(request: Request[Any, Any, Any], path: FromPath[str] = "") -> Response[bytes]:
    """A file of the app, or the app itself."""
    name = path.lstrip("/")
    if name == "api" or name.startswith("api/"):
        raise Refused(404, "There is nothing at this address.")
    folder: Path = request.app.state.web
    unpacked = codings(request.headers.get("accept-encoding", ""))
    served = await to_thread.run_sync(find, folder, name, unpacked)
    if served is None and Path(name).suffix in TYPES and Path(name).suffix != ".html":
        # A missing script must not be answered with a page: the browser would take it for the script.
        raise Refused(404, "There is no such file.")
    if served is None:
        name = "index.html"
        served = await to_thread.run_sync(find, folder, name, unpacked)
    if served is None:
        return Response(NOT_BUILT.encode(), media_type=TYPES[".html"], headers={"Cache-Control": "no-store"})
    headers = {
        "Cache-Control": _FOREVER if _HASHED.match(name) else _ASK_AGAIN,
        "ETag": served.etag,
        "Vary": "Accept-Encoding",
    }
    if request.headers.get("if-none-match") == served.etag:
        return Response(b"", status_code=304, headers=headers)
    if served.coding is not None:
        headers["Content-Encoding"] = served.coding
    return Response(served.content, media_type=served.media_type, headers=headers)


def find(folder: Path, name: str, unpacked: frozenset[str] = frozenset()) -> Served | None:
    """The file `name` of the app, packed in a way of `unpacked` if the build laid it there so.

    None when there is none, or when the name leads out of the folder.
    """
    if not name or "\0" in name:
        return None
    root = folder.resolve()
    file = (root / name).resolve()
    if not file.is_relative_to(root) or not file.is_file():
        return None
    for coding, ending in _PACKED:
        packed = file.with_name(file.name + ending)
        if coding in unpacked and packed.is_file():
            return _read(packed, packed.stat().st_mtime_ns, coding)
    return _read(file, file.stat().st_mtime_ns, None)


@lru_cache(maxsize=256)
def _read(file: Path, changed: int, coding: str | None) -> Served:
    """`changed` is part of the key, so that a new build is seen."""
    content = file.read_bytes()
    etag = '"' + hashlib.sha256(content).hexdigest()[:32] + '"'
    suffix = file.suffix if coding is None else Path(file.stem).suffix
    return Served(content, etag, TYPES.get(suffix, "application/octet-stream"), coding)
