"""A figure that a bike cannot have, or hardly: refused, or asked about."""

from typing import Any

import pytest

from pinchbolt.kernel.adjustable import SETTINGS
from pinchbolt.kernel.checks import all_checks, prepare
from pinchbolt.kernel.moving import doubts_of_move, possible_in_check

STATE: dict[str, Any] = {
    "settings": {"saddle_height": {"value": 731}, "pressure_front": {"value": 2.4}},
    "measures": {},
    "parts": [{"slot": "tyre-front", "markings": {"max_pressure_front": 3.5}}],
}


@pytest.mark.parametrize(
    ("setting", "to", "likely"),
    [
        ("saddle_height", 733, []),
        ("saddle_height", 2731, ["impossible"]),
        ("saddle_height", -99, ["impossible"]),
        ("saddle_height", 950, ["figure", "figure"]),
        ("saddle_height", 580, ["figure"]),
        ("pressure_front", 3.5, []),
        ("pressure_front", 3.6, ["limit"]),
        ("pressure_front", 8, ["limit", "figure"]),
        ("pressure_rear", 8, []),
        ("pressure_rear", 0.1, ["figure"]),
        ("index_rear", 0.25, []),
        ("index_rear", -8, ["figure"]),
        ("of another version", 5000, []),
    ],
)
def test_what_is_asked_about(setting: str, to: float, likely: list[str]) -> None:
    assert [one["likely"] for one in doubts_of_move(STATE, setting, to)] == likely


def test_it_says_what_was_given_and_what_can_be() -> None:
    said = [one["text"] for to in (2731, 580) for one in doubts_of_move(STATE, "saddle_height", to)]
    assert said == ["2731 mm is not possible: from 200 to 1200 mm.", "From 731 mm to 580 mm in one go."]
    limit = doubts_of_move(STATE, "pressure_front", 3.6)[0]
    assert (limit["text"], limit["level"]) == ("On the bike at most 3.5 bar is marked, and this is 3.6 bar.", "stop")


def test_what_is_usual_is_possible() -> None:
    for setting in SETTINGS:
        least, most = setting["possible"]
        low, high = setting["usual"]
        assert least <= low < high <= most, setting["setting"]


@pytest.mark.parametrize(
    ("measure", "unit", "low", "span"),
    [
        ("pad_front", "mm", None, (0, 12)),
        ("pressure_rear", "bar", 2, (0, 20)),
        ("joint.stem to steerer", "N·m", 5, (0, 400)),
        ("own_gap", "mm", None, (0, 3000)),
        ("own_offset", "mm", -2, (-3000, 3000)),
        ("own_noise", "dB", None, None),
    ],
)
def test_how_far_a_value_in_a_check_can_go(
    measure: str, unit: str, low: float | None, span: tuple[float, float] | None
) -> None:
    assert possible_in_check(measure, unit, low) == span


def test_every_item_that_measures_says_so() -> None:
    for check in all_checks():
        for item in prepare(check, STATE)["items"]:
            assert ("possible" in item) == bool(item["measure"]), item["item"]
            if item["measure"]:
                assert item["possible"][0] >= 0, item["item"]
