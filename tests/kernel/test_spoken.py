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


@pytest.mark.parametrize(
    ("said", "setting", "to"),
    [
        ("Spacers below the stem 45", "spacers_below", 45),
        ("spacers_below 45", "spacers_below", 45),  # as other languages say a label
        ("Upper pulley gap 1", "gap_rear", 1),
        ("Bar reach 400", "bar_reach", 400),
        ("Electronic trim, rear in 2", "trim_rear", 2),
        ("Saddle tilt nose up 1", "saddle_tilt", 0),
        ("Front cage height 3 up because it rubs", "cage_height_front", 3),
        # "in" is a way where the setting goes that way, else it is inches.
        ("saddle height 29 in", "saddle_height", 736.6),
        ('saddle height 29"', "saddle_height", 736.6),
        ("saddle up 0.5 in", "saddle_height", 722.7),
        ("left lever 2 in", "lever_reach_left", 68),
        ("left lever out 2 in", "lever_reach_left", 120.8),
        ("left lever reach to 2 in", "lever_reach_left", 50.8),
        ("back pads 0.25 in", "pad_contact_rear", -0.25),
    ],
)
def test_a_setting_goes_by_its_own_label_and_in_may_be_inches(said: str, setting: str, to: float) -> None:
    state = {"settings": STATE["settings"] | {"cage_height_front": {"value": 0}}}
    found = spoken(said, state)["found"]
    assert found is not None, spoken(said, state)["wanted"]
    assert (found["setting"], found["to"]) == (setting, pytest.approx(to, abs=1e-4))


@pytest.mark.parametrize(
    ("said", "to"),
    [
        ("saddle height 29", 736.6),
        ("saddle up 0.5", 722.7),
        ("saddle height 712 mm", 712),
        ("front pressure 25", 1.7237),
        ("front pressure 1.8 bar", 1.8),
        ("saddle tilt nose up 1", 0),
    ],
)
def test_a_bare_figure_is_in_the_unit_of_who_says_it(said: str, to: float) -> None:
    found = spoken(said, STATE, {"mm": 25.4, "bar": 0.06894757293168362})["found"]
    assert found["to"] == pytest.approx(to, abs=1e-4)


def test_a_label_with_words_of_another_setting_is_asked_about() -> None:
    assert spoken("saddle height bar 3", STATE)["found"] is None
    assert spoken("spacers_below forward 3", STATE)["found"] is None


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
