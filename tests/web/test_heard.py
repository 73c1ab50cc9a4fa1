"""What is said at the trackside in German, French and Spanish: put into English by the phone, understood by the kernel."""

import re

import pytest
from playwright.sync_api import Browser, expect

from pinchbolt.kernel.adjustable import SETTINGS
from pinchbolt.kernel.spoken import CALLED, WAYS, spoken
from tests.web.checking import PATIENT, hand
from tests.web.in_node import asked
from tests.web.phone import tell
from tests.web.workshop import ROOT, ServedWorkshop

SLATE = "bike/bdffbd8b-ed83-5412-9e90-cae5398fb977"

# Every setting once at least, in each language, as it stands at 10 (pressures 2.4, turns and steps 0).
SAID: dict[str, list[tuple[str, str, float]]] = {
    "de": [
        ("Sattel 2 hoch", "saddle_height", 12),
        ("Sattelhöhe auf 710", "saddle_height", 710),
        ("Sattel um zwei Millimeter tiefer", "saddle_height", 8),
        ("den Sattel bitte zweieinhalb runter", "saddle_height", 7.5),
        ("Sattel 3 zurück", "saddle_setback", 13),
        ("Sattel 3 nach vorn", "saddle_setback", 7),
        ("Sattelspitze ein halbes Grad nach unten", "saddle_tilt", 9.5),
        ("Lenker 5 hoch", "bar_height", 15),
        ("Lenker 5 nach vorne", "bar_reach", 15),
        ("Lenkerneigung 1 Grad hoch", "bar_tilt", 11),
        ("Distanzringe 5 weniger", "spacers_below", 5),
        ("linker Hebel 2 rein", "lever_reach_left", 8),
        ("Bremshebel rechts 2 nach außen", "lever_reach_right", 12),
        ("Hebelhöhe links 3 höher", "lever_height_left", 13),
        ("rechter Griff 3 tiefer", "lever_height_right", 7),
        ("Hebelwinkel links 1 hoch", "lever_angle_left", 11),
        ("Hebelwinkel rechts 1 Grad runter", "lever_angle_right", 9),
        ("Druck vorn 2,2", "pressure_front", 2.2),
        ("vorn 2,2 bar", "pressure_front", 2.2),
        ("Reifendruck hinten 0,2 weniger", "pressure_rear", 2.2),
        ("Hinterrad zwei Komma fünf bar", "pressure_rear", 2.5),
        ("Beläge vorn eine viertel Umdrehung rein", "pad_contact_front", -0.25),
        ("Druckpunkt hinten halbe Umdrehung raus", "pad_contact_rear", 0.5),
        ("Schaltung hinten dreiviertel Umdrehung raus", "index_rear", 0.75),
        ("Zugspannung vorne anderthalb Umdrehungen rein", "index_front", -1.5),
        ("Feinabstimmung hinten 2 Klicks rein", "trim_rear", 2),
        ("Feinabstimmung vorn ein Schritt raus", "trim_front", -1),
        ("Leitrolle eine Umdrehung enger", "gap_rear", 1),
        ("Anschlag kleinstes Ritzel viertel rein", "limit_high_rear", 0.25),
        ("Anschlag größtes Ritzel viertel raus", "limit_low_rear", -0.25),
        ("Anschlag großes Kettenblatt viertel rein", "limit_high_front", 0.25),
        ("Anschlag kleines Kettenblatt viertel rein", "limit_low_front", 0.25),
        ("Leitblech vorn 1 hoch", "cage_height_front", 11),
    ],
    "fr": [
        ("selle plus haut 2", "saddle_height", 12),
        ("monte la selle de deux millimètres", "saddle_height", 12),
        ("hauteur de selle à 710", "saddle_height", 710),
        ("baisse la selle d'un demi centimètre", "saddle_height", 5),
        ("selle en arrière 3", "saddle_setback", 13),
        ("avance la selle de 3", "saddle_setback", 7),
        ("bec de selle plus bas d’un demi degré", "saddle_tilt", 9.5),
        ("cintre 5 plus haut", "bar_height", 15),
        ("cintre 5 en avant", "bar_reach", 15),
        ("inclinaison cintre 1 degré plus haut", "bar_tilt", 11),
        ("entretoises 5 moins", "spacers_below", 5),
        ("levier gauche 2 plus près", "lever_reach_left", 8),
        ("levier droit 2 plus loin", "lever_reach_right", 12),
        ("cocotte gauche 3 plus haut", "lever_height_left", 13),
        ("hauteur levier droite 3 plus bas", "lever_height_right", 7),
        ("angle levier gauche 1 plus haut", "lever_angle_left", 11),
        ("angle levier droit 1 degré plus bas", "lever_angle_right", 9),
        ("pression avant 2,2", "pressure_front", 2.2),
        ("pneu à l'avant 2,2 bars", "pressure_front", 2.2),
        ("pression arrière 0,2 moins", "pressure_rear", 2.2),
        ("pneu arrière deux virgule cinq bar", "pressure_rear", 2.5),
        ("plaquettes avant quart de tour dedans", "pad_contact_front", -0.25),
        ("plaquettes arrière un demi-tour dehors", "pad_contact_rear", 0.5),
        ("indexation arrière trois quarts de tour dehors", "index_rear", 0.75),
        ("molette avant un tour et demi dedans", "index_front", -1.5),
        ("réglage fin arrière 2 crans vers l'intérieur", "trim_rear", 2),
        ("réglage fin avant un cran vers l’extérieur", "trim_front", -1),
        ("galet un tour plus près", "gap_rear", 1),
        ("butée plus petit pignon un quart dedans", "limit_high_rear", 0.25),
        ("butée plus grand pignon un quart dehors", "limit_low_rear", -0.25),
        ("butée grand plateau quart dedans", "limit_high_front", 0.25),
        ("butée petit plateau quart dedans", "limit_low_front", 0.25),
        ("fourchette avant 1 plus haut", "cage_height_front", 11),
    ],
    "es": [
        ("sillín arriba 2", "saddle_height", 12),
        ("sube el sillín dos milímetros", "saddle_height", 12),
        ("altura del sillín a 710", "saddle_height", 710),
        ("sillín 2,5 más bajo", "saddle_height", 7.5),
        ("sillín 3 atrás", "saddle_setback", 13),
        ("sillín hacia delante 3", "saddle_setback", 7),
        ("punta del sillín medio grado abajo", "saddle_tilt", 9.5),
        ("manillar 5 arriba", "bar_height", 15),
        ("manillar 5 adelante", "bar_reach", 15),
        ("inclinación del manillar 1 grado arriba", "bar_tilt", 11),
        ("espaciadores 5 menos", "spacers_below", 5),
        ("maneta izquierda 2 más cerca", "lever_reach_left", 8),
        ("maneta derecha 2 más lejos", "lever_reach_right", 12),
        ("altura maneta izquierda 3 arriba", "lever_height_left", 13),
        ("maneta derecha 3 abajo", "lever_height_right", 7),
        ("ángulo maneta izquierda 1 arriba", "lever_angle_left", 11),
        ("ángulo maneta derecha 1 grado abajo", "lever_angle_right", 9),
        ("presión delantera 2,2", "pressure_front", 2.2),
        ("delante 2,2 bar", "pressure_front", 2.2),
        ("presión trasera 0,2 menos", "pressure_rear", 2.2),
        ("rueda trasera dos coma cinco bares", "pressure_rear", 2.5),
        ("pastillas delanteras un cuarto de vuelta dentro", "pad_contact_front", -0.25),
        ("pastillas traseras media vuelta fuera", "pad_contact_rear", 0.5),
        ("cambio trasero tres cuartos de vuelta fuera", "index_rear", 0.75),
        ("tensor delantero una vuelta y media dentro", "index_front", -1.5),
        ("ajuste fino detrás 2 pasos dentro", "trim_rear", 2),
        ("ajuste fino delante un paso fuera", "trim_front", -1),
        ("polea una vuelta más cerca", "gap_rear", 1),
        ("tope piñón más pequeño un cuarto dentro", "limit_high_rear", 0.25),
        ("tope piñón más grande un cuarto fuera", "limit_low_rear", -0.25),
        ("tope plato grande un cuarto dentro", "limit_high_front", 0.25),
        ("tope plato pequeño un cuarto dentro", "limit_low_front", 0.25),
        ("jaula delantera 1 arriba", "cage_height_front", 11),
    ],
}
STATE = {"settings": {s["setting"]: {"value": 2.4 if s["unit"] == "bar" else 10} for s in SETTINGS if s["unit"] != "turns"}}
STATE["settings"] |= {name: {"value": 0} for name in ("trim_rear", "trim_front")}


def english(code: str, texts: list[str]) -> list[str]:
    return asked("heard.mjs", {"code": code, "texts": texts})


@pytest.mark.parametrize("code", SAID)
def test_every_setting_is_moved_in_the_persons_own_words(code: str) -> None:
    texts = [text for text, _, _ in SAID[code]]
    wrong: list[str] = []
    for (text, setting, to), told in zip(SAID[code], english(code, texts), strict=True):
        answer = spoken(told, STATE)
        found = answer["found"]
        if found is None or found["setting"] != setting or abs(found["to"] - to) > 1e-9:
            wrong.append(f"{text} | {told} | {found or answer['wanted']}")
    assert wrong == [], "\n".join(wrong)
    assert {setting for _, setting, _ in SAID[code]} == {s["setting"] for s in SETTINGS}


@pytest.mark.parametrize(
    ("code", "said", "reason"),
    [
        ("de", "Sattel 2 runter, weil das linke Knie oben schmerzt", "das linke Knie oben schmerzt"),
        ("fr", "selle plus bas 2 parce qu’il a mal à l’avant du genou", "il a mal à l’avant du genou"),
        ("es", "sillín abajo 2 porque la rodilla izquierda duele", "la rodilla izquierda duele"),
    ],
)
def test_the_reason_is_kept_as_it_was_said(code: str, said: str, reason: str) -> None:
    answer = spoken(english(code, [said])[0], STATE)
    assert (answer["found"]["to"], answer["reason"]) == (8, reason)


@pytest.mark.parametrize("code", SAID)
def test_what_a_language_does_not_know_is_told_as_it_was_said(code: str) -> None:
    assert english(code, ["Qvist 2.5mm ×"]) == ["Qvist 2.5mm ×"]
    assert spoken(english(code, ["Zwrbl 2"])[0], STATE)["unknown"] == ["zwrbl"]


@pytest.mark.parametrize("code", SAID)
def test_every_word_comes_to_words_the_kernel_reads(code: str) -> None:
    """No entry of a language leads nowhere: alone, it is understood (what it says may still be too little)."""
    source = (ROOT / "pwa" / "src" / "languages" / code / "heard.ts").read_text(encoding="utf-8")
    entries = re.findall(r'^  (?:"([^"]+)"|(\w+)): "([^"]*)",$', source, re.MULTILINE)
    assert len(entries) > 150
    for quoted, bare, word in entries:
        told = english_of(word)
        assert told == [], f"{quoted or bare}: {told} is none of the kernel's words"
    known = {word for call in CALLED.values() for one in call for word in one} | {w for way in WAYS.values() for w in way}
    assert {"saddle", "lever", "up", "out"} <= known & {word for *_, word in entries}


def english_of(word: str) -> list[str]:
    """What of an entry the kernel would not understand. "point" and "because" are said between others."""
    between = {"point": "saddle 2 point 5 up", "because": "saddle up 2 because"}
    return spoken(between.get(word, f"saddle 2 {word}"), STATE)["unknown"]


@pytest.mark.parametrize(
    ("code", "said", "told", "asked"),
    [
        ("de", "Sattel 2 hoch", "Sattelhöhe 710 mm → 712 mm 2 mm höher", "Sattelhöhe, "),
        ("fr", "selle monte 2", "Hauteur de selle 710 mm → 712 mm 2 mm haut", "Hauteur de selle, "),
        ("es", "sillín sube 2", "Altura de sillín 710 mm → 712 mm 2 mm arriba", "Altura de sillín, "),
    ],
)
def test_it_is_typed_in_ones_own_language_and_answered_in_it(
    browser: Browser, season: ServedWorkshop, code: str, said: str, told: str, asked: str
) -> None:
    with hand(browser, season, season.code_for("Bas"), f"a phone in {code}") as new:
        page = new.page
        tell(page, f"localStorage.setItem('pinchbolt-language', '{code}')")
        page.goto(f"{season.url}/{SLATE}")
        line = page.locator("#say")
        expect(line).to_have_attribute("placeholder", re.compile(re.escape(said)), timeout=PATIENT)
        page.context.set_offline(True)
        line.fill(said)
        expect(page.locator("#say-told")).to_have_text(told, timeout=PATIENT)
        # A setting goes by what it is called here.
        line.fill(f"{asked.removesuffix(', ')} 715")
        expect(page.locator("#say-told")).to_contain_text("715 mm", timeout=PATIENT)
        # Asked back in it, too.
        line.fill(said.split(maxsplit=1)[0] + " 710")
        expect(page.locator("#say-told")).to_contain_text(asked, timeout=PATIENT)
