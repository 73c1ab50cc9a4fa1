"""A ± reaches the verdict: no answer is surer than what was measured."""

from typing import Any

import pytest

from pinchbolt.kernel.catalogue import all_calculations, find
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.quantities import NUMBER, finite

RANK = {"fine": 0, "care": 1, "stop": 2}


def gravest(answer: dict[str, Any]) -> int:
    return max((RANK[f["level"]] for f in answer["findings"]), default=0)


def usual(answer: dict[str, Any], name: str) -> dict[str, Any]:
    """Without what is said of a value that is only unusual: that is of what was put in, not of where it may lie."""
    return {"findings": [f for f in answer["findings"] if f["field"] != name or " is usually " not in f["text"]]}


def run(calculation: str, **changed: Any) -> dict[str, Any]:
    return find(calculation).run({**find(calculation).example, **changed})  # type: ignore[return-value]


NUMBERS = [
    (one.id, q.name)
    for one in all_calculations()
    for q in one.inputs
    if q.kind == NUMBER and finite(one.example.get(q.name)) is not None
]


@pytest.mark.parametrize(("calculation", "name"), NUMBERS, ids=[f"{one}-{name}" for one, name in NUMBERS])
def test_what_an_end_finds_counts_in_the_middle(calculation: str, name: str) -> None:
    """Against the calculation run at the ends themselves."""
    middle = float(str(find(calculation).example[name]))
    for share in (0.01, 0.1, 0.4):
        spread = share * abs(middle) or share
        ends: list[dict[str, Any]] = []
        try:
            answer = run(calculation, **{name: {"value": middle, "plus_minus": spread}})
            ends = [run(calculation, **{name: middle + sign * spread}) for sign in (-1, 1)]
        except InputError:
            continue
        assert gravest(answer) >= max(gravest(usual(end, name)) for end in ends)
        if gravest(answer) > gravest(run(calculation)):
            assert "fine" not in [f["level"] for f in answer["findings"]]


def test_a_stop_that_may_have_been_too_long_is_not_within() -> None:
    answer = run("stopping-check", speed=26, distance={"value": 6.2, "plus_minus": 2}, mass=100)
    assert "fine" not in [f["level"] for f in answer["findings"]]
    assert gravest(answer) == gravest(run("stopping-check", speed=26, distance=8.2, mass=100)) > 0


def test_a_joint_that_may_have_got_too_much_is_not_right() -> None:
    answer = find("torque-check").run({"applied": {"value": 5.7, "plus_minus": 0.5}, "spec_low": 5, "spec_high": 6})
    findings: Any = answer["findings"]
    assert findings[0] == {"level": "care", "field": "applied", "text": "Within the \u00b1 the answer may be another."}
    assert all(f["level"] != "fine" for f in findings)


def test_a_mark_that_may_not_agree_cuts_nothing() -> None:
    answer = run("steerer-cut", mark={"value": 226.5, "plus_minus": 3})
    assert gravest(answer) == 2
    assert any("differ" in f["text"] for f in answer["findings"])


def test_a_spread_that_changes_nothing_says_nothing() -> None:
    plain, spread = run("torque-check", applied=5.5), run("torque-check", applied={"value": 5.5, "plus_minus": 0.05})
    assert plain["findings"] == spread["findings"]
