"""The kernel speaks English; a phone puts it over: every sentence, whatever is put into it, and nothing left out.

The made-up language has each letter of the kernel's own marked with a dot below (U+0323), so what was not put over shows.
"""

import json
import random
import re
import sys
from collections.abc import Iterator
from typing import Any

import pytest

from pinchbolt.kernel.adjustable import SETTINGS
from pinchbolt.kernel.catalogue import all_calculations
from pinchbolt.kernel.checks import all_checks
from pinchbolt.kernel.due import due
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.fits import fit_report
from pinchbolt.kernel.interfaces import INTERFACES
from pinchbolt.kernel.plan import PLAN, build_plan
from pinchbolt.kernel.record import fold
from pinchbolt.kernel.torques import torque_cards
from tests.kernel.random_inputs import fields
from tests.web.in_node import asked
from tests.web.workshop import ROOT

sys.path.insert(0, str(ROOT / "pwa" / "build"))

from sentences import kernel_sentences

HOLE = re.compile(r"\{(\d+)\}")
SEED = 20261125
# Texts put in that nobody translates: a name that was typed, and one with a sentence's own marks in it.
TYPED = ["Qvist", "ÅX 3000", "Zuo-Lar"]
# Units, and the texts of the hats.
NOT_WORDS = {"tyre", "cassette", "speed", "value"}
FIGURES = {"12.5": "12,5", "−0.25 mm": "−0,25 mm", "340": "340", "28 × 1.5 mm": "28 × 1,5 mm"}
WORDS = ["spline", "thread", "latest", "camber", "removed"]
# What the app's TELLING says: below it a template needs pieces that are known.
TELLING = 4


def marked(text: str) -> str:
    return "".join(
        part if HOLE.fullmatch(part) else re.sub(r"([^\W\d_])", "\\1\u0323", part) for part in re.split(r"(\{\d+\})", text)
    )


def turned(template: str) -> str:
    """The sentence marked, with what is put in the other way round, as a language may need it."""
    last = len(HOLE.findall(template)) - 1
    return HOLE.sub(lambda hole: f"{{{last - int(hole[1])}}}", marked(template))


def fill(template: str, pieces: list[str]) -> str:
    return HOLE.sub(lambda hole: pieces[int(hole[1])], template)


def said(told: dict[str, str], texts: list[str], mark: str = ",") -> list[str]:
    return asked("speaking.mjs", {"told": told, "mark": mark, "texts": texts})


@pytest.fixture(scope="module")
def sentences() -> list[str]:
    return list(kernel_sentences())


def test_each_sentence_is_found_whatever_is_put_in(sentences: list[str]) -> None:
    told = {one: turned(one) for one in sentences}
    hat = random.Random(SEED)
    cases: list[tuple[str, str]] = []
    for template in sentences:
        holes = len(HOLE.findall(template))
        letters = len(re.sub(r"\{\d+\}|[\W\d_]", "", template))
        # Where only a blank, a stop or a times parts two places, nobody could tell whose one inside of a piece is; nor whose a
        # unit is where the sentence has one behind the place.
        tight = letters < 2 * TELLING or re.search(r"\}([ .]| × )\{|\} mm", template) is not None
        words, figures, names = (
            [one for one in of if not (tight and re.search(r"[ .]", one))] for of in (WORDS, FIGURES, TYPED)
        )
        for _ in range(4 if holes else 1):
            put: list[tuple[str, str]] = []
            for _ in range(holes):
                word, figure, name = hat.choice(words), hat.choice(figures), hat.choice(names)
                ways = [(word, told[word]), (figure, FIGURES[figure]), (name, name)]
                put.append(hat.choice(ways[:2] if letters < TELLING else ways))
            cases.append((fill(template, [p for p, _ in put]), fill(told[template], [p for _, p in put])))
    answers = said(told, [text for text, _ in cases])
    wrong = [f"{text} | {answer} | {want}" for (text, want), answer in zip(cases, answers, strict=True) if answer != want]
    assert wrong == [], "\n".join(wrong[:40])


def test_what_people_typed_stays(sentences: list[str]) -> None:
    told = {one: marked(one) for one in sentences}
    typed = ["Qvist's blue one", "Größe 3, links", "squeaks when wet (again)", "12.5.2026", "M6", "", " ", "a", "{0}", "$&"]
    assert said(told, typed) == typed


def test_a_bar_is_a_unit_behind_a_figure_and_a_handlebar_elsewhere() -> None:
    told = {"bar": "Lenker", "Held {0} {1} too long": "{0} {1} zu lange gehalten", "The {0} {1}": "{0} {1}", "up": "hoch"}
    texts = ["Held 2.5 bar too long", "The bar up", "2.5 bar", "bar", "0.5 turns up"]
    assert said(told | {"turns": "Umdrehungen"}, texts) == [
        "2,5 bar zu lange gehalten",
        "Lenker hoch",
        "2,5 bar",
        "Lenker",
        "0,5 Umdrehungen hoch",
    ]


def _texts(value: Any, names: set[str], shown: bool = False) -> Iterator[str]:
    if isinstance(value, str) and shown:
        yield value
    elif isinstance(value, list):
        for one in value:
            yield from _texts(one, names, shown)
    elif isinstance(value, dict):
        for name, one in value.items():
            yield from _texts(one, names, name in names)


DECLARED = {"label", "help", "title", "question", "cautions", "source", "more", "less", "choices"}


def spoken_by_calculations() -> Iterator[str]:
    """What the calculations find in 60 hats of inputs each, and what they want where they refuse."""
    hat = random.Random(SEED)
    for calculation in all_calculations():
        for at in range(60):
            given = calculation.example if at == 0 else fields(calculation.inputs, hat, 0.1 if at % 3 == 0 else 0)
            try:
                answer = calculation.run(given)
            except InputError as error:
                yield from (one["wanted"] for one in error.problems)
                continue
            yield from (one["text"] for one in answer["findings"])
            yield from (one["formula"] for one in answer["working"] if one["symbol"] == "")


def spoken_of_bikes() -> Iterator[str]:
    """Of the demo's bikes: how they stand, what is due, what fits, what is to be tightened, what comes next."""
    for name in ("fern", "slate", "wren"):
        lines = (ROOT / "demo_data" / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()
        log: list[dict[str, Any]] = []
        for n, line in enumerate(lines, 1):
            told = json.loads(line)
            at = f"2026-05-{1 + n // 60:02d}T10:{n % 60:02d}:00.000Z"
            entry = {
                "id": f"e{n}",
                "noted_at": at,
                "stamp": f"{n:013d}",
                "device": "d",
                "n": n,
                "prev": "",
                "seen": n - 1,
                "by": "p",
            }
            log.append({"seq": n, "entry": {**entry, "subject": told["subject"], "kind": told["kind"], "body": told["body"]}})
        state = fold(log[0]["entry"]["subject"], log)
        report = fit_report(state["parts"], None, None)
        yield from _texts(state["standing"], {"words", "text", "clears", "caution"})
        yield from _texts(due(state, "2026-07-01T10:00:00.000Z", None), {"title", "text", "source"})
        yield from _texts(report, {"title", "reason", "with", "measure"})
        yield from _texts(torque_cards(state), {"joint", "condition", "caution", "source"})
        yield from _texts(build_plan(state, report["worst"]), {"title", "by"})


def test_nothing_the_kernel_says_is_left_in_english(sentences: list[str]) -> None:
    declared = [[c.describe() for c in all_calculations()], SETTINGS, INTERFACES, PLAN]
    texts = {text for one in declared for text in _texts(one, DECLARED)} | set(spoken_by_calculations())
    texts |= set(_texts(all_checks(None), {"title", "purpose", "do", "passes", "caution", "area"}))
    of_bikes = set(spoken_of_bikes())
    texts |= of_bikes
    told = {one: marked(one) for one in sentences}
    # Names of fields are for a program that sends wrong ones.
    asked = sorted(text for text in texts if not text.startswith("one of the fields"))
    left: list[str] = []
    demo = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "demo_data").glob("*.jsonl"))
    typed = set(re.findall(r"[A-Za-z]{4,}", demo.lower()))
    for text, answer in zip(asked, said(told, asked), strict=True):
        plain = set(re.findall(r"(?<![\w\u0323])[A-Za-z]{4,}(?![\w\u0323])", answer)) - NOT_WORDS
        plain = {one for one in plain if set(one) != {"a"} and not (text in of_bikes and one.lower() in typed)}
        if plain:
            left.append(f"{text} -> {sorted(plain)}")
    assert left == [], f"{len(left)} of {len(asked)}:\n" + "\n".join(left[:60])
