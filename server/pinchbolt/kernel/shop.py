"""The state of the workshop itself: the checks, intervals, interface kinds, build plan and torque tools it has set."""

from .plain import mapping, objects
from .registers import Registers

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]
    Body = dict[str, Any]


class Shop:
    """Takes the workshop's entries in order of stamp."""

    def __init__(self) -> None:
        self.registers = Registers()

    def take(self, item: "Item") -> None:
        body = mapping(item["body"])
        if item["kind"] == "check-define":
            # A version is written once; two that claim the same version without knowledge of each other are a question.
            self.registers.put("check." + str(body["check"]) + "." + str(body["version"]), item, body, {})
        elif item["kind"] == "interval":
            self.registers.put("interval." + str(body["due"]), item, body, {})
        elif item["kind"] == "interface-define":
            self.registers.put("interface." + str(body["kind"]), item, body, {})
        elif item["kind"] == "plan-define":
            self.registers.put("plan", item, objects(body["steps"]), {})
        elif item["kind"] == "tool-define":
            self.registers.put("tool." + str(body["tool"]), item, body, {})
        elif item["kind"] == "decide":
            self.registers.decide(str(body["question"]), item, body["chosen"])

    def freeze(self) -> "Body":
        return {"registers": self.registers.freeze()}

    def thaw(self, frozen: "Body") -> None:
        self.registers = Registers(frozen["registers"])

    def state(self) -> dict[str, object]:
        plan = self.registers.get("plan")
        return {
            "checks": self.registers.values("check."),
            "intervals": self.registers.values("interval."),
            "interfaces": self.registers.values("interface."),
            "plan": plan["value"] if plan is not None else [],
            # One that was put out of use stays on the record, for what was tightened with it.
            "tools": [t for t in self.registers.values("tool.") if t.get("retired") is not True],
            "questions": self.registers.questions(),
        }
