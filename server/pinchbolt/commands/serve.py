"""`pinchbolt serve` and `pinchbolt demo`: the server, and the way in for its owner."""

import socket
from pathlib import Path

import click
import uvicorn

from pinchbolt import demo as scenario
from pinchbolt.app import create_app
from pinchbolt.commands.options import setting_options, settings_from
from pinchbolt.commands.people import link
from pinchbolt.settings import Settings
from pinchbolt.workshop import Workshop

# The link printed at the start waits for somebody to fetch the phone.
LINK_SECONDS = 60 * 60
DEMO_WORKSHOP = "Alder Bench"
SERVER_OPTIONS = ("data", "host", "port", "workshop", "proxies", "certificate", "key")


@click.command()
@setting_options(*SERVER_OPTIONS)
def serve(**options: str | None) -> None:
    """Run the server and print a one-time pairing link for the owner."""
    settings = settings_from(**options)
    with Workshop(settings.data) as workshop:
        code = workshop.people.invite(_owner(workshop), LINK_SECONDS)
    _run(settings, code)


@click.command()
@click.option("--load-only", is_flag=True, help="Load the season into the folder and stop.")
@setting_options(*SERVER_OPTIONS)
def demo(load_only: bool, **options: str | None) -> None:
    """Run the server with an invented workshop's season in it.

    The season is loaded once, into a folder of its own beside the usual one; what is done with it stays there.
    """
    options["workshop"] = options["workshop"] or DEMO_WORKSHOP
    settings = settings_from(**options)
    if options["data"] is None:
        settings = settings._replace(data=Path(f"{settings.data}-demo"))
    with Workshop(settings.data) as workshop:
        if workshop.log.top() == 0:
            click.echo(f"Loaded {scenario.load(workshop)} entries into {settings.data}")
        else:
            click.echo(f"{settings.data} holds {workshop.log.top()} entries already")
        code = "" if load_only else workshop.people.invite(_owner(workshop), LINK_SECONDS)
    if not load_only:
        _run(settings, code)


def _owner(workshop: Workshop) -> str:
    """The first owner; a workshop without one gets one."""
    owners = [p for p in workshop.people.everyone() if p.role == "owner"]
    return owners[0].id if owners else workshop.people.add_person("Owner", "owner").id


def _run(settings: Settings, code: str) -> None:
    config = uvicorn.Config(
        create_app(settings),
        host=settings.host,
        port=settings.port,
        forwarded_allow_ips=settings.proxies,
        ssl_certfile=settings.certificate or None,
        ssl_keyfile=settings.key or None,
        access_log=False,
        server_header=False,
        log_level="warning",
        # A phone that syncs every minute keeps its line.
        timeout_keep_alive=75,
        # Streams of news never end by themselves; pushes under way get this long, in seconds.
        timeout_graceful_shutdown=5,
    )
    bound = _bind(settings)
    port = bound.getsockname()[1]
    host = f"[{settings.host}]" if ":" in settings.host else settings.host
    address = f"{settings.scheme}://{host}:{port}"
    click.echo(f"Pinchbolt is at {address}")
    click.echo(f"Pair the owner's device, once, within the hour: {link(address, code)}")
    uvicorn.Server(config).run(sockets=[bound])


def _bind(settings: Settings) -> socket.socket:
    """The listening socket; bound here so that the address printed is the real one (port 0 takes any)."""
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    # Named as TCP, or asyncio does not send small answers at once (it looks at the protocol's number) and each waits 40 ms.
    bound = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((settings.host, settings.port))
    except OSError as error:
        bound.close()
        raise click.UsageError(f"cannot listen on {settings.host} port {settings.port}: {error.strerror}") from None
    bound.set_inheritable(True)
    return bound
