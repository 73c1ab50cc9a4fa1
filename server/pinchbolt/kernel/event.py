"""The state of an event: its start list."""

from .order import in_order
from .plain import is_mapping, mapping
from .registers import Registers

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

    def take(self, item: "Item") -> None:
        body = mapping(item["body"])
        kind = item["kind"]
        if kind == "describe":
            for field in DESCRIBED:
                if field in body:
                    self.registers.put("describe." + field, item, body[field], {})
        elif kind == "start":
            told = {k: body.get(k) for k in ("bike", "rider", "name")}
            self.registers.put("plate." + str(body["plate"]), item, told, {})
        elif kind == "withdraw":
            self.registers.put("plate." + str(body["plate"]), item, None, {"reason": body.get("reason")})
        elif kind == "decide":
            self.registers.decide(str(body["question"]), item, body["chosen"])

    def freeze(self) -> "Body":
        return {"registers": self.registers.freeze()}

    def thaw(self, frozen: "Body") -> None:
        self.registers = Registers(frozen["registers"])

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
                starters.append(plate)
            else:
                withdrawn.append(plate)
        starters = in_order([_by_number(s) for s in starters], starters)
        return {
            "described": described,
            "starters": starters,
            "withdrawn": withdrawn,
            "questions": self.registers.questions(),
        }


def _by_number(plate: "Body") -> "tuple[int, str]":
    text = str(plate["plate"])
    return (int(text), "") if text.isdigit() and len(text) < 10 else (1000000000, text)
