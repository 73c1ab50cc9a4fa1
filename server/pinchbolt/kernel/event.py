"""The state of an event: its start list, and the checks of plates whose bike was not known when they were looked at.

A check of a bike on record belongs to the bike. A check of a plate nobody can match yet is written about the event and names
the plate, so that two checkers without a signal need not invent a bike each; who starts under the plate shows it.
"""

from .order import in_order, place_of
from .plain import is_mapping, mapping, objects
from .registers import Registers, has_seen
from .verdicts import FIT, verdict

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]
    Body = dict[str, Any]

DESCRIBED = ("name", "date", "distance", "place")

WHO = "who"
WHICH_BIKE = "which-bike"
STARTS = "starts"


class Event:
    """Takes an event's entries in order of stamp."""

    def __init__(self) -> None:
        self.registers = Registers()
        # By plate, when it came to a new holder, with the plate that one had before: a check belongs to who had the plate then.
        self.holders: "dict[str, list[Body]]" = {}
        self.checks: "list[Body]" = []

    def take(self, item: "Item") -> None:
        body = mapping(item["body"])
        kind = item["kind"]
        if kind == "describe":
            for field in DESCRIBED:
                if field in body:
                    self.registers.put("describe." + field, item, body[field], {})
        elif kind == "start":
            self._start(item, body)
        elif kind == "withdraw":
            self._withdraw(item, body)
        elif kind == "decide":
            self.registers.decide(str(body["question"]), item, body["chosen"])
        elif kind == "check" and body.get("plate") is not None:
            self._check(item, body)

    def _start(self, item: "Item", body: "Body") -> None:
        plate = str(body["plate"])
        who = {k: body.get(k) for k in ("bike", "rider", "name")}
        was = body.get("was")
        holding = self._kept(plate, item, who) if was is None else self._moved(plate, item, str(was), who)
        self.registers.put("plate." + plate, item, who, {"holding": holding, "place": place_of(item)})

    def _withdraw(self, item: "Item", body: "Body") -> None:
        plate = str(body["plate"])
        told: "Body" = {"reason": body.get("reason")}
        for head in self.registers.heads("plate." + plate):
            before = mapping(head["told"])
            if not has_seen(item, head):
                continue
            # Kept for who starts after all: their checks come back with them.
            listed = is_mapping(head["value"])
            told["who"] = head["value"] if listed else before.get("who")
            told["who_holding"] = before.get("holding" if listed else "who_holding")
        # Moved, not gone: the start under the other plate was written just before.
        for other in self.holders:
            last = self.holders[other][-1]
            if last["was"] == plate and last.get("was_holding") == told.get("who_holding"):
                told["now"] = other
        told["holding"] = self._holds(plate, item, None, None)
        self.registers.put("plate." + plate, item, None, told)

    def _kept(self, plate: str, item: "Item", who: "Body") -> "str | None":
        """Which holding goes on when a start says of no plate before: the same starter's, as far as the writer could know."""
        heads = self.registers.heads("plate." + plate)
        seen = [h for h in heads if has_seen(item, h)]
        for head in heads:
            told = mapping(head["told"])
            if head["value"] == who or _same(head["value"], who):
                return told.get("holding")
            if head in seen and (told.get("who") == who or _same(told.get("who"), who)):
                return told.get("who_holding")
        if seen:
            return mapping(seen[-1]["told"]).get("holding")
        if not heads:
            return ""
        # Two who did not know of each other: from here on each has checks of their own.
        held = self.holders.setdefault(plate, [])
        since = held[-1]["since"] if held else ""
        mine: "Body" = {"entry": item["id"], "device": item["device"], "seq": item["seq"], "told": {"place": place_of(item)}}
        for head in heads + [mine]:
            told = mapping(head["told"])
            if not told.get("holding"):
                told["holding"] = head["entry"]
                own: "Body" = {name: head[name] for name in ("entry", "device", "seq")}
                own["since"], own["was"], own["place"] = since, None, told.get("place", "")
                held.append(own)
        return item["id"]

    def _moved(self, plate: str, item: "Item", was: str, who: "Body") -> "str | None":
        """The holding of somebody who comes from another plate. One of several there goes from it, and the others keep it."""
        before = self.registers.heads("plate." + was)
        mine = [h for h in before if h["value"] == who and has_seen(item, h)]
        if len(before) > len(mine):
            for head in mine:
                before.remove(head)
        held = self.holders.setdefault(plate, [])
        if held and held[-1]["was"] == was:
            return held[-1].get("entry")
        return self._holds(plate, item, was, mapping(mine[-1]["told"]).get("holding") if mine else None)

    def _holds(self, plate: str, item: "Item", was: "str | None", was_holding: "str | None") -> str:
        holding: "Body" = {"since": place_of(item), "was": was, "was_holding": was_holding, "gone": item["kind"] == "withdraw"}
        holding["entry"], holding["place"] = item["id"], place_of(item)
        holding["device"], holding["seq"] = item["device"], item["seq"]
        self.holders.setdefault(plate, []).append(holding)
        return item["id"]

    def _check(self, item: "Item", body: "Body") -> None:
        found = verdict(body)
        if item.get("refused") is True and found["verdict"] == FIT:
            return
        told: "Body" = {k: body.get(k) for k in ("plate", "check", "version", "title", "started_at", "finished_at")}
        told["entry"], told["at"], told["by"] = item["id"], item["noted_at"], item["by"]
        told["verdict"], told["reasons"], told["scope"] = found["verdict"], found["reasons"], found["scope"]
        told["device"], told["seq"], told["seen"], told["place"] = item["device"], item["seq"], item["seen"], place_of(item)
        # Whoever looked at a plate knew nothing of the bike's falls.
        told["falls_known"] = []
        self.checks.append(told)

    def checks_of(self, plate: str, holding: "str | None" = None) -> "list[Body]":
        """The checks of whoever has this plate (by that holding, else now), with the plates they had before, oldest first."""
        found: "list[Body]" = []
        before = "~"  # sorts after every place
        passed: "list[str]" = []
        name: "str | None" = plate
        while name is not None and name + " " + before not in passed:
            passed.append(name + " " + before)
            held = self._holding(name, before, holding)
            since = held.get("since", "")
            of_name = [c for c in self.checks if c["plate"] == name and since < c["place"] < before]
            found = [c for c in of_name if not self._of_another(c, name, held)] + found
            name, before, holding = held.get("was"), since, held.get("was_holding")
        return found

    def _holding(self, plate: str, before: str, entry: "str | None") -> "Body":
        """That holding of a plate, else the latest; none is from the beginning, as `""` is."""
        last: "Body" = {}
        for held in self.holders.get(plate, []):
            if entry is not None and held.get("entry") == entry:
                return held
            if held["since"] < before:
                last = held
        return {} if entry == "" else last

    def _of_another(self, check: "Body", plate: str, held: "Body") -> bool:
        """Whether the checker knew of others under this plate and not of this one."""
        if "place" not in held or _knew(check, held):
            return False
        others = [h for h in self.holders.get(plate, []) if h is not held and "place" in h and not h.get("gone")]
        return any([_knew(check, h) for h in others])

    def freeze(self) -> "Body":
        return {"registers": self.registers.freeze(), "holders": self.holders, "checks": self.checks}

    def thaw(self, frozen: "Body") -> None:
        self.registers = Registers(frozen["registers"])
        self.holders, self.checks = mapping(frozen.get("holders")), objects(frozen.get("checks"))

    def state(self) -> "dict[str, Any]":
        described: "Body" = {}
        for field in DESCRIBED:
            head = self.registers.get("describe." + field)
            described[field] = head["value"] if head is not None else None
        starters: "list[Body]" = []
        withdrawn: "list[Body]" = []
        for key in self.registers.keys("plate."):
            heads = self.registers.heads(key)
            listed = _listed(heads)
            for head in listed:
                plate = _of_head(key, head)
                plate.update(mapping(head["value"]))
                plate["checks"] = self.checks_of(str(plate["plate"]), mapping(head["told"]).get("holding"))
                plate["question"] = _question(listed, heads)
                starters.append(plate)
            if heads and not listed:
                plate, told = _of_head(key, heads[-1]), mapping(heads[-1]["told"])
                plate.update(mapping(told.get("who")))
                plate["reason"], plate["now"] = told.get("reason"), told.get("now")
                withdrawn.append(plate)
        starters = in_order([_by_number(s) for s in starters], starters)
        return {
            "described": described,
            "starters": starters,
            "withdrawn": withdrawn,
            "unlisted": self._unlisted(starters),
            "questions": self.registers.questions(),
        }

    def _unlisted(self, starters: "list[Body]") -> "list[Body]":
        """Plates that were checked and nobody starts under: to be matched."""
        shown: "list[object]" = []
        for starter in starters:
            shown += [c["entry"] for c in objects(starter["checks"])]
        by_plate: "dict[str, list[Body]]" = {}
        for check in self.checks:
            if check["entry"] not in shown:
                by_plate.setdefault(str(check["plate"]), []).append(check)
        rows: "list[Body]" = []
        for plate in sorted(by_plate):
            rows.append({"plate": plate, "bike": None, "rider": None, "name": None, "checks": by_plate[plate]})
        return in_order([_by_number(r) for r in rows], rows)


def _listed(heads: "list[Body]") -> "list[Body]":
    """Everybody a plate was given to by somebody who did not know of the others; who was told twice alike is there once."""
    listed: "list[Body]" = []
    for head in heads:
        if is_mapping(head["value"]):
            listed = [h for h in listed if h["value"] != head["value"]] + [head]
    return listed


def _question(listed: "list[Body]", heads: "list[Body]") -> "str | None":
    """What is not agreed of a plate: who has it, of which bike (one starter told twice), or whether it starts."""
    first = mapping(listed[0]["value"])
    for head in listed[1:]:
        if not _same(head["value"], first):
            return WHO
    if len(listed) > 1:
        return WHICH_BIKE
    return STARTS if any([not is_mapping(h["value"]) for h in heads]) else None


def _same(one: object, other: "Body") -> bool:
    """Whether it is the same starter, with whichever bike; of two nobody named nobody knows."""
    told = mapping(one)
    if told.get("name") is None and told.get("rider") is None:
        return False
    return told.get("name") == other.get("name") and told.get("rider") == other.get("rider")


def _knew(check: "Body", held: "Body") -> bool:
    return held["place"] < check["place"] and has_seen(check, held)


def _of_head(key: str, head: "Body") -> "Body":
    return {"plate": key[len("plate.") :], "entry": head["entry"], "at": head["at"], "by": head["by"]}


def _by_number(plate: "Body") -> "tuple[int, str]":
    text = str(plate["plate"])
    # Not `isdigit`: to one engine "7²" is digits, and to the other not.
    number = 0 < len(text) < 10 and all([c in "0123456789" for c in text])
    return (int(text), "") if number else (1000000000, text)
