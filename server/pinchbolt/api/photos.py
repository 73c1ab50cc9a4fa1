"""Photos by their SHA-256: taken only when an entry names them, given and got only by who sees that entry's subject."""

from typing import Any

from anyio import to_thread
from litestar import Request, Response, get, put
from litestar.params import FromPath

from pinchbolt.api.problem import Refused
from pinchbolt.api.throttle import EachThrottle, hold_back
from pinchbolt.api.who import device_of
from pinchbolt.photos.looking import MOST_BYTES
from pinchbolt.workshop import Workshop

# Of each device: a whole line-up photographed goes through in a minute, and one gone wild does not shut the others out.
PHOTOS_A_MINUTE = 240


@put("/api/photos/{sha256:str}", opt={"act": "put-photo"}, status_code=200, request_max_body_size=MOST_BYTES)
async def put_photo(sha256: FromPath[str], request: Request[Any, Any, Any]) -> dict[str, str]:
    """Take a photo: `{"outcome": "stored"}`, or `known` when it was here already."""
    throttle: EachThrottle = request.app.state.photos
    hold_back(throttle.wait(device_of(request).id), "This device sends too many photos at once.")
    workshop: Workshop = request.app.state.workshop
    await _admitted(request, sha256)
    content = await request.body()
    stored = await to_thread.run_sync(workshop.photos.put, sha256, content)
    return {"outcome": "stored" if stored else "known"}


@get("/api/photos/{sha256:str}", opt={"act": "get-photo"})
async def get_photo(sha256: FromPath[str], request: Request[Any, Any, Any]) -> Response[bytes]:
    """A photo's bytes, as the type they were found to be."""
    workshop: Workshop = request.app.state.workshop
    await _admitted(request, sha256)
    kept = await to_thread.run_sync(workshop.photos.get, sha256)
    if kept is None:
        raise Refused(404, "The photo is on somebody's phone still.")
    return Response(
        kept.content,
        media_type=kept.media_type,
        headers={
            # What the hash names never changes, but it is for this person's eyes.
            "Cache-Control": "private, max-age=31536000, immutable",
            "Content-Disposition": f'attachment; filename="{sha256[:16]}.{kept.media_type.split("/")[1]}"',
            "Content-Security-Policy": "default-src 'none'; sandbox",
        },
    )


async def _admitted(request: Request[Any, Any, Any], sha256: str) -> None:
    """Raises Refused unless an entry about something this person sees names the photo."""
    workshop: Workshop = request.app.state.workshop
    sight = device_of(request).sight()

    def look() -> bool:
        return any(workshop.log.sees(sight, subject) for subject in workshop.log.subjects_of_photo(sha256))

    if not await to_thread.run_sync(look):
        raise Refused(404, "No entry that you may see names this photo. Entries are sent before their photos.")
