"""The cheapest choice of one option a slot that stays under a weight: the multiple-choice knapsack, solved exactly.

Slot by slot, of all partial choices only those are kept that no other beats in both mass and cost (Bellman's dynamic programme
over a Pareto front), and of those only the ones that can still beat the best whole choice known. That bound is the Lagrangean
one at the price per gram where the relaxed problem tips (Sinha & Zoltners, Operations Research 27, 1979; from memory).
It only ever rules out what is strictly worse, so the answer is exact.
"""

from .order import in_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    Option = tuple[float, float, int]

EFFORT = 300000
"""Partial choices looked at before it is given up: seconds on a slow phone."""


class TooMany(Exception):
    """More partial choices than can be looked at in a reasonable time."""


def cheapest(slots: "list[list[tuple[float, float]]]", most: float) -> "list[int] | None":
    """The place of the chosen option in each of `slots` (lists of mass and cost), or None when no choice weighs `most` or less.

    Masses and costs are whole numbers held as floats below 2^53, so that every sum is exact. Of equally cheap choices it is the
    lightest. Raises TooMany.
    """
    fronts = [front(options) for options in slots]
    if sum([f[0][0] for f in fronts]) > most:
        return None
    price, known = _price(fronts, most)
    slack = 1 + 1e-9 * (known + price * most)
    # What each slot costs at least when its mass is paid for at the price.
    least = [min([cost + price * mass for mass, cost, _ in f]) for f in fronts]
    rest_mass, rest_least = _rests([f[0][0] for f in fronts]), _rests(least)
    highest = known + price * most + slack
    states: "list[tuple[float, float]]" = [(0.0, 0.0)]
    trail: "list[list[tuple[int, int]]]" = []
    effort = 0
    for i, options in enumerate(fronts):
        room, bound = most - rest_mass[i + 1], highest - rest_least[i + 1]
        found: "list[tuple[float, float]]" = []
        come: "list[tuple[int, int]]" = []
        effort += len(states) * len(options)
        if effort > EFFORT:
            raise TooMany()
        for mass, cost, place in options:
            for k, (had, paid) in enumerate(states):
                if had + mass > room:
                    break
                if paid + cost + price * (had + mass) <= bound:
                    found.append((had + mass, paid + cost))
                    come.append((k, place))
        states, steps = _unbeaten(found, come)
        trail.append(steps)
    # The front falls in cost as it rises in mass: the last one is the cheapest.
    at = len(states) - 1
    chosen: list[int] = []
    for steps in reversed(trail):
        at, place = steps[at]
        chosen.append(place)
    chosen.reverse()
    return chosen


def lightest(slots: "list[list[tuple[float, float]]]") -> list[int]:
    """The place of the lightest option in each slot, of equally light ones the cheapest."""
    return [front(options)[0][2] for options in slots]


def front(options: "list[tuple[float, float]]") -> "list[Option]":
    """The options (mass, cost, place) that no other beats, from the lightest and dearest to the heaviest and cheapest."""
    kept: "list[Option]" = []
    placed = [(mass, cost, place) for place, (mass, cost) in enumerate(options)]
    for mass, cost, place in in_order(placed, placed):
        if not kept or cost < kept[-1][1]:
            kept.append((mass, cost, place))
    return kept


def _unbeaten(
    found: "list[tuple[float, float]]", come: "list[tuple[int, int]]"
) -> "tuple[list[tuple[float, float]], list[tuple[int, int]]]":
    states: "list[tuple[float, float]]" = []
    steps: "list[tuple[int, int]]" = []
    by_mass: list[int] = in_order(found, list(range(len(found))))
    for k in by_mass:
        if not states or found[k][1] < states[-1][1]:
            states.append(found[k])
            steps.append(come[k])
    return states, steps


def _rests(values: list[float]) -> list[float]:
    """What is still to come from each place on: `[a + b + c, b + c, c, 0]`."""
    rests = [0.0]
    for value in reversed(values):
        rests.append(rests[-1] + value)
    rests.reverse()
    return rests


def _price(fronts: "list[list[Option]]", most: float) -> "tuple[float, float]":
    """The price of a gram at which the relaxed problem just meets `most`, and the cost of a choice that meets it.

    From the cheapest option everywhere, the cheapest gram is saved first, along each slot's lower hull.
    """
    mass = sum([f[-1][0] for f in fronts])
    cost = sum([f[-1][1] for f in fronts])
    if mass <= most:
        return 0.0, cost
    rates: list[float] = []
    steps: "list[tuple[int, float, float]]" = []
    for i, options in enumerate(fronts):
        hull = _hull(options)
        for k in range(len(hull) - 1, 0, -1):
            saved, dearer = hull[k][0] - hull[k - 1][0], hull[k - 1][1] - hull[k][1]
            rates.append(dearer / saved)
            steps.append((i, saved, dearer))
    at = [f[-1] for f in fronts]
    rate = 0.0
    by_rate: list[int] = in_order(rates, list(range(len(rates))))
    for k in by_rate:
        i, saved, dearer = steps[k]
        rate = rates[k]
        if mass - saved <= most:
            return rate, cost + _one_change(fronts, at, mass - most)
        mass, cost = mass - saved, cost + dearer
        at[i] = (at[i][0] - saved, at[i][1] + dearer, -1)
    return rate, cost


def _one_change(fronts: "list[list[Option]]", at: "list[Option]", over: float) -> float:
    """What the cheapest change of a single slot costs that saves `over` or more."""
    changes = [cost - at[i][1] for i, f in enumerate(fronts) for mass, cost, _ in f if at[i][0] - mass >= over]
    return min(changes)


def _hull(options: "list[Option]") -> "list[Option]":
    """The corners of the lower convex hull of a front: what saves grams ever dearer from its cheap end to its light end."""
    hull: "list[Option]" = []
    for c in options:
        while len(hull) > 1:
            a, b = hull[-2], hull[-1]
            if (b[1] - a[1]) * (c[0] - a[0]) < (c[1] - a[1]) * (b[0] - a[0]):
                break
            hull.pop()
        hull.append(c)
    return hull
