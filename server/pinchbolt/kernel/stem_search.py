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
    """The best options in order, and how many of all are within the tolerance."""
    top = piles_of(spacer_max, spacer_step) - 1
    least = tolerance * (1 + NEAR) + NEAR
    kept: "list[Option]" = []
    worst = float("inf")
    within = 0
    for angle in angles:
        cos_stem, sin_stem = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        for length in lengths:
            out = length * cos_stem - square
            for cover in covers:
                # The pile that would close the gap along the steerer, and how many piles lie within reach of it.
                wanted = along - length * sin_stem - stem_height / 2 - cover
                spare = least * least - out * out
                if spare >= 0:
                    reach = math.sqrt(spare)
                    lowest = max(0, math.ceil((wanted - reach) / spacer_step))
                    highest = min(top, math.floor((wanted + reach) / spacer_step))
                    within += max(0, highest - lowest + 1)
                if abs(out) > worst:
                    continue
                step = int(min(max(math.floor(wanted / spacer_step), 0), top))
                # Outwards from the nearest pile, downwards and upwards, until they are worse than what is kept.
                for first, way in ((step, -1), (step + 1, 1)):
                    pile = first
                    while 0 <= pile <= top:
                        miss = pile * spacer_step - wanted
                        error = int(math.sqrt(out * out + miss * miss) * GRAIN + 0.5) / GRAIN
                        if error > worst:
                            break
                        kept.append((error, pile * spacer_step, -length, cover, angle))
                        if len(kept) >= 4 * SHOWN_OPTIONS:
                            kept = in_order(kept, kept)[:SHOWN_OPTIONS]
                            worst = kept[-1][0] + 2 / GRAIN
                        pile += way
    return in_order(kept, kept)[:SHOWN_OPTIONS], within
