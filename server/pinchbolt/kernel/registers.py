"""Values that entries set, and what happens when two people set one without having seen each other.

A register is one settable thing of a subject (a name, the saddle's height). It holds its *heads*: the latest settings that no
later one has seen. One head is the ordinary case; several are concurrent, the one with the latest stamp shows, and while they
disagree the register is an open question.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Item = dict[str, Any]
    Head = dict[str, Any]


def has_seen(later: "Item", head: "Head") -> bool:
    """Whether the writer of `later` knew `head`: the same device wrote both, or it had pulled it."""
    if later["device"] == head["device"]:
        return True
    seq = head["seq"]
    seen = later["seen"]
    return isinstance(seq, int) and isinstance(seen, int) and seen >= seq


class Registers:
    """All registers of one subject, by key such as `setting.saddle_height`. Fed in the order of stamps."""

    def __init__(self, heads: "dict[str, list[Head]] | None" = None) -> None:
        self._heads: "dict[str, list[Head]]" = heads or {}

    def freeze(self) -> "dict[str, list[Head]]":
        """All heads as plain data, for another `Registers` to go on from."""
        return self._heads

    def put(self, key: str, item: "Item", value: object, told: "dict[str, Any]") -> None:
        """Set `key` to `value` by the entry of `item`; `told` is what a reader may want beside the value."""
        head: "Head" = {
            "entry": item["id"],
            "value": value,
            "at": item["noted_at"],
            "by": item["by"],
            "device": item["device"],
            "seq": item["seq"],
            "told": told,
        }
        heads = [h for h in self._heads.get(key, []) if not has_seen(item, h)]
        heads.append(head)
        self._heads[key] = heads

    def decide(self, key: str, item: "Item", chosen: object) -> bool:
        """Settle `key` on the head of entry `chosen`; heads the decider had not seen stay open. False if it is not a head."""
        heads = self._heads.get(key, [])
        for head in heads:
            if head["entry"] == chosen:
                settled = dict(head)
                settled["device"], settled["seq"], settled["decided"] = item["device"], item["seq"], item["id"]
                rest = [h for h in heads if h is not head and not has_seen(item, h)]
                rest.append(settled)
                self._heads[key] = rest
                return True
        return False

    def get(self, key: str) -> "Head | None":
        """The head that shows: the one with the latest stamp."""
        heads = self._heads.get(key)
        return heads[-1] if heads else None

    def heads(self, key: str) -> "list[Head]":
        return self._heads.get(key, [])

    def keys(self, prefix: str) -> list[str]:
        """The keys that begin with `prefix`, sorted."""
        return sorted([k for k in self._heads if k.startswith(prefix)])

    def values(self, prefix: str) -> "list[Any]":
        """What shows in each register under `prefix`."""
        return [self._heads[key][-1]["value"] for key in self.keys(prefix)]

    def questions(self) -> "list[dict[str, Any]]":
        """The registers whose heads disagree, with every value that stands."""
        asked: "list[dict[str, Any]]" = []
        for key in sorted(self._heads):
            heads = self._heads[key]
            if len(heads) < 2 or all([h["value"] == heads[0]["value"] for h in heads]):
                continue
            options = [
                {"entry": h["entry"], "value": h["value"], "at": h["at"], "by": h["by"], "told": h["told"]} for h in heads
            ]
            asked.append({"question": key, "options": options})
        return asked
