"""Bikes as their entries make them."""

import re
from typing import Any

from anyio import to_thread
from litestar import Request, get
from litestar.params import FromPath

from pinchbolt.api.problem import Refused
from pinchbolt.api.who import device_of
from pinchbolt.entries.fields import UUID
from pinchbolt.workshop import Workshop


@get("/api/bikes", opt={"act": "read-bikes"})
async def list_bikes(request: Request[Any, Any, Any]) -> list[dict[str, Any]]:
    """A summary line for each bike."""
    workshop: Workshop = request.app.state.workshop
    return await to_thread.run_sync(workshop.bikes, device_of(request).sight())


@get("/api/bikes/{id:str}", opt={"act": "read-bikes"})
async def get_bike(id: FromPath[str], request: Request[Any, Any, Any]) -> dict[str, Any]:
    """One bike: the fold of its entries."""
    workshop: Workshop = request.app.state.workshop
    sight = device_of(request).sight()
    subject = "bike/" + id

    def read() -> dict[str, Any] | None:
        if not re.match(UUID, id) or not workshop.log.sees(sight, subject) or not workshop.log.last(subject):
            return None
        return workshop.state(subject)

    state = await to_thread.run_sync(read)
    if state is None:
        # The same words whether there is none or it is somebody else's: an answer that differs would tell.
        raise Refused(404, "There is no such bike, or not for you.")
    return state
