"""The chain against a hull drawn round two circles, published examples and the counting of links."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely import MultiPoint

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError

STEPS = 20_000


def length(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("chain-length").run(inputs)
    return answer


def wear(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("chain-wear").run(inputs)
    return answer


def hull(chainstay: float, ring: int, cog: int) -> float:
    """Pitches of a thread round two circles of the pitch radii, drawn as polygons of 20 000 sides."""
    turn = np.linspace(0, 2 * math.pi, STEPS, endpoint=False)
    points = [
        np.column_stack([x + r * np.cos(turn), r * np.sin(turn)]) for x, r in ((0.0, radius(ring)), (chainstay, radius(cog)))
    ]
    return float(MultiPoint(np.vstack(points)).convex_hull.length) / 12.7


def radius(teeth: int) -> float:
    return 12.7 / (2 * math.sin(math.pi / teeth))


@settings(max_examples=25)
@given(st.floats(380, 480), st.integers(28, 56), st.integers(16, 52))
def test_a_thread_round_both_sprockets_less_what_the_arcs_are_longer_than_their_chords(
    chainstay: float, ring: int, cog: int
) -> None:
    lean = math.asin((radius(ring) - radius(cog)) / chainstay)
    # A wrapped tooth is one pitch of chain, a chord; the thread lies on the arc.
    longer = (2 * math.pi * radius(ring) / 12.7 - ring) * (math.pi + 2 * lean) / (2 * math.pi)
    longer += (2 * math.pi * radius(cog) / 12.7 - cog) * (math.pi - 2 * lean) / (2 * math.pi)
    exact = length(chainstay=chainstay, ring_max=ring, cog_max=cog)["outputs"]["exact"]
    assert exact == pytest.approx(hull(chainstay, ring, cog) - longer, abs=1e-5)


def test_the_hull_of_the_published_example() -> None:
    # Mott, Example Problem 7-3 (17 and 65 teeth, 30 pitches apart); the hull on the pitch circles is 103.0114 (derived).
    assert hull(381, 65, 17) == pytest.approx(103.0114, abs=1e-4)


@given(st.floats(380, 480), st.integers(28, 56), st.integers(16, 52))
def test_the_handbook_form_is_near_the_exact_one(chainstay: float, ring: int, cog: int) -> None:
    out = length(chainstay=chainstay, ring_max=ring, cog_max=cog)["outputs"]
    assert out["handbook"] == pytest.approx(out["exact"], abs=0.02)


@given(st.floats(380, 480), st.integers(28, 56), st.integers(16, 52))
def test_the_chain_is_even_and_never_shorter_than_meeting_plus_two(chainstay: float, ring: int, cog: int) -> None:
    out = length(chainstay=chainstay, ring_max=ring, cog_max=cog)["outputs"]
    assert out["pitches"] % 2 == 0
    assert out["meet"] >= out["exact"] - 1e-9
    # Common practice: two or three pitches more than where the chain meets, so that both ends are inner links.
    assert out["pitches"] - out["meet"] in (2, 3)
    assert out["pitches"] - 2 - out["exact"] < 2
    assert out["length_mm"] == pytest.approx(out["pitches"] * 12.7)


@given(st.floats(380, 480), st.integers(28, 56), st.integers(16, 51))
def test_ring_and_cog_may_change_places_and_more_of_anything_is_longer(chainstay: float, ring: int, cog: int) -> None:
    here = length(chainstay=chainstay, ring_max=ring, cog_max=cog)["outputs"]["exact"]
    assert length(chainstay=chainstay, ring_max=cog, cog_max=ring)["outputs"]["exact"] == pytest.approx(here)
    assert length(chainstay=chainstay + 1, ring_max=ring, cog_max=cog)["outputs"]["exact"] > here
    assert length(chainstay=chainstay, ring_max=ring, cog_max=cog + 1)["outputs"]["exact"] > here


def test_equal_sprockets_are_two_straights_and_one_round() -> None:
    assert length(chainstay=10 * 12.7 * 3, ring_max=20, cog_max=20)["outputs"]["exact"] == pytest.approx(80)


def test_the_chainstay_for_a_given_length_is_the_published_centre_distance() -> None:
    # Mott, Example Problem 7-3: for 104 pitches C = 30.54 pitches = 15.272 in, by the approximate form.
    centre = brentq(lambda c: length(chainstay=c, ring_max=65, cog_max=17)["outputs"]["handbook"] - 104, 300, 500)
    assert centre / 12.7 == pytest.approx(30.54, abs=0.005)
    assert centre / 25.4 == pytest.approx(15.272, abs=0.0005)


def test_the_centre_distance_of_the_other_published_example() -> None:
    # A journal's worked example with 20 and 63 teeth: 35.6 pitches apart for a chain of 114, by the approximate form.
    centre = brentq(lambda c: length(chainstay=c, ring_max=63, cog_max=20)["outputs"]["handbook"] - 114, 300, 500)
    assert centre / 12.7 == pytest.approx(35.6, abs=0.05)


def test_the_sprockets_are_as_big_as_published() -> None:
    # Mott, Example Problem 7-3: pitch diameters of 2.721 in (17 teeth) and 10.349 in (65 teeth).
    lines = {line["symbol"]: line["result"] for line in length(chainstay=381, ring_max=65, cog_max=17)["working"]}
    assert 2 * lines["cog_radius"] / 25.4 == pytest.approx(2.721, abs=5e-4)
    assert 2 * lines["ring_radius"] / 25.4 == pytest.approx(10.349, abs=5e-4)


def test_sprockets_that_would_touch_are_refused() -> None:
    with pytest.raises(InputError) as caught:
        length(chainstay=radius(52) + radius(36), ring_max=52, cog_max=36)
    assert [p["field"] for p in caught.value.problems] == ["chainstay"]
    assert length(chainstay=radius(52) + radius(36) + 0.1, ring_max=52, cog_max=36)["outputs"]["pitches"] > 0


def test_capacity_is_not_judged_by_half() -> None:
    bike = {"chainstay": 410, "ring_max": 50, "cog_max": 28, "ring_min": 34}
    unknown = length(**bike, capacity=40)
    assert unknown["outputs"]["capacity_needed"] is None
    assert [(f["level"], f["field"]) for f in unknown["findings"]] == [("care", "cog_min")]
    assert length(**bike, cog_min=11, capacity=33)["findings"] == []
    assert [f["level"] for f in length(**bike, cog_min=11, capacity=32)["findings"]] == ["stop"]
    single = length(chainstay=410, ring_max=50, cog_max=28, cog_min=11, capacity=17)
    assert single["outputs"]["capacity_needed"] == 17


@pytest.mark.parametrize(
    ("measured", "elongation"),
    [(304.8, 0.0), (306.324, 0.5), (307.086, 0.75), (307.848, 1.0)],
)
def test_the_marks_on_a_foot_of_chain(measured: float, elongation: float) -> None:
    # derived: 24 × 12.7 mm and its hundredths
    assert wear(pitches=24, measured=measured, speeds=11)["outputs"]["elongation"] == pytest.approx(elongation)


@given(st.integers(10, 120), st.floats(-0.1, 3), st.integers(1, 13))
def test_what_is_stretched_and_what_is_left_make_the_limit(pitches: int, percent: float, speeds: int) -> None:
    out = wear(pitches=pitches, measured=pitches * 12.7 * (1 + percent / 100), speeds=speeds)["outputs"]
    assert out["elongation"] == pytest.approx(percent, abs=1e-9)
    assert out["elongation"] + out["remaining"] == pytest.approx(out["limit"])
    assert out["limit"] == (0.5 if speeds >= 11 else 0.75)


def test_a_chain_shorter_than_new_was_measured_wrong() -> None:
    (finding,) = wear(pitches=24, measured=304.0, speeds=11)["findings"]
    assert finding["level"] == "care"
    assert "measure again" in finding["text"]
