"""What the phone keeps of a fold comes to the same as folding everything, whatever arrives and when."""

import json
import random
from typing import Any

from playwright.sync_api import Browser

from pinchbolt.kernel.record import fold
from tests.web.phone import Phone, comes_to, phone, tell
from tests.web.workshop import ServedWorkshop

BIKE = "bike/0198f2d8-0000-7000-8000-00000000b1ce"
KINDS: list[tuple[str, dict[str, Any]]] = [
    ("adjust", {"setting": "saddle_height", "to": 710, "unit": "mm"}),
    ("ride", {"km": 42, "hours": 2}),
    ("measure", {"what": "chain_elongation", "value": 0.2, "unit": "%"}),
    ("note", {"text": "Dry, dusty, all quiet."}),
    ("baseline", {"name": "before the race"}),
    ("fault", {"what": "a loose spoke", "level": "care"}),
]


def written(count: int, seed: int) -> list[dict[str, Any]]:
    dice = random.Random(seed)
    drafts: list[dict[str, Any]] = []
    for _ in range(count):
        kind, body = dice.choice(KINDS)
        if kind == "adjust":
            body = dict(body, to=dice.randint(700, 720))
        drafts.append({"subject": BIKE, "kind": kind, "body": body})
    return drafts


def opened(phone: Phone) -> dict[str, Any]:
    return phone.do("folding.openBike", BIKE)["state"]


def everything(phone: Phone) -> dict[str, Any]:
    """A full fold of the phone's entries, by CPython."""
    kept = phone.do("record.entries", BIKE)
    return json.loads(json.dumps(fold(BIKE, [{"seq": k["seq"], "entry": json.loads(k["text"])} for k in kept])))


SNAPSHOT = f"door.database().then((db) => db.get('folds', '{BIKE}')).then((f) => !!f && f.snapshot !== '')"


def has_snapshot(phone: Phone) -> bool:
    return tell(phone.page, SNAPSHOT)


def wait_for_snapshot(phone: Phone) -> None:
    """It is made after the bike is shown."""
    comes_to(phone.page, SNAPSHOT, True)


def forget_what_is_in_memory(phone: Phone) -> None:
    phone.open()


def test_opening_from_a_snapshot_is_the_same_as_folding_everything(mine: Phone) -> None:
    mine.do("record.write", written(200, 1))
    mine.sync()
    assert opened(mine) == everything(mine)
    wait_for_snapshot(mine)
    for turn in range(4):
        # What is written here sorts after everything, and the snapshot stays and serves.
        mine.do("record.write", written(3, 10 + turn))
        if turn % 2:
            mine.sync()
        forget_what_is_in_memory(mine)
        assert has_snapshot(mine)
        assert opened(mine) == everything(mine)


def test_the_state_itself_is_kept_until_an_entry_comes(mine: Phone) -> None:
    mine.do("record.write", written(5, 2))
    mine.sync()
    opened(mine)
    forget_what_is_in_memory(mine)
    # Opened again, the kernel's engine is not even asked for: its worker would be the page's first.
    opened(mine)
    assert mine.value("kernel.ready") is False
    mine.do("record.write", written(1, 3))
    assert opened(mine) == everything(mine)


def test_a_void_and_a_late_arrival_take_the_snapshot_away(browser: Browser, mine: Phone, workshop: ServedWorkshop) -> None:
    with phone(browser, workshop.url) as other:
        other.pair(workshop.code_for("Late", "mechanic"))
        other.sync()
        other.page.context.set_offline(True)
        other.do("record.write", {"subject": BIKE, "kind": "adjust", "body": {"setting": "bar_height", "to": 5, "unit": "mm"}})
        mine.do("record.write", written(150, 4))
        mine.sync()
        opened(mine)
        wait_for_snapshot(mine)
        # Written first, arriving last: it sorts before the snapshot's end.
        other.page.context.set_offline(False)
        other.sync()
    mine.sync()
    assert not has_snapshot(mine)
    state = opened(mine)
    assert state == everything(mine)
    assert state["settings"]["bar_height"]["value"] == 5
    wait_for_snapshot(mine)
    ride = next(e for e in map(lambda k: json.loads(k["text"]), mine.do("record.entries", BIKE)) if e["kind"] == "ride")
    mine.do("record.write", {"subject": BIKE, "kind": "void", "body": {"entry": ride["id"], "reason": "another bike"}})
    assert not has_snapshot(mine)
    state = opened(mine)
    assert state == everything(mine)
    assert state["voided"] == [ride["id"]]


def alter(phone: Phone, change: str) -> None:
    """Change what is kept of the fold, as an older or broken program might have left it."""
    get = f"const f = await db.get('folds', '{BIKE}');"
    tell(phone.page, f"door.database().then(async (db) => {{ {get} await db.put('folds', {{...f, {change}}}); }})")
    forget_what_is_in_memory(phone)


def test_a_snapshot_that_does_not_count_right_or_is_another_kernels_does_not_serve(mine: Phone) -> None:
    mine.do("record.write", written(130, 5))
    mine.sync()
    opened(mine)
    wait_for_snapshot(mine)
    alter(mine, "rows: f.rows - 1, state: null")
    assert opened(mine) == everything(mine)
    alter(mine, "by: 'another kernel', state: {opened: {}}")
    assert opened(mine) == everything(mine)


def test_the_list_holds_its_lines_and_folds_what_changed_only(mine: Phone) -> None:
    mine.do("record.write", written(4, 6))
    listed = mine.do("folding.listBikes")
    assert [one["line"] for one in listed["bikes"]] == [None]
    line = mine.do("folding.lineOf", BIKE, listed["made"])
    listed = mine.do("folding.listBikes")
    assert listed["bikes"][0]["line"] == line
    assert line["summary"]["km"] == everything(mine)["km"]
    mine.do("record.write", written(1, 7))
    assert mine.do("folding.listBikes")["bikes"][0]["line"] is None, "how it stood before is not shown as how it stands"
