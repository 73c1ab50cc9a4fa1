"""The sums behind the phone's sensors, in Node and without a phone, against SciPy and NumPy and against things made here with
known answers: plucked strings, a phone turned in space, rides that stop.
"""

from typing import Any

import numpy
import pytest
from numpy.typing import NDArray
from scipy.spatial.transform import Rotation
from scipy.stats import sem, t

from tests.web.in_node import asked
from tests.web.spoke_sound import RATE, SPOKE, plucked

PIECE = 8192
SEED = 20261126


def sums(calls: list[tuple[Any, ...]]) -> list[Any]:
    """What the app's own functions answer, all in one run of Node."""
    return asked("sensing.mjs", [{"call": call, "given": given} for call, *given in calls])


def highest_near(sound: NDArray[numpy.float64], hz: float) -> float:
    """Where NumPy's transform of the sound, filled up to 32 times its length, is highest within a tenth of hz."""
    heights = numpy.abs(numpy.fft.rfft(sound * numpy.hanning(sound.size), 32 * sound.size))
    places = numpy.fft.rfftfreq(32 * sound.size, 1 / RATE)
    near = (places > 0.9 * hz) & (places < 1.1 * hz)
    return float(places[near][heights[near].argmax()])


# Half an octave below to half an octave above what spokes sound like; a lowest partial weaker than the next, as when plucked
# near an end; noise a tenth of the tone; a spoke three times as stiff.
PLUCKS: list[tuple[float, dict[str, Any]]] = [
    (SPOKE, {}),
    (142.3, {}),
    (231.7, {"noise": 0.03}),
    (312.4, {"lowest": 0.35}),
    (455.9, {"stiff": 1.2e-3}),
    (655.2, {"noise": 0.03}),
    (987.6, {}),
]


def test_a_plucked_spoke_is_heard_at_its_lowest_partial() -> None:
    sounds = [plucked(hz, PIECE / RATE, **kind) for hz, kind in PLUCKS]
    for (hz, kind), sound, tone in zip(
        PLUCKS, sounds, sums([("tone.toneOf", sound.tolist(), RATE, 100, 1500) for sound in sounds]), strict=True
    ):
        # 0.1 % of tone is 0.2 % of tension.
        assert tone == pytest.approx(hz, rel=1e-3), kind
        assert tone == pytest.approx(highest_near(sound, hz), rel=1e-3), kind


def test_what_is_no_tone_is_none_and_a_pluck_is_found_where_it_begins() -> None:
    hat = numpy.random.default_rng(SEED)
    noise = hat.normal(0, 0.2, PIECE)
    # A workshop's hum and hiss, then the pluck after 100 ms: what is listened to begins when it has settled, 20 ms later.
    before = hat.normal(0, 0.002, RATE // 10)
    heard = numpy.concatenate([before, plucked(SPOKE, 0.3)])[: 2 * PIECE]
    answers = sums(
        [
            ("tone.toneOf", noise.tolist(), RATE, 100, 1500),
            ("tone.pluckIn", heard.tolist(), RATE),
            ("tone.pluckIn", noise.tolist(), RATE),
            ("tone.pluckIn", [0.0] * PIECE, RATE),
            ("tone.mayBeOctave", 800, [300, 500]),
            ("tone.mayBeOctave", 200, [300, 500]),
            ("tone.mayBeOctave", 400, [300, 500]),
            ("tone.mayBeOctave", 1100, [300, 500]),
            ("tone.together", [387.0, 388.0]),
        ]
    )
    assert answers[0] is None
    assert 0.12 < answers[1] / RATE < 0.14
    assert answers[2:4] == [None, None]
    assert answers[4:8] == [True, True, False, False]
    # Two plucks have no scatter worth the name.
    assert answers[8] is None


def test_the_doubt_of_a_mean_is_students() -> None:
    hat = numpy.random.default_rng(SEED)
    samples = [hat.normal(387, 2, size).tolist() for size in range(2, 13)]
    for sample, doubt in zip(samples, sums([("spread.doubt", sample) for sample in samples]), strict=True):
        true = t.ppf(0.975, len(sample) - 1) * sem(sample)
        # From a table with three figures, rounded up; for many readings its last line.
        assert true <= doubt < (1.005 if len(sample) < 10 else 1.06) * true


def test_the_long_edge_rises_as_the_phone_is_turned_in_space() -> None:
    # The DeviceOrientation of the W3C: about Z by alpha, then X by beta, then Y by gamma, each as turned. y is the long edge.
    hat = numpy.random.default_rng(SEED)
    turns = hat.uniform([0, -180, -90], [360, 180, 90], (200, 3))
    up = Rotation.from_euler("ZXY", turns, degrees=True).apply([0, 1, 0])[:, 2]
    told = sums([("angle.rise", beta) for beta in turns[:, 1].tolist()])
    assert told == pytest.approx(numpy.degrees(numpy.arcsin(up)).tolist(), abs=1e-6)


def test_a_phone_turned_end_for_end_loses_its_own_error() -> None:
    hat = numpy.random.default_rng(SEED)
    own, tilt = 0.7, -2.3
    # A hundred readings that wander slowly, as a filter in the phone makes them.
    wander = [numpy.convolve(hat.normal(0, 0.12, 107), numpy.ones(8) / 8, "valid") for _ in range(2)]
    first, turned, moved, few = sums(
        [
            ("angle.settled", (own + tilt + wander[0]).tolist()),
            ("angle.settled", (own - tilt + wander[1]).tolist()),
            ("angle.settled", numpy.linspace(0, 2, 100).tolist()),
            ("angle.settled", [1.0] * 10),
        ]
    )
    assert (first["still"], turned["still"], moved["still"], few) == (True, True, False, None)
    # Of the means of blocks, and of the 0.1° that a browser keeps to itself (evenly spread: a twelfth of the span's square).
    blocks = (own + tilt + wander[0])[4:].reshape(8, 12).mean(axis=1)
    assert first["plusMinus"] == pytest.approx(numpy.hypot(t.ppf(0.975, 7) * sem(blocks), 2 * 0.2 / 12**0.5), rel=0.01)
    both, side = sums([("angle.twoWay", first, turned), ("angle.against", first, turned)])
    assert both["value"] == pytest.approx(tilt, abs=both["plusMinus"])
    assert both["offset"] == pytest.approx(own, abs=both["plusMinus"])
    assert side["value"] == pytest.approx(2 * tilt, abs=side["plusMinus"])
    # An edge laid by hand is not known better.
    assert both["plusMinus"] == pytest.approx(0.2)


def ride(
    hat: numpy.random.Generator, speed: float, braking: float, began: float, every: float, noise: float
) -> list[dict[str, float]]:
    """Fixes of a ride held at a speed, m/s, then slowed evenly to a standstill."""
    times = numpy.arange(0, 22, every)
    true = numpy.clip(speed - braking * numpy.clip(times - began, 0, None), 0, None)
    told = numpy.abs(true + hat.normal(0, noise, times.size) * numpy.where(true > 0, 1, 0.4))
    return [{"at": at, "speed": one, "accuracy": 4} for at, one in zip(times.tolist(), told.tolist(), strict=True)]


@pytest.mark.parametrize("every", [1.0, 0.2])
def test_a_stop_is_as_well_known_as_it_says(every: float) -> None:
    """Of 300 stops from 14 to 36 km/h with 0.2 m/s of scatter, v²/2a must lie within the ± of 95 in 100 and more."""
    hat = numpy.random.default_rng(SEED)
    stops = [(hat.uniform(4, 10), hat.uniform(1.2, 5), hat.uniform(8, 9)) for _ in range(300)]
    found = sums([("stopping.stopIn", ride(hat, *stop, every, 0.2)) for stop in stops])
    seen = [(stop, one) for stop, one in zip(stops, found, strict=True) if one is not None]
    assert len(seen) > 270
    within = [
        (abs(one["speed"] - v) <= one["speedPlusMinus"], abs(one["distance"] - v * v / 2 / a) <= one["distancePlusMinus"])
        for (v, a, _), one in seen
    ]
    fine = [held for held, (_, one) in zip(within, seen, strict=True) if not one["coarse"]]
    assert numpy.mean(within, axis=0).min() >= 0.95
    # Those offered as a distance are no worse, and there are some: a tool that never says anything would be right too.
    assert len(fine) > 60
    assert numpy.mean(fine, axis=0).min() >= 0.95


def test_what_is_no_stop_is_none() -> None:
    hat = numpy.random.default_rng(SEED)
    stop = ride(hat, 7, 2, 8.3, 1.0, 0.1)
    none = [
        [one | {"accuracy": 40} for one in stop],
        [one | {"speed": None} for one in stop],
        # Some phones say -1 for not known.
        [one | {"speed": -1} for one in stop],
        # Not held for three seconds before; still riding; never rode.
        stop[7:],
        stop[:10],
        stop[14:],
    ]
    assert sums([("stopping.stopIn", track) for track in none]) == [None] * len(none)
    short, long = sums([("stopping.stopIn", ride(hat, 7, braking, 8.3, 1.0, 0.1)) for braking in (4.5, 1.5)])
    # A fix a second sees too little of a short stop for its length, and enough of a long one.
    assert (short["coarse"], long["coarse"]) == (True, False)
