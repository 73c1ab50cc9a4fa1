"""Torque: levers, bands and the torque law, with libraries that know nothing of bicycles."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry
from uncertainties import ufloat

from pinchbolt.kernel.bolts import PROOF_STRESS, STRESS_AREA
from pinchbolt.kernel.catalogue import find
from pinchbolt.kernel.errors import InputError

u: Any = UnitRegistry()

WRENCH = find("torque-adaptor").example
THREADS = sorted(STRESS_AREA)
CLASSES = sorted(PROOF_STRESS)


def adaptor(**changed: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("torque-adaptor").run({**WRENCH, **changed})
    return answer


def check(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("torque-check").run(inputs)
    return answer


def bolt(**inputs: Any) -> dict[str, Any]:
    answer: dict[str, Any] = find("bolt-preload").run(inputs)
    return answer


def levels(answer: dict[str, Any]) -> list[tuple[str, str]]:
    return [(f["level"], f["field"]) for f in answer["findings"]]


@given(st.floats(2, 20), st.floats(120, 600), st.floats(0, 90), st.floats(0, 180))
def test_the_hand_s_force_at_its_lever_about_the_bolt_is_the_torque(
    target: float, length: float, extra: float, angle: float
) -> None:
    out = adaptor(target=target, wrench_length=length, adaptor_length=extra, adaptor_angle=angle, wrench_max=400)["outputs"]
    force = out["setting"] / length
    # Bolt at the origin, drive at the adaptor's end, wrench along x: the hand pulls square to the wrench.
    drive_x = extra * math.cos(math.radians(angle))
    assert force * (drive_x + length) == pytest.approx(target)


def test_in_pounds_and_inches_as_the_handbook_has_it() -> None:
    # A torque-tool handbook: T = 30 lbf·ft, A = 12 in, B = 6 in, set 20 lbf·ft. Converted by pint.
    out = adaptor(
        target=(30 * u.lbf * u.ft).to("N*m").magnitude,
        wrench_length=(12 * u.inch).to("mm").magnitude,
        adaptor_length=(6 * u.inch).to("mm").magnitude,
        wrench_max=60,
    )["outputs"]
    assert out["setting"] == pytest.approx((20 * u.lbf * u.ft).to("N*m").magnitude)


def test_a_pound_inch_is_not_a_newton_metre() -> None:
    assert (1 * u.N * u.m / (1 * u.lbf * u.inch)).to("").magnitude == pytest.approx(8.85, abs=0.005)
    assert levels(check(applied=44, spec_low=4.5, spec_high=5.5)) == [("stop", "applied")]


@given(st.floats(2, 20), st.floats(0, 150), st.floats(0, 89))
def test_longer_is_set_lower_and_no_adaptor_not_at_all(target: float, extra: float, angle: float) -> None:
    assert adaptor(target=target, adaptor_length=0)["outputs"]["setting"] == pytest.approx(target)
    assert adaptor(target=target, adaptor_length=extra, adaptor_angle=angle)["outputs"]["setting"] <= target + 1e-9
    assert adaptor(target=target, adaptor_length=extra, adaptor_angle=90)["outputs"]["setting"] == pytest.approx(target)


def test_the_wrench_s_ends_are_inside_its_range() -> None:
    plain = {"adaptor_length": 0, "wrench_max": 24, "wrench_min": 6}
    assert levels(adaptor(target=24, **plain)) == []
    assert levels(adaptor(target=24.01, **plain)) == [("stop", "wrench_max")]
    assert levels(adaptor(target=6, **plain)) == []
    assert levels(adaptor(target=5.99, **plain)) == [("stop", "wrench_min")]


def test_below_a_fifth_of_full_scale_a_wrench_is_not_trusted_whatever_its_marks() -> None:
    # ISO 6789 as quoted in tool makers' manuals: checked at 20 %, 60 % and 100 % of the maximum.
    for least in (None, 1):
        assert levels(adaptor(target=4.8, adaptor_length=0, wrench_min=least, wrench_max=24)) == []
        assert levels(adaptor(target=4.79, adaptor_length=0, wrench_min=least, wrench_max=24)) == [("stop", "wrench_min")]


def test_a_wrench_whose_least_is_above_its_most_is_refused() -> None:
    with pytest.raises(InputError) as caught:
        adaptor(wrench_min=30, wrench_max=24)
    assert [p["field"] for p in caught.value.problems] == ["wrench_min"]


LIMITS = st.tuples(st.floats(1, 50), st.floats(0, 20)).map(lambda t: (t[0], t[0] + t[1]))


@given(st.floats(1, 60), LIMITS, st.floats(0, 10))
def test_within_is_said_only_when_the_whole_band_is_inside(
    applied: float, limits: tuple[float, float], accuracy: float
) -> None:
    answer = check(applied=applied, spec_low=limits[0], spec_high=limits[1], accuracy=accuracy)
    out = answer["outputs"]
    if limits[0] == limits[1]:
        # A single figure is a target: within the tool's band, of a tool as ISO 6789 allows it.
        inside = out["low"] <= limits[0] + 1e-6 and out["high"] >= limits[0] - 1e-6
        inside = inside and accuracy <= (6 if limits[0] <= 10 else 4) + 1e-6
    else:
        inside = out["low"] >= limits[0] - 1e-6 and out["high"] <= limits[1] + 1e-6
    assert (out["verdict"] == "within") <= inside
    assert out["low"] <= applied <= out["high"]
    single = limits[0] == limits[1]
    surely_above = (out["low"] if single else applied) > limits[1] * 1.000001
    surely_below = (out["high"] if single else applied) < limits[0] * 0.999999
    if surely_above or surely_below:
        assert out["verdict"] != "within"
        assert "stop" in [f["level"] for f in answer["findings"]]


@given(LIMITS)
def test_a_perfect_tool_is_within_from_limit_to_limit(limits: tuple[float, float]) -> None:
    for applied in limits:
        assert check(applied=applied, spec_low=limits[0], spec_high=limits[1], accuracy=0)["outputs"]["verdict"] == "within"


@given(st.floats(2, 30), st.floats(1, 8))
def test_low_and_high_are_told_apart_by_the_nearer_limit(applied: float, width: float) -> None:
    low = check(applied=applied, spec_low=applied * 0.99, spec_high=applied + width, accuracy=4)
    high = check(applied=applied, spec_low=applied * 0.5, spec_high=applied * 1.01, accuracy=4)
    assert (low["outputs"]["verdict"], high["outputs"]["verdict"]) == (
        "possibly-low",
        "possibly-high",
    ) or width < applied * 0.04


def test_one_figure_for_both_limits_has_no_place_between() -> None:
    out = check(applied=5, spec_low=5, spec_high=5, accuracy=4)
    assert out["outputs"]["position"] is None
    # A target, hit: the joint got 4.8 to 5.2 N·m.
    assert out["outputs"]["verdict"] == "within"
    assert levels(out) == [("fine", "applied")]


@given(st.floats(1, 30), st.sampled_from(THREADS), st.sampled_from(CLASSES), st.floats(0.1, 0.3))
def test_the_torque_law_turned_round_gives_the_torque(torque: float, thread: str, grade: str, factor: float) -> None:
    out = bolt(torque=torque, diameter=thread, property_class=grade, nut_factor=factor)["outputs"]
    back = factor * (out["preload"] * u.N) * (float(thread[1:]) * u.mm)
    assert back.to("N*m").magnitude == pytest.approx(torque)
    assert out["stress"] * STRESS_AREA[thread] == pytest.approx(out["preload"])
    assert out["proof_use"] == pytest.approx(out["stress"] / PROOF_STRESS[grade] * 100)


@pytest.mark.parametrize(("thread", "pitch"), [("M4", 0.7), ("M5", 0.8), ("M6", 1.0), ("M7", 1.0), ("M8", 1.25)])
def test_the_stress_areas_are_those_of_the_thread_s_form(thread: str, pitch: float) -> None:
    # ISO 898-1: As = π/4 (d − 0.9382 P)² (from memory); printed to three figures.
    area = math.pi / 4 * (float(thread[1:]) - 0.9382 * pitch) ** 2
    assert STRESS_AREA[thread] == pytest.approx(area, rel=2.5e-3)


@pytest.mark.parametrize(("factor", "torque"), [(0.3, 72.7), (0.25, 60.6), (0.2, 48.5), (0.15, 36.3), (0.1, 24.2)])
def test_one_clamp_force_needs_the_torque_in_proportion_to_the_nut_factor(factor: float, torque: float) -> None:
    # Mechanical Fastening, Joining, and Assembly, p. 85: 1275 lb on a 0.190 in screw, torque in lbf·in; here in newton-metres.
    here = bolt(torque=torque / 10, diameter="M5", property_class="12.9", nut_factor=factor)["outputs"]["preload"]
    reference = bolt(torque=4.85, diameter="M5", property_class="12.9", nut_factor=0.2)["outputs"]["preload"]
    assert here == pytest.approx(reference, rel=4e-3)


@pytest.mark.parametrize("factor", [0.30, 0.20, 0.18, 0.16, 0.12, 0.09])
def test_every_published_nut_factor_can_be_entered(factor: float) -> None:
    # Shigley, 9th ed., Table 8-15: black 0.30, zinc 0.20, lubricated 0.18, cadmium 0.16, anti-seize 0.12, locking nuts 0.09.
    out = bolt(torque=5, diameter="M5", property_class="12.9", nut_factor=factor)["outputs"]
    assert out["preload"] == pytest.approx(1000 / factor)


def test_what_the_nut_factor_scatters_the_clamp_force_scatters() -> None:
    factor = ufloat(0.2, 0.006)
    force = 5000 / (factor * 5)
    answer = bolt(torque=5, diameter="M5", property_class="12.9", nut_factor={"value": 0.2, "plus_minus": 0.006})
    assert answer["uncertainty"]["preload"]["likely"] == pytest.approx(force.std_dev, rel=0.04)


def test_proof_is_care_above_75_and_stop_above_100() -> None:
    # M5 8.8: 14.2 mm² × 580 MPa = 8236 N; 75 % are 6177 N, 6.177 N·m at K = 0.2 (derived).
    m5 = {"diameter": "M5", "property_class": "8.8"}
    assert ("care", "torque") not in levels(bolt(torque=6.177, **m5))
    assert ("care", "torque") in levels(bolt(torque=6.178, **m5))
    assert ("stop", "torque") not in levels(bolt(torque=8.236, **m5))
    assert ("stop", "torque") in levels(bolt(torque=8.237, **m5))


def test_what_grease_does_is_always_said() -> None:
    m5 = {"diameter": "M5", "property_class": "10.9", "torque": 5}
    assert "1.33 times" in str(bolt(**m5)["findings"])
    assert "1.33 times" in str(bolt(**m5, nut_factor=0.15)["findings"])
    assert levels(bolt(**m5, nut_factor=0.15)) == [("care", "nut_factor")]
    assert ("care", "nut_factor") in levels(bolt(diameter="M5", property_class="8.8", torque=7))
