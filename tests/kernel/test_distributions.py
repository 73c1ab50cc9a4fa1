"""The normal and Student's t against an independent library and the printed tables."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from pinchbolt.kernel.distributions import normal_share, student_factor, student_within


@given(st.floats(-37, 37))
def test_the_normal_share_in_both_tails(z: float) -> None:
    assert normal_share(z) == pytest.approx(float(stats.norm.cdf(z)), rel=1e-12, abs=1e-300)


@given(st.floats(0, 0.9999), st.integers(1, 400))
def test_the_factor_of_student(confidence: float, freedom: int) -> None:
    wanted = float(stats.t.ppf(0.5 + confidence / 2, freedom))
    # The library's own quantile is good to about 1e-12 near the middle and in far tails.
    assert student_factor(confidence, freedom) == pytest.approx(wanted, rel=2e-11, abs=1e-14)


@given(st.floats(0, 50), st.integers(1, 400))
def test_the_share_within_of_student(t: float, freedom: int) -> None:
    wanted = 1 - 2 * float(stats.t.sf(t, freedom))
    assert student_within(t, freedom) == pytest.approx(wanted, abs=1e-14)


@given(st.floats(0.01, 0.9999), st.integers(1, 400))
def test_the_factor_gives_back_its_confidence(confidence: float, freedom: int) -> None:
    assert student_within(student_factor(confidence, freedom), freedom) == pytest.approx(confidence, abs=1e-15 * 40)


@pytest.mark.parametrize(
    ("confidence", "freedom", "factor"),
    [(0.95, 34, 2.03224), (0.95, 48, 2.01063), (0.95, 1, 12.7062), (0.9, 1, 6.31375), (0.95, 2, 4.30265), (0.5, 1, 1.0)],
)
def test_the_factor_in_the_tables(confidence: float, freedom: int, factor: float) -> None:
    """0.95 at 34 and 48: scipy 1.17.1; the others: the table in any statistics textbook, from memory."""
    assert student_factor(confidence, freedom) == pytest.approx(factor, rel=3e-6)


def test_many_degrees_of_freedom_come_near_the_normal() -> None:
    assert student_factor(0.9, 400) == pytest.approx(1.6448536 * (1 + (1.6448536**2 + 1) / 1600), rel=1e-5)
    assert normal_share(1.6448536269514722) == pytest.approx(0.95, abs=1e-15)
    assert math.isclose(normal_share(-1.0) + normal_share(1.0), 1.0)
