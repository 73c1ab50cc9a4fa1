"""The application: routes, what stands before them, their errors, inside the frame of headers."""

import asyncio
import logging
from collections.abc import AsyncGenerator
from contextlib import asynccontextmanager
from pathlib import Path

from anyio import to_thread
from litestar import Litestar
from litestar.config.compression import CompressionConfig
from litestar.datastructures import State
from litestar.types import ASGIApp

from pinchbolt.access import privacy
from pinchbolt.access.people import DAY
from pinchbolt.api import (
    bikes,
    calculations,
    devices,
    health,
    live,
    login,
    pair,
    passkeys,
    people,
    photos,
    problem,
    schema,
    sync,
    web,
)
from pinchbolt.api.coding import PACKS_ITSELF
from pinchbolt.api.frame import Frame
from pinchbolt.api.throttle import EachThrottle, Throttle
from pinchbolt.api.who import Admission
from pinchbolt.entries.batch import MOST_BATCH_BYTES
from pinchbolt.settings import Settings
from pinchbolt.workshop import Workshop

log = logging.getLogger("pinchbolt.app")

ROUTES = [
    calculations.list_calculations,
    calculations.get_calculation,
    calculations.run_calculation,
    sync.push,
    sync.pull,
    pair.pair,
    pair.me,
    pair.enrol,
    pair.leave,
    people.list_people,
    people.add_person,
    people.invite,
    devices.list_devices,
    devices.revoke_device,
    login.login,
    passkeys.begin_adding,
    passkeys.add,
    passkeys.begin_login,
    passkeys.login,
    bikes.list_bikes,
    bikes.get_bike,
    photos.put_photo,
    photos.get_photo,
    live.live,
    health.health,
    schema.schema,
    web.app_file,
]


async def _forget_daily(workshop: Workshop, days: int) -> None:
    """Names that have had their time go, at the start and once a day."""
    while days > 0:
        try:
            await to_thread.run_sync(privacy.forget_stale, workshop.database, days)
        except Exception:
            log.exception("names past their time could not be erased")
        await asyncio.sleep(DAY)


def create_app(settings: Settings, web_folder: Path = web.FOLDER) -> ASGIApp:
    """The server's application. The workshop is opened when it starts and closed when it stops."""
    hub = live.Live()

    @asynccontextmanager
    async def workshop(app: Litestar) -> AsyncGenerator[None]:
        hub.start()
        with Workshop(settings.data, hub.committed, settings.database) as opened:
            app.state.workshop = opened
            await hub.follow(opened.log.top)
            keeping = asyncio.create_task(_forget_daily(opened, settings.retention))
            try:
                yield
            finally:
                keeping.cancel()
                hub.close()

    return Frame(
        Litestar(
            ROUTES,
            middleware=[Admission()],
            lifespan=[workshop],
            exception_handlers=problem.HANDLERS,
            request_max_body_size=MOST_BATCH_BYTES,
            # A stream of news is sent as it comes; everything else goes out small, for slow lines.
            compression_config=CompressionConfig(
                backend="gzip", gzip_compress_level=5, exclude=["^/api/live"], exclude_opt_key=PACKS_ITSELF
            ),
            openapi_config=None,
            # The log is set up by the command that serves; Litestar's own would take its place.
            logging_config=None,
            state=State(
                {
                    "settings": settings,
                    "live": hub,
                    "web": web_folder,
                    "pairing": Throttle(pair.TRIES_A_MINUTE),
                    "logins": Throttle(login.TRIES_A_MINUTE),
                    "passkeys": Throttle(passkeys.TRIES_A_MINUTE),
                    "pushes": EachThrottle(sync.PUSHES_A_MINUTE),
                    "photos": EachThrottle(photos.PHOTOS_A_MINUTE),
                }
            ),
        )
    )
