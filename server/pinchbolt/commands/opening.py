"""Opening the workshop for a command: what stands in the way is said in a sentence."""

from typing import Any

import click

from pinchbolt.commands.options import settings_from
from pinchbolt.settings import Settings
from pinchbolt.store import StoreError, Unsuitable
from pinchbolt.store.database import Database
from pinchbolt.store.migrations import TooNew
from pinchbolt.store.opening import open_database, place_of
from pinchbolt.workshop import Workshop


def database_of(settings: Settings) -> Database:
    """The database the settings name."""
    return database_at(place_of(settings.data, settings.database))


def database_at(place: str) -> Database:
    """The database at a place."""
    try:
        return open_database(place)
    except Unsuitable as error:
        raise click.UsageError(str(error)) from None


def workshop_of(settings: Settings) -> Workshop:
    """The workshop, made when it is not there."""
    database = database_of(settings)
    try:
        return Workshop(settings.data, place=settings.database)
    except (StoreError, TooNew, Unsuitable) as error:
        raise click.UsageError(f"{database.name}: {error}") from None


def opened(options: dict[str, Any]) -> Workshop:
    """The workshop that is there: a mistyped place is an error, not a new and empty workshop."""
    settings = settings_from(**options)
    try:
        there = database_of(settings).exists()
    except StoreError as error:
        raise click.UsageError(f"{database_of(settings).name}: {error}") from None
    if not there:
        raise click.UsageError(f"there is no workshop in {database_of(settings).name if settings.database else settings.data}")
    return workshop_of(settings)
