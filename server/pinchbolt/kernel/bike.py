"""The state of one bike: what it is, how it is set, what was measured, tightened, cut, checked and found."""

from .joints import JOINT_ITEM
from .order import in_order, place_of
from .plain import mapping, objects
from .quantities import finite
from .registers import Registers, has_seen
from .standing import counting, standing
from .torques import renewed
from .verdicts import PASS, mark_of, verdict

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    Item = dict[str, Any]
    Body = dict[str, Any]

# How much of a value's past the state carries; the whole past is in the log.
MOST_HISTORY = 24

# Everything a fold carries from one entry to the next, beside the registers.
FROZEN = (
    "parts",
    "removed",
    "history",
    "adjustments",
    "baselines",
    "cuts",
    "checks",
    "counted",
    "faults",
    "closed",
    "services",
    "photos",
    "falls",
    "changes",
    "snoozes",
    "ideas",
    "climate",
    "km",
    "hours",
    "rides",
)

DESCRIBED = ("name", "use", "rider", "weight_goal", "scale_step", "needed_slots", "note")


class Bike:
    """Takes a bike's entries in order of stamp. `state()` is plain data, ready for JSON."""

    def __init__(self) -> None:
        self.registers = Registers()
        self.parts: "dict[str, Body]" = {}
        self.removed: "list[Body]" = []
        self.history: "dict[str, list[Body]]" = {}
        self.adjustments: "dict[str, list[Body]]" = {}
        self.baselines: "list[Body]" = []
        self.cuts: "list[Body]" = []
        self.checks: "list[Body]" = []
        # Those of them that no later check took the place of.
        self.counted: "list[Body]" = []
        self.faults: "dict[str, Body]" = {}
        self.closed: "list[Body]" = []
        self.services: "list[Body]" = []
        self.photos: "list[Body]" = []
        self.falls: "list[Body]" = []
        self.changes: "list[Body]" = []
        self.snoozes: "list[Body]" = []
        self.ideas: "list[Body]" = []
        self.climate: "str | None" = None
        self.km = 0.0
        self.hours = 0.0
        self.rides = 0
        self._kinds: "dict[str, Callable[[Item, Body], None]]" = {
            "describe": self._describe,
            "part-fit": self._part_fit,
            "part-remove": self._part_remove,
            "weigh": self._weigh,
            "measure": self._measure,
            "cut": self._cut,
            "torque": self._torque,
            "adjust": self._adjust,
            "baseline": self._baseline,
            "check": self._check,
            "fault": self._fault,
            "fault-close": self._fault_close,
            "ride": self._ride,
            "service": self._service,
            "photo": self._photo,
            "decide": self._decide,
            "snooze": self._snooze,
            "interval": self._interval,
            "swap-idea": self._swap_idea,
            "calculate": self._calculate,
        }

    def take(self, item: "Item") -> None:
        """Apply one entry. A kind unknown to this version changes nothing."""
        apply = self._kinds.get(str(item["kind"]))
        if apply is not None:
            apply(item, mapping(item["body"]))

    def freeze(self) -> "Body":
        """All that the fold so far has come to, as plain data."""
        frozen: "Body" = {name: getattr(self, name) for name in FROZEN}
        frozen["registers"] = self.registers.freeze()
        return frozen

    def thaw(self, frozen: "Body") -> None:
        """Go on from what another bike's `freeze` gave."""
        for name in FROZEN:
            setattr(self, name, frozen[name])
        self.registers = Registers(frozen["registers"])

    def _told(self, item: "Item", body: "Body") -> "Body":
        """The entry's own words with who, when and where they stand; the km is what the bike had run by then."""
        told = dict(body)
        told["entry"], told["at"], told["by"], told["km"] = item["id"], item["noted_at"], item["by"], self.km
        return told

    def _changed(self, item: "Item", what: str, about: object) -> None:
        # The last time a thing was changed is enough, and keeps a season of adjusting short: of those its writer knew.
        self.changes = [c for c in self.changes if c["kind"] != what or c["about"] != about or not has_seen(item, c)]
        change: "Body" = {"kind": what, "about": about, "at": item["noted_at"], "entry": item["id"]}
        change["device"], change["seq"] = item["device"], item["seq"]
        self.changes.append(change)

    def _describe(self, item: "Item", body: "Body") -> None:
        for field in DESCRIBED:
            if field in body:
                self.registers.put("describe." + field, item, body[field], {})

    def _part_fit(self, item: "Item", body: "Body") -> None:
        part = self._told(item, body)
        before = self.parts.get(str(body["part"]))
        # Told anew, or moved to another place of the same bike: it has run here all along.
        part["fitted_km"] = self.km if before is None else before["fitted_km"]
        part["fitted_hours"] = self.hours if before is None else before["fitted_hours"]
        # Of another place, its joints are to be made anew.
        moved = before is None or before.get("slot") != part.get("slot")
        part["fitted_place"] = place_of(item) if before is None or moved else before["fitted_place"]
        self.parts[str(body["part"])] = part
        self._changed(item, "part-fit", body.get("slot"))

    def _part_remove(self, item: "Item", body: "Body") -> None:
        part = self.parts.pop(str(body["part"]), None)
        if part is None:
            return
        part["removed_at"], part["removed_by"], part["reason"] = item["noted_at"], item["by"], body.get("reason")
        part["ran_km"] = self.km - (finite(part.get("fitted_km")) or 0.0)
        part["ran_hours"] = self.hours - (finite(part.get("fitted_hours")) or 0.0)
        self.removed.append(part)
        self._changed(item, "part-remove", part.get("slot"))

    def _weigh(self, item: "Item", body: "Body") -> None:
        self.registers.put(
            "weighed." + str(body.get("part") or "bike"), item, body["mass"], {"scale_step": body.get("scale_step")}
        )

    def _measure(self, item: "Item", body: "Body") -> None:
        what = str(body["what"])
        told = {k: body.get(k) for k in ("unit", "plus_minus", "part", "method")}
        self.registers.put("measure." + what, item, body["value"], told)
        _remember(self.history.setdefault(what, []), self._told(item, body))

    def _cut(self, item: "Item", body: "Body") -> None:
        self.cuts.append(self._told(item, body))
        self._changed(item, "cut", body.get("what"))

    def _torque(self, item: "Item", body: "Body") -> None:
        key = "joint." + str(body["joint"])
        before = self.registers.get(key)
        joint = self._told(item, body)
        joint["place"], joint["falls_known"] = place_of(item), self._falls_known(item)
        joint["again"] = before is not None and self._is_re_torque(str(body["joint"]), mapping(before["told"]))
        self.registers.put(key, item, body["applied"], joint)

    def _is_re_torque(self, joint: str, before: "Body") -> bool:
        """Touched again after it had been ridden on; but not when a part of it is another than was tightened before."""
        return not renewed(joint, before, list(self.parts.values())) and (finite(before.get("km")) or 0.0) < self.km

    def _falls_known(self, item: "Item") -> "list[str]":
        """The falls that whoever wrote this could know of: of no other does a check or a re-torque say anything."""
        return [str(f["entry"]) for f in self.falls if has_seen(item, f)]

    def _adjust(self, item: "Item", body: "Body") -> None:
        setting = str(body["setting"])
        told = {k: body.get(k) for k in ("unit", "from", "reason", "felt")}
        self.registers.put("setting." + setting, item, body["to"], told)
        _remember(self.adjustments.setdefault(setting, []), self._told(item, body))
        self._changed(item, "adjust", setting)

    def _baseline(self, item: "Item", body: "Body") -> None:
        frozen: "Body" = {}
        for key in self.registers.keys("setting."):
            head = self.registers.get(key)
            if head is not None:
                frozen[key[len("setting.") :]] = head["value"]
        self.baselines.append(
            {"name": body["name"], "entry": item["id"], "at": item["noted_at"], "by": item["by"], "settings": frozen}
        )

    def _check(self, item: "Item", body: "Body") -> None:
        check = self._told(item, body)
        found = verdict(body)
        check["verdict"], check["reasons"] = found["verdict"], found["reasons"]
        check["scope"] = found["scope"]
        # Enough to tell whether its checker knew of another check.
        check["device"], check["seq"], check["seen"] = item["device"], item["seq"], item["seen"]
        check["place"], check["falls_known"] = place_of(item), self._falls_known(item)
        # What was answered stays in the log; the state keeps what it came to.
        answers = objects(check.pop("answers", None))
        check["answered"] = len(answers)
        check["joints"] = [str(a["item"])[len(JOINT_ITEM) :] for a in answers if _at_its_figure(a)]
        self.checks.append(check)
        if item.get("refused") is True:
            # One that the server would not take (a fall is cleared by no checker) only adds what it found: it gives no
            # standing, clears nothing and takes no other's place.
            check["scope"], check["falls_known"], check["joints"] = "part", [], []
            self.counted = self.counted + [check]
            return
        self.counted = counting(self.counted, check)
        if check["scope"] == "whole":
            # Of what its checker could not know was changed, it says nothing.
            self.changes = [c for c in self.changes if not has_seen(item, c)]

    def _fault(self, item: "Item", body: "Body") -> None:
        self.faults[str(item["id"])] = self._told(item, body)

    def _fault_close(self, item: "Item", body: "Body") -> None:
        fault = self.faults.pop(str(body["fault"]), None)
        if fault is None:
            return
        fault["done"], fault["closed_at"], fault["closed_by"] = body["done"], item["noted_at"], item["by"]
        self.closed.append(fault)

    def _ride(self, item: "Item", body: "Body") -> None:
        self.km += finite(body.get("km")) or 0.0
        self.hours += finite(body.get("hours")) or 0.0
        self.rides += 1
        if body.get("fall") is True:
            self.falls.append(
                {"entry": item["id"], "at": item["noted_at"], "by": item["by"], "device": item["device"], "seq": item["seq"]}
            )

    def _service(self, item: "Item", body: "Body") -> None:
        service = self._told(item, body)
        service["hours_then"] = self.hours
        service["place"], service["falls_known"] = place_of(item), self._falls_known(item)
        self.services.append(service)

    def _photo(self, item: "Item", body: "Body") -> None:
        self.photos.append(self._told(item, body))

    def _snooze(self, item: "Item", body: "Body") -> None:
        self.snoozes.append(self._told(item, body))

    def _swap_idea(self, item: "Item", body: "Body") -> None:
        self.ideas.append(self._told(item, body))

    def _calculate(self, item: "Item", body: "Body") -> None:
        # Where the bike lives says when its sealant is due; other calculations are read from the log.
        if body.get("calculation") == "sealant":
            said = mapping(body.get("inputs")).get("climate")
            self.climate = said if isinstance(said, str) else None

    def _interval(self, item: "Item", body: "Body") -> None:
        self.registers.put("interval." + str(body["due"]), item, body, {})

    def _decide(self, item: "Item", body: "Body") -> None:
        self.registers.decide(str(body["question"]), item, body["chosen"])

    def state(self) -> "dict[str, Any]":
        """Everything the screens show of a bike."""
        described: "Body" = {}
        for field in DESCRIBED:
            head = self.registers.get("describe." + field)
            described[field] = head["value"] if head is not None else None
        questions, joints = self.registers.questions(), self._joints()
        faults = list(self.faults.values())
        faults = in_order([(f["level"] != "stop", str(f["at"]), str(f["entry"])) for f in faults], faults)
        return {
            "described": described,
            "parts": self._parts(),
            "removed": self.removed,
            "measures": self._shown("measure.", self.history),
            "settings": self._settings(),
            "moved": self._moved(),
            "baselines": self.baselines,
            "joints": joints,
            "weighed": self._shown("weighed.", {}),
            "cuts": self.cuts,
            "checks": list(reversed(self.checks)),
            "changes": self.changes,
            "faults": faults,
            "closed": self.closed,
            "questions": questions,
            "km": self.km,
            "hours": self.hours,
            "rides": self.rides,
            "falls": self.falls,
            "services": self.services,
            "photos": self.photos,
            "snoozes": self.snoozes,
            "ideas": self.ideas,
            "climate": self.climate,
            "intervals": self.registers.values("interval."),
            "standing": standing(self.counted, self.checks, faults, self.falls, self.changes, joints),
        }

    def _parts(self) -> "list[Body]":
        """The parts on the bike by slot and name, each with what the scale said last and the km it has run here."""
        parts: "list[Body]" = []
        for id in self.parts:
            part = dict(self.parts[id])
            head = self.registers.get("weighed." + id)
            part["weighed"] = head["value"] if head is not None else None
            part["ran_km"] = self.km - (finite(part.get("fitted_km")) or 0.0)
            part["ran_hours"] = self.hours - (finite(part.get("fitted_hours")) or 0.0)
            parts.append(part)
        return in_order([(str(p.get("slot")), str(p.get("name")), str(p["part"])) for p in parts], parts)

    def _shown(self, prefix: str, history: "dict[str, list[Body]]") -> "dict[str, Body]":
        """The registers under `prefix` by their bare names: the value that shows, who and when, and what came before."""
        shown: "dict[str, Body]" = {}
        for key in self.registers.keys(prefix):
            head = self.registers.get(key)
            if head is None:
                continue
            name = key[len(prefix) :]
            one: "Body" = {"value": head["value"], "entry": head["entry"], "at": head["at"], "by": head["by"]}
            one.update(mapping(head["told"]))
            if name in history:
                one["history"] = history[name]
            shown[name] = one
        return shown

    def _settings(self) -> "dict[str, Body]":
        settings = self._shown("setting.", self.adjustments)
        frozen = mapping(self.baselines[-1]["settings"]) if self.baselines else {}
        for name in settings:
            settings[name]["baseline"] = frozen.get(name)
        return settings

    def _joints(self) -> "dict[str, Body]":
        joints: "dict[str, Body]" = {}
        for key in self.registers.keys("joint."):
            head = self.registers.get(key)
            if head is not None:
                joints[key[len("joint.") :]] = mapping(head["told"])
        return joints

    def _moved(self) -> "list[Body]":
        """What stands otherwise than in the last baseline. A setting first made after it is told with `from` None."""
        if not self.baselines:
            return []
        frozen = mapping(self.baselines[-1]["settings"])
        moved: "list[Body]" = []
        for key in self.registers.keys("setting."):
            head = self.registers.get(key)
            if head is None:
                continue
            name = key[len("setting.") :]
            before, now = finite(frozen.get(name)), finite(head["value"])
            if now is None or before == now:
                continue
            unit = mapping(head["told"]).get("unit")
            by = now - before if before is not None else None
            moved.append({"setting": name, "from": before, "to": now, "by": by, "unit": unit, "at": head["at"]})
        return moved


def _at_its_figure(answer: "Body") -> bool:
    return str(answer.get("item")).startswith(JOINT_ITEM) and mark_of(answer) == PASS


def _remember(history: "list[Body]", told: "Body") -> None:
    """Keeps the first of a value's past, which wear is measured from, and the latest."""
    history.append(told)
    if len(history) > MOST_HISTORY:
        del history[1]
