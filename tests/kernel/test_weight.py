"""The weight budget: what is weighed, what is corrected, how sure it is, and what it leaves out."""

import statistics
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError

MASS = st.floats(1, 3000)
WEIGHED = st.fixed_dictionaries({"name": st.just("w"), "weighed": MASS, "count": st.integers(1, 40)})
CLAIMED = st.fixed_dictionaries({"name": st.just("c"), "claimed": MASS, "count": st.integers(1, 40)})
BOTH = st.fixed_dictionaries({"name": st.just("b"), "claimed": MASS, "weighed": MASS, "count": st.integers(1, 40)})


def budget(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("weight-budget").run(inputs)
    return answer


@given(st.lists(WEIGHED, min_size=1, max_size=12), st.floats(0.1, 10), st.floats(500, 90000))
def test_a_bike_all_weighed_is_the_sum_and_only_the_scale_is_in_doubt(
    parts: list[dict[str, Any]], step: float, goal: float
) -> None:
    out = budget(parts=parts, target=goal, scale_step=step)["outputs"]
    assert out["total"] == pytest.approx(sum(p["weighed"] * p["count"] for p in parts))
    assert out["headroom"] == pytest.approx(goal - out["total"])
    assert out["sd"] == pytest.approx(step * float(np.linalg.norm([p["count"] for p in parts])) / 12**0.5)
    assert out["chance"] == pytest.approx(float(stats.norm.cdf(goal, out["total"], out["sd"])), abs=1e-9)
    assert out["not_weighed"] == []


@given(st.lists(BOTH, min_size=2, max_size=8), st.lists(CLAIMED, min_size=1, max_size=8), st.lists(WEIGHED, max_size=3))
def test_claims_are_corrected_by_the_mean_of_the_others(
    both: list[dict[str, Any]], claimed: list[dict[str, Any]], weighed: list[dict[str, Any]]
) -> None:
    out = budget(parts=both + claimed + weighed, target=8000)["outputs"]
    overruns = [p["weighed"] / p["claimed"] - 1 for p in both]
    mean = statistics.fmean(overruns)
    sure = sum(p["weighed"] * p["count"] for p in both + weighed)
    corrected = [p["claimed"] * p["count"] for p in claimed]
    assert out["overrun"] == pytest.approx(100 * mean)
    assert out["total"] == pytest.approx(sure + sum(corrected) * (1 + mean))
    # Each part scatters by itself, the mean's own error is shared by all: the covariance in full, by numpy.
    n = len(both)
    covariance = statistics.variance(overruns) * (np.eye(len(corrected)) + np.full((len(corrected),) * 2, 1 / n))
    rounding = sum(p["count"] ** 2 for p in both + weighed) / 12
    assert out["sd"] ** 2 == pytest.approx(float(np.array(corrected) @ covariance @ np.array(corrected)) + rounding, rel=1e-6)


def test_the_deviation_is_that_of_many_imagined_bikes() -> None:
    """Monte Carlo with the same assumptions: claims off by a common unknown mean, each by its own scatter, a rounding scale."""
    rng = np.random.default_rng(4)
    many = 200_000
    true_mean, scatter = 0.02, 0.015
    pairs = rng.normal(true_mean, scatter, (many, 5))
    masses = np.array([620.0, 325.0, 240.0])
    real = masses * (1 + rng.normal(true_mean, scatter, (many, 3)))
    error = real.sum(axis=1) - masses.sum() * (1 + pairs.mean(axis=1)) + rng.uniform(-0.5, 0.5, (many, 5)).sum(axis=1)
    # Five pairs with just this mean and scatter.
    z = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
    overruns = true_mean + scatter * z / z.std(ddof=1)
    parts = [{"name": "pair", "claimed": 1000, "weighed": 1000 * (1 + float(o))} for o in overruns]
    parts += [{"name": "claimed", "claimed": float(m)} for m in masses]
    assert budget(parts=parts, target=8000)["outputs"]["sd"] == pytest.approx(float(error.std()), rel=0.01)


def test_a_missing_slot_takes_the_chance_away_and_is_named() -> None:
    parts = [{"name": "frame", "slot": "Frame ", "weighed": 1000}, {"name": "saddle", "slot": "saddle"}]
    answer = budget(parts=parts, target=1200, needed_slots=[{"slot": "frame"}, {"slot": "saddle"}, {"slot": "bar"}])
    assert answer["outputs"]["missing_slots"] == [{"slot": "saddle"}, {"slot": "bar"}]
    assert answer["outputs"]["complete"] is False
    assert answer["outputs"]["chance"] is None
    assert any("saddle, bar" in f["text"] for f in answer["findings"] if f["level"] == "care")
    assert all(f["level"] != "fine" for f in answer["findings"])


def test_a_claim_far_off_the_scale_is_questioned() -> None:
    answer = budget(parts=[{"name": "stem", "claimed": 120, "weighed": 210}], target=1000)
    assert any(f["field"] == "parts[0].weighed" and f["level"] == "care" for f in answer["findings"])


def test_without_a_list_of_slots_nothing_is_called_whole() -> None:
    answer = budget(parts=[{"name": "bike", "weighed": 7000}], target=8000)
    assert answer["outputs"]["complete"] is None
    assert {f["level"] for f in answer["findings"]} == {"care"}


@pytest.mark.parametrize(
    ("parts", "field"),
    [
        ([], "parts"),
        ([{"weighed": 3}], "parts[0].name"),
        ([{"name": "a", "weighed": float("nan")}], "parts[0].weighed"),
        ([{"name": "a", "weighed": 3, "count": 0}], "parts[0].count"),
        ([{"name": "a", "weighed": 3, "count": 1.5}], "parts[0].count"),
    ],
)
def test_bad_rows_are_named(parts: list[Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        budget(parts=parts, target=1000)
    assert [p["field"] for p in caught.value.problems] == [field]
