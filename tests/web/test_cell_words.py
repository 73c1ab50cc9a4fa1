"""A part list may say its words in English or in the person's language; the record gets the words the rules know."""

import json
from typing import Any

import pytest

from pinchbolt.kernel.interfaces import CALIPER_MOUNTS, ENDS, FLUIDS, ROTOR_MOUNTS
from tests.web.in_node import asked
from tests.web.workshop import ROOT

LANGUAGES = sorted(path.parent.name for path in (ROOT / "pwa" / "src" / "languages").glob("*/kernel.json"))
OWN_WORDS = {"de": ("Ja", "Nein"), "es": ("Sí", "No"), "fr": ("Oui", "Non")}


def meant(flags: list[list[str]], known: list[list[Any]]) -> dict[str, list[Any]]:
    return asked("cell_words.mjs", {"flags": flags, "known": known})


def test_yes_and_no_in_english_and_in_the_persons_own_words() -> None:
    cases = {
        ("yes", "Oui", "Non"): True,
        ("Non", "Oui", "Non"): False,
        ("SI", "Sí", "No"): True,
        ("sí ", "Sí", "No"): True,
        ("n", "Ja", "Nein"): False,
        ("x", "Ja", "Nein"): True,
        ("0", "Ja", "Nein"): False,
        ("oui", "Ja", "Nein"): None,
        ("", "Ja", "Nein"): None,
        ("perhaps", "Yes", "No"): None,
    }
    assert meant([list(case) for case in cases], [])["flags"] == list(cases.values())


@pytest.mark.parametrize("code", LANGUAGES)
def test_what_the_app_shows_is_understood_in_a_list(code: str) -> None:
    folder = ROOT / "pwa" / "src" / "languages" / code
    said: dict[str, str] = json.loads((folder / "kernel.json").read_text(encoding="utf-8"))
    app = (folder / "app.ts").read_text(encoding="utf-8")
    yes, no = OWN_WORDS[code]
    assert f'yes: "{yes}"' in app
    assert f'no: "{no}"' in app
    for known in (ENDS, ROTOR_MOUNTS, CALIPER_MOUNTS, FLUIDS):
        shown = [said[one] for one in known]
        assert len(set(shown)) == len(known)
        cells = [*shown, *(one.upper() for one in known), "in my own words"]
        told = meant([[yes, yes, no], [no.upper(), yes, no]], [[cell, known, said] for cell in cells])
        assert told == {"flags": [True, False], "known": [*known, *known, "in my own words"]}


def test_a_field_without_such_words_stays_as_typed() -> None:
    assert meant([], [["M5 × 0.8", None, {}]])["known"] == ["M5 × 0.8"]
