"""Nothing is lost, whatever the order of faults. `SCHEDULES=2000` tries more; `make soak` tries ten thousand."""

import os

from hypothesis import HealthCheck, settings

from tests.sync.machine import SyncMachine

TestSync = SyncMachine.TestCase
TestSync.settings = settings(
    max_examples=int(os.environ.get("SCHEDULES", "40")),
    stateful_step_count=25,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
