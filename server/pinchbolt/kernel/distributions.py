"""The two distributions that a workshop's uncertainty needs: the normal and Student's t."""

import math


def normal_share(z: float) -> float:
    """The share of a normal distribution below `z` standard deviations, from 0 to 1.

    Φ(z) = erfc(−z/√2)/2, good to the last few bits in both tails.

    >>> normal_share(0.0)
    0.5
    """
    return 0.5 * math.erfc(-z / math.sqrt(2))


def student_within(t: float, freedom: int) -> float:
    """The share of Student's t with `freedom` degrees (a whole number from 1) that lies between −t and t.

    Exact finite sums in θ = atan(t/√freedom): Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4
    (numbers of the formulas from memory; checked against an independent library).
    """
    return _within(math.atan(t / math.sqrt(freedom)), freedom)


def _within(angle: float, freedom: int) -> float:
    cosine, sine = math.cos(angle), math.sin(angle)
    square = cosine * cosine
    odd = freedom % 2 == 1
    if odd and freedom == 1:
        return 2 * angle / math.pi
    # The sum runs from its smallest term outwards in nested form, which keeps the rounding small.
    total = 1.0
    k = freedom - 2
    while k >= (3 if odd else 2):
        total = 1 + total * square * (k - 1) / k
        k -= 2
    if odd:
        return 2 / math.pi * (angle + sine * cosine * total)
    return sine * total


# They are few, and asked for again at every key somebody types.
_factors: "dict[tuple[float, int], float]" = {}
_MOST_FACTORS = 200


def student_factor(confidence: float, freedom: int) -> float:
    """The t for which the share `confidence` (above 0, below 1) lies between −t and t, with `freedom` degrees (from 1).

    The share grows with the angle θ = atan(t/√freedom), so halving the interval of θ finds it to the last bits.

    >>> round(1000 * student_factor(0.95, 1))
    12706
    """
    known = _factors.get((confidence, freedom))
    if known is not None:
        return known
    low, high = 0.0, math.pi / 2
    for _ in range(80):
        middle = (low + high) / 2
        if _within(middle, freedom) < confidence:
            low = middle
        else:
            high = middle
    found = math.tan((low + high) / 2) * math.sqrt(freedom)
    if len(_factors) < _MOST_FACTORS:
        _factors[confidence, freedom] = found
    return found
