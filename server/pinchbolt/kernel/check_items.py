"""How a check is written down: definitions made of items, as plain data."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

SCHEMA = 1


def item(
    item: str,
    area: str,
    title: str,
    do: str,
    passes: str,
    *,
    essential: bool = True,
    caution: str = "",
    measure: str = "",
    unit: str = "",
    low: "float | None" = None,
    high: "float | None" = None,
    low_from: str = "",
    high_from: str = "",
    must_measure: bool = False,
    photo: bool = False,
) -> "Body":
    """One thing to look at: what to do and what passes.

    `measure` names a quantity (unit `unit`) that may be entered with the mark, or must be when `must_measure`. It is held
    against `low` and `high`, or against the bike's own marking named by `low_from` or `high_from`, which wins. With `photo` a
    picture is asked for whatever the answer; one is always offered when the item did not pass.
    """
    return {
        "item": item,
        "area": area,
        "title": title,
        "do": do,
        "passes": passes,
        "essential": essential,
        "caution": caution,
        "measure": measure,
        "unit": unit,
        "low": low,
        "high": high,
        "low_from": low_from,
        "high_from": high_from,
        "answer": "value" if must_measure else "mark",
        "photo": photo,
    }


def definition(check: str, version: int, title: str, purpose: str, scope: str, who: str, items: "list[Body]") -> "Body":
    """A check: `scope` is `whole` when it looks at the whole bike, else `part`; `who` is `mechanic` or `rider`."""
    return {
        "schema": SCHEMA,
        "check": check,
        "version": version,
        "title": title,
        "purpose": purpose,
        "scope": scope,
        "who": who,
        "items": items,
    }
