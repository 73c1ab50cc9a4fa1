"""The wear forecast against certified fits, two statistics libraries and many imagined chains."""

from typing import Any

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import optimize, stats

from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.distributions import student_factor
from pinchbolt.kernel.straight_line import Line
from tests.kernel.vectors_wear import (
    CARS,
    CHAIN,
    NORRIS,
    NORRIS_INTERCEPT,
    NORRIS_INTERCEPT_SD,
    NORRIS_SCATTER,
    NORRIS_SLOPE,
    NORRIS_SLOPE_SD,
)


def forecast(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("wear-forecast").run(inputs)
    return answer


def line_of(rows: list[dict[str, float]]) -> Line:
    return Line([r["at"] for r in rows], [r["value"] for r in rows])


def test_the_certified_line() -> None:
    """NIST StRD, Norris."""
    line = line_of(NORRIS)
    assert line.slope == pytest.approx(NORRIS_SLOPE, rel=1e-13)
    assert line.value(0) == pytest.approx(NORRIS_INTERCEPT, rel=1e-11)
    assert line.scatter == pytest.approx(NORRIS_SCATTER, rel=1e-12)
    assert line.scatter / line.sxx**0.5 == pytest.approx(NORRIS_SLOPE_SD, rel=1e-12)
    at_zero = (1 / line.many + line.mean_at**2 / line.sxx) ** 0.5
    assert line.scatter * at_zero == pytest.approx(NORRIS_INTERCEPT_SD, rel=1e-12)


def test_the_line_of_the_cars() -> None:
    """R's documentation: −17.579 + 3.932·speed; 29.6, 57.1 and 76.8 at 12, 19 and 24 mph."""
    line = line_of(CARS)
    assert line.slope == pytest.approx(3.932, abs=5e-4)
    assert line.value(0) == pytest.approx(-17.579, abs=5e-4)
    assert [round(line.value(x), 1) for x in (12, 19, 24)] == [29.6, 57.1, 76.8]


READINGS = st.lists(st.tuples(st.floats(0, 5000), st.floats(-0.03, 0.03)), min_size=3, max_size=30)


@given(READINGS, st.floats(0.8, 0.99), st.floats(0.3, 1))
def test_the_span_is_the_prediction_band_of_an_independent_library_turned_round(
    rows: list[tuple[float, float]], confidence: float, limit: float
) -> None:
    readings = [{"at": x, "value": 1e-4 * x + off} for x, off in rows]
    xs = np.array([r["at"] for r in readings])
    assume(float(xs.max() - xs.min()) > 500)
    out = forecast(readings=readings, limit=limit, confidence=confidence, wears="up")["outputs"]
    fitted = stats.linregress(xs, [r["value"] for r in readings])
    assert out["rate"] == pytest.approx(float(fitted.slope), rel=1e-9, abs=1e-13)
    if out["latest"] is None or fitted.stderr < 1e-12:
        return
    model = sm.OLS([r["value"] for r in readings], sm.add_constant(xs)).fit()

    def band(at: float) -> Any:
        frame = model.get_prediction([[1.0, at]]).summary_frame(alpha=1 - confidence)
        return frame["obs_ci_lower"].iloc[0], frame["obs_ci_upper"].iloc[0]

    assert band(out["earliest"])[1] == pytest.approx(limit, abs=1e-6)
    assert band(out["latest"])[0] == pytest.approx(limit, abs=1e-6)
    assert out["earliest"] <= out["at_limit"] + 1e-6
    assert out["at_limit"] <= out["latest"] + 1e-6


@given(READINGS, st.floats(0.8, 0.99), st.floats(0.3, 1))
def test_no_latest_is_told_when_the_slope_is_not_clear_of_the_scatter(
    rows: list[tuple[float, float]], confidence: float, limit: float
) -> None:
    """The slope is clear when its t is beyond the two-sided one: scipy."""
    readings = [{"at": x, "value": 2e-5 * x + off} for x, off in rows]
    xs = np.array([r["at"] for r in readings])
    assume(float(xs.max() - xs.min()) > 500)
    fitted = stats.linregress(xs, [r["value"] for r in readings])
    assume(fitted.stderr > 1e-12)
    clear = fitted.slope / fitted.stderr / stats.t.ppf(0.5 + confidence / 2, len(rows) - 2)
    assume(abs(clear - 1) > 1e-6)
    answer = forecast(readings=readings, limit=limit, confidence=confidence, wears="up")
    if clear < 1:
        assert answer["outputs"]["latest"] is None
        assert any(f["level"] == "care" and f["field"] == "readings" for f in answer["findings"])
        assert all(f["level"] != "fine" for f in answer["findings"])
    elif clear > 1.001 and answer["outputs"]["at_limit"] < 1e6:
        assert answer["outputs"]["latest"] is not None


def test_an_open_span_still_has_its_early_end_where_the_band_first_meets_the_limit() -> None:
    rows = [(0.0, 3.0), (100.0, 2.9), (200.0, 2.95), (300.0, 2.85), (400.0, 2.9)]
    readings = [{"at": x, "value": y} for x, y in rows]
    out = forecast(readings=readings, limit=2.0, confidence=0.95)["outputs"]
    assert out["latest"] is None
    model = sm.OLS([y for _, y in rows], sm.add_constant([x for x, _ in rows])).fit()

    def above(at: float) -> float:
        return float(model.get_prediction([[1.0, at]]).summary_frame(alpha=0.05)["obs_ci_lower"].iloc[0]) - 2.0

    assert out["earliest"] == pytest.approx(optimize.brentq(above, 400, 1e5), rel=1e-9)


def test_nine_of_ten_limits_come_inside_the_span() -> None:
    """Many imagined chains: straight wear, a scattering gauge, and the next reading where the gauge says the limit."""
    rng = np.random.default_rng(8)
    xs = np.linspace(0, 2500, 6)
    inside = 0
    many = 1000
    for _ in range(many):
        values = 2e-4 * xs + rng.normal(0, 0.01, 6)
        out = forecast(readings=[{"at": float(x), "value": float(y)} for x, y in zip(xs, values, strict=True)], limit=0.7)[
            "outputs"
        ]
        # Where a single reading shows the limit: 0.7 = wear + scatter.
        shows = (0.7 - rng.normal(0, 0.01)) / 2e-4
        inside += out["earliest"] <= shows <= out["latest"]
    assert inside / many == pytest.approx(0.9, abs=3 * (0.09 / many) ** 0.5)


@given(st.permutations(range(5)))
def test_the_order_of_the_rows_does_not_matter(order: list[int]) -> None:
    rows = [{"at": 100.0 * i, "value": [3.0, 2.8, 2.7, 2.4, 2.3][i]} for i in range(5)]
    here = forecast(readings=[rows[i] for i in order], limit=1.0)["outputs"]
    there = forecast(readings=rows, limit=1.0)["outputs"]
    assert all(here[name] == pytest.approx(there[name]) for name in there)


def test_at_the_limit_from_the_first_is_a_stop() -> None:
    answer = forecast(readings=[{"at": 0, "value": 0.5}, {"at": 100, "value": 0.6}], limit=0.5)
    assert ("stop", "limit") in {(f["level"], f["field"]) for f in answer["findings"]}


def test_past_the_limit_in_both_readings_is_a_stop_when_told_which_way_it_wears() -> None:
    answer = forecast(readings=[{"at": 0, "value": 0.6}, {"at": 100, "value": 0.7}], limit=0.5, wears="up")
    assert ("stop", "limit") in {(f["level"], f["field"]) for f in answer["findings"]}


@pytest.mark.parametrize(("now", "level"), [(2500, "fine"), (4900, "care"), (5050, "stop")])
def test_what_is_said_as_the_limit_comes_near(now: float, level: str) -> None:
    readings = [{"at": x, "value": 1e-4 * x + (0.002 if x % 1000 else -0.002)} for x in range(0, 2501, 500)]
    answer = forecast(readings=readings, limit=0.5, now=now)
    assert [f["level"] for f in answer["findings"] if f["field"] == "limit"] == [level]


def test_a_reach_far_beyond_the_readings_is_called_rough() -> None:
    answer = forecast(readings=CHAIN, limit=2.0)
    assert ("care", "readings") in {(f["level"], f["field"]) for f in answer["findings"]}


def test_four_hundred_readings() -> None:
    rng = np.random.default_rng(1)
    readings = [{"at": float(x), "value": float(1e-4 * x + rng.normal(0, 0.02))} for x in range(0, 4000, 10)]
    out = forecast(readings=readings, limit=0.5)["outputs"]
    assert out["earliest"] < out["at_limit"] < out["latest"]
    assert student_factor(0.9, 398) == pytest.approx(float(stats.t.ppf(0.95, 398)), rel=1e-12)
