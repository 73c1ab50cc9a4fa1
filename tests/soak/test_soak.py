"""The soak in small, in every run of the tests: real processes killed, bytes flipped, bad inputs."""

import argparse

from tests.soak.__main__ import is_sound, soak


def test_a_short_soak_loses_nothing() -> None:
    asked = argparse.Namespace(
        schedules=10, app_schedules=0, kills=8, flips=150, inputs=1500, pushes=300, minutes=5.0, workers=1, seed=2026
    )
    figures = soak(asked)
    assert is_sound(figures), figures
    assert figures["kills of real processes (SIGKILL)"] == 8
    assert figures["schedules"] >= 10
    assert figures["entries found"] > 100
    assert figures["bad inputs refused"] > 1000
    assert figures["mutated batches pushed"] == 300
