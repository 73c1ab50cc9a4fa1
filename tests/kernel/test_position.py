"""Bar position: the same place by other roads, and what changes it which way."""

import math
from typing import Any

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath

from pinchbolt.kernel.catalogue import find

EXAMPLE = find("bar-position").example

BUILDS = st.fixed_dictionaries(
    {
        "stack": st.floats(480, 680),
        "reach": st.floats(340, 520),
        "head_angle": st.floats(62, 76),
        "headset_cover": st.floats(2, 35),
        "spacers": st.floats(0, 40),
        "stem_height": st.floats(35, 50),
        "stem_length": st.floats(30, 140),
        "stem_angle": st.floats(-40, 40),
    }
)


def bar(**build: Any) -> tuple[float, float]:
    outputs: Any = find("bar-position").run(build)["outputs"]
    return outputs["bar_x"], outputs["bar_y"]


@given(BUILDS)
def test_turning_the_parts_with_a_matrix_gives_the_same_place(build: dict[str, float]) -> None:
    lean = math.radians(90 - build["head_angle"])
    turn = np.array([[math.cos(lean), -math.sin(lean)], [math.sin(lean), math.cos(lean)]])
    up = build["headset_cover"] + build["spacers"] + build["stem_height"] / 2
    stem = math.radians(build["stem_angle"])
    upright = np.array([build["stem_length"] * math.cos(stem), up + build["stem_length"] * math.sin(stem)])
    expected = np.array([build["reach"], build["stack"]]) + turn @ upright
    assert bar(**build) == pytest.approx(tuple(expected), abs=1e-9)


def test_the_short_form_in_the_working_is_the_handbook_form() -> None:
    length, head, stem, along = sympy.symbols("L H a t", positive=True)
    up = sympy.Matrix([-sympy.cos(head), sympy.sin(head)])
    out = sympy.Matrix([sympy.sin(head), sympy.cos(head)])
    handbook = up * along + length * (sympy.cos(stem) * out + sympy.sin(stem) * up)
    short = sympy.Matrix(
        [
            -along * sympy.cos(head) + length * sympy.sin(head - stem),
            along * sympy.sin(head) + length * sympy.cos(head - stem),
        ]
    )
    assert sympy.simplify(handbook - short) == sympy.zeros(2, 1)


@given(BUILDS, st.floats(0.5, 20))
def test_a_spacer_raises_the_bar_and_brings_it_back(build: dict[str, float], more: float) -> None:
    x, y = bar(**build)
    higher = {**build, "spacers": build["spacers"] + more}
    x_higher, y_higher = bar(**higher)
    assert y_higher > y
    assert x_higher < x
    assert math.hypot(x_higher - x, y_higher - y) == pytest.approx(more)


@given(BUILDS)
def test_a_spacer_is_worth_as_much_as_cover(build: dict[str, float]) -> None:
    swapped = {**build, "spacers": build["headset_cover"], "headset_cover": build["spacers"]}
    assert bar(**build) == pytest.approx(bar(**swapped))


@given(BUILDS)
def test_a_flipped_stem_is_the_mirror_of_itself_across_the_stem_line(build: dict[str, float]) -> None:
    flat = bar(**{**build, "stem_angle": 0, "stem_length": build["stem_length"] * math.cos(math.radians(build["stem_angle"]))})
    up = bar(**build)
    down = bar(**{**build, "stem_angle": -build["stem_angle"]})
    assert ((up[0] + down[0]) / 2, (up[1] + down[1]) / 2) == pytest.approx(flat)


def test_plus_minus_agrees_with_the_uncertainties_library() -> None:
    spreads = {"stack": 1.0, "reach": 1.0, "head_angle": 0.5, "spacers": 0.5, "stem_length": 1.0}
    given_: dict[str, Any] = dict(EXAMPLE)
    for name, spread in spreads.items():
        given_[name] = {"value": EXAMPLE[name], "plus_minus": spread}
    u: dict[str, Any] = {name: ufloat(EXAMPLE[name], spreads[name]) if name in spreads else EXAMPLE[name] for name in EXAMPLE}
    along = u["headset_cover"] + u["spacers"] + u["stem_height"] / 2
    head, out = u["head_angle"] * math.pi / 180, (u["head_angle"] - u["stem_angle"]) * math.pi / 180
    bar_x = u["reach"] - along * umath.cos(head) + u["stem_length"] * umath.sin(out)
    bar_y = u["stack"] + along * umath.sin(head) + u["stem_length"] * umath.cos(out)
    answer: Any = find("bar-position").run(given_)
    assert answer["uncertainty"]["bar_x"]["likely"] == pytest.approx(bar_x.std_dev, rel=5e-3)
    assert answer["uncertainty"]["bar_y"]["likely"] == pytest.approx(bar_y.std_dev, rel=5e-3)
    assert answer["uncertainty"]["bar_x"]["worst"] >= answer["uncertainty"]["bar_x"]["likely"]
