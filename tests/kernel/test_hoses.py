"""Hose slack: the longest of a thousand turns, and what a mechanic would expect."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find

EXAMPLE = find("hose-slack").example

ROUTES = st.fixed_dictionaries(
    {
        "port_forward": st.floats(-150, 80),
        "port_side": st.floats(-40, 40),
        "anchor_forward": st.floats(0, 150),
        "anchor_side": st.floats(-150, 150),
        "height": st.floats(-100, 250),
        "turn": st.floats(10, 180),
    }
)


def run(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("hose-slack").run({**EXAMPLE, **changed})
    return answer


@given(ROUTES)
def test_no_turn_is_longer_than_the_worst(route: dict[str, float]) -> None:
    out = run(**route)["outputs"]
    turns = np.radians(np.linspace(-route["turn"], route["turn"], 2001))
    forward = route["anchor_forward"] * np.cos(turns) - route["anchor_side"] * np.sin(turns) - route["port_forward"]
    side = route["anchor_forward"] * np.sin(turns) + route["anchor_side"] * np.cos(turns) - route["port_side"]
    lengths = np.sqrt(forward**2 + side**2 + route["height"] ** 2)
    assert out["length_max"] >= lengths.max() - 1e-9
    assert out["length_max"] == pytest.approx(lengths.max(), abs=0.01)
    assert abs(out["worst_turn"]) <= route["turn"]
    assert out["slack_needed"] >= 0


@given(ROUTES)
def test_the_other_side_is_the_mirror(route: dict[str, float]) -> None:
    mirrored = {**route, "port_side": -route["port_side"], "anchor_side": -route["anchor_side"]}
    here, there = run(**route)["outputs"], run(**mirrored)["outputs"]
    assert there["slack_needed"] == pytest.approx(here["slack_needed"], abs=1e-8)


@given(ROUTES, st.floats(0, 40))
def test_turning_further_never_needs_less(route: dict[str, float], more: float) -> None:
    further = min(180.0, route["turn"] + more)
    assert run(**{**route, "turn": further})["outputs"]["slack_needed"] >= run(**route)["outputs"]["slack_needed"] - 1e-9


def test_just_enough_slack_is_enough_and_a_tenth_less_is_not() -> None:
    needed = run()["outputs"]["slack_needed"]
    assert run(current_slack=needed)["findings"] == []
    (stop,) = run(current_slack=needed - 0.1)["findings"]
    assert (stop["level"], stop["field"]) == ("stop", "current_slack")
    assert "0.1 mm" in stop["text"]


def test_a_hose_from_the_left_to_a_port_on_the_right_goes_tight_turning_left() -> None:
    # The tie on the left of the bar swings back past the head tube when the bar turns left, away from a port ahead of it.
    answer = run(port_forward=30, port_side=-20, anchor_forward=40, anchor_side=30, current_slack=0)
    assert answer["outputs"]["worst_turn"] == 90
    assert "turning left" in answer["findings"][0]["text"]


def test_the_turn_taken_when_none_is_given_is_more_than_the_standard_wants_free() -> None:
    # TBIS 15194:2019 (EPAC), 4.3.6.5: the bars turn at least 60° each way.
    (turn,) = [field for field in find("hose-slack").inputs if field.name == "turn"]
    assert turn.default is not None
    assert turn.default >= 60  # type: ignore[operator]


def test_about_a_centimetre_more_than_a_tidy_length_lets_the_bars_turn() -> None:
    # Common practice: some 10 mm for a hose from behind the stem into the frame close to the steering axis.
    route = {"port_forward": -10, "port_side": 15, "anchor_forward": 30, "anchor_side": 35, "height": 45, "turn": 90}
    assert 3 < run(**route)["outputs"]["slack_needed"] < 20
