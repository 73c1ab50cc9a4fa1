"""The cut that cannot be undone: two routes, never shorter than either, never told too soon."""

import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.catalogue import find
from tests.kernel.vectors_steerer import PARTS

LENGTHS = st.fixed_dictionaries(
    {
        "head_tube": st.floats(90, 240),
        "lower_stack": st.floats(0, 15),
        "upper_stack": st.floats(2, 35),
        "spacers_below": st.floats(0, 30),
        "stem_height": st.floats(35, 50),
        "spacers_above": st.floats(0, 20),
        "top_gap": st.floats(2, 5),
    }
)


def run(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("steerer-cut").run({**PARTS, **changed})
    return answer


def stops(answer: dict[str, Any]) -> list[str]:
    return [f["field"] for f in answer["findings"] if f["level"] == "stop"]


@given(LENGTHS, st.floats(-3, 3))
def test_never_cut_shorter_than_either_route_and_never_on_routes_apart(parts: dict[str, float], off: float) -> None:
    total = math.fsum(parts[name] for name in parts if name != "top_gap")
    out = run(**parts, mark=total + off, steerer_uncut=450)["outputs"]
    assert out["cut_by_sum"] == pytest.approx(total - parts["top_gap"])
    assert out["disagreement"] == pytest.approx(abs(off), abs=1e-9)
    if abs(off) > 1 + 1e-6:
        assert not out["agreed"]
        assert out["cut_length"] is None
    if out["cut_length"] is not None:
        assert out["cut_length"] >= max(out["cut_by_sum"], out["cut_by_mark"])
        assert out["cut_length"] + out["removed"] == pytest.approx(450)


@given(LENGTHS, st.floats(-1, 1))
def test_the_figure_told_in_words_is_never_below_the_exact_one(parts: dict[str, float], off: float) -> None:
    total = math.fsum(parts[name] for name in parts if name != "top_gap")
    answer = run(**parts, mark=total + off, steerer_uncut=450, plug_depth=100)
    told = [re.search(r"Mark the cut at ([0-9.]+) mm", f["text"]) for f in answer["findings"]]
    figures = [float(m[1]) for m in told if m]
    for figure in figures:
        assert answer["outputs"]["cut_length"] - 1e-6 <= figure < answer["outputs"]["cut_length"] + 0.1
    assert bool(figures) != bool(stops(answer))


@given(LENGTHS, st.floats(0.5, 10))
def test_what_is_added_to_the_parts_stays_on_the_steerer(parts: dict[str, float], more: float) -> None:
    here = run(**parts)["outputs"]["cut_by_sum"]
    assert run(**{**parts, "spacers_above": parts["spacers_above"] + more})["outputs"]["cut_by_sum"] == pytest.approx(
        here + more
    )


def test_a_cut_by_one_route_only_is_refused() -> None:
    answer = run()
    assert answer["outputs"]["cut_length"] is None
    assert answer["outputs"]["removed"] is None
    assert stops(answer) == ["mark"]


def test_the_tolerance_itself_still_agrees() -> None:
    assert run(mark=231)["outputs"]["agreed"]
    assert not run(mark=231.01)["outputs"]["agreed"]
    assert run(mark=231.01, tolerance=2)["outputs"]["agreed"]


def test_a_steerer_already_short_is_stopped_by_either_route() -> None:
    assert "steerer_uncut" in stops(run(mark=230, steerer_uncut=226.9))
    assert "steerer_uncut" in stops(run(steerer_uncut=226.9))
    assert stops(run(mark=230, steerer_uncut=227)) == []
    assert "Nothing to cut" in str(run(mark=230, steerer_uncut=227)["findings"])


def test_the_stem_stands_at_most_5_mm_above_the_steerer() -> None:
    # ISO 4210-2:2014, 4.7.4.
    at = {"spacers_above": 0, "gap_allowed": 10}
    assert stops(run(**at, top_gap=5, mark=225)) == []
    assert stops(run(**at, top_gap=5.1, mark=225)) == ["spacers_above"]
    assert stops(run(spacers_above=5, gap_allowed=10, top_gap=8, mark=230)) == []


def test_part_of_the_clamp_on_air_is_said_even_with_a_thin_spacer() -> None:
    found = run(spacers_above=1, top_gap=3, mark=226)["findings"]
    (care,) = [f for f in found if f["level"] == "care"]
    assert "2.0 mm of the clamp hold no steerer" in care["text"]


def test_the_plug_must_back_the_whole_clamp() -> None:
    # 5 mm spacer + 40 mm stem − 3 mm gap = 42 mm from the steerer's end to the clamp's lower edge.
    assert stops(run(mark=230, plug_depth=42)) == []
    assert stops(run(mark=230, plug_depth=41.9)) == ["plug_depth"]
    assert stops(run(mark=230, plug_depth=41.9, carbon=False)) == []


def test_a_plug_not_measured_is_not_taken_as_deep_enough() -> None:
    found = [(f["level"], f["field"]) for f in run(mark=230, plug_depth=None)["findings"]]
    assert ("care", "plug_depth") in found
    assert ("care", "plug_depth") not in [
        (f["level"], f["field"]) for f in run(mark=230, plug_depth=None, carbon=False)["findings"]
    ]


def test_the_fork_s_own_spacer_limit_replaces_the_usual_one() -> None:
    def cares(**changed: Any) -> bool:
        return ("care", "spacers_below") in [(f["level"], f["field"]) for f in run(**changed)["findings"]]

    assert cares(spacers_below=31)
    assert not cares(spacers_below=30)
    assert not cares(spacers_below=31, carbon=False)
    assert not cares(spacers_below=31, spacer_limit=40)
    assert cares(spacers_below=21, spacer_limit=20, carbon=False)


def test_an_offcut_heavier_than_the_fork_is_a_wrong_mass() -> None:
    answer = run(mark=230, fork_mass=100, steerer_mass_per_mm=5)
    assert answer["outputs"]["fork_mass_after"] is None
    assert stops(answer) == ["steerer_mass_per_mm"]


def test_plus_minus_on_every_length_adds_up() -> None:
    lengths = ("head_tube", "lower_stack", "upper_stack", "spacers_below", "stem_height", "spacers_above")
    answer = run(**{name: {"value": PARTS[name], "plus_minus": 0.5} for name in lengths})
    assert answer["uncertainty"]["cut_by_sum"]["worst"] == pytest.approx(3.0)
    assert answer["uncertainty"]["cut_by_sum"]["likely"] == pytest.approx(0.5 * math.sqrt(6))


def test_cutting_carbon_is_warned_of_where_the_cut_is_made() -> None:
    cautions = " ".join(find("steerer-cut").cautions)
    for word in ("wet", "Respirator".lower(), "gloves", "eye", "clamp", "fine blade", "Measure twice"):
        assert word in cautions or word.capitalize() in cautions
