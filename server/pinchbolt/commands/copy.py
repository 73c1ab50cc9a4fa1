"""`pinchbolt copy`: a workshop's record from SQLite to PostgreSQL or back."""

import click
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

from pinchbolt.commands.opening import database_at
from pinchbolt.commands.options import FOUND_WRONG
from pinchbolt.store import StoreError, Unsuitable, copying
from pinchbolt.store.migrations import TooNew


@click.command()
@click.argument("source", metavar="FROM")
@click.argument("target", metavar="TO")
def copy(source: str, target: str) -> None:
    """Copy a workshop's record FROM one database TO another, empty one, and hold the two against each other.

    Each is a file (SQLite) or postgresql://USER@HOST/NAME. FROM stays as it is. TO is a new life of the record: set `database`
    to it, and the phones notice by themselves, fetch everything anew and send what it lacks. Photos are files of the folder
    `data` and stay there.
    """
    giving, taking = database_at(source), database_at(target)
    try:
        if not giving.exists():
            raise click.UsageError(f"there is no workshop in {giving.name}")
        bar = Progress(
            TextColumn("copied"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn(), console=Console(stderr=True)
        )
        with bar:
            task = bar.add_task("copy", total=None)
            done = copying.copy(
                giving, taking, lambda total: bar.update(task, total=total), lambda rows: bar.advance(task, rows)
            )
    except copying.NotEmpty as error:
        raise click.UsageError(f"{taking.name} is not empty: {error}") from None
    except copying.Different as error:
        click.echo(f"{taking.name} is not what {giving.name} is: {error}; do not use it", err=True)
        raise SystemExit(FOUND_WRONG) from None
    except (StoreError, TooNew, Unsuitable) as error:
        raise click.UsageError(str(error)) from None
    counts = ", ".join(f"{many} {name}" for name, many in done.counts.items() if many)
    click.echo(f"{taking.name} holds what {giving.name} held: {counts or 'nothing'}; {done.devices} receipts the same")
