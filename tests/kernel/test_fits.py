# ruff: noqa: E501  (a table is read across)
"""Rules of fit, pair by pair. Dimensions come from open standards or common practice as noted; nothing unknown ever passes."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinchbolt.kernel.fit_rules import RULES
from pinchbolt.kernel.fits import fit_report
from pinchbolt.kernel.interfaces import INTERFACES


def part(slot: str, **interface: Any) -> dict[str, Any]:
    return {"slot": slot, "name": slot, "interfaces": [dict(interface, kind=interface.pop("kind"))]}


def result(rule: str, *parts: dict[str, Any], mass: float | None = None) -> dict[str, Any]:
    return next(j for j in fit_report(list(parts), mass)["joints"] if j["rule"] == rule)


# rule, first part, second part, result. Sources: the open headset code (type, bore, steerer, crown race) as published by the
# headset trade; ISO 6696 thread from memory; the rest common practice.
PAIRS: list[tuple[str, dict[str, Any], dict[str, Any], str]] = [
    ("shell", part("frame", kind="shell", width=68, bore=46), part("bottom-bracket", kind="shell-fit", width=68, bore=46), "fits"),
    ("shell", part("frame", kind="shell", width=86.5, bore=41), part("bottom-bracket", kind="shell-fit", width=86.5, bore=46), "does-not-fit"),
    ("shell", part("frame", kind="shell", width=68, thread="1.37 in × 24"), part("bottom-bracket", kind="shell-fit", width=68, thread="1.37 in x 24"), "fits"),
    ("shell", part("frame", kind="shell", width=68, thread="M47 × 1"), part("bottom-bracket", kind="shell-fit", width=68, bore=46), "does-not-fit"),
    ("spindle", part("bottom-bracket", kind="spindle-seat", diameter=30), part("crank", kind="spindle", diameter=24), "fits-with"),
    ("spindle", part("bottom-bracket", kind="spindle-seat", diameter=24), part("crank", kind="spindle", diameter=30), "does-not-fit"),
    ("freehub", part("wheel-rear", kind="freehub", spline="wide, 12-speed"), part("cassette", kind="cassette", spline="Wide, 12-speed"), "fits"),
    ("cassette-chain", part("cassette", kind="cassette", speeds=12), part("chain", kind="chain", speeds=11), "does-not-fit"),
    ("shifter-mech", part("shifters", kind="shifter", speeds=12, pull="wired"), part("rear-mech", kind="rear-mech", speeds=12, pull="cable 1:1"), "does-not-fit"),
    ("largest-cog", part("cassette", kind="cassette", cog_max=42), part("rear-mech", kind="rear-mech", cog_max=36), "does-not-fit"),
    ("largest-cog", part("cassette", kind="cassette", cog_max=36), part("rear-mech", kind="rear-mech", cog_max=36), "fits"),
    ("chainring", part("crank", kind="ring-mount", bolts=4, circle=110), part("ring", kind="ring-pattern", bolts=5, circle=110), "does-not-fit"),
    ("steerer-stem", part("stem", kind="stem-bore", diameter=28.6), part("fork", kind="steerer", diameter=28.6), "fits"),
    ("steerer-stem", part("stem", kind="stem-bore", diameter=31.8), part("fork", kind="steerer", diameter=28.6), "fits-with"),
    ("headset-fork", part("fork", kind="steerer", diameter=28.6, crown=30), part("headset", kind="headset", steerer=28.6, crown=40), "fits-with"),
    ("headset-fork", part("fork", kind="steerer", diameter=28.6, crown=40), part("headset", kind="headset", steerer=28.6, crown=30), "does-not-fit"),
    ("bar", part("stem", kind="bar-clamp", diameter=31.8), part("bar", kind="bar", diameter=35.0), "does-not-fit"),
    ("bar", part("stem", kind="bar-clamp", diameter=31.8), part("bar", kind="bar", diameter=31.8), "fits"),
    ("seatpost", part("frame", kind="seat-tube", diameter=30.9), part("seatpost", kind="seatpost", diameter=27.2), "fits-with"),
    ("seatpost", part("frame", kind="seat-tube", diameter=27.2), part("seatpost", kind="seatpost", diameter=30.9), "does-not-fit"),
    ("post-insert", part("seatpost", kind="seatpost", bore=23), part("holder", kind="post-insert", diameter=24), "does-not-fit"),
    ("rails", part("saddle", kind="rails", width=7, height=9), part("seatpost", kind="rail-clamp", width=7, height=7), "does-not-fit"),
    ("axle", part("fork", kind="axle-seat", length=100, diameter=12, pitch=1.5), part("axle-front", kind="axle", length=100, diameter=12, pitch=1.0), "does-not-fit"),
    ("hub", part("frame", kind="axle-seat", length=142, diameter=12), part("wheel-rear", kind="hub", length=142, diameter=12), "fits"),
    ("rotor", part("wheel-front", kind="rotor-mount", mount="splined lockring"), part("rotor-front", kind="rotor", mount="six-bolt 44 mm"), "fits-with"),
    ("rotor", part("wheel-front", kind="rotor-mount", mount="six-bolt 44 mm"), part("rotor-front", kind="rotor", mount="splined lockring"), "does-not-fit"),
    ("rotor-size", part("fork", kind="caliper-seat", rotor_min=160, rotor_max=180), part("rotor-front", kind="rotor", diameter=140), "does-not-fit"),
    ("rotor-size", part("fork", kind="caliper-seat", rotor_min=140, rotor_max=160), part("rotor-front", kind="rotor", diameter=160), "fits-with"),
    ("fluid", part("shifters", kind="brake-lever", fluid="mineral"), part("brake-front", kind="caliper", fluid="glycol-ether"), "does-not-fit"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=25, hookless=True), part("tyre-front", kind="tyre", width=28, hookless=True), "does-not-fit"),
    # The hookless norm of 2023, as the trade press told it, against a rim marked before it.
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=25, hookless=True, tyre_min=28, tyre_max=50), part("tyre-front", kind="tyre", width=28, hookless=True), "does-not-fit"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=25, hookless=True, tyre_min=28, tyre_max=50, bead_seat=622), part("tyre-front", kind="tyre", width=30, hookless=True, bead_seat=622), "fits"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=25, hookless=True), part("tyre-front", kind="tyre", width=40), "does-not-fit"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=24, hookless=False), part("tyre-front", kind="tyre", width=40), "not-known"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=24, hookless=False, tyre_min=35, tyre_max=57, bead_seat=622), part("tyre-front", kind="tyre", width=40, bead_seat=622), "fits"),
    # The bead seat is what a tyre goes on or does not (ISO 5775-1): without it the width alone is no fit.
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=24, hookless=False, tyre_min=35, tyre_max=57, bead_seat=584), part("tyre-front", kind="tyre", width=40), "not-known"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=24, hookless=False, tyre_min=35, tyre_max=57), part("tyre-front", kind="tyre", width=40, bead_seat=622), "not-known"),
    ("tyre-rim", part("wheel-front", kind="rim", inner_width=24, hookless=False, tyre_min=35, tyre_max=57, bead_seat=584), part("tyre-front", kind="tyre", width=40, bead_seat=622), "does-not-fit"),
    ("tyre-room", part("frame", kind="clearance", width=40), part("tyre-rear", kind="tyre", measured=34), "does-not-fit"),
    ("tyre-room", part("frame", kind="clearance", width=42), part("tyre-rear", kind="tyre", measured=34), "fits"),
    ("valve", part("wheel-front", kind="rim", depth=38), part("valve-front", kind="valve", length=44), "fits-with"),
    ("valve", part("wheel-front", kind="rim", depth=38), part("valve-front", kind="valve", length=60), "fits"),
    ("hose", part("hose-front", kind="hose", length=900), part("route-front", kind="route", length=880, slack=25), "does-not-fit"),
    ("ports", part("hub-box", kind="ports", count=4, used=3), part("plugs", kind="plugs", count=0), "does-not-fit"),
    ("pedal", part("crank", kind="pedal-eye", thread="9/16 in × 20"), part("pedals", kind="pedal", thread="9/16 in × 20"), "fits"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "a", "b", "expected"), PAIRS, ids=[f"{i}-{p[0]}-{p[3]}" for i, p in enumerate(PAIRS)])
def test_pair(rule: str, a: dict[str, Any], b: dict[str, Any], expected: str) -> None:
    joint = result(rule, a, b)
    assert joint["result"] == expected, joint["reason"]
    assert joint["reason"]
    assert bool(joint["with"]) == (expected == "fits-with")


def test_every_rule_is_tried_above_but_the_plain_equalities() -> None:
    tried = {p[0] for p in PAIRS}
    assert {r["rule"] for r in RULES} - tried <= {"cassette-shifter", "headset-frame", "caliper", "front-mech"}


def test_every_kind_a_rule_speaks_of_is_in_the_library_with_the_dimensions_it_needs() -> None:
    library = {k["kind"]: {f["name"] for f in k["fields"]} for k in INTERFACES}
    for rule in RULES:
        for kind, needs in ((rule["a"], rule["needs_a"]), (rule["b"], rule["needs_b"])):
            assert {f for alternatives in needs for f in alternatives} <= library[kind], rule["rule"]


@given(st.data())
def test_a_missing_dimension_never_passes_as_a_fit(data: st.DataObject) -> None:
    rule, a, b, _ = data.draw(st.sampled_from(PAIRS))
    declared = next(r for r in RULES if r["rule"] == rule)
    side, needs = data.draw(st.sampled_from([(a, declared["needs_a"]), (b, declared["needs_b"])]))
    dropped = data.draw(st.sampled_from(needs))
    bare = dict(side, interfaces=[{k: v for k, v in side["interfaces"][0].items() if k not in dropped}])
    joint = result(rule, *([bare, b] if side is a else [a, bare]))
    assert joint["result"] == "not-known"
    assert joint["missing"]


@given(st.data())
def test_one_side_alone_is_not_known(data: st.DataObject) -> None:
    rule, a, b, _ = data.draw(st.sampled_from(PAIRS))
    alone = b if next(r for r in RULES if r["rule"] == rule)["may_be_empty"] else data.draw(st.sampled_from([a, b]))
    assert result(rule, alone)["result"] == "not-known"


def test_a_post_with_nothing_inside_asks_nothing() -> None:
    assert fit_report([part("seatpost", kind="seatpost", diameter=27.2)])["measure"] == ["a part with: seat tube"]


def test_two_axles_bought_as_one_part_go_each_to_its_end() -> None:
    axles = {"part": "x", "slot": "axles", "name": "thru-axles", "interfaces": [
        {"kind": "axle", "end": "front", "length": 100, "diameter": 12, "pitch": 1.5},
        {"kind": "axle", "end": "rear", "length": 142, "diameter": 12, "pitch": 1.5},
    ]}  # fmt: skip
    fork = part("fork", kind="axle-seat", length=100, diameter=12, pitch=1.5)
    frame = part("frame", kind="axle-seat", length=148, diameter=12, pitch=1.5)
    found = [(j["end"], j["result"]) for j in fit_report([axles, fork, frame])["joints"] if j["rule"] == "axle"]
    assert found == [("rear", "does-not-fit"), ("front", "fits")]


def test_a_front_wheel_is_not_held_against_a_rear_tyre() -> None:
    rim = part("wheel-front", kind="rim", inner_width=25, hookless=True)
    tyre = part("tyre-rear", kind="tyre", width=28, hookless=True)
    assert result("tyre-rim", rim, tyre)["result"] == "not-known"


def test_the_capacity_counts_both_differences() -> None:
    cassette = part("cassette", kind="cassette", cog_min=11, cog_max=36)
    crank = part("crank", kind="crank-rings", ring_min=30, ring_max=46)
    assert result("capacity", cassette, crank, part("rear-mech", kind="rear-mech", capacity=41))["result"] == "fits"
    assert result("capacity", cassette, crank, part("rear-mech", kind="rear-mech", capacity=40))["result"] == "does-not-fit"
    assert result("capacity", cassette, part("rear-mech", kind="rear-mech", capacity=40))["result"] == "not-known"


def test_the_least_weight_limit_counts() -> None:
    light, strong = part("wheel-front", kind="load-limit", limit=110), part("frame", kind="load-limit", limit=130)
    assert result("load", light, strong, mass=109)["result"] == "fits"
    assert result("load", light, strong, mass=111)["stop"] is True
    assert result("load", light, strong)["result"] == "not-known"


def test_what_must_be_measured_is_listed() -> None:
    report = fit_report([part("frame", kind="clearance", width=42), part("tyre-rear", kind="tyre", width=32)])
    assert "tyre-rear: measured width on this rim" in report["measure"]


def test_what_must_be_measured_is_told_in_words_never_by_a_field_s_bare_name() -> None:
    """Of every rule, each needed field taken away: what is left to measure is a label the form shows, without its hint."""
    labels = {str(f["label"]).split(":")[0].split(",")[0].lower() for one in INTERFACES for f in one["fields"]}
    for rule, a, b, _ in PAIRS:
        for side in (a, b):
            bare = dict(side, interfaces=[{"kind": side["interfaces"][0]["kind"]}])
            for told in result(rule, *([bare, b] if side is a else [a, bare]))["missing"]:
                said = told.split(": ", 1)[1].lower().split(" or ")
                assert " or ".join(said) in labels or set(said) <= labels, told


def test_a_workshop_s_own_kind_is_told_by_its_own_label() -> None:
    lugs = dict(BAYONET, fields=[{"name": "width", "unit": "mm", "label": "Width over the lugs"}])
    parts = [part("bag", kind="bag-bayonet"), part("bar", kind="bag-seat", width=22)]
    assert "bag: width over the lugs" in fit_report(parts, None, [lugs])["measure"]


BAYONET = {
    "kind": "bag-bayonet",
    "label": "Bag bayonet",
    "fields": [{"name": "width", "unit": "mm", "label": "Width"}],
    "meets": "bag-seat",
}


@pytest.mark.parametrize(("seat", "expected"), [({"width": 22.0}, "fits"), ({"width": 24}, "does-not-fit"), ({}, "not-known")])
def test_a_kind_of_the_workshops_own_is_held_against_what_it_meets(seat: dict[str, Any], expected: str) -> None:
    parts = [part("bag", kind="bag-bayonet", width=22), part("bar", kind="bag-seat", **seat)]
    found = next(j for j in fit_report(parts, None, [BAYONET])["joints"] if j["rule"] == "own-bag-bayonet")
    assert found["result"] == expected
    assert found["source"] == "the workshop's own rule"


def test_a_kind_that_meets_itself_is_not_held_against_itself() -> None:
    coupling = {
        "kind": "coupling",
        "label": "Coupling",
        "fields": [{"name": "size", "unit": "text", "label": "Size"}],
        "meets": "coupling",
    }
    alone = fit_report([part("frame", kind="coupling", size="A")], None, [coupling])["joints"]
    assert [j["result"] for j in alone if j["rule"] == "own-coupling"] == ["not-known"]


def test_a_joint_says_which_parts_and_which_end_of_the_bike() -> None:
    hub, axle = (
        part("wheel-rear", kind="hub", length=142, diameter=12),
        part("frame", kind="axle-seat", length=142, diameter=12),
    )
    found = result("hub", hub | {"part": "h"}, axle | {"part": "f"})
    assert (found["part_a"], found["part_b"], found["end"]) == ("f", "h", "rear")
