"""The command line."""

from importlib import import_module

import click

from pinchbolt import __version__

COMMANDS = {
    "serve": "serve",
    "demo": "serve",
    "pair": "people",
    "devices": "people",
    "revoke": "people",
    "passphrase": "privacy",
    "forget": "privacy",
    "export-person": "privacy",
    "calc": "calc",
    "due": "due",
    "export": "records",
    "import": "records",
    "verify": "records",
    "backup": "backups",
    "restore": "backups",
    "copy": "copy",
}
"""Each command and the file of `commands/` it stands in."""


class Commands(click.Group):
    """The commands, each loaded when it is called: a calculation does not wait for the server's libraries."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        file = COMMANDS.get(cmd_name)
        if file is None:
            return None
        found = vars(import_module(f"pinchbolt.commands.{file}")).values()
        return next(one for one in found if isinstance(one, click.Command) and one.name == cmd_name)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 110})
@click.version_option(__version__, prog_name="pinchbolt")
def main() -> None:
    """Pinchbolt: the record and the calculator of a bicycle builder's bench.

    \b
    pinchbolt demo                     try it with an invented workshop
    pinchbolt serve                    run the workshop's server
    pinchbolt pair --person NAME       let a phone in
    pinchbolt calc                     the calculations
    pinchbolt due                      what is due, what stops a ride first

    Settings come from options, else from PINCHBOLT_ variables. Exit codes: 0 done, 1 found something wrong, 2 wrongly called.
    """


if __name__ == "__main__":
    main()
