"""When the app syncs again by itself: after a long outage, and when the server's news break off."""

import json
from typing import Any

from playwright.sync_api import Route

from pinchbolt.writer import Writer, batch
from tests.server.running import pair as pair_client
from tests.server.running import push as push_as
from tests.sync.phones import workday
from tests.web.phone import Phone, comes_to, tell
from tests.web.workshop import ServedWorkshop

SYNC = "**/api/sync/**"
LIVE = "**/api/live"
BIKE = "bike/5d0c1c3e-7a0b-4c52-9c1e-0d5d5b8f3a11"
OTHER_DEVICE = "0b9e3c1a-1111-4222-8333-944445555666"
# Well under the minute between two rounds when nothing happens.
SOON = 20.0


def note(text: str) -> dict[str, Any]:
    return {"subject": BIKE, "kind": "note", "body": {"text": text}}


def test_news_that_break_off_are_listened_to_again_soon(mine: Phone, workshop: ServedWorkshop) -> None:
    """A proxy, or a server busy for a moment, ends the stream: what others write must not wait for the next minute."""
    broken: list[str] = []

    def breaks(route: Route) -> None:
        broken.append(route.request.url)
        # The first time at once, the second time in the middle.
        if len(broken) == 1:
            route.abort()
        elif len(broken) == 2:
            route.fulfill(status=200, content_type="text/event-stream", body=": still here\n\n")
        else:
            route.continue_()

    mine.page.route(LIVE, breaks)
    mine.do("startSync")
    for times in (1, 2, 3):
        deadline = 200
        while len(broken) < times:
            mine.page.wait_for_timeout(100)
            deadline -= 1
            assert deadline > 0, f"listened {len(broken)} times"
    client = pair_client(workshop.url, workshop.code_for("Second", "mechanic"), OTHER_DEVICE)
    pen = Writer(OTHER_DEVICE, client.get("/api/me").json()["person"]["id"])
    push_as(client, batch(OTHER_DEVICE, [pen.write(BIKE, "note", {"text": "from somebody else"}, workday())]))
    client.close()
    comes_to(mine.page, f"door.record.entries({json.dumps(BIKE)}).then((all) => all.length)", 1, SOON)


def test_a_network_just_joined_that_fails_once_more_does_not_cost_the_wait_of_the_outage(
    mine: Phone, workshop: ServedWorkshop
) -> None:
    mine.do("startSync")
    mine.do("record.write", note("from the far side of the hill"))
    comes_to(mine.page, "door.syncState.value.unsent", 0)
    mine.page.route(SYNC, lambda route: route.abort())
    mine.do("record.write", note("without a signal"))
    for _ in range(12):
        mine.sync()
    assert mine.value("syncState")["unsent"] == 1
    mine.page.unroute(SYNC)
    left = [1]

    def once_more(route: Route) -> None:
        if left and left.pop():
            route.abort()
        else:
            route.continue_()

    mine.page.route(SYNC, once_more)
    # The wait is drawn by lot: here it is always nearly the longest.
    tell(mine.page, "Math.random = () => 0.9")
    tell(mine.page, "dispatchEvent(new Event('online'))")
    comes_to(mine.page, "door.syncState.value.unsent", 0, SOON)
    assert left == [], "the first request after the outage failed"
    assert [json.loads(raw)["body"]["text"] for raw in workshop.held()] == ["from the far side of the hill", "without a signal"]


def test_out_of_reach_without_any_word_of_the_browser_it_is_tried_within_half_a_minute(
    mine: Phone, workshop: ServedWorkshop
) -> None:
    """A network that leads nowhere, and then does: the browser says "online" too early, and later nothing at all."""
    mine.do("startSync")
    mine.page.route(SYNC, lambda route: route.abort())
    mine.do("record.write", note("in the valley"))
    tell(mine.page, "Math.random = () => 0.99")
    for _ in range(12):
        mine.sync()
    mine.page.unroute(SYNC)
    comes_to(mine.page, "door.syncState.value.unsent", 0, 30)
    assert [json.loads(raw)["body"]["text"] for raw in workshop.held()] == ["in the valley"]
