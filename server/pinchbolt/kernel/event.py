"""The state of an event: its start list, and the checks of plates whose bike was not known when they were looked at.

A check of a bike on record belongs to the bike. A check of a plate nobody can match yet is written about the event and names
the plate, so that two checkers without a signal need not invent a bike each; who starts under the plate shows it.
"""

from .order import in_order
from .plain import is_mapping, mapping, objects
from .registers import Registers
from .verdicts import FIT, verdict

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]
    Body = dict[str, Any]

DESCRIBED = ("name", "date", "distance", "place")


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
            plate = str(body["plate"])
            told = {k: body.get(k) for k in ("bike", "rider", "name")}
            self.registers.put("plate." + plate, item, told, {})
            was = body.get("was")
            if was is not None:
                self._handed(plate, item, str(was))
        elif kind == "withdraw":
            self._handed(str(body["plate"]), item, None)
            self.registers.put("plate." + str(body["plate"]), item, None, {"reason": body.get("reason")})
        elif kind == "decide":
            self.registers.decide(str(body["question"]), item, body["chosen"])
        elif kind == "check" and body.get("plate") is not None:
            self._check(item, body)

    def _handed(self, plate: str, item: "Item", was: "str | None") -> None:
        held = self.holders.setdefault(plate, [])
        if not held or was is None or held[-1]["was"] != was:
            held.append({"since": _place(item), "was": was})

    def _check(self, item: "Item", body: "Body") -> None:
        found = verdict(body)
        if item.get("refused") is True and found["verdict"] == FIT:
            return
        told: "Body" = {k: body.get(k) for k in ("plate", "check", "version", "title", "started_at", "finished_at")}
        told["entry"], told["at"], told["by"] = item["id"], item["noted_at"], item["by"]
        told["verdict"], told["reasons"], told["scope"] = found["verdict"], found["reasons"], found["scope"]
        told["device"], told["seq"], told["seen"], told["place"] = item["device"], item["seq"], item["seen"], _place(item)
        self.checks.append(told)

    def checks_of(self, plate: str) -> "list[Body]":
        """The checks of whoever has this plate now, through the plates they had before, oldest first."""
        found: "list[Body]" = []
        before = "~"  # sorts after every place
        passed: "list[str]" = []
        name: "str | None" = plate
        while name is not None and name + " " + before not in passed:
            passed.append(name + " " + before)
            since, was = "", None
            for held in self.holders.get(name, []):
                if held["since"] < before:
                    since, was = held["since"], held["was"]
            found = [c for c in self.checks if c["plate"] == name and since < c["place"] < before] + found
            name, before = was, since
        return found

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
            head = self.registers.get(key)
            if head is None:
                continue
            plate: "Body" = {"plate": key[len("plate.") :], "entry": head["entry"], "at": head["at"], "by": head["by"]}
            if is_mapping(head["value"]):
                plate.update(mapping(head["value"]))
                plate["checks"] = self.checks_of(str(plate["plate"]))
                starters.append(plate)
            else:
                plate["reason"] = mapping(head["told"]).get("reason")
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


def _place(item: "Item") -> str:
    """Where an entry stands in the order of the fold."""
    return str(item["stamp"]) + str(item["id"])


def _by_number(plate: "Body") -> "tuple[int, str]":
    text = str(plate["plate"])
    # Not `isdigit`: to one engine "7²" is digits, and to the other not.
    number = 0 < len(text) < 10 and all([c in "0123456789" for c in text])
    return (int(text), "") if number else (1000000000, text)
