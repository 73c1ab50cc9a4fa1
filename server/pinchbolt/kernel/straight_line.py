"""A straight line through readings, by least squares, and where it reaches a value."""

import math


class Line:
    """The least-squares line of `values` over `at` (two or more, not all at one place).

    It is reckoned about the means, which keeps rounding small.

    `scatter` is the residual standard deviation, √(Σ residual²/(n − 2)), None with two readings.
    """

    def __init__(self, at: list[float], values: list[float]) -> None:
        self.many = len(at)
        self.mean_at = sum(at) / self.many
        self.mean_value = sum(values) / self.many
        self.sxx = sum([(x - self.mean_at) ** 2 for x in at])
        self.sxy = sum([(x - self.mean_at) * (values[i] - self.mean_value) for i, x in enumerate(at)])
        self.slope = self.sxy / self.sxx
        self.scatter: "float | None" = None
        if self.many > 2:
            left = [values[i] - self.value(x) for i, x in enumerate(at)]
            self.scatter = math.sqrt(sum([e * e for e in left]) / (self.many - 2))

    def value(self, at: float) -> float:
        """The line's value there."""
        return self.mean_value + self.slope * (at - self.mean_at)

    def reaches(self, value: float) -> float:
        """Where the line has `value`; its slope must not be 0."""
        return self.mean_at + (value - self.mean_value) / self.slope


class Crossing:
    """Where a single new reading may come to a given value: the prediction band turned round (Fieller's theorem).

    The band (value − line(x))² ≤ t²·s²·(1 + 1/n + (x − x̄)²/Sxx) is solved for x. With d = value − ȳ and
    `steepness` = slope² − t²s²/Sxx the ends are x̄ + slope·d/steepness ∓ t·s·√(steepness·(1 + 1/n) + d²/Sxx)/|steepness|.
    When `steepness` is not above 0 the slope is not clear of the scatter: the band never closes, and there is no latest end;
    when the root is not real there is no earliest either.
    """

    def __init__(self, line: Line, value: float, factor: float) -> None:
        ts = factor * (line.scatter or 0.0)
        self.apart = value - line.mean_value
        self.steepness = line.slope**2 - ts**2 / line.sxx
        self.middle: "float | None" = None
        self.half: "float | None" = None
        self.earliest: "float | None" = None
        self.latest: "float | None" = None
        under = self.steepness * (1 + 1 / line.many) + self.apart**2 / line.sxx
        if self.steepness == 0 or under < 0:
            return
        self.middle = line.mean_at + line.slope * self.apart / self.steepness
        self.half = ts * math.sqrt(under) / abs(self.steepness)
        if self.steepness > 0:
            self.earliest, self.latest = self.middle - self.half, self.middle + self.half
        else:
            self.earliest = self.middle + self.half
