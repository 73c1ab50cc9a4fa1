"""The command line."""

import click

from pinchbolt import __version__
from pinchbolt.commands import backups, calc, copy, due, people, privacy, records, serve


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 110})
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


for command in (
    serve.serve,
    serve.demo,
    people.pair,
    people.devices,
    people.revoke,
    privacy.passphrase,
    privacy.forget,
    privacy.export_person,
    calc.calc,
    due.due,
    records.export,
    records.import_,
    records.verify,
    backups.backup,
    backups.restore,
    copy.copy,
):
    main.add_command(command)

if __name__ == "__main__":
    main()
