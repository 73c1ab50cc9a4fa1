"""Figures as text: to nearest, or one way only where rounding could take material away."""

import doctest
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel import working
from pinchbolt.kernel.working import shown

WAYS = {"": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}


def test_the_examples_in_the_documentation_are_true() -> None:
    assert doctest.testmod(working).failed == 0


@given(st.integers(-10_000_000, 10_000_000), st.sampled_from(["up", "down", ""]), st.integers(0, 3))
def test_it_rounds_as_decimal_arithmetic_does(thousandths: int, rounds: str, digits: int) -> None:
    exact = Decimal(thousandths) / 1000
    wanted = exact.quantize(Decimal(1).scaleb(-digits), rounding=WAYS[rounds])
    if rounds == "" and (exact * 10**digits * 2) % 1 == 0 and (exact * 10**digits) % 1 != 0:
        return  # an exact half in decimal is none in binary
    assert float(shown(thousandths / 1000, digits, rounds).replace(working.MINUS, "-")) == pytest.approx(float(wanted))


def test_a_length_to_cut_at_is_never_shown_shorter() -> None:
    for tenths in range(2000, 2400):
        for hair in (0.0, 0.001, 0.04, 0.05, 0.09):
            length = tenths / 10 + hair
            assert float(shown(length, 1, "up")) >= length - 1e-6
