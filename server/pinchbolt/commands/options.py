"""What the commands share: options made from the list of settings, and errors told field by field."""

import os
from collections.abc import Callable
from typing import Any, NoReturn, TypeVar

import click

from pinchbolt.kernel.errors import InputError
from pinchbolt.settings import SETTINGS, YES, Settings, read_settings

Command = TypeVar("Command", bound=Callable[..., Any])

DONE = 0
FOUND_WRONG = 1
WRONGLY_CALLED = 2


def setting_options(*names: str) -> Callable[[Command], Command]:
    """The options of the settings `names`, in that order."""

    def add(command: Command) -> Command:
        for setting in reversed([s for s in SETTINGS if s.name in names]):
            shown = f"{setting.help} [{setting.env}; default: {setting.default or 'none'}]"
            if setting.flag:
                command = click.option(setting.option, setting.name, flag_value=YES, default=None, help=shown)(command)
            else:
                command = click.option(setting.option, setting.name, default=None, metavar="TEXT", help=shown)(command)
        return command

    return add


def settings_from(**options: str | None) -> Settings:
    """The settings; wrong ones end the program, named one by one."""
    try:
        return read_settings(os.environ, options)
    except InputError as error:
        refuse(error)


def refuse(error: InputError) -> NoReturn:
    """Say what cannot be taken and end with exit code 2."""
    for one in error.problems:
        click.echo(f"{one['field']}: given {one['given']}; wanted {one['wanted']}", err=True)
    raise SystemExit(WRONGLY_CALLED)
