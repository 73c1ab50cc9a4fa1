"""A plucked spoke as a microphone would hear it, with an answer that is known."""

import math

import numpy
from numpy.typing import NDArray

RATE = 48000
# f = √(T/μ)/2L (OpenStax University Physics 1, 16.3): 1000 N in 260 mm of 2 mm steel, 7850 kg/m³.
SPOKE = math.sqrt(1000 / (7850 * math.pi * 0.001**2)) / (2 * 0.260)


def plucked(
    hz: float, seconds: float, *, stiff: float = 4e-4, lowest: float = 1.0, noise: float = 0.003, seed: int = 7
) -> NDArray[numpy.float64]:
    """A stiff string plucked at 0.4 of its length. Partials at n·f·√(1+Bn²), strength sin(nπ·0.4)/n (Fletcher and Rossing,
    The Physics of Musical Instruments, 2.7 and 2.18, from memory); the tone is its lowest partial, whose strength is taken
    `lowest` times. `noise` is the standard deviation of white noise; the lowest partial begins at about 0.3."""
    t = numpy.arange(int(seconds * RATE)) / RATE
    sound = numpy.random.default_rng(seed).normal(0, noise, t.size)
    for n in range(1, 9):
        partial = n * hz * math.sqrt((1 + stiff * n * n) / (1 + stiff))
        strength = math.sin(n * math.pi * 0.4) / n * (lowest if n == 1 else 1)
        sound += 0.3 * strength * numpy.exp(-t * (3 + n)) * numpy.sin(2 * math.pi * partial * t + n)
    return sound
