"""The line-up: a start line seen bike by bike."""

from typing import Any

from pinchbolt.kernel.lineup import lineup, status
from pinchbolt.kernel.record import fold, freeze, resume
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


# --- plates nobody could match when they were checked


def plate_check(world: World, plate: str, device: str = "a", **marks: str) -> str:
    """The start-line check of a bike known by its plate only."""
    body = {"check": "pre-event", "version": 1, "answers": answered(**marks), "event": EVENT_ID, "plate": plate}
    return world.write(device, "check", body)


def line(world: World, bikes: dict[str, Any] | None = None) -> dict[str, Any]:
    return lineup(fold(EVENT, world.log), bikes or {})


def statuses(world: World) -> dict[str, str]:
    return {r["plate"]: r["status"] for r in line(world)["rows"]}


def test_a_plate_that_is_not_on_the_list_can_be_checked_and_matched_later() -> None:
    world = World()
    plate_check(world, "57")
    before = line(world)
    assert before["rows"] == []
    assert [(r["plate"], r["status"]) for r in before["unlisted"]] == [("57", "cleared")]
    world.write("b", "start", {"plate": "57", "name": "Ravi"})
    after = line(world)
    assert [(r["plate"], r["status"], r["name"]) for r in after["rows"]] == [("57", "cleared", "Ravi")]
    assert after["unlisted"] == []


def test_two_checkers_without_signal_on_one_plate_both_show_and_the_worse_counts() -> None:
    world = World()
    world.write("a", "start", {"plate": "5", "name": "Nell"})
    plate_check(world, "5", "a", headset="fail")
    plate_check(world, "5", "b")
    (row,) = line(world)["rows"]
    assert len(row["checks"]) == 2
    assert row["status"] == "not-cleared"
    world.pull("b")
    plate_check(world, "5", "b")
    assert statuses(world) == {"5": "cleared"}, "whoever had seen the failed check has checked again"


def test_a_plate_change_takes_the_checks_along_and_leaves_none_behind() -> None:
    world = World()
    world.write("a", "start", {"plate": "7", "name": "Nell"})
    plate_check(world, "7", headset="fail")
    world.write("a", "start", {"plate": "70", "name": "Nell", "was": "7"})
    world.write("a", "withdraw", {"plate": "7", "reason": "now 70"})
    assert statuses(world) == {"70": "not-cleared"}
    world.write("a", "start", {"plate": "7", "name": "Zeno"})
    assert statuses(world) == {"7": "not-seen", "70": "not-cleared"}
    plate_check(world, "7")
    world.write("a", "start", {"plate": "70", "name": "Nell B.", "was": "7"})
    assert statuses(world) == {"7": "cleared", "70": "not-cleared"}


def test_what_was_found_on_a_plate_counts_beside_the_bike_it_turns_out_to_be() -> None:
    """A fit check of the bike by somebody who had not heard of the failed one does not wipe it out."""
    world = World()
    plate_check(world, "7", "a", headset="fail")
    world.write("a", "start", {"plate": "7", "bike": BIKE_ID})
    other = World(log=list(world.log), clock=world.clock)
    check(other, "b")
    unaware = fold(BIKE, [kept for kept in other.log[len(world.log) :]])
    assert line(world, {BIKE_ID: unaware})["rows"][0]["status"] == "not-cleared"
    other.pull("b")
    check(other, "b")
    aware = fold(BIKE, [kept for kept in other.log[len(world.log) :]])
    row = line(world, {BIKE_ID: aware})["rows"][0]
    assert row["status"] == "cleared"
    assert len(row["checks"]) == 3


def test_a_fault_or_a_change_on_the_bike_shows_beside_a_check_of_its_plate() -> None:
    world = World()
    world.write("a", "start", {"plate": "7", "bike": BIKE_ID})
    plate_check(world, "7")
    bike = World(log=[], clock=100)
    check(bike, event_id=None)
    assert line(world, {BIKE_ID: fold(BIKE, bike.log)})["rows"][0]["status"] == "cleared"
    fault = bike.write("a", "fault", {"what": "rear tyre cut", "level": "care"})
    row = line(world, {BIKE_ID: fold(BIKE, bike.log)})["rows"][0]
    assert (row["status"], row["reasons"][0]["text"]) == ("cleared-with-care", "Open fault: rear tyre cut")
    bike.write("a", "fault-close", {"fault": fault, "done": "new tyre"})
    bike.write("b", "part-fit", {"part": "p1", "slot": "stem", "name": "stem 100 mm"})
    row = line(world, {BIKE_ID: fold(BIKE, bike.log)})["rows"][0]
    assert (row["status"], row["reasons"][0]["text"]) == ("open", "Changed since the check: stem.")


def test_a_check_of_a_part_clears_no_plate() -> None:
    world = World()
    world.write("a", "start", {"plate": "5", "name": "Nell"})
    items = [{"item": "tyres", "title": "Tyres", "essential": True, "mark": "pass"}]
    world.write("a", "check", {"check": "tyres", "version": 1, "scope": "part", "answers": items, "plate": "5"})
    assert statuses(world) == {"5": "open"}


def test_plates_of_digits_that_are_no_number_stand_behind_the_numbers() -> None:
    """`isdigit` and `int` do not agree about these (Unicode, No and Nd), and the phone's engine has its own mind."""
    world = World()
    for plate in ("7²", "٣", "12", "5", "①", "A3"):
        world.write("a", "start", {"plate": plate, "name": "Nell"})
    assert [r["plate"] for r in line(world)["rows"]] == ["5", "12", "7²", "A3", "٣", "①"]


def test_an_event_goes_on_from_a_snapshot_as_from_all_its_entries() -> None:
    world = World()
    world.write("a", "start", {"plate": "7", "name": "Nell"})
    plate_check(world, "7", headset="fail")
    world.write("a", "start", {"plate": "70", "name": "Nell", "was": "7"})
    kept = freeze(EVENT, world.log)
    world.write("a", "withdraw", {"plate": "7"})
    plate_check(world, "9")
    assert resume(kept, world.log[-2:]) == fold(EVENT, world.log)
