"""What is said at the trackside: understood as a mechanic would, and asked back where a mechanic would ask back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.adjustable import SETTINGS, setting_named
from pinchbolt.kernel.spoken import spoken

STATE = {
    "settings": {
        "saddle_height": {"value": 710},
        "saddle_setback": {"value": 198},
        "saddle_tilt": {"value": -1},
        "bar_height": {"value": 10},
        "lever_reach_left": {"value": 70},
        "lever_reach_right": {"value": 70},
        "pressure_front": {"value": 2.4},
        "pressure_rear": {"value": 2.5},
    }
}


@pytest.mark.parametrize(
    ("said", "setting", "to"),
    [
        ("saddle up 2", "saddle_height", 712),
        ("Saddle up two.", "saddle_height", 712),
        ("saddle up to", "saddle_height", 712),  # what a microphone makes of "two"
        ("saddle down 2mm because the knees hurt", "saddle_height", 708),
        ("saddle height 712", "saddle_height", 712),
        ("raise the saddle by one and a half", "saddle_height", 711.5),
        ("seat up two point five millimetres", "saddle_height", 712.5),
        ("saddle back 5", "saddle_setback", 203),
        ("saddle forward 3 mm", "saddle_setback", 195),
        ("saddle nose down half a degree", "saddle_tilt", -1.5),
        ("bar up 5", "bar_height", 15),
        ("bars down 2,5", "bar_height", 7.5),
        ("left lever in 2", "lever_reach_left", 68),
        ("front pressure 2.2", "pressure_front", 2.2),
        ("front 2.2 bar", "pressure_front", 2.2),
        ("front tyre down 0.2", "pressure_front", 2.2),
        ("back tyre down 0.2", "pressure_rear", 2.3),
        ("rear tyre 35 psi", "pressure_rear", 2.4132),
        ("rear index out half a turn", "index_rear", 0.5),
        ("rear index in three quarters of a turn", "index_rear", -0.75),
        ("rear trim in 2 clicks", "trim_rear", 2),
        ("pulley gap closer quarter turn", "gap_rear", 0.25),
        ("front pads in quarter", "pad_contact_front", -0.25),
        ("rear limit smallest cog in quarter turn", "limit_high_rear", 0.25),
    ],
)
def test_what_is_said_is_understood(said: str, setting: str, to: float) -> None:
    found = spoken(said, STATE)["found"]
    assert found is not None, spoken(said, STATE)["wanted"]
    assert (found["setting"], found["to"]) == (setting, pytest.approx(to, abs=1e-4))


def test_the_reason_is_kept_as_it_was_said() -> None:
    assert spoken("saddle down 2 because the Left knee hurts", STATE)["reason"] == "the Left knee hurts"


@pytest.mark.parametrize(
    ("said", "wanted"),
    [
        ("lever in 2", "Lever reach, left, Lever reach, right"),
        ("pressure up 0.1", "Pressure, front, Pressure, rear"),
        ("saddle 712", "Saddle height, Saddle setback"),
        ("saddle up", "how much"),
        ("up 2", "which setting"),
        ("", "which setting"),
        ("flux capacitor up 2", "not understood: flux, capacitor"),
        ("saddle up 2 bar", "in mm"),
        ("spacers more 5", "not on record"),
    ],
)
def test_what_cannot_be_told_is_asked_and_never_guessed(said: str, wanted: str) -> None:
    answer = spoken(said, STATE)
    assert answer["found"] is None
    assert wanted in answer["wanted"]


@given(st.text(max_size=60))
def test_no_babble_breaks_it(said: str) -> None:
    answer = spoken(said, STATE)
    assert answer["found"] is None or answer["wanted"] == ""


@given(st.sampled_from([s for s in SETTINGS if s["setting"] in STATE["settings"]]), st.integers(1, 30), st.booleans())
def test_every_setting_can_be_said_by_its_name_and_its_ways(setting: dict[str, str], amount: int, more: bool) -> None:
    way = setting["more" if more else "less"]
    answer = spoken(f"{setting['label'].replace(',', '')} {way} {amount}", STATE)
    assert answer["found"] is not None, answer
    assert answer["found"]["setting"] == setting["setting"]
    assert answer["found"]["by"] == pytest.approx(amount if more else -amount)
    assert answer["found"]["way"] == way


def test_a_setting_of_a_later_version_keeps_its_bare_name() -> None:
    assert setting_named("lever_angle")["label"] == "lever angle"
