"""The search for the stem, spacers and cover that come nearest to a place."""

import math

from .order import in_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    # error, spacers, −stem length, cover, stem angle: compared in this order, so that of equal errors the fewer spacers come
    # first and then the longer stem
    Option = tuple[float, float, float, float, float]

SHOWN_OPTIONS = 20

# Errors closer than a millionth of a millimetre are the same error: they differ by binary rounding only.
GRAIN = 1e6
NEAR = 1e-9


def each_once(values: list[float]) -> list[float]:
    """The different values, smallest first (0 and −0 are one)."""
    kept: list[float] = []
    for value in in_order(values, values):
        if not kept or value != kept[-1]:
            kept.append(value + 0.0)
    return kept


def piles_of(spacer_max: float, spacer_step: float) -> int:
    """How many piles can be built: none, one step, two steps, up to the most."""
    return int(spacer_max / spacer_step + NEAR) + 1


def search(
    square: float,
    along: float,
    covers: list[float],
    spacer_max: float,
    spacer_step: float,
    stem_height: float,
    lengths: list[float],
    angles: list[float],
    tolerance: float,
) -> "tuple[list[Option], int]":
    """The best options in order, and how many of all are within the tolerance.

    Stems come in the order of their miss square to the steerer, which no spacer mends: once that alone is worse than all that
    is kept, the rest need not be looked at.
    """
    top = piles_of(spacer_max, spacer_step) - 1
    least = tolerance * (1 + NEAR) + NEAR
    stems: "list[tuple[float, float, float, float]]" = []
    for angle in angles:
        cos_stem, sin_stem = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        for length in lengths:
            rest = along - length * sin_stem - stem_height / 2
            stems.append((abs(length * cos_stem - square), length, angle, rest))
    kept: "list[Option]" = []
    worst = float("inf")
    within = 0
    for out, length, angle, rest in in_order(stems, stems):
        if out > worst and out > least:
            break
        out_squared = out * out
        spare = least * least - out_squared
        reach = math.sqrt(spare) if spare >= 0 else -1.0
        for cover in covers:
            # The pile that would close the gap along the steerer, and how many piles lie within reach of it.
            wanted = rest - cover
            if reach >= 0:
                lowest = max(0, math.ceil((wanted - reach) / spacer_step))
                highest = min(top, math.floor((wanted + reach) / spacer_step))
                within += max(0, highest - lowest + 1)
            step = min(max(math.floor(wanted / spacer_step), 0), top)
            # Outwards from the nearest pile, downwards and upwards, until they are worse than what is kept.
            for first, way in ((step, -1), (step + 1, 1)):
                pile = first
                while 0 <= pile <= top:
                    miss = pile * spacer_step - wanted
                    error = math.sqrt(out_squared + miss * miss)
                    if error > worst:
                        break
                    kept.append((int(error * GRAIN + 0.5) / GRAIN, pile * spacer_step, -length, cover, angle))
                    if len(kept) >= 2 * SHOWN_OPTIONS:
                        # Forty options that differ: the engines' own sort is safe on these and far faster.
                        kept.sort()
                        kept = kept[:SHOWN_OPTIONS]
                        # Two grains of room, so that ties with the last one kept are still compared.
                        worst = kept[-1][0] + 2 / GRAIN
                    pile += way
    return in_order(kept, kept)[:SHOWN_OPTIONS], within
