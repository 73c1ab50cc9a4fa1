"""Sorting that both engines do alike.

The phone's own `sort` is not stable and takes quadratic time on a list that is in order already, which is what a record
mostly is. This is a natural merge sort: it finds the runs that are in order and merges them, so an ordered list costs one pass.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# So few are sorted at once whichever way they lie.
SHORT = 40


def place_of(item: "dict[str, Any]") -> str:
    """Where an entry stands in the order of the fold: by its stamp, then by its id."""
    return str(item["stamp"]) + str(item["id"])


def in_order(keys: "list[Any]", items: "list[Any]") -> "list[Any]":
    """`items` in the order of their `keys` (a list of the same length), equal keys as they came.

    >>> in_order([3, 1, 2, 1], ["c", "a", "b", "also a"])
    ['a', 'also a', 'b', 'c']
    """
    if len(keys) <= SHORT:
        # No two of the pairs are equal, so the engines' own sort, which is far quicker, does them alike.
        return [items[i] for _, i in sorted([(keys[i], i) for i in range(len(keys))])]
    runs: "list[list[int]]" = []
    run = [0]
    last = keys[0]
    for i in range(1, len(keys)):
        key = keys[i]
        if key < last:
            runs.append(run)
            run = []
        run.append(i)
        last = key
    runs.append(run)
    while len(runs) > 1:
        merged = [_merge(keys, runs[i], runs[i + 1]) for i in range(0, len(runs) - 1, 2)]
        if len(runs) % 2:
            merged.append(runs[-1])
        runs = merged
    return [items[i] for i in runs[0]]


def _merge(keys: "list[Any]", left: list[int], right: list[int]) -> list[int]:
    out: list[int] = []
    i, j = 0, 0
    while i < len(left) and j < len(right):
        if keys[right[j]] < keys[left[i]]:
            out.append(right[j])
            j += 1
        else:
            out.append(left[i])
            i += 1
    out.extend(left[i:])
    out.extend(right[j:])
    return out
