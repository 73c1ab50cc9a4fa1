"""`pinchbolt pair`, `devices` and `revoke`: who may come in."""

import sys

import click
import segno

from pinchbolt.access.people import CODE_SECONDS, People
from pinchbolt.access.rules import ROLES
from pinchbolt.commands.opening import workshop_of
from pinchbolt.commands.options import FOUND_WRONG, refuse, setting_options, settings_from
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.errors import refuse as refusal


def link(address: str, code: str) -> str:
    """The pairing link. The code stands behind #, so that it is never sent in a request line nor logged."""
    return f"{address}/pair#{code}"


@click.command()
@click.option("--person", required=True, help="Name or id of the person; a new name needs --role.")
@click.option("--role", type=click.Choice(ROLES), help="Role of a new person, or a new role for a known one.")
@click.option("--event", help="For a checker: the id of the one event they are to see.")
@click.option("--url", help="Address the device reaches this server at. [default: from host and port]")
@setting_options("data", "database", "host", "port")
def pair(person: str, role: str | None, event: str | None, url: str | None, **options: str | None) -> None:
    """Print a one-time link, and its QR code, that pairs a device."""
    settings = settings_from(**options)
    with workshop_of(settings) as workshop:
        try:
            code = workshop.people.invite(find(workshop.people, person, role), event=event)
        except InputError as error:
            refuse(error)
    made = link((url or f"{settings.scheme}://{settings.host}:{settings.port}").rstrip("/"), code)
    click.echo(f"Good once, for {CODE_SECONDS // 60} minutes:\n{made}")
    if sys.stdout.isatty():
        segno.make(made, error="m").terminal(compact=True)


def find(people: People, named: str, role: str | None) -> str:
    """The id of the person named so; with a role one that is not known is added. Raises InputError."""
    by_id = people.person(named)
    found = [by_id] if by_id is not None else people.named(named)
    if len(found) > 1:
        raise refusal("person", named, "the id of one of them: " + ", ".join(p.id for p in found))
    if not found and role is None:
        raise refusal("role", "nothing", "one of " + ", ".join(ROLES) + f" for the new person {named}")
    if role is None:
        return found[0].id
    known = found[0] if found else None
    return people.add_person(known.name if known else named, role, known.id if known else None).id


@click.command()
@setting_options("data", "database")
def devices(**options: str | None) -> None:
    """List the devices and whose they are."""
    with workshop_of(settings_from(**options)) as workshop:
        for device, state in workshop.people.devices():
            click.echo(f"{device.id}  {state:8}  {device.person.role:8}  {device.person.name}: {device.name}")


@click.command()
@click.argument("device")
@setting_options("data", "database")
def revoke(device: str, **options: str | None) -> None:
    """Shut a device out at once. What it has sent stays; what it has not sent, it can save to a file."""
    with workshop_of(settings_from(**options)) as workshop:
        if not workshop.people.revoke(device):
            click.echo(f"{device}: no such device", err=True)
            raise SystemExit(FOUND_WRONG)
    click.echo(f"{device} is shut out")
