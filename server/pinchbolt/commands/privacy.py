"""`pinchbolt passphrase`, `forget` and `export-person`."""

import json

import click

from pinchbolt.access import privacy
from pinchbolt.commands.opening import workshop_of
from pinchbolt.commands.options import FOUND_WRONG, refuse, setting_options, settings_from
from pinchbolt.commands.people import find
from pinchbolt.kernel.errors import InputError


@click.command()
@click.option("--person", required=True, help="Name or id of the owner.")
@click.option("--clear", is_flag=True, help="Take the passphrase away.")
@setting_options("data", "database")
def passphrase(person: str, clear: bool, **options: str | None) -> None:
    """Set an owner's passphrase, asked for twice, for letting a new machine in. Lost it? `pinchbolt pair` lets you in."""
    with workshop_of(settings_from(**options)) as workshop:
        try:
            id = find(workshop.people, person, None)
            if clear:
                done = workshop.passphrases.clear(id)
                click.echo("The passphrase is gone" if done else "There was none")
                raise SystemExit(0 if done else FOUND_WRONG)
            typed: str = click.prompt("Passphrase", hide_input=True, confirmation_prompt=True)
            workshop.passphrases.set(id, typed)
        except InputError as error:
            refuse(error)
    click.echo("The passphrase is set")


@click.command()
@click.argument("person")
@click.option("--yes", is_flag=True, help="Do not ask.")
@setting_options("data", "database")
def forget(person: str, yes: bool, **options: str | None) -> None:
    """Erase a person's name and their devices' names and shut their devices out. The record keeps their id only.

    Names that somebody typed into a note stay there, and so do older backups: see docs/administration.md.
    """
    with workshop_of(settings_from(**options)) as workshop:
        try:
            id = find(workshop.people, person, None)
            if not yes:
                click.confirm(f"Erase the name of {person}? It cannot be had back.", abort=True)
            privacy.forget(workshop.database, id)
        except InputError as error:
            refuse(error)
    click.echo(f"{id} has no name any more")


@click.command("export-person")
@click.argument("person")
@setting_options("data", "database")
def export_person(person: str, **options: str | None) -> None:
    """Write all that is held about a person to the standard output, as JSON."""
    with workshop_of(settings_from(**options)) as workshop:
        try:
            told = privacy.everything_of(workshop.database, find(workshop.people, person, None))
        except InputError as error:
            refuse(error)
    click.echo(json.dumps(told, ensure_ascii=False, indent=1))
