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
    assert kept is not None
    world.write("a", "withdraw", {"plate": "7"})
    plate_check(world, "9")
    assert resume(kept, world.log[-2:]) == fold(EVENT, world.log)


# --- what two phones say of a plate without knowing of each other


def both_to_200(checks: bool = False) -> World:
    """The checker's phone `a` moves Anders to 200, the mechanic's `b` moves Kaja there; then both hear of it."""
    world = World()
    world.write("a", "start", {"plate": "10", "name": "Anders"})
    world.write("a", "start", {"plate": "11", "name": "Kaja"})
    if checks:
        plate_check(world, "10", headset="fail")
        plate_check(world, "11")
    world.pull("a", "b")
    for device, name, was in (("a", "Anders", "10"), ("b", "Kaja", "11")):
        world.write(device, "start", {"plate": "200", "name": name, "was": was})
        world.write(device, "withdraw", {"plate": was, "reason": "now 200"})
    return world


def standing_in_line(world: World) -> list[tuple[Any, ...]]:
    return [(r["plate"], r["name"], r["status"]) for r in line(world)["rows"]]


def test_two_given_one_plate_are_both_there_and_hold_up_the_start() -> None:
    world = both_to_200(checks=True)
    table = line(world)
    assert sorted(standing_in_line(world)) == [("200", "Anders", "undecided"), ("200", "Kaja", "undecided")]
    assert table["starters"] == table["tally"]["undecided"] == 2
    assert all(r["reasons"][0]["text"].startswith("Plate taken twice") for r in table["rows"])
    assert [len(r["checks"]) for r in table["rows"]] == [1, 1], "each with the check made of them"
    assert table["unlisted"] == []


def test_one_of_two_goes_to_another_plate_and_each_keeps_their_own_checks() -> None:
    for goes, stays in (("Anders", "Kaja"), ("Kaja", "Anders")):
        world = both_to_200(checks=True)
        plate_check(world, "200", "a")  # by a phone that knows of Anders only, and did not know he failed before it was him
        world.pull("a", "b")
        world.write("b", "start", {"plate": "201", "name": goes, "was": "200"})
        rows = {r["name"]: r for r in line(world)["rows"]}
        assert [rows[goes]["plate"], rows[stays]["plate"]] == ["201", "200"]
        assert len(rows["Anders"]["checks"]) == 2
        assert len(rows["Kaja"]["checks"]) == 1
        assert rows["Kaja"]["status"] == "cleared"
        assert line(world)["unlisted"] == []


def test_nobody_is_lost_when_a_plate_taken_twice_is_given_up_by_one_who_did_not_know() -> None:
    world = both_to_200()
    world.write("a", "start", {"plate": "201", "name": "Anders", "was": "200"})
    world.write("a", "withdraw", {"plate": "200"})
    assert standing_in_line(world) == [("200", "Kaja", "undecided"), ("201", "Anders", "not-seen")]
    world.pull("a")
    world.write("a", "start", {"plate": "200", "name": "Kaja"})
    assert standing_in_line(world) == [("200", "Kaja", "not-seen"), ("201", "Anders", "not-seen")]


def test_three_given_one_plate_without_one_before_are_three() -> None:
    world = World()
    for device in ("a", "b", "c"):
        world.write(device, "start", {"plate": "57", "name": "Rider " + device})
        plate_check(world, "57", device, **({"headset": "fail"} if device == "c" else {}))
    assert [len(r["checks"]) for r in line(world)["rows"]] == [1, 1, 1]
    world.pull("a")
    world.write("a", "start", {"plate": "58", "name": "Rider a", "was": "57"})
    assert line(world)["tally"]["undecided"] == 2
    world.write("a", "start", {"plate": "59", "name": "Rider b", "was": "57"})
    assert statuses(world) == {"57": "not-cleared", "58": "cleared", "59": "cleared"}


def test_one_starter_told_twice_alike_is_one_and_with_two_bikes_a_question() -> None:
    world = World()
    for device in ("a", "b"):
        world.write(device, "start", {"plate": "57", "name": "Ravi"})
        plate_check(world, "57", device, **({"headset": "fail"} if device == "a" else {}))
    assert standing_in_line(world) == [("57", "Ravi", "not-cleared")]
    world.pull("a", "b")
    for device, bike in (("a", BIKE_ID), ("b", EVENT_ID)):
        world.write(device, "start", {"plate": "57", "name": "Ravi", "bike": bike})
    assert [r["question"] for r in line(world)["rows"]] == ["which-bike", "which-bike"]
    world.pull("a")
    world.write("a", "start", {"plate": "57", "name": "Ravi", "bike": BIKE_ID})
    (row,) = line(world)["rows"]
    assert (row["bike"], row["status"], len(row["checks"])) == (BIKE_ID, "not-cleared", 2)


def test_who_starts_after_all_has_their_checks_and_the_next_under_the_plate_has_not() -> None:
    for name, status_ in (("Nell", "not-cleared"), ("Zeno", "not-seen")):
        world = World()
        world.write("a", "start", {"plate": "8", "name": "Nell"})
        plate_check(world, "8", headset="fail")
        world.write("a", "withdraw", {"plate": "8", "reason": "stomach"})
        (gone,) = fold(EVENT, world.log)["withdrawn"]
        assert (gone["name"], gone["reason"]) == ("Nell", "stomach")
        world.write("a", "start", {"plate": "8", "name": name})
        assert statuses(world) == {"8": status_}


def test_a_plate_in_question_goes_on_from_a_snapshot_as_from_all_its_entries() -> None:
    world = both_to_200(checks=True)
    kept = freeze(EVENT, world.log)
    assert kept is not None
    world.pull("b")
    world.write("b", "start", {"plate": "201", "name": "Anders", "was": "200"})
    assert resume(kept, world.log[-1:]) == fold(EVENT, world.log)


def test_a_plate_that_was_changed_says_which_it_is_now_and_one_withdrawn_who_it_was() -> None:
    world = World()
    for plate, name in (("8", "Nell"), ("9", "Ravi")):
        world.write("a", "start", {"plate": plate, "name": name})
    world.write("a", "start", {"plate": "109", "name": "Ravi", "was": "9"})
    world.write("a", "withdraw", {"plate": "9", "reason": "now 109"})
    world.write("a", "withdraw", {"plate": "8", "reason": "stomach"})
    gone = [(w["plate"], w["name"], w["reason"], w["now"]) for w in fold(EVENT, world.log)["withdrawn"]]
    assert gone == [("8", "Nell", "stomach", None), ("9", "Ravi", "now 109", "109")]
    world.write("a", "start", {"plate": "9", "name": "Zeno"})
    world.write("a", "withdraw", {"plate": "9"})
    assert [(w["plate"], w["name"], w["now"]) for w in fold(EVENT, world.log)["withdrawn"]][1] == ("9", "Zeno", None)
