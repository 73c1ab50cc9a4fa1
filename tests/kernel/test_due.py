"""What is due: by km, days, wear and happenings. Intervals and limits are common practice unless a part carries its own."""

import json
from datetime import UTC, datetime, timedelta
from datetime import date as date_type
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.calls import call
from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.checks import prepare
from pinchbolt.kernel.dates import date_of, day_number
from pinchbolt.kernel.due import due, due_across
from pinchbolt.kernel.record import fold
from pinchbolt.kernel.shipped import find_check
from tests.kernel.entries import BIKE, World

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@given(st.datetimes(datetime(1900, 3, 1), datetime(2999, 12, 31)))
def test_day_numbers_agree_with_the_standard_library(moment: datetime) -> None:
    moment = moment.replace(tzinfo=UTC, microsecond=0)
    text = moment.isoformat(timespec="milliseconds").replace("+00:00", "Z")
    assert day_number(text) == pytest.approx((moment - EPOCH) / timedelta(days=1), abs=1e-9)
    assert day_number(text[:10]) == (moment.replace(hour=0, minute=0, second=0) - EPOCH).days


@pytest.mark.parametrize("bad", ["", "yesterday", "2026/05/03", "20260503"])
def test_what_is_no_date_is_refused(bad: str) -> None:
    with pytest.raises(ValueError, match=r"not a date|invalid literal"):
        day_number(bad)


def on(world: World, days: float = 0) -> dict[str, dict[str, Any]]:
    """What is due, by name, so many days after the first of May 2026, when the world's entries were written."""
    now = datetime(2026, 5, 1, 12, tzinfo=UTC) + timedelta(days=days)
    return {d["due"]: d for d in due(fold(BIKE, world.log), now.isoformat(timespec="milliseconds").replace("+00:00", "Z"))}


def tyred() -> World:
    world = World()
    world.write("a", "part-fit", {"part": "t", "slot": "tyre-front", "name": "tubeless tyre 40 mm"})
    return world


def test_sealant_is_coming_then_due_and_starts_again_when_done() -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    assert "sealant" not in on(world, 95)
    assert on(world, 110)["sealant"]["level"] == "coming"
    assert on(world, 121)["sealant"]["level"] == "care"
    assert on(world, 121)["sealant"]["left"] == pytest.approx(-1.5, abs=0.01)


@pytest.mark.parametrize("climate", ["cool", "mild", "hot", None, "on the moon", 7])
def test_sealant_is_due_on_the_day_its_calculation_gives_for_where_the_bike_lives(climate: object) -> None:
    """The two must not tell different days; where nobody said, or nobody knows the place, what is assumed is named."""
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    inputs = {"tyre_width": 40.0, "days_since": 0.0, "climate": climate}
    if climate is not None:
        world.write("a", "calculate", {"calculation": "sealant", "inputs": inputs, "outputs": {}})
    world.write("a", "calculate", {"calculation": "hanger", "inputs": {"climate": "hot"}, "outputs": {}})
    known = climate in ("cool", "mild", "hot")
    outputs: Any = find("sealant").run(dict(inputs, climate=climate if known else "mild"))["outputs"]
    days = outputs["top_up_in"]
    # The world writes at half past midnight, `on` looks at noon.
    found = on(world, days)["sealant"]
    assert (found["level"], found["left"]) == ("care", pytest.approx(-0.5, abs=0.01))
    assert on(world, days - 1)["sealant"]["level"] == "coming"
    assert found["source"] == f"common practice, {climate if known else 'mild'} place" + ("" if known else " assumed")


@pytest.mark.parametrize("climate", ["cool", "mild", "hot", None])
def test_the_interval_shown_for_a_bike_is_the_one_it_falls_due_by(climate: "str | None") -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    if climate is not None:
        world.write("a", "calculate", {"calculation": "sealant", "inputs": {"climate": climate}, "outputs": {}})
    told = json.loads(call(json.dumps({"do": "intervals-of", "climate": fold(BIKE, world.log)["climate"]})))["ok"]
    shown = next(one for one in told if one["due"] == "sealant")
    found = on(world, 200)["sealant"]
    assert found["left"] == pytest.approx(shown["days"] - 200, abs=1)
    assert shown["source"] == found["source"]
    assert (climate or "mild") in shown["why"]


def test_a_climate_changed_or_taken_back_counts_no_longer() -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    put = {"calculation": "sealant", "inputs": {"climate": "hot"}, "outputs": {}}
    entry = world.write("a", "calculate", put)
    assert on(world, 70)["sealant"]["level"] == "care"
    world.write("a", "void", {"entry": entry, "reason": "another bike"})
    assert "sealant" not in on(world, 70)
    world.write("a", "calculate", put)
    world.write("a", "calculate", dict(put, inputs={"climate": "cool"}))
    assert "sealant" not in on(world, 130)


def test_a_bike_without_a_battery_is_never_due_for_charging() -> None:
    assert "charge" not in on(tyred(), 400)


def test_the_workshops_own_interval_wins() -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    state = fold(BIKE, world.log)
    found = due(state, "2026-06-10T00:00:00.000Z", [{"due": "sealant", "days": 30}])
    assert [(d["due"], d["level"], d["source"]) for d in found] == [("sealant", "care", "the workshop's own")]


def test_a_joint_is_due_again_after_the_first_ride_and_pressing_after_100_km() -> None:
    world = World()
    world.write("a", "torque", {"joint": "stem face plate", "applied": 4.5, "low": 4, "high": 5})
    assert "re-torque" not in on(world)
    world.write("a", "ride", {"km": 30})
    assert on(world)["re-torque"]["level"] == "coming"
    world.write("a", "ride", {"km": 75})
    assert on(world)["re-torque"]["level"] == "care"
    world.write("a", "torque", {"joint": "stem face plate", "applied": 4.5, "low": 4, "high": 5})
    world.write("a", "ride", {"km": 500})
    assert "re-torque" not in on(world)


def test_a_fall_makes_every_joint_due_again_and_stops_the_bike() -> None:
    world = World()
    world.write("a", "torque", {"joint": "left pedal", "applied": 38})
    world.write("a", "ride", {"km": 30})
    world.write("a", "torque", {"joint": "left pedal", "applied": 38})
    world.write("a", "ride", {"km": 5, "fall": True})
    found = on(world)
    assert found["after-fall"]["level"] == "stop"
    assert "re-torque" in found


def test_after_a_fall_the_joints_are_due_at_once_until_each_is_gone_over_by_who_knew_of_it() -> None:
    world = World()
    for joint in ("left pedal", "stem to steerer"):
        world.write("a", "torque", {"joint": joint, "applied": 5, "low": 4, "high": 6})
    world.write("a", "ride", {"km": 30})
    for joint in ("left pedal", "stem to steerer"):
        world.write("a", "torque", {"joint": joint, "applied": 5, "low": 4, "high": 6})
    world.write("b", "ride", {"km": 5, "fall": True})
    world.write("a", "torque", {"joint": "left pedal", "applied": 5, "low": 4, "high": 6})  # a knows nothing of the fall
    found = on(world)["re-torque"]
    assert (found["level"], found["left"]) == ("care", 0.0)
    assert "left pedal, stem to steerer" in found["text"]
    world.pull("a")
    world.write("a", "torque", {"joint": "left pedal", "applied": 5, "low": 4, "high": 6})
    assert on(world)["re-torque"]["text"].endswith(": stem to steerer.")
    world.write("a", "service", {"job": "re-torque"})
    assert "re-torque" not in on(world)


def test_the_re_torque_clears_the_joints_it_asked_for_and_no_other() -> None:
    world = World()
    for joint in ("left pedal", "stem to steerer"):
        world.write("a", "torque", {"joint": joint, "applied": 5, "low": 4, "high": 6})
    world.write("a", "ride", {"km": 150})
    answers = [
        {"item": "joint-stem to steerer", "title": "stem to steerer", "essential": True, "value": 5, "low": 4, "high": 6},
        {"item": "joint-left pedal", "title": "left pedal", "essential": True, "value": 3, "low": 4, "high": 6},
    ]
    world.write("a", "check", {"check": "first-ride", "version": 1, "answers": answers[:1]})
    assert on(world)["re-torque"]["text"].endswith(": left pedal.")
    world.write("a", "check", {"check": "first-ride", "version": 1, "answers": answers})
    assert on(world)["re-torque"]["text"].endswith(": left pedal."), "one that was found loose was not gone over"


def test_a_joint_made_anew_with_another_part_wants_its_re_torque_again() -> None:
    world = World()

    def tighten() -> None:
        world.write("a", "torque", {"joint": "stem to steerer", "applied": 5, "low": 4, "high": 6})

    world.write("a", "part-fit", {"part": "p1", "slot": "stem", "name": "stem 100 mm"})
    tighten()
    world.write("a", "ride", {"km": 60})
    tighten()
    world.write("a", "ride", {"km": 500})
    assert "re-torque" not in on(world)
    world.write("a", "part-remove", {"part": "p1"})
    world.write("a", "part-fit", {"part": "p2", "slot": "stem", "name": "stem 90 mm"})
    world.write("a", "ride", {"km": 20})
    assert on(world)["re-torque"]["left"] == 80, "fitted, ridden, and not tightened on record"
    tighten()
    world.write("a", "ride", {"km": 150})
    assert on(world)["re-torque"]["level"] == "care"
    tighten()
    assert "re-torque" not in on(world)


def chain(value: float, limit: float | None = None) -> World:
    world = World()
    markings = {} if limit is None else {"chain_limit": limit}
    world.write("a", "part-fit", {"part": "c", "slot": "chain", "name": "chain, 12-speed", "markings": markings})
    for reading in (0.0, value):
        world.write("a", "measure", {"what": "chain_elongation", "value": reading, "unit": "%", "part": "c"})
    return world


def test_a_chain_is_held_against_its_own_limit_first() -> None:
    assert on(chain(0.46))["wear-chain_elongation"]["level"] == "coming"
    assert on(chain(0.51))["wear-chain_elongation"]["level"] == "care"
    assert "wear-chain_elongation" not in on(chain(0.51, limit=0.75))


def test_a_chain_for_fewer_cogs_may_wear_further() -> None:
    """0.5 % from 11 speeds up, 0.75 % below: common practice; the start-line check asks the same of it."""
    for speeds, limit in ((12, 0.5), (11, 0.5), (10, 0.75), (None, 0.5)):
        world = chain(0.6)
        interface = {"kind": "cassette"} if speeds is None else {"kind": "cassette", "speeds": speeds}
        world.write("a", "part-fit", {"part": "k", "slot": "cassette", "name": "cassette", "interfaces": [interface]})
        assert ("wear-chain_elongation" in on(world)) == (limit == 0.5)
        items = prepare(find_check("pre-event", 1) or {}, fold(BIKE, world.log))["items"]
        assert next(i["high"] for i in items if i["item"] == "chain") == limit


@pytest.mark.parametrize(("what", "unit", "value"), [("pad_front", "mm", 0.51), ("chain_elongation", "%", 0.49)])
def test_a_first_reading_at_the_limit_is_told_although_there_is_no_trend_yet(what: str, unit: str, value: float) -> None:
    world = World()
    world.write("a", "measure", {"what": what, "value": value, "unit": unit})
    assert on(world)["wear-" + what]["level"] == "coming"


def pads(world: World, device: str, value: float) -> str:
    return world.write(device, "measure", {"what": "pad_front", "value": value, "unit": "mm"})


def test_of_two_readings_taken_at_once_the_worse_counts_until_it_is_decided() -> None:
    world = World()
    pads(world, "a", 2.0)
    world.pull("a", "b")
    low = pads(world, "b", 0.4)
    high = pads(world, "a", 1.4)
    assert on(world)["wear-pad_front"]["level"] == "stop"
    world.pull("a")
    world.write("a", "decide", {"question": "measure.pad_front", "chosen": low, "reason": "looked again"})
    assert on(world)["wear-pad_front"]["level"] == "stop"
    world.write("a", "decide", {"question": "measure.pad_front", "chosen": high, "reason": "no"})
    assert on(world)["wear-pad_front"]["level"] == "stop", "what was put aside cannot be chosen any more"
    pads(world, "a", 1.5)
    assert "wear-pad_front" not in on(world)


def test_the_chain_that_was_fitted_last_is_the_one_that_wears() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "c1", "slot": "chain", "name": "A chain"})
    world.write("a", "measure", {"what": "chain_elongation", "value": 0.1, "unit": "%", "part": "c1"})
    world.write("a", "ride", {"km": 3000})
    world.write("a", "part-fit", {"part": "c2", "slot": "chain", "name": "B chain"})
    world.write("a", "measure", {"what": "chain_elongation", "value": 0.6, "unit": "%", "part": "c2"})
    assert on(world)["wear-chain_elongation"]["level"] == "care"


def test_a_service_dated_in_the_future_puts_nothing_off() -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    world.log[-1]["entry"]["noted_at"] = "2036-01-01T00:00:00.000Z"
    assert on(world, 130)["sealant"]["level"] == "care"
    world.write("a", "service", {"job": "sealant"})
    assert on(world, 5).get("sealant") is None


def test_a_snooze_until_no_day_at_all_puts_nothing_off_and_breaks_nothing() -> None:
    world = tyred()
    world.write("a", "snooze", {"due": "sealant", "until": "next week", "reason": "an older app"})
    assert on(world, 130)["sealant"]["snoozed"] is None


def test_a_rotor_at_its_marked_least_stops_the_bike_and_without_a_mark_nothing_is_claimed() -> None:
    world = World()
    world.write("a", "measure", {"what": "rotor_front", "value": 1.5, "unit": "mm"})
    assert "wear-rotor_front" not in on(world)
    world.write("a", "part-fit", {"part": "r", "slot": "rotor-front", "name": "rotor", "markings": {"rotor_min_front": 1.55}})
    assert on(world)["wear-rotor_front"]["level"] == "stop"


def test_a_snooze_moves_a_thing_out_of_the_way_but_never_what_stops_a_ride() -> None:
    world = tyred()
    world.write("a", "service", {"job": "sealant"})
    world.write("a", "snooze", {"due": "sealant", "until": "2026-09-01", "reason": "not ridden till then"})
    assert on(world, 122)["sealant"]["snoozed"]["reason"] == "not ridden till then"
    assert on(world, 130)["sealant"]["snoozed"] is None
    world.write("a", "ride", {"km": 5, "fall": True})
    world.write("a", "snooze", {"due": "after-fall", "until": "2026-12-01", "reason": "no"})
    assert on(world, 10)["after-fall"]["snoozed"] is None


def test_what_stops_a_ride_comes_first() -> None:
    world = chain(0.6)
    world.write("a", "ride", {"km": 5, "fall": True})
    assert next(iter(on(world).values()))["level"] == "stop"


@given(st.dates())
def test_a_day_number_goes_back_to_its_date(date: date_type) -> None:
    assert date_of(day_number(date.isoformat()) + 0.99) == date.isoformat()


def test_a_job_of_the_workshops_own_is_due_like_any_other() -> None:
    world = tyred()
    state = fold(BIKE, world.log)
    own = [{"due": "wash-and-wax", "days": 14}]
    found = {d["due"]: d for d in due(state, "2026-05-20T12:00:00.000Z", own)}
    assert (found["wash-and-wax"]["title"], found["wash-and-wax"]["level"]) == ("Wash and wax", "care")
    assert found["wash-and-wax"]["source"] == "the workshop's own"
    world.write("a", "interval", {"due": "wash-and-wax", "days": 60})
    assert "wash-and-wax" not in {d["due"] for d in due(fold(BIKE, world.log), "2026-05-20T12:00:00.000Z", own)}


def test_a_worn_chain_is_told_in_kilometres_to_go_and_when() -> None:
    world = World()
    world.write("a", "part-fit", {"part": "c", "slot": "chain", "name": "chain", "markings": {"chain_limit": 0.5}})
    for value in (0.0, 0.15, 0.3, 0.45):
        world.write("a", "measure", {"what": "chain_elongation", "value": value, "unit": "%", "part": "c"})
        world.write("a", "ride", {"km": 600})
        world.clock += 10 * 3600
    state = fold(BIKE, world.log)
    state["first_at"], state["last_at"] = "2026-05-01T00:00:00.000Z", "2026-05-25T00:00:00.000Z"  # 100 km a day
    found = {d["due"]: d for d in due(state, "2026-05-26T12:00:00.000Z")}["wear-chain_elongation"]
    # 0.15 % in 600 km: 0.5 % at 2000 km; the bike has 2400 on it.
    assert (found["left"], found["unit"], found["on"]) == (pytest.approx(-400), "km", "2026-05-26")


def test_across_the_bikes_what_stops_a_ride_comes_first() -> None:
    fallen, tyre = World(), tyred()
    fallen.write("a", "describe", {"name": "Wren"})
    fallen.write("a", "ride", {"km": 38, "fall": True})
    tyre.write("a", "describe", {"name": "Slate"})
    tyre.write("a", "service", {"job": "sealant"})
    rows = due_across([fold(BIKE, tyre.log), fold(BIKE, fallen.log)], "2026-08-20T12:00:00.000Z")
    assert (rows[0]["bike"], rows[0]["level"]) == ("Wren", "stop")
    levels = [("stop", "care", "fine", "coming").index(r["level"]) for r in rows]
    assert levels == sorted(levels)
