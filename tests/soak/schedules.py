"""The state machine of sync, run for a share of the schedules in a process of its own.

`python -m tests.soak.schedules COUNT SECONDS` prints its figures as JSON.
"""

import json
import sys
import time

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test  # pyright: ignore[reportUnknownVariableType]

from tests.sync.machine import TALLY, SyncMachine

# After each run of so many it is looked at the clock.
SHARE = 100


def main(count: int, seconds: float) -> None:
    until = time.monotonic() + seconds
    while TALLY.figures["schedules"] < count and time.monotonic() < until:
        run_state_machine_as_test(  # pyright: ignore[reportUnknownVariableType]
            SyncMachine,
            settings=settings(
                max_examples=min(SHARE, count - TALLY.figures["schedules"]),
                stateful_step_count=30,
                deadline=None,
                database=None,
                phases=(Phase.generate, Phase.shrink),
                suppress_health_check=list(HealthCheck),
            ),
        )
    print(json.dumps(TALLY.figures))


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]))
