"""`pinchbolt backup` and `restore`: a workshop as one file, with its photos in a folder beside it."""

from pathlib import Path

import click

from pinchbolt.commands.opening import opened
from pinchbolt.commands.options import setting_options, settings_from
from pinchbolt.photos.keeping import Photos
from pinchbolt.store import Unsuitable
from pinchbolt.store.lives import InUse
from pinchbolt.store.opening import is_server, place_of
from pinchbolt.store.sqlite import restoring
from pinchbolt.workshop import PHOTOS


def photos_beside(file: Path) -> Path:
    """The folder of a backup's photos."""
    return file.with_name(file.name + ".photos")


@click.command()
@click.argument("file", type=click.Path(exists=False, path_type=Path))
@setting_options("data", "database")
def backup(file: Path, **options: str | None) -> None:
    """Copy everything to the new FILE and the photos to FILE.photos, also while the server runs."""
    if file.exists():
        raise click.UsageError(f"{file} is there already")
    with opened(options) as workshop:
        try:
            workshop.log.backup(file)
        except Unsuitable as error:
            raise click.UsageError(str(error)) from None
        # After the log: an entry is there before its photo, so no photo of an entry in the copy is missed that was here.
        many = workshop.photos.copy_to(Photos(photos_beside(file)))
        click.echo(f"{file}: everything up to seq {workshop.log.top()} or later")
        click.echo(f"{photos_beside(file)}: {many} photos" if many else "no photos")


@click.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@setting_options("data", "database")
def restore(file: Path, **options: str | None) -> None:
    """Go back to the backup FILE. The server must be stopped. What was there is kept beside it under another name.

    Photos come from FILE.photos when that is there; those that are here stay. The phones notice by themselves, fetch everything
    anew and send again what the backup lacks of their own.
    """
    settings = settings_from(**options)
    if is_server(settings.database):
        wanted = (
            "a PostgreSQL database goes back by pg_restore (see docs/administration.md); `pinchbolt copy` puts FILE into one"
        )
        raise click.UsageError(wanted)
    place = Path(place_of(settings.data, settings.database))
    try:
        restored, aside = restoring.restore(file, place)
    except restoring.NoBackup as error:
        raise click.UsageError(f"{file} cannot be restored: {error}") from None
    except InUse:
        raise click.UsageError(f"the workshop in {settings.data} is in use; stop its server first") from None
    many = Photos(photos_beside(file)).copy_to(Photos(settings.data / PHOTOS))
    if aside is not None:
        click.echo(f"what was there: {aside}")
    click.echo(f"restored up to seq {restored}, {many} photos brought back; the phones send what came after it")
