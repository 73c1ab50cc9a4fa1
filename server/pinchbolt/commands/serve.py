"""`pinchbolt serve` and `pinchbolt demo`: the server, and the way in for its owner."""

import socket
import ssl
import sys
import threading
from contextlib import ExitStack
from pathlib import Path

import click
import segno
import uvicorn

from pinchbolt import demo as scenario
from pinchbolt.app import create_app
from pinchbolt.commands.logging import log_to_stderr
from pinchbolt.commands.opening import workshop_of
from pinchbolt.commands.options import setting_options, settings_from
from pinchbolt.commands.people import link
from pinchbolt.lan.addresses import host_name, own_addresses, own_names
from pinchbolt.lan.authority import FOLDER, Authority
from pinchbolt.lan.renewal import Renewal
from pinchbolt.lan.trusting import create_page
from pinchbolt.settings import SETTINGS, Settings
from pinchbolt.workshop import Workshop

# The link printed at the start waits for somebody to fetch the phone.
LINK_SECONDS = 60 * 60
DEMO_WORKSHOP = "Alder Bench"
SERVER_OPTIONS = tuple(setting.name for setting in SETTINGS)


@click.command()
@setting_options(*SERVER_OPTIONS)
def serve(**options: str | None) -> None:
    """Run the server and print a one-time pairing link for the owner."""
    settings = settings_from(**options)
    with workshop_of(settings) as workshop:
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
    with workshop_of(settings) as workshop:
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
    log_to_stderr(settings.log)
    authority = _authority(settings) if settings.lan else None
    files = authority.files if authority else None
    config = uvicorn.Config(
        create_app(settings),
        host=settings.host,
        port=settings.port,
        forwarded_allow_ips=settings.proxies,
        ssl_certfile=files.certificate if files else settings.certificate or None,
        ssl_keyfile=files.key if files else settings.key or None,
        access_log=False,
        server_header=False,
        # The log is set up above, one for all.
        log_config=None,
        # A phone that syncs every minute keeps its line.
        timeout_keep_alive=75,
        # Streams of news never end by themselves; pushes under way get this long, in seconds.
        timeout_graceful_shutdown=5,
    )
    bound = _bind(settings.host, settings.port)
    address = f"{settings.scheme}://{_reached_at(settings)}:{bound.getsockname()[1]}"
    click.echo(f"Pinchbolt is at {address}")
    config.load()
    with ExitStack() as running:
        if authority is not None and config.ssl is not None:
            running.enter_context(Door(authority, config.ssl, settings, address))
        click.echo(f"Pair the owner's device, once, within the hour: {link(address, code)}")
        sys.stdout.flush()
        uvicorn.Server(config).run(sockets=[bound])


def _authority(settings: Settings) -> Authority:
    """The workshop's authority, with a certificate for what this machine is called and reached at now."""
    authority = Authority(settings.data / FOLDER, host_name(), settings.workshop)
    for name in settings.names:
        if not authority.speaks_for(name):
            click.echo(f"{name} is left out: the authority speaks for private names only, such as bench.local", err=True)
    authority.renew([*own_names(), *settings.names], own_addresses())
    return authority


def _reached_at(settings: Settings) -> str:
    """The address that others reach this server at, as it stands in a URL."""
    host = settings.host
    if host in ("0.0.0.0", "::"):
        own = own_addresses()
        host = str(own[0]) if own else "localhost"
    return f"[{host}]" if ":" in host else host


class Door:
    """What stands beside an HTTPS server on a workshop's network: the page that gives the certificate, and the renewal."""

    def __init__(self, authority: Authority, context: ssl.SSLContext, settings: Settings, address: str) -> None:
        self._renewal = Renewal(authority, context, lambda: [*own_names(), *settings.names])
        self._bound = _bind(settings.host, settings.trust_port)
        page = f"http://{_reached_at(settings)}:{self._bound.getsockname()[1]}/"
        config = uvicorn.Config(
            create_page(authority, settings.workshop, address),
            access_log=False,
            server_header=False,
            log_config=None,
            limit_concurrency=50,
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, kwargs={"sockets": [self._bound]}, name="trust", daemon=True)
        click.echo(f"On each phone, first, once: {page}\nand compare the fingerprint (SHA-256) there with this one:")
        click.echo(f"  {authority.fingerprint}")
        if sys.stdout.isatty():
            segno.make(page, error="m").terminal(compact=True)

    def __enter__(self) -> "Door":
        self._renewal.start()
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._server.should_exit = True
        self._thread.join(timeout=5)
        self._renewal.stop()


def _bind(host: str, port: int) -> socket.socket:
    """The listening socket; bound here so that the address printed is the real one (port 0 takes any)."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    # Named as TCP, or asyncio does not send small answers at once (it looks at the protocol's number) and each waits 40 ms.
    bound = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((host, port))
    except OSError as error:
        bound.close()
        raise click.UsageError(f"cannot listen on {host} port {port}: {error.strerror}") from None
    bound.set_inheritable(True)
    return bound
