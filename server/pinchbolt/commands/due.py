"""`pinchbolt due`: what is due on all bikes, what stops a ride first."""

import json
from datetime import UTC, datetime
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from pinchbolt.commands.opening import opened
from pinchbolt.commands.options import FOUND_WRONG, setting_options
from pinchbolt.kernel.due import due_across
from pinchbolt.kernel.plain import objects
from pinchbolt.kernel.working import shown
from pinchbolt.store import Sight

WORDS = {"stop": "stops a ride", "care": "due", "fine": "worth doing", "coming": "coming"}


@click.command()
@click.option("--json", "as_json", is_flag=True, help="One JSON line a thing due.")
@click.option("--all", "with_snoozed", is_flag=True, help="What was put off too.")
@setting_options("data", "database")
def due(as_json: bool, with_snoozed: bool, **options: str | None) -> None:
    """Tell what is due on all bikes, what stops a ride first. Exit code 1 when anything stops a ride."""
    with opened(options) as workshop:
        states = [workshop.state(subject) for subject in workshop.log.subjects("bike/", Sight())]
        own = objects(workshop.state("workshop")["intervals"])
    now = datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    rows = [row for row in due_across(states, now, own) if with_snoozed or row["snoozed"] is None]
    if as_json:
        for row in rows:
            click.echo(json.dumps(row, ensure_ascii=False))
    else:
        _tell(rows)
    if any(row["level"] == "stop" for row in rows):
        raise SystemExit(FOUND_WRONG)


def _tell(rows: list[dict[str, Any]]) -> None:
    if not rows:
        click.echo("Nothing is due.")
        return
    table = Table("", "bike", "what", "left", "about", "", box=None, pad_edge=False)
    for row in rows:
        left = "" if row["left"] is None else f"{shown(row['left'], 0)} {row['unit']}"
        put_off = f" (put off until {row['snoozed']['until']}: {row['snoozed']['reason']})" if row["snoozed"] else ""
        table.add_row(WORDS[row["level"]], row["bike"] or "unnamed", row["title"], left, row["on"] or "", row["text"] + put_off)
    Console().print(table)
