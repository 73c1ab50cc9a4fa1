"""The line-up: a start line seen bike by bike."""

from typing import Any

from pinchbolt.kernel.lineup import lineup, status
from pinchbolt.kernel.record import fold
from tests.kernel.entries import BIKE, World
from tests.kernel.test_checks import answered

EVENT = "event/00000000-0000-4000-8000-0000000000e1"
BIKE_ID = BIKE.split("/")[1]
EVENT_ID = EVENT.split("/")[1]


def event() -> dict[str, Any]:
    world = World()
    world.write("a", "describe", {"name": "Three Gaps Day", "distance": 112})
    for plate in ("2", "10", "7", "1"):
        world.write("a", "start", {"plate": plate, "bike": BIKE_ID if plate == "7" else None, "rider": None})
    world.write("a", "withdraw", {"plate": "2", "reason": "ill"})
    return fold(EVENT, world.log)


def row_of(world: World) -> dict[str, Any]:
    table = lineup(event(), {BIKE_ID: fold(BIKE, world.log)})
    return next(r for r in table["rows"] if r["plate"] == "7")


def check(world: World, device: str = "a", event_id: str | None = EVENT_ID, **marks: str) -> None:
    body: dict[str, Any] = {"check": "pre-event", "version": 1, "answers": answered(**marks)}
    world.write(device, "check", body | ({"event": event_id} if event_id else {}))


def test_plates_stand_in_the_order_of_their_numbers_and_the_withdrawn_are_out() -> None:
    assert [r["plate"] for r in lineup(event(), {})["rows"]] == ["1", "7", "10"]


def test_a_bike_checked_elsewhere_was_not_seen_here() -> None:
    world = World()
    check(world, event_id=None)
    assert row_of(world)["status"] == "not-seen"


def test_a_bike_checked_here_is_cleared_and_one_with_a_fault_is_not() -> None:
    world = World()
    check(world)
    assert row_of(world)["status"] == "cleared"
    world.write("a", "fault", {"what": "crack", "level": "stop"})
    assert row_of(world)["status"] == "not-cleared"


def test_a_bike_known_not_to_be_fit_holds_up_the_start_even_before_it_is_seen() -> None:
    world = World()
    world.write("a", "ride", {"km": 3, "fall": True})
    assert row_of(world)["status"] == "not-cleared"


def test_a_bike_checked_twice_shows_both_and_the_worse_counts() -> None:
    world = World()
    check(world, "a", headset="fail")
    check(world, "b")
    row = row_of(world)
    assert len(row["checks"]) == 2
    assert row["status"] == "not-cleared"


def test_a_half_done_check_is_open() -> None:
    world = World()
    body = {"check": "pre-event", "version": 1, "answers": answered()[:5], "event": EVENT_ID}
    world.write("a", "check", body)
    assert row_of(world)["status"] == "open"


def test_nothing_unknown_is_ever_cleared() -> None:
    for verdict in ("fit", "care", "not-complete", "not-fit", "", "None", "some later word"):
        assert not status(verdict, False).startswith("cleared")
        assert status(verdict, True).startswith("cleared") == (verdict in ("fit", "care"))


def test_the_tally_counts_every_starter_once() -> None:
    table = lineup(event(), {})
    assert sum(table["tally"].values()) == table["starters"] == 3
